package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The names of the files that are remembered, and how many they are.
const (
	prefRecent = "files.recent"
	prefLast   = "files.last"
	mostRecent = 8
)

// recent are the files that were open last, the latest first.
func (w *window) recent() []string { return w.Preferences().StringList(prefRecent) }

// remember puts path on top of the recent files.
func (w *window) remember(path string) {
	whole, err := filepath.Abs(path)
	if err != nil {
		return
	}
	list := slices.DeleteFunc(slices.Clone(w.recent()), func(p string) bool { return p == whole })
	list = slices.Insert(list, 0, whole)
	prefs := w.Preferences()
	prefs.SetStringList(prefRecent, list[:min(mostRecent, len(list))])
	prefs.SetString(prefLast, whole)
}

// lastOpen is the file that was open last, where it is still there.
func (w *window) lastOpen() string {
	path := w.Preferences().String(prefLast)
	if path == "" || !there(path) {
		return ""
	}
	return path
}

// forgetRecent empties the list.
func (w *window) forgetRecent() {
	w.Preferences().SetStringList(prefRecent, nil)
	w.menu.update()
}

func there(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// fileLabel is a file as a menu shows it: its name, and its folder, cut.
func fileLabel(path string) string {
	dir := filepath.Dir(path)
	if home, err := os.UserHomeDir(); err == nil && home != "" && (dir == home || strings.HasPrefix(dir, home+string(filepath.Separator))) {
		dir = "~" + strings.TrimPrefix(dir, home)
	}
	const most = 40
	if r := []rune(dir); len(r) > most {
		dir = "…" + string(r[len(r)-most:])
	}
	return filepath.Base(path) + " · " + dir
}
