//go:build linux || darwin || freebsd

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"wakeline/storage"
)

// TestASignalLeavesNothingBehind ends the program while it salvages a large
// file. What a kill leaves, the next start removes.
func TestASignalLeavesNothingBehind(t *testing.T) {
	path := damagedFile(t)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(whole, make([]byte, 200<<20)...), 0o644); err != nil { // which takes a while to copy
		t.Fatal(err)
	}
	home, self := t.TempDir(), os.Args[0]
	start := func(args ...string) *exec.Cmd {
		program := exec.Command(self, args...)
		program.Env = append(os.Environ(), asProgram+"=1", "HOME="+home, "XDG_STATE_HOME=")
		if err := program.Start(); err != nil {
			t.Fatal(err)
		}
		return program
	}
	there := func(dir string) []os.DirEntry {
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		return entries
	}
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGKILL} {
		dir := t.TempDir()
		program := start("check", path, "--salvage", filepath.Join(dir, "new"+storage.Ext))
		ended := make(chan error, 1)
		go func() { ended <- program.Wait() }()
		for len(there(dir)) == 0 {
			select {
			case err := <-ended:
				t.Fatalf("%v: it ended before: %v", s, err)
			case <-time.After(time.Millisecond):
			}
		}
		program.Process.Signal(s)
		<-ended
		if s == syscall.SIGKILL {
			if len(there(dir)) == 0 {
				t.Errorf("%v: nothing is left behind, want some", s)
			}
			start("--version").Wait()
		} else if code := program.ProcessState.ExitCode(); code != exitStopped {
			t.Errorf("%v: exit code %d, want %d", s, code, exitStopped)
		}
		if left := there(dir); len(left) > 0 {
			t.Errorf("%v: left behind: %v", s, left)
		}
	}
	if left, _ := os.ReadDir(filepath.Join(home, ".local", "state", "wakeline", "unfinished")); len(left) > 0 {
		t.Errorf("notes are left: %v", left)
	}
}
