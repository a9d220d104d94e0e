package ui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
)

// manySetups is how many setups a large file holds.
const manySetups = 100_000

// large makes a project file of that size.
func large(b *testing.B) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), "large"+storage.Ext)
	f, err := storage.Create(path, many(manySetups))
	if err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkLargeFile works in the window on a file of 100,000 setups: to open
// it as far as the first list, to choose a row far down, to search, to edit
// and to undo.
func BenchmarkLargeFile(b *testing.B) {
	path := large(b)
	a := test.NewTempApp(b)
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			w := newWindow(a, Start{Path: path, inline: true})
			w.win.Resize(laptop)
			if len(w.setups.Shown) != manySetups || w.sheet.Drawing() == nil {
				b.Fatal("the list is not there")
			}
			b.StopTimer()
			w.end()
			w.win.SetCloseIntercept(nil)
			w.win.Close()
			b.StartTimer()
		}
	})
	w := newWindow(a, Start{Path: path, inline: true})
	w.win.Resize(laptop)
	defer w.end()
	b.Run("choose", func(b *testing.B) {
		n := 0
		for b.Loop() {
			n = (n + 7919) % manySetups
			w.setups.List.Select(n)
		}
	})
	b.Run("search", func(b *testing.B) {
		words := []string{"no. 99", "no. 998", "no. 9987", "maer"}
		n := 0
		for b.Loop() {
			w.setups.Field.SetText(words[n%len(words)])
			n++
		}
		w.setups.Field.SetText("")
	})
	b.Run("edit", func(b *testing.B) {
		n := 0
		for b.Loop() {
			n = 1 - n
			key(w, [2]fyne.KeyName{fyne.KeyLeft, fyne.KeyRight}[n], 1)
		}
	})
	b.Run("undo", func(b *testing.B) {
		for b.Loop() {
			w.undo()
			w.redo()
		}
	})
}

// BenchmarkCompare compares 2,000 setups that all changed, on all cores.
func BenchmarkCompare(b *testing.B) {
	path := filepath.Join(b.TempDir(), "some"+storage.Ext)
	f, err := storage.Create(path, many(2000))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	for b.Loop() {
		got, err := model.CompareAll(b.Context(), f.EachSetup, f.Data(), patchedData(), func(int) {})
		if err != nil || len(got) == 0 {
			b.Fatal(len(got), err)
		}
	}
}

func patchedData() *timeline.Project {
	p := patched()
	p.Setups = nil
	return p
}
