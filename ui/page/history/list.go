package history

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// list is the list of the page. Its keys mark a line, and Enter goes
// there.
type list struct {
	paint.RowList
	h       *Page
	wrapper paint.Wrapper
	focused bool
}

func newList(h *Page) *list {
	l := &list{h: h, wrapper: paint.Wrapper{Size: paint.TextSize}}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.Fill("The history", h.len, func() fyne.CanvasObject { return newRow(l) }, paint.SetRow)
	return l
}

// TypedKey moves the mark, and goes to the marked step.
func (l *list) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The history")
	const page = 15
	switch h := l.h; ev.Name {
	case fyne.KeyUp:
		h.mark(h.at - 1)
	case fyne.KeyDown:
		h.mark(h.at + 1)
	case fyne.KeyPageUp:
		h.mark(h.at - page)
	case fyne.KeyPageDown:
		h.mark(h.at + page)
	case fyne.KeyHome:
		h.mark(0)
	case fyne.KeyEnd:
		h.mark(h.len() - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		h.goTo(h.at)
	default:
		h.host.PageKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (l *list) FocusGained() { l.focus(true) }

// FocusLost implements fyne.Focusable.
func (l *list) FocusLost() { l.focus(false) }

func (l *list) focus(on bool) {
	l.focused = on
	l.Refresh()
}

// row is one line of the list.
type row struct {
	paint.Row
	l *list
}

// The measures of a line, in units.
const (
	lineHeight = 26
	nowWidth   = 46  // the room of the word at the state that is shown
	whatLeft   = 196 // from the left edge to what was done
	whatShare  = 0.55
)

func newRow(l *list) *row {
	r := &row{l: l}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(whatLeft, lineHeight) })
	return r
}

func (r *row) paint(p *paint.Pen, size fyne.Size) {
	h := r.l.h
	if r.At < 0 || r.At >= h.len() {
		return
	}
	base := float32(lineHeight - 9)
	s, role := model.PastStep{What: "before the first step"}, sheet.Ink
	if r.At < len(h.steps) {
		s = h.steps[r.At]
	}
	if r.At == h.at {
		edge := paint.Colours().Ink[sheet.Soft]
		if r.l.focused {
			edge = paint.Colours().Ink[sheet.Ink]
		}
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(lineHeight), paint.Colours().Blend(sheet.Ink, 0.09), edge, p.Thick(1))
	}
	now := r.At == model.NowStep(h.steps)
	write := func(text string, x, room float32, role sheet.Role) {
		t := paint.ColumnText(r.l.wrapper.Fit(text, room), x, base, role)
		t.Bold = now
		p.Text(&t)
	}
	if now {
		write("now", 8, nowWidth, sheet.Ink)
	}
	what := s.What
	if s.Undone {
		role = sheet.Soft
		what += " (undone)"
	}
	end := whatLeft + (size.Width-whatLeft)*whatShare
	write(model.StepDate(s.Date), nowWidth, whatLeft-nowWidth-12, sheet.Soft)
	write(what, whatLeft, end-whatLeft-12, role)
	write(s.Setup, end, size.Width-end-8, role)
	p.Line(&sheet.Line{From: sheet.Point{Y: lineHeight}, To: sheet.Point{X: float64(size.Width), Y: lineHeight}, Stroke: sheet.Rule, Width: 1})
}

// Tapped goes to the step.
func (r *row) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The history")
	h := r.l.h
	if r.At >= 0 && r.At < h.len() {
		h.Refocus()
		h.goTo(r.At)
	}
}
