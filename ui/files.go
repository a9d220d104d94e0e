package ui

import (
	"errors"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"wakeline/storage"
	"wakeline/ui/sheet"
)

// save writes the project text to where it came from, or asks where to. A
// project file is saved already.
func (w *window) save() {
	switch {
	case w.model.ReadOnly() != "":
		w.refused(w.model.ReadOnly())
	case !w.isText():
		w.status.Hint("Every edit is in " + filepath.Base(w.model.Path()) + " already")
	case w.model.Path() == "":
		w.askSave()
	default:
		w.saveTo(w.model.Path())
	}
}

// isText reports whether a project in memory is on screen.
func (w *window) isText() bool {
	_, ok := w.model.Document().(*TextDocument)
	return ok
}

// saveTo writes the project text to path, whole or not at all. It reports
// whether it stands there.
func (w *window) saveTo(path string) bool {
	w.model.Commit()
	p, err := w.model.Document().Whole()
	if err == nil {
		err = storage.WriteText(path, p)
	}
	if err != nil {
		w.fail("The project could not be saved", err)
		return false
	}
	w.lastDir = filepath.Dir(path)
	w.remember(path)
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

// quit closes the window; where there are unsaved edits it asks first.
func (w *window) quit() {
	w.unlessEdited("Quit?", func() {
		w.rememberWindow()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}
