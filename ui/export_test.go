package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/ui/page/export"
	"wakeline/ui/paint"
)

// pathOn is where the export page on screen writes to: its last field.
func pathOn(w *window) (path *paint.PageEntry) {
	seenOn(w.page.Content(), func(o fyne.CanvasObject) {
		if e, ok := o.(*paint.PageEntry); ok {
			path = e
		}
	})
	return path
}

// exportTo exports what is chosen to path.
func exportTo(t *testing.T, w *window, path string) {
	t.Helper()
	pathOn(w).SetText(path)
	pressOn(t, w, "Export")
}

// alreadyThere is a file that an export of a strip would replace.
func alreadyThere(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "mine.png")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// The export is of the setups that the list shows, and of the sheet as it is.
func TestTheExportIsOfTheWindow(t *testing.T) {
	w := open(t, sample(), laptop)
	test.Type(w.setups.Field, "both")
	w.showExportOf(export.Folder)
	dir := filepath.Join(t.TempDir(), "out")
	exportTo(t, w, dir)
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 2 { // a setup, and the contact sheet
		t.Fatalf("%d files, %v", len(entries), err)
	}
	w.showExportOf(export.Booklet)
	p := w.page.(*export.Page)
	if p.Picture() == nil {
		t.Fatal("no page of the booklet is shown")
	}
	if got := w.listTitle(); !strings.Contains(got, "“both”") {
		t.Errorf("its title is %q", got)
	}
	w.showExportOf(export.Screen)
	path := filepath.Join(t.TempDir(), "screen.png")
	exportTo(t, w, path)
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
}
