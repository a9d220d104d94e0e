package panel

import (
	"math"

	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// shelfSlip lies over the whole window and lets everything through. While a
// block is carried from the shelf, but not over the sheet yet, a slip with its
// name follows the pointer.
type shelfSlip struct {
	paint.Painted
	s *Shelf
}

func newShelfSlip(s *Shelf) *shelfSlip {
	l := &shelfSlip{s: s}
	l.Extend(l, l.paint, func() fyne.Size { return fyne.Size{} })
	return l
}

func (l *shelfSlip) paint(p *paint.Pen, size fyne.Size) {
	d := l.s.drag
	if d == nil || d.over || l.s.sheet.Ghost != nil {
		return
	}
	const padX, high, away = 6, 22, 14
	name := l.s.wrapper.Fit(d.block.Title(), 240)
	at := d.at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(l))
	w := l.s.wrapper.WidthOf(name) + 2*padX
	x := float32(math.Round(float64(max(2, min(at.X+away, size.Width-2-w)))))
	y := float32(math.Round(float64(max(2, min(at.Y+away, size.Height-2-high)))))
	p.Box(&sheet.Box{Min: sheet.Point{X: float64(x), Y: float64(y)}, Max: sheet.Point{X: float64(x + w), Y: float64(y + high)}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	text := paint.ColumnText(name, x+padX, y+16, sheet.Ink)
	p.Text(&text)
}
