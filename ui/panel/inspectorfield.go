package panel

import (
	"errors"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// TypedField is a value that is typed: Return, or the focus going elsewhere, puts
// it in; one that is refused stays as it was typed, until it is mended, or
// Escape gives it up.
type TypedField struct {
	box   fyne.CanvasObject
	Entry *FieldEntry
}

// FieldEntry is where it is typed.
type FieldEntry struct {
	widget.Entry
	n        *Inspector
	Row      *InspectorRow
	Shows    func() string
	holder   func() string // what an empty field stands for; nil: nothing
	put      func(text string) error
	steps    bool   // Up and Down count
	inPieces bool   // see note
	shown    string // what the field showed before a hand typed
}

// text makes a row of a text.
func (n *Inspector) text(label string, show func() string, put func(string) error) *InspectorRow {
	return n.row(label, func(r *InspectorRow) rowField { return n.field(r, show, put) })
}

func (n *Inspector) field(r *InspectorRow, show func() string, put func(string) error) *TypedField {
	e := &FieldEntry{n: n, Row: r, Shows: show, put: put}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.commit() }
	e.OnChanged = func(string) {
		defer paint.Survive("The field")
		if !n.filling {
			r.refuse(nil)
		}
	}
	return &TypedField{e, e}
}

// number makes a row of a number, with steppers.
func (n *Inspector) number(label string, show func() string, put func(string) error) *InspectorRow {
	return n.row(label, func(r *InspectorRow) rowField {
		f := n.field(r, show, put)
		f.Entry.steps = true
		f.box = container.NewBorder(nil, nil, nil, NewStepper(f.Entry), f.Entry)
		return f
	})
}

// whole makes a row of a whole number.
func (n *Inspector) whole(label string, show func() int, put func(int) error) *InspectorRow {
	return n.number(label, func() string { return strconv.Itoa(show()) }, func(text string) error {
		v, err := strconv.Atoi(text)
		if err != nil {
			return model.ErrWhole(text)
		}
		return put(v)
	})
}

// perhaps makes a row of a number that may be left out; holder says what an
// empty field stands for.
func (n *Inspector) perhaps(label string, show func() timeline.Maybe, holder func() string, put func(timeline.Maybe) error) *InspectorRow {
	r := n.number(label, func() string {
		if m := show(); m.Given {
			return m.String()
		}
		return ""
	}, func(text string) error {
		if text == "" {
			return put(timeline.Maybe{})
		}
		v, err := strconv.Atoi(text)
		if err != nil {
			return model.ErrWhole(text)
		}
		return put(timeline.Some(v))
	})
	r.Field.(*TypedField).Entry.holder = holder
	return r
}

func (f *TypedField) Object() fyne.CanvasObject { return f.box }

func (f *TypedField) update(giveUp bool) bool {
	f.Entry.update(giveUp)
	return false
}

// pending reports whether something is typed that is not taken.
func (e *FieldEntry) pending() bool { return e.Text != e.shown }

func (e *FieldEntry) update(giveUp bool) {
	if e.holder != nil && e.PlaceHolder != e.holder() {
		e.SetPlaceHolder(e.holder())
	}
	if e.pending() && !giveUp {
		return
	}
	if giveUp {
		e.Row.refuse(nil)
	}
	if e.shown = e.Shows(); e.Text != e.shown {
		filling := e.n.filling
		e.n.filling = true
		e.SetText(e.shown)
		e.n.filling = filling
	}
}

// commit puts in what is typed.
func (e *FieldEntry) commit() {
	defer paint.Survive("The field " + e.Row.Label.Text)
	if !e.pending() {
		return
	}
	text := e.Text
	if !e.MultiLine {
		text = strings.TrimSpace(text)
	}
	err := e.put(text)
	if err == nil || errors.Is(err, model.ErrHeld) {
		e.update(true)
		return
	}
	e.Row.refuse(err)
}

// step counts up or down from what stands there.
func (e *FieldEntry) step(by int) {
	defer paint.Survive("The field " + e.Row.Label.Text)
	from := strings.TrimSpace(e.Text)
	if from == "" { // from what it stands for, which begins with its number
		from, _, _ = strings.Cut(e.PlaceHolder, ",")
	}
	v, err := strconv.Atoi(from)
	if err != nil {
		return
	}
	if err := e.put(strconv.Itoa(v + by)); err != nil {
		e.Row.refuse(err)
		return
	}
	e.update(true)
}

// TypedKey steps with Up and Down, ten with Shift, and gives up with Escape.
func (e *FieldEntry) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The numbers")
	by := 1
	if e.n.Keys()&fyne.KeyModifierShift != 0 {
		by = paint.BigStep
	}
	switch {
	case ev.Name == fyne.KeyUp && e.steps:
		e.step(by)
	case ev.Name == fyne.KeyDown && e.steps:
		e.step(-by)
	case ev.Name == fyne.KeyEscape && (e.pending() || e.Row.Reason.Text != ""):
		e.update(true)
	case ev.Name == fyne.KeyEscape:
		e.n.OnLeave()
	default:
		e.Entry.TypedKey(ev)
	}
}

// FocusLost puts in what is typed.
func (e *FieldEntry) FocusLost() {
	e.Entry.FocusLost()
	e.commit()
}

// FocusGained brings the field into view.
func (e *FieldEntry) FocusGained() {
	defer paint.Survive("The numbers")
	e.Entry.FocusGained()
	e.n.reveal(e)
}

// Undo takes back what is typed, and else the project's last step.
func (e *FieldEntry) Undo() {
	if e.pending() {
		e.update(true)
		return
	}
	e.n.OnUndo()
}

// Redo does the project's next step again.
func (e *FieldEntry) Redo() {
	if !e.pending() {
		e.n.OnRedo()
	}
}

var (
	_ fyne.Tappable      = (*stepper)(nil)
	_ desktop.Cursorable = (*stepper)(nil)
)

// stepper is the two arrows beside a number.
type stepper struct {
	paint.Painted
	e *FieldEntry
}

const stepperWide = 18

func NewStepper(e *FieldEntry) *stepper {
	s := &stepper{e: e}
	s.Extend(s, func(p *paint.Pen, size fyne.Size) {
		x, mid := float64(size.Width)/2, float64(size.Height)/2
		for _, dir := range [2]float64{-1, 1} {
			y := mid + dir*7
			p.Path(&sheet.Path{Points: []sheet.Point{{X: x - 4, Y: y - dir*2}, {X: x, Y: y + dir*2}, {X: x + 4, Y: y - dir*2}}, Stroke: sheet.Soft, Width: 1.5})
		}
	}, func() fyne.Size { return fyne.NewSize(stepperWide, 20) })
	return s
}

// Tapped counts up in the upper half, down in the lower.
func (s *stepper) Tapped(ev *fyne.PointEvent) {
	if ev.Position.Y < s.Size().Height/2 {
		s.e.step(1)
	} else {
		s.e.step(-1)
	}
}

// Cursor implements desktop.Cursorable.
func (s *stepper) Cursor() desktop.Cursor { return desktop.PointerCursor }
