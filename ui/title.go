package ui

import (
	"path/filepath"
)

// title is the document's name, and whether what was edited is on disk.
func (w *window) title() string {
	name := "new project"
	if p := w.model.Path(); p != "" {
		name = filepath.Base(p)
	}
	d, onDisk := w.model.Document().OnDisk()
	switch why := d.ReadOnly(); {
	case why != "":
		name += " · read-only: " + why
	case onDisk:
		name += " · saved"
	default:
		if d.Sample {
			name = "sample"
		}
		if d.Edited() {
			name += " · edited"
		}
	}
	return name + " — Wakeline"
}
