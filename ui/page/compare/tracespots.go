//go:build trace

package compare

import (
	"fyne.io/fyne/v2"

	"wakeline/timeline/patch"
)

// Spots are the rows in view, by what they are headed or named.
func (r *row) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	c := r.l.page
	if r.At < 0 || r.At >= len(c.rows) {
		return
	}
	at, d := c.rows[r.At], &c.patch.Day
	name := ""
	switch {
	case at.head:
		name = string(at.section)
	case at.section == patch.RoutesBroke, at.section == patch.RoutesMended, at.section == patch.RoutesChanged:
		name = d.Routes[at.at].Title()
	case at.section == patch.MoveData:
		name = d.Parts[at.at].Title()
	case at.section == patch.Mixes:
		name = d.Mixes[at.at].Title()
	default:
		name = d.Setups[at.at].Setup
	}
	add(name, fyne.Position{}, r.Size())
}
