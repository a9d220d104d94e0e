package ui

import (
	"path/filepath"
	"wakeline/ui/model"
)

// title is the document's name, and whether what was edited is on disk.
func (w *window) title() string {
	name := "new project"
	if p := w.model.Path(); p != "" {
		name = filepath.Base(p)
	}
	switch d := w.model.Document().(type) {
	case *model.FileDocument:
		if why := d.ReadOnly(); why != "" {
			name += " · read-only: " + why
		} else {
			name += " · saved"
		}
	case *model.TextDocument:
		if d.Sample {
			name = "sample"
		}
		if d.Edited() {
			name += " · edited"
		}
	}
	return name + " — Wakeline"
}
