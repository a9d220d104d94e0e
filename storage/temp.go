package storage

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/gofrs/flock"
)

// What this package writes is made beside its place and put there whole. What
// is in the making is noted in a list of this process, beside which a lock lies
// that the system frees when the process ends, however it ends: so the next
// start knows what was left behind.

// tempPrefix begins the name of everything in the making.
const tempPrefix = ".wakeline-"

// temps are the files and folders that this process has in the making.
var temps struct {
	sync.Mutex
	paths map[string]bool
	list  string       // the file that lists them; empty: there is none
	lock  *flock.Flock // beside the list
}

// tempFile makes an empty file in folder dir; dropTemp ends it.
func tempFile(dir string) (string, error) {
	return newTemp(dir, func(path string) error {
		f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
		if err != nil {
			return err
		}
		return f.Close()
	})
}

// tempFolder makes a folder in folder dir; dropTemp ends it.
func tempFolder(dir string) (string, error) {
	return newTemp(dir, func(path string) error { return os.Mkdir(path, 0o700) })
}

// TempFolder makes a folder for files of a moment, of which the next start
// removes what end could not.
func TempFolder() (path string, end func(), err error) {
	if path, err = tempFolder(os.TempDir()); err != nil {
		return "", nil, withoutPath(err)
	}
	return path, func() { dropTemp(path) }, nil
}

func newTemp(dir string, create func(path string) error) (string, error) {
	for {
		path := filepath.Join(dir, tempPrefix+randomName())
		noteTemp(path)
		err := create(path)
		if err == nil {
			return path, nil
		}
		forgetTemp(path)
		if !errors.Is(err, fs.ErrExist) {
			return "", err
		}
	}
}

func randomName() string {
	var b [8]byte
	rand.Read(b[:]) // it never fails
	return hex.EncodeToString(b[:])
}

// dropTemp removes what was in the making at path, unless it was put in its
// place already.
func dropTemp(path string) {
	removeAll(path)
	os.Remove(path + "-journal")
	forgetTemp(path)
}

// noteTemp notes what is about to be made. Where it can't be noted it is made
// all the same.
func noteTemp(path string) {
	temps.Lock()
	defer temps.Unlock()
	if temps.paths == nil {
		temps.paths = map[string]bool{}
	}
	temps.paths[path] = true
	whole, err := filepath.Abs(path)
	if err != nil || !haveList() {
		return
	}
	if f, err := os.OpenFile(temps.list, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600); err == nil {
		fmt.Fprintln(f, whole)
		f.Close()
	}
}

// haveList locks the place of this process's list.
func haveList() bool {
	if temps.list != "" {
		return true
	}
	folder := inState("unfinished")
	if folder == "" || os.MkdirAll(folder, 0o700) != nil {
		return false
	}
	list := filepath.Join(folder, randomName())
	lock, err := lockFile(list + lockExt)
	if err == nil {
		temps.list, temps.lock = list, lock
	}
	return err == nil
}

// lockExt ends the name of the lock beside a list.
const lockExt = ".lock"

func forgetTemp(path string) {
	temps.Lock()
	defer temps.Unlock()
	delete(temps.paths, path)
	if len(temps.paths) == 0 && temps.list != "" {
		os.Truncate(temps.list, 0)
	}
}

// endTemps removes everything that is still in the making, and the list.
func endTemps() {
	temps.Lock()
	defer temps.Unlock()
	for path := range temps.paths {
		removeAll(path)
		os.Remove(path + "-journal")
	}
	temps.paths = nil
	if temps.list != "" {
		os.Remove(temps.list)
		unlock(temps.lock)
		temps.list, temps.lock = "", nil
	}
}

// removeLeftovers removes what processes that are no more had in the making.
func removeLeftovers() {
	folder := inState("unfinished")
	entries, err := os.ReadDir(folder)
	if err != nil {
		return // there was never anything in the making
	}
	for _, e := range entries {
		list := filepath.Join(folder, strings.TrimSuffix(e.Name(), lockExt))
		lock, err := lockFile(list + lockExt)
		if err != nil {
			continue // its process lives
		}
		text, _ := os.ReadFile(list)
		for left := range strings.Lines(string(text)) {
			left = strings.TrimSuffix(left, "\n")
			if filepath.IsAbs(left) && strings.HasPrefix(filepath.Base(left), tempPrefix) {
				removeAll(left)
				os.Remove(left + "-journal")
			}
		}
		os.Remove(list)
		unlock(lock)
	}
}

// removeAll removes a file, or a folder with all that is in it, as far as it
// can.
func removeAll(path string) {
	if os.RemoveAll(path) == nil {
		return
	}
	// It may have asked for what wine and old Windows lack: one by one then.
	var inside []string
	filepath.WalkDir(path, func(path string, _ fs.DirEntry, err error) error {
		if err == nil {
			inside = append(inside, path)
		}
		return nil
	})
	for _, path := range slices.Backward(inside) {
		os.Remove(path)
	}
}
