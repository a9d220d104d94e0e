package editor

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Focusable = (*NumberEntry)(nil)

// typed is the small field in which the number of a block is typed.
type typed struct {
	Entry *NumberEntry // nil: closed
	part  timeline.Part
	word  string // what the number is
	Why   string // it was refused
}

func (y *typed) Open() bool { return y.Entry != nil }
func (y *typed) close()     { *y = typed{} }

// typedWords are the numbers that can be typed on a block, by its part.
var typedWords = map[timeline.Part]string{
	timeline.PartDelay:   "delay",
	timeline.PartJump:    "delay",
	timeline.PartLanding: "delay",
	timeline.PartAttack:  "press on air frame",
	timeline.PartRise:    "advantage",
	timeline.PartReply:   "frames late",
}

// Type opens the field on the block chosen, else on the one under the pointer,
// with text in it. It reports whether that has a number.
func (t *Timeline) Type(text string) bool {
	var part timeline.Part
	switch {
	case t.Chosen.on:
		part = t.Chosen.part
	case t.Hover != nil:
		part = t.Hover.Part
	default:
		return false
	}
	_, words := 0, ""
	if t.model.Plan() != nil && t.Idle() {
		_, words = t.Value(part)
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(t)
	if words == "" || c == nil || t.Hot(part, 0) == nil {
		return false
	}
	e := &NumberEntry{t: t}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	e.CursorColumn = len(text)
	e.OnChanged = paint.GuardedOf("The number", func(string) { t.refuse("") })
	e.OnSubmitted = paint.GuardedOf("The number", func(string) { t.takeTyped() })
	t.Typed = typed{Entry: e, part: part, word: typedWords[part]}
	t.Repaint() // focus goes to what is shown
	c.Focus(e)
	return true
}

// TypeNow opens the field with the number as it stands.
func (t *Timeline) TypeNow() {
	part := t.Chosen.part
	if !t.Chosen.on && t.Hover != nil {
		part = t.Hover.Part
	}
	if t.model.Plan() == nil {
		return
	}
	n, _ := t.Value(part)
	if t.Type(strconv.Itoa(n)) {
		t.Typed.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// takeTyped sets the number that was typed, or says why it can't be.
func (t *Timeline) takeTyped() {
	n, err := strconv.Atoi(strings.TrimSpace(t.Typed.Entry.Text))
	if err != nil {
		t.refuse("Expected a whole number.")
		return
	}
	if err := t.setNumber(t.Typed.part, n); err != nil {
		t.refuse(model.WhyNot(err))
		return
	}
	t.leaveTyped()
}

// setNumber sets the number of a part to n, not to the nearest there is.
func (t *Timeline) setNumber(part timeline.Part, n int) error {
	s := t.model.Setup()
	switch part {
	case timeline.PartDelay, timeline.PartJump, timeline.PartLanding:
		if most := t.model.Plan().Fits(); n < 0 || n > most {
			return fmt.Errorf("expected 0 to %d, the last delay that fits; got %d", most, n)
		}
		s.Delay = n
	case timeline.PartAttack:
		s.Press = timeline.Some(n)
	case timeline.PartRise:
		s.Advantage = timeline.Some(n)
	case timeline.PartReply:
		return t.model.SetLate(n)
	}
	return t.model.Change(s)
}

// refuse says why under the field; empty takes it away.
func (t *Timeline) refuse(why string) {
	if t.Typed.Why != why {
		t.Typed.Why = why
		t.Repaint()
	}
}

// leaveTyped closes the field, and hands the keys back to the sheet.
func (t *Timeline) leaveTyped() {
	t.Typed.close()
	t.Repaint()
	paint.FocusOn(t)
}

// Where the field stands, in units.
const (
	typedWide = 74
	typedAway = 4 // from its block
)

// paintTyped draws the slip of paper under the field: what is typed, and why
// it was refused.
func (t *Timeline) paintTyped(p *paint.Pen, d *sheet.Drawing) {
	y := &t.Typed
	if !y.Open() {
		return
	}
	h := t.Hot(y.part, 0)
	if h == nil {
		y.close()
		return
	}
	high := float64(y.Entry.MinSize().Height)
	word := float64(t.wrapper.WidthOf(y.word))
	const pad = 6.0
	inner := word + pad + typedWide
	if y.Why != "" {
		inner = math.Max(inner, float64(t.wrapper.WidthOf(y.Why)))
	}
	w, all := inner+2*pad, high+2*pad
	if y.Why != "" {
		all += CardLine + 2
	}
	x := math.Round(math.Max(2, math.Min(h.Min.X, d.W-2-w)))
	top := h.Min.Y - typedAway - all
	if y.part == timeline.PartJump {
		top = d.Bars.From - typedAway - all
	}
	top = math.Round(math.Max(2, top))
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: top}, Max: sheet.Point{X: x + w, Y: top + all}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1.2})
	text := paint.ColumnText(y.word, float32(x+pad), float32(top+pad+high/2+5), sheet.Soft)
	p.Text(&text)
	if y.Why != "" {
		why := paint.ColumnText(y.Why, float32(x+pad), float32(top+all-pad-3), sheet.Ink)
		p.Text(&why)
	}
	y.Entry.Move(fyne.NewPos(float32(x+pad+word+pad), float32(top+pad)))
	y.Entry.Resize(fyne.NewSize(typedWide, float32(high)))
}

// NumberEntry is the field itself: Escape and the loss of the keys leave it.
type NumberEntry struct {
	widget.Entry
	t *Timeline
}

// TypedKey implements fyne.Focusable.
func (e *NumberEntry) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The number")
	if ev.Name == fyne.KeyEscape {
		e.t.leaveTyped()
		return
	}
	e.Entry.TypedKey(ev)
}

// FocusLost leaves the number as it was.
func (e *NumberEntry) FocusLost() {
	defer paint.Survive("The number")
	e.Entry.FocusLost()
	if e.t.Typed.Entry == e {
		e.t.Typed.close()
		e.t.Repaint()
	}
}
