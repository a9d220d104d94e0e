package storage

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// StateFolder is where the system wants a program to keep what it notes for
// its user from one run to the next: XDG_STATE_HOME or ~/.local/state, on
// macOS ~/Library/Application Support, on Windows the local AppData.
func StateFolder() (string, error) {
	const name, capital = "wakeline", "Wakeline"
	home, err := os.UserHomeDir()
	switch runtime.GOOS {
	case "windows":
		local := os.Getenv("LocalAppData")
		if local == "" {
			return "", errors.New("%LocalAppData% is not set")
		}
		return filepath.Join(local, capital), nil
	case "darwin":
		return filepath.Join(home, "Library", "Application Support", capital), err
	}
	if state := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(state) {
		return filepath.Join(state, name), nil
	}
	return filepath.Join(home, ".local", "state", name), err
}

// stateFolder is the folder of Begin; empty: nothing is noted.
var stateFolder struct {
	sync.Mutex
	path string
}

// inState is the place of something in the folder of Begin; empty where there
// is none.
func inState(names ...string) string {
	stateFolder.Lock()
	defer stateFolder.Unlock()
	if stateFolder.path == "" {
		return ""
	}
	return filepath.Join(append([]string{stateFolder.path}, names...)...)
}

// Begin has this process keep copies of the project files that it opens and
// edits, and note what it has in the making, both in that folder; and removes
// what processes that are no more left in the making. Without it nothing is
// kept nor noted.
func Begin(folder string) {
	stateFolder.Lock()
	stateFolder.path = folder
	stateFolder.Unlock()
	removeLeftovers()
}
