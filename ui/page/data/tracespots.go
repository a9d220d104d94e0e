//go:build trace

package data

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
)

// Spots are the setups that the strip names, and what becomes of them.
func (f *foot) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	for _, r := range f.places {
		if !f.effect.weighed && r.i < len(f.more.setups) {
			add(f.more.setups[r.i], fyne.NewPos(r.x0, r.y0), fyne.NewSize(r.x1-r.x0, r.y1-r.y0))
		}
		if f.effect.weighed && r.i < len(f.effect.changes) {
			c := &f.effect.changes[r.i].Change
			add(c.Setup+": "+model.ChangeWords(c), fyne.NewPos(r.x0, r.y0), fyne.NewSize(r.x1-r.x0, r.y1-r.y0))
		}
	}
}
