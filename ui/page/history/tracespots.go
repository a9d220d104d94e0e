//go:build trace

package history

import "fyne.io/fyne/v2"

// Spots are the lines in view: what each did.
func (r *row) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	if h := r.l.h; r.At >= 0 && r.At < len(h.steps) {
		add(h.steps[r.At].What, fyne.Position{}, r.Size())
	}
}
