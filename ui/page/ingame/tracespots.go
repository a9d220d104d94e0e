//go:build trace

package ingame

import "fyne.io/fyne/v2"

// Spots are the setups in view.
func (r *row) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	if r.At >= 0 && r.At < len(r.l.page.rows) {
		add(r.l.page.rows[r.At].name, fyne.Position{}, r.Size())
	}
}
