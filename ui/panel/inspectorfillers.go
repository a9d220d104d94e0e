package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*FillerList)(nil)
	_ fyne.Tappable      = (*FillerList)(nil)
	_ desktop.Cursorable = (*FillerList)(nil)
)

// FillerList lists a setup's fillers with their lengths. Up and Down choose
// one, with Shift they move it, Delete takes it out; so do the signs behind
// its name.
type FillerList struct {
	paint.Painted
	n       *Inspector
	row     *InspectorRow
	wrapper paint.Wrapper
	lines   int // that it has room for
	at      int // the one chosen
	focused bool
}

const (
	FillerLine = 22
	FillerSign = 17 // the room of a sign behind the name; there are three
)

func newFillerList(n *Inspector, r *InspectorRow) *FillerList {
	l := &FillerList{n: n, row: r, wrapper: paint.Wrapper{Size: paint.TextSize}}
	l.Extend(l, l.paint, func() fyne.Size { return fyne.NewSize(100, float32(max(l.lines, 1))*FillerLine+4) })
	return l
}

func (l *FillerList) Object() fyne.CanvasObject { return l }

func (l *FillerList) update(bool) (moved bool) {
	lines := max(1, len(l.names()))
	moved = lines != l.lines
	l.lines = lines
	l.at = min(max(l.at, 0), lines-1)
	l.Refresh()
	return moved
}

func (l *FillerList) names() []string { return l.n.model.Setup().Fillers }

func (l *FillerList) paint(p *paint.Pen, size fyne.Size) {
	names := l.names()
	if len(names) == 0 {
		t := paint.ColumnText("none", 4, 15, sheet.Soft)
		p.Text(&t)
	}
	rules, f := l.n.model.Data().Ruleset, l.n.attacker()
	for i, name := range names {
		y := float32(i * FillerLine)
		if l.focused && i == l.at {
			p.Rect(0, p.Px(float64(y)), p.Px(float64(size.Width)), p.Px(float64(y+FillerLine-1)), paint.Colours().Blend(sheet.Ink, 0.09), paint.Colours().Ink[sheet.Ink], p.Thick(1))
		}
		length := ""
		if f != nil {
			if j := f.Jump(name); j != nil {
				length = timeline.Some(j.Total()).String()
			} else if m := f.Move(name); m != nil {
				length = timeline.Some(m.Total(rules)).String()
			}
		}
		right := size.Width - 3*FillerSign
		t := paint.ColumnText(l.wrapper.Fit(name, right-8-l.wrapper.WidthOf(length)-6), 4, y+15, sheet.Ink)
		p.Text(&t)
		t = paint.ColumnText(length, right-4, y+15, sheet.Soft)
		t.Anchor = sheet.AtEnd
		p.Text(&t)
		sign := func(k int, points ...sheet.Point) {
			x, mid := float64(right)+(float64(k)+0.5)*FillerSign, float64(y)+FillerLine/2
			for j := range points {
				points[j].X, points[j].Y = x+points[j].X, mid+points[j].Y
			}
			p.Path(&sheet.Path{Points: points, Stroke: sheet.Soft, Width: 1.5})
		}
		if i > 0 {
			sign(0, sheet.Point{X: -4, Y: 2}, sheet.Point{Y: -2}, sheet.Point{X: 4, Y: 2})
		}
		if i < len(names)-1 {
			sign(1, sheet.Point{X: -4, Y: -2}, sheet.Point{Y: 2}, sheet.Point{X: 4, Y: -2})
		}
		sign(2, sheet.Point{X: -3, Y: -3}, sheet.Point{X: 3, Y: 3})
		sign(2, sheet.Point{X: -3, Y: 3}, sheet.Point{X: 3, Y: -3})
	}
}

// Tapped chooses a filler, moves it, or takes it out.
func (l *FillerList) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The fillers")
	paint.FocusOn(l)
	i := int(ev.Position.Y / FillerLine)
	if i < 0 || i >= len(l.names()) {
		return
	}
	l.at = i
	switch behind := ev.Position.X - (l.Size().Width - 3*FillerSign); {
	case behind < 0:
		l.Refresh()
	case behind < FillerSign:
		l.move(-1)
	case behind < 2*FillerSign:
		l.move(1)
	default:
		l.out()
	}
}

// move moves the chosen filler by so many places.
func (l *FillerList) move(by int) {
	if to := l.at + by; l.at < len(l.names()) && to >= 0 && to < len(l.names()) {
		from := l.at
		l.at = to
		name := l.names()[from]
		l.put(slices.Insert(l.without(from), to, name))
	}
}

// out takes the chosen filler out.
func (l *FillerList) out() {
	if l.at < len(l.names()) {
		l.put(l.without(l.at))
	}
}

// without are the fillers but for one.
func (l *FillerList) without(i int) []string { return slices.Delete(slices.Clone(l.names()), i, i+1) }

func (l *FillerList) put(names []string) {
	s := l.n.model.Setup()
	s.Fillers = names
	l.row.refuse(l.n.model.Change(s))
}

// TypedKey chooses, moves or takes out.
func (l *FillerList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The fillers")
	by := map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1}[ev.Name]
	switch {
	case by != 0 && l.n.Keys()&fyne.KeyModifierShift != 0:
		l.move(by)
	case by != 0:
		l.at = min(max(l.at+by, 0), max(len(l.names())-1, 0))
		l.Refresh()
	case ev.Name == fyne.KeyDelete, ev.Name == fyne.KeyBackspace:
		l.out()
	case ev.Name == fyne.KeyEscape:
		l.n.OnLeave()
	}
}

// TypedRune implements fyne.Focusable.
func (l *FillerList) TypedRune(rune) {}

// FocusGained brings the list into view.
func (l *FillerList) FocusGained() {
	defer paint.Survive("The fillers")
	l.focused = true
	l.Refresh()
	l.n.reveal(l)
}

// FocusLost implements fyne.Focusable.
func (l *FillerList) FocusLost() {
	l.focused = false
	l.Refresh()
}

// Cursor implements desktop.Cursorable.
func (l *FillerList) Cursor() desktop.Cursor { return desktop.PointerCursor }
