package ui

import (
	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// markSide is the side of a judgement's mark beside a text, in units.
const markSide = 13

// mark draws j's mark in a square with its corner at (x, y).
func (p *pen) mark(j timeline.Judgement, x, y float64) {
	in := sheet.MarkOf(j)
	p.corners = p.corners[:0]
	for _, q := range in {
		p.corners = append(p.corners, sheet.Point{X: x + q.X*markSide, Y: y + q.Y*markSide})
	}
	p.path(&sheet.Path{Points: p.corners, Stroke: sheet.RoleOf(j), Width: 2.2})
}
