package paint

import (
	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// MarkSide is the side of a judgement's mark beside a text, in units.
const MarkSide = 13

// Mark draws j's mark in a square with its corner at (x, y).
func (p *Pen) Mark(j timeline.Judgement, x, y float64) {
	in := sheet.MarkOf(j)
	p.corners = p.corners[:0]
	for _, q := range in {
		p.corners = append(p.corners, sheet.Point{X: x + q.X*MarkSide, Y: y + q.Y*MarkSide})
	}
	p.Path(&sheet.Path{Points: p.corners, Stroke: sheet.RoleOf(j), Width: 2.2})
}
