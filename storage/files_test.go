//go:build linux

package storage

import (
	"context"
	"io"
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// strange makes, at path, what is no regular file.
var strange = map[string]func(path string) error{
	"a named pipe": func(path string) error { return syscall.Mkfifo(path, 0o644) },
	"a folder":     func(path string) error { return os.Mkdir(path, 0o755) },
	"a socket": func(path string) error {
		l, err := net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"})
		if err == nil {
			l.SetUnlinkOnClose(false)
			l.Close()
		}
		return err
	},
	"a device": func(path string) error { return os.Symlink("/dev/null", path) },
}

// TestWhatIsNoFileIsAnErrorAtOnce puts a pipe, a folder, a socket and a device
// where a file is read, written or locked.
func TestWhatIsNoFileIsAnErrorAtOnce(t *testing.T) {
	whole := made(t, sample(t))
	whole.Close()
	for kind, create := range strange {
		for name, use := range map[string]func(path string) error{
			"a project":                   func(path string) error { _, err := Open(path); return err },
			"a project that is looked at": func(path string) error { _, err := OpenToRead(path); return err },
			"a project that is checked":   func(path string) error { _, err := Check(context.Background(), path); return err },
			"a project that is salvaged": func(path string) error {
				_, err := Salvage(context.Background(), path, path+"-saved"+Ext)
				return err
			},
			"a project text":    func(path string) error { _, err := ReadText(path); return err },
			"a text to write":   func(path string) error { return WriteText(path, sample(t)) },
			"a file to replace": func(path string) error { return Replace(path, func(io.Writer) error { return nil }) },
			"a copy": func(path string) error {
				f, err := Open(whole.Path())
				if err != nil {
					return err
				}
				defer f.Close()
				return f.Copy(context.Background(), path, nil)
			},
		} {
			path := filepath.Join(tempDir(t), "x"+Ext)
			if err := create(path); err != nil {
				t.Fatal(err)
			}
			before, err := os.Lstat(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := use(path); err == nil || !contains(err.Error(), "expected a file, got "+kind) {
				t.Errorf("%s where %s stands: %v", name, kind, err)
			}
			if after, err := os.Lstat(path); err != nil || !os.SameFile(before, after) {
				t.Errorf("%s where %s stands: it is gone", name, kind)
			}
			if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
				t.Errorf("%s where %s stands: left behind: %v", name, kind, left)
			}
		}
		f := made(t, sample(t))
		f.Close()
		if err := create(lockPath(f.Path())); err != nil {
			t.Fatal(err)
		}
		got, err := Open(f.Path())
		if err != nil {
			t.Fatal(err)
		}
		if why := got.ReadOnly(); !contains(why, "no lock can be placed") || !contains(why, filepath.Base(lockPath(f.Path()))) {
			t.Errorf("%s for a lock: read-only: %q", kind, why)
		}
		got.Close()
	}
}
