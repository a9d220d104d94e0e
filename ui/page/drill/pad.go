package drill

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline/odds"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable  = (*pad)(nil)
	_ desktop.Keyable = (*pad)(nil)
	_ fyne.Tappable   = (*pad)(nil)
)

// pad lies over a drill's sheet: the line that moves, the marks to aim
// at, the count, and the keys that are pressed.
type pad struct {
	paint.Keyed

	OnPress func()                  // Space went down
	OnKey   func(ev *fyne.KeyEvent) // another key

	sheet *paint.AnswerSheet
	clock *clock
}

func newPad(s *paint.AnswerSheet, c *clock) *pad {
	d := &pad{sheet: s, clock: c}
	d.Extend(d, d.paint, func() fyne.Size { return d.sheet.MinSize() })
	return d
}

func (d *pad) paint(p *paint.Pen, size fyne.Size) {
	s := d.sheet.Drawing
	if s == nil {
		return
	}
	inView := func(x float64) bool { return x >= s.Left && x <= s.Right }
	aim := func(t odds.Target) {
		if x := s.X(t.Aim); inView(x) {
			p.Line(&sheet.Line{From: sheet.Point{X: x, Y: s.Ruler.To}, To: sheet.Point{X: x, Y: s.Bars.To}, Stroke: sheet.Ink, Width: 1, Dashed: true})
			h := 0.7 * s.Em
			p.Path(&sheet.Path{Points: []sheet.Point{{X: x - h, Y: s.Ruler.To - h}, {X: x + h, Y: s.Ruler.To - h}, {X: x, Y: s.Ruler.To + 0.4*h}}, Closed: true, Fill: sheet.Ink})
		}
	}
	if d.clock.state == runs {
		if t, _, _, ok := d.clock.target(); ok {
			aim(t)
		}
	} else {
		aim(d.clock.drill.Jump)
	}
	if m, ok := d.clock.moment(); ok {
		if n := odds.Beat(m); n > 0 {
			d.count(p, s, strconv.Itoa(n))
		}
		if x := s.X(m); inView(x) {
			p.Line(&sheet.Line{From: sheet.Point{X: x, Y: s.Ruler.From}, To: sheet.Point{X: x, Y: s.Bottom.To}, Stroke: sheet.Ink, Width: 2.5})
		}
	}
	if d.Focused {
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), nil, paint.Colours().Ink[sheet.Soft], p.Thick(1))
	}
}

// count writes the number that is counted, under the ruler's end: no words
// stand there.
func (d *pad) count(p *paint.Pen, s *sheet.Drawing, n string) {
	size := 3 * s.Em
	right, end := s.Right, s.Ruler.To+0.6*s.Em+1.1*size
	p.Box(&sheet.Box{Min: sheet.Point{X: right - 1.2*size, Y: end - 1.1*size}, Max: sheet.Point{X: right, Y: end}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1.5})
	p.Text(&sheet.Text{At: sheet.Point{X: right - 0.6*size, Y: end - 0.2*size}, Str: n, Size: size, Bold: true, Role: sheet.Ink, Anchor: sheet.AtMiddle})
}

// KeyDown takes the press at once.
func (d *pad) KeyDown(ev *fyne.KeyEvent) {
	defer paint.Survive("The drill")
	if ev.Name == fyne.KeySpace {
		d.OnPress()
	}
}

// KeyUp implements desktop.Keyable.
func (d *pad) KeyUp(*fyne.KeyEvent) {}

// TypedKey implements fyne.Focusable.
func (d *pad) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The drill")
	if ev.Name != fyne.KeySpace { // it was taken when it went down
		d.OnKey(ev)
	}
}

// Tapped takes the keys.
func (d *pad) Tapped(*fyne.PointEvent) {
	paint.FocusOn(d)
}
