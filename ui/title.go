package ui

import (
	"path/filepath"

	"wakeline/storage"
)

// title is the document's name, and whether what was edited is on disk.
func (w *window) title() string {
	name := "new project"
	if p := w.model.Path(); p != "" {
		name = filepath.Base(p)
	}
	switch d := w.model.Document().(type) {
	case *FileDocument:
		if why := d.ReadOnly(); why != "" {
			name += " · read-only: " + why
		} else {
			name += " · saved"
		}
	case *TextDocument:
		if d.sample {
			name = "sample"
		}
		if d.Edited() {
			name += " · edited"
		}
	}
	return name + " — Wakeline"
}

// emptyWords say what to do with a document without setups.
func (w *window) emptyWords() (heading, text string) {
	if d, ok := w.model.Document().(*FileDocument); ok {
		if len(d.Data().Fighters) > 0 {
			return "There are no setups here yet", "The fighters and their moves are here. Setups come with a project text: File, Import…"
		}
		return "This project is empty", "Take a project text (.json) or move tables (.csv) in with File, Import… (Ctrl+I)."
	}
	return "There are no setups here yet", "Open a project file (" + storage.Ext + ") or a project text (.json) with File, Open… (Ctrl+O), or drop it on this window.\n\n" +
		"File, New project… makes an empty project file; File, Open the sample shows an invented game."
}
