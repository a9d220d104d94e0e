package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable = (*ScrolledSheet)(nil)
	_ fyne.Tappable  = (*ScrolledSheet)(nil)
	_ fyne.Layout    = (*sheetFit)(nil)
)

// ScrolledSheet shows a drawing that is as wide as there is room and as high
// as it must be: what is too high scrolls. Only what is in view is painted.
type ScrolledSheet struct {
	Keyed

	OnKey   func(ev *fyne.KeyEvent) bool // a key; what it doesn't take scrolls
	Drawing *sheet.Drawing               // what is shown; nil: nothing
	Scroll  *container.Scroll
	Box     *fyne.Container // what stands on a page

	draw func(w float64) *sheet.Drawing // nil: there is nothing to show
	wide float32                        // that it is drawn for
}

// NewScrolledSheet returns a view of what draw makes of a width in units.
func NewScrolledSheet(draw func(w float64) *sheet.Drawing) *ScrolledSheet {
	s := &ScrolledSheet{draw: draw}
	s.Extend(s, s.paint, func() fyne.Size { return fyne.NewSize(sheet.MinLessonW, s.High()) })
	s.Scroll = container.NewVScroll(s)
	s.Scroll.OnScrolled = func(fyne.Position) { s.Refresh() }
	s.Box = container.New(&sheetFit{s}, s.Scroll)
	return s
}

// sheetFit draws the sheet anew where the room for it is another.
type sheetFit struct{ s *ScrolledSheet }

// Layout implements fyne.Layout.
func (l *sheetFit) Layout(of []fyne.CanvasObject, size fyne.Size) {
	defer Survive("The layout")
	if size.Width != l.s.wide {
		l.s.wide = size.Width
		l.s.make()
	}
	of[0].Resize(size)
}

// MinSize implements fyne.Layout.
func (l *sheetFit) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(sheet.MinLessonW, 120) }

// Again draws what has changed; the scrolling stays.
func (s *ScrolledSheet) Again() {
	s.make()
	s.Scroll.Refresh()
	s.Refresh()
}

func (s *ScrolledSheet) make() {
	if s.Drawing = nil; s.wide > 0 {
		s.Drawing = s.draw(float64(s.wide))
	}
}

// Top scrolls to the beginning.
func (s *ScrolledSheet) Top() { s.scrollTo(0) }

func (s *ScrolledSheet) scrollTo(y float32) {
	s.Scroll.ScrollToOffset(fyne.NewPos(0, y))
	s.Refresh()
}

// High is how high the drawing is.
func (s *ScrolledSheet) High() float32 {
	if s.Drawing == nil {
		return 0
	}
	return float32(s.Drawing.H)
}

func (s *ScrolledSheet) paint(p *Pen, _ fyne.Size) {
	if s.Drawing == nil {
		return
	}
	from := float64(s.Scroll.Offset.Y)
	to := from + float64(s.Scroll.Size().Height)
	var seen []sheet.Shape
	for _, shape := range s.Drawing.Shapes {
		if y0, y1 := heights(shape); y1 >= from && y0 <= to {
			seen = append(seen, shape)
		}
	}
	p.Draw(seen)
	if s.Focused {
		p.Rect(0, p.Px(from), p.Px(float64(s.wide)), p.Px(to), nil, Colours().Ink[sheet.Soft], p.Thick(1))
	}
}

// heights are the ends of what a shape may cover.
func heights(s sheet.Shape) (y0, y1 float64) {
	switch s := s.(type) {
	case sheet.Box:
		return s.Min.Y - s.Width, s.Max.Y + s.Width
	case sheet.Line:
		return min(s.From.Y, s.To.Y) - s.Width, max(s.From.Y, s.To.Y) + s.Width
	case sheet.Path:
		if len(s.Points) == 0 {
			return 0, 0
		}
		y0, y1 = s.Points[0].Y, s.Points[0].Y
		for _, q := range s.Points[1:] {
			y0, y1 = min(y0, q.Y), max(y1, q.Y)
		}
		return y0 - 2*s.Width, y1 + 2*s.Width
	case sheet.Text:
		return s.At.Y - 1.5*s.Size, s.At.Y + s.Size
	}
	return 0, 0
}

// Tapped takes the keys.
func (s *ScrolledSheet) Tapped(*fyne.PointEvent) {
	FocusOn(s)
}

// lineStep is how far an arrow scrolls, in units.
const lineStep = 48

// TypedKey scrolls with what the page has no use for.
func (s *ScrolledSheet) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The sheet")
	if s.OnKey != nil && s.OnKey(ev) {
		return
	}
	at, screen := s.Scroll.Offset.Y, s.Scroll.Size().Height
	switch ev.Name {
	case fyne.KeyDown:
		at += lineStep
	case fyne.KeyUp:
		at -= lineStep
	case fyne.KeyPageDown, fyne.KeySpace:
		at += screen - lineStep
	case fyne.KeyPageUp:
		at -= screen - lineStep
	case fyne.KeyHome:
		at = 0
	case fyne.KeyEnd:
		at = s.High()
	default:
		return
	}
	s.scrollTo(max(0, min(at, s.High()-screen)))
}
