package ui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"wakeline/ui/model"
	"wakeline/ui/page"
)

// copyTo writes the whole file, with its history, to path. The window stays
// with the file it has.
func (w *window) copyTo(d *model.Document, path string) {
	w.model.Commit()
	share := func(done, of int) string {
		return fmt.Sprintf("%d %% of %s", 100*done/max(of, 1), filepath.Base(d.Path()))
	}
	w.Task("Saving a copy", share, func(at page.Work) error {
		return d.File().Copy(at.Context, path, at.Tell)
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.Hint("No copy was made")
		case err != nil:
			w.Dialogs().Fail("The copy could not be saved", err)
		default:
			w.lastDir = filepath.Dir(path)
			w.status.Hint("Saved a copy, " + path)
		}
	})
}

// compact gives unused room in the file back.
func (w *window) compact() {
	d, ok := w.model.Document().OnDisk()
	if !ok {
		return
	}
	w.model.Commit()
	before := sizeOf(d.Path())
	w.Task("Compacting "+filepath.Base(d.Path()), nil, func(at page.Work) error { return d.File().Compact(at.Context) }, func(err error) {
		d.AskReadOnly()
		w.model.Tell(model.StateChanged)
		if errors.Is(err, context.Canceled) {
			w.status.Hint("The file was left as it was")
			return
		}
		if err != nil {
			w.Dialogs().Fail("The file could not be made smaller", err)
			return
		}
		w.status.Hint(fmt.Sprintf("%s takes %s now, it was %s", filepath.Base(d.Path()), bytesWords(sizeOf(d.Path())), bytesWords(before)))
	})
}

// export writes a file document's project text to path.
func (w *window) export(path string) {
	w.model.Commit()
	doc := w.model.Document()
	w.Task("Exporting JSON", nil, func(page.Work) error { return doc.File().ExportText(path) }, func(err error) {
		if err != nil {
			w.Dialogs().Fail("The JSON file could not be written", err)
			return
		}
		w.lastDir = filepath.Dir(path)
		w.status.Hint("Wrote " + path)
	})
}

func sizeOf(path string) int64 {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return info.Size()
}

// bytesWords writes a size in the unit that reads best.
func bytesWords(n int64) string {
	switch {
	case n >= 10<<20:
		return fmt.Sprintf("%d MB", n>>20)
	case n >= 1<<20:
		return fmt.Sprintf("%.1f MB", float64(n)/(1<<20))
	}
	return fmt.Sprintf("%d KB", (n+1023)>>10)
}
