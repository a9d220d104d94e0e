package ui

import (
	"errors"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/ui/sheet"
)

// openPath opens the project text at path. A wrong file is shown, and the
// window keeps the project it has.
func (w *window) openPath(path string) {
	p, err := storage.ReadText(path)
	if err != nil {
		w.fail("This file could not be opened", err)
		return
	}
	w.lastDir = filepath.Dir(path)
	w.model.Load(p, path)
}

// save writes the project text to where it came from, or asks where to.
func (w *window) save() {
	if w.model.Path() == "" {
		w.askSave()
		return
	}
	w.saveTo(w.model.Path())
}

// saveTo writes the project text to path, whole or not at all. It reports
// whether it stands there.
func (w *window) saveTo(path string) bool {
	w.model.Commit()
	if err := storage.WriteText(path, w.model.Data()); err != nil {
		w.fail("The project could not be saved", err)
		return false
	}
	w.lastDir = filepath.Dir(path)
	w.model.Saved(path)
	return true
}

// stripScale is how many pixels a unit has in a strip saved as PNG.
const stripScale = 2

// saveStrip writes the sheet as it is seen to path, as SVG or PNG by the
// path's extension.
func (w *window) saveStrip(path string) bool {
	err := errors.New("there is no sheet to save: choose a setup first")
	if d := w.sheet.Drawing(); d != nil {
		err = storage.Replace(path, func(out io.Writer) error {
			switch strings.ToLower(filepath.Ext(path)) {
			case ".svg":
				return sheet.RenderSVG(out, d, w.palette.theme)
			case ".png":
				return sheet.RenderPNG(out, d, w.palette.theme, stripScale)
			}
			return errors.New("expected a name that ends in .png or .svg")
		})
	}
	if err != nil {
		w.fail("The strip could not be saved", err)
		return false
	}
	w.lastDir = filepath.Dir(path)
	w.status.Hint("Saved " + path)
	return true
}

// stripName is a file name for the chosen setup's strip.
func (w *window) stripName() string {
	var b strings.Builder
	gap := false
	for _, r := range w.model.Setup().Name {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(unicode.ToLower(r))
		if b.Len() >= 60 {
			break
		}
	}
	if b.Len() == 0 {
		return "strip.png"
	}
	return b.String() + ".png"
}

// folder is where a new file is offered: beside the project, or where the
// last one went.
func (w *window) folder() string {
	dir := w.lastDir
	if dir == "" && w.model.Path() != "" {
		dir = filepath.Dir(w.model.Path())
	}
	if abs, err := filepath.Abs(dir); err == nil {
		return abs
	}
	return dir
}

// dropped opens a file that was dropped on the window.
func (w *window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) == 1 && files[0].Scheme() == "file" {
		w.unlessEdited("Open another project?", func() { w.openPath(files[0].Path()) })
	}
}

// quit closes the window; where there are unsaved edits it asks first.
func (w *window) quit() {
	w.unlessEdited("Quit?", func() {
		size := w.win.Canvas().Size()
		w.app.Preferences().SetFloat(prefWidth, float64(size.Width))
		w.app.Preferences().SetFloat(prefHeight, float64(size.Height))
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}
