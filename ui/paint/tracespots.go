//go:build trace

package paint

import "fyne.io/fyne/v2"

// Spots are the names of the tabs.
func (r *TabRow) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	for i, name := range r.Names {
		from, to := r.Span(i)
		add(name, fyne.NewPos(from, 0), fyne.NewSize(to-from, TabHeight))
	}
}
