package panel

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// InspectorRow is a number with its name before it, and under it why a value
// was refused.
type InspectorRow struct {
	Label  *paint.LineText
	Field  rowField
	Reason *reasonText
	Box    *fyne.Container
	when   func() bool // it is there; nil: always
}

// rowField is what a value is put in with.
type rowField interface {
	Object() fyne.CanvasObject
	// update shows the value as it stands, and reports whether it takes another
	// height. What was typed and is not taken yet stays, unless it is to be
	// given up.
	update(giveUp bool) (moved bool)
}

// The measures of a row, in units.
const (
	insLabel = 88
	rowGap   = 2
)

// row makes a row of a field.
func (n *Inspector) row(label string, of func(*InspectorRow) rowField) *InspectorRow {
	r := &InspectorRow{Label: paint.NewLineText(), Reason: newReasonText(n)}
	r.Label.Say(label)
	r.Field = of(r)
	r.Box = container.New(rowLayout{r}, r.Label, r.Field.Object(), r.Reason)
	return r
}

// refuse says why a value can't stand, and with nil that nothing is wrong.
func (r *InspectorRow) refuse(err error) {
	if err == nil || errors.Is(err, model.ErrHeld) {
		r.Reason.say("")
		return
	}
	r.Reason.say(model.Sentence(model.Refusal(err)))
}

// rowLayout lays a row out: its name before the field, or above it where it is
// too long for that, and the reason under both.
type rowLayout struct{ r *InspectorRow }

// above is the height of a name that stands above its field, 0 where it stands
// before it.
func (l rowLayout) above() float32 {
	if t := l.r.Label; t.Wrapper.WidthOf(t.Text) > insLabel-paint.WordPad {
		return paint.WordHeight
	}
	return 0
}

// MinSize implements fyne.Layout.
func (l rowLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	s := l.r.Field.Object().MinSize()
	high := l.above() + s.Height + rowGap
	if l.r.Reason.Visible() {
		high += l.r.Reason.MinSize().Height
	}
	return fyne.NewSize(insLabel+60, high)
}

// Layout implements fyne.Layout.
func (l rowLayout) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	defer paint.Survive("The layout")
	o := l.r.Field.Object()
	high, above := o.MinSize().Height, l.above()
	name, y, left := float32(insLabel), (min(high, 32)-paint.WordHeight)/2, float32(insLabel)
	if above > 0 { // the field has the whole width then
		name, y, left = s.Width, 0, paint.WordPad
	}
	l.r.Label.Move(fyne.NewPos(0, y))
	l.r.Label.Resize(fyne.NewSize(name, paint.WordHeight))
	o.Move(fyne.NewPos(left, above))
	o.Resize(fyne.NewSize(s.Width-left, high))
	l.r.Reason.Move(fyne.NewPos(0, above+high))
	l.r.Reason.Resize(fyne.NewSize(s.Width, l.r.Reason.MinSize().Height))
}

// reasonText is a text of as many lines as it needs, gone while it is empty.
type reasonText struct {
	paint.Painted
	n       *Inspector
	Text    string
	soft    bool // it says something else than why not
	lines   []string
	wrapper paint.Wrapper
}

const (
	refusalLine = 16
	refusalPad  = 10
)

func newReasonText(n *Inspector) *reasonText {
	t := &reasonText{n: n, wrapper: paint.Wrapper{Size: paint.CaptionSize}}
	t.Extend(t, func(p *paint.Pen, size fyne.Size) {
		role, x := sheet.Soft, float32(paint.WordPad)
		if !t.soft {
			role, x = sheet.Ink, refusalPad
			p.Rect(p.Px(3), p.Px(2), p.Px(5), p.Px(float64(size.Height-4)), paint.Colours().Ink[sheet.Ink], nil, 0)
		}
		for i, line := range t.lines {
			text := paint.ColumnText(line, x, float32(i+1)*refusalLine-3, role)
			text.Size = paint.CaptionSize
			p.Text(&text)
		}
	}, t.MinSize)
	t.Hide()
	return t
}

// MinSize is the height of its lines.
func (t *reasonText) MinSize() fyne.Size {
	return fyne.NewSize(60, float32(len(t.lines))*refusalLine+4)
}

func (t *reasonText) say(text string) {
	if text == t.Text {
		return
	}
	t.Text = text
	t.lines = t.wrapper.Wrap(t.lines[:0], text, t.n.width()-2*refusalPad)
	t.Hidden = text == ""
	t.Refresh()
	t.n.relay()
}
