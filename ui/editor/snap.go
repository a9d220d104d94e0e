package editor

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Pull is how far a hand is led to a frame that matters, in units.
const Pull = 5

// unpulled is the key that switches the pull off while it is held. Alt would
// leave the keys in the menu bar when it is let go.
const unpulled = fyne.KeyModifierControl

// snapped is the whole number that the held part comes to when the hand has
// moved it by so many frames: the nearest, or one within the pull at which it
// falls on a frame that matters. The guide shows what it falls on.
func (t *Timeline) snapped(moved float64) int {
	d := t.drag
	exact := float64(d.value) + moved
	n := int(math.Round(exact))
	if t.Keys()&unpulled == 0 {
		if s, ok := t.snap(n, int(math.Ceil(Pull/t.CurrentView.Scale))); ok && math.Abs(float64(s.Value)-exact)*t.CurrentView.Scale <= Pull {
			return s.Value
		}
	}
	return n
}

// snap asks the plan for a frame that matters near n, for what is held.
func (t *Timeline) snap(n, reach int) (timeline.Snap, bool) {
	plan := t.model.Plan()
	if plan == nil {
		return timeline.Snap{}, false
	}
	rise, line := t.model.Shown()
	delay := t.model.Setup().Delay
	switch t.drag.part {
	case timeline.PartDelay, timeline.PartJump, timeline.PartLanding:
		return plan.SnapDelay(n, rise, line, reach)
	case timeline.PartAttack:
		return plan.SnapPress(n, delay, rise, line, reach)
	case timeline.PartRise:
		return plan.SnapAdvantage(n, delay, rise, line, reach)
	}
	return timeline.Snap{}, false
}

// waits reports whether a part moves with the delay: the delay itself, and
// what begins when it ends.
func (t *Timeline) waits(part timeline.Part) bool {
	return part == timeline.PartDelay || part == timeline.PartJump || part == timeline.PartLanding && t.model.Setup().Jump == ""
}

// Value is the number of the held part as it stands, and how it is said.
func (t *Timeline) Value(part timeline.Part) (n int, words string) {
	s, plan := t.model.Setup(), t.model.Plan()
	switch part {
	case timeline.PartDelay, timeline.PartJump, timeline.PartLanding:
		if t.waits(part) {
			n, words = s.Delay, "delay %d"
		}
	case timeline.PartAttack:
		n, words = plan.Press(), "press on air frame %d"
	case timeline.PartRise:
		n, words = plan.K, "advantage %d"
	case timeline.PartReply:
		if i := t.model.Reply(); i >= 0 {
			n, words = s.Replies[i].Late, "%d late"
		}
	}
	if words == "" {
		return 0, ""
	}
	return n, fmt.Sprintf(words, n)
}

// paintDrag shows the number that a hand changes, and a guide line where what
// it drags falls on a frame that matters.
func (t *Timeline) paintDrag(p *paint.Pen, d *sheet.Drawing) {
	if t.drag == nil || !t.drag.moving || t.drag.over || t.model.Plan() == nil {
		return
	}
	n, number := t.Value(t.drag.part)
	if number == "" {
		return
	}
	if b := t.block(t.drag.part, 0); b != nil {
		switch x := d.X(float64(b.Span.From)); t.drag.part { // the other numbers stand on the sheet
		case timeline.PartAttack:
			t.tag(p, d, number, x, d.Bars.From-3*d.Em)
		case timeline.PartReply:
			t.tag(p, d, number, x, d.Bottom.From-2.2*d.Em)
		}
	}
	s, ok := t.snap(n, 0)
	if !ok || s.Value != n {
		return
	}
	x := d.X(float64(s.Fixed.Frame))
	if x < d.Left || x > d.Right {
		return
	}
	p.Line(&sheet.Line{From: sheet.Point{X: x, Y: d.Ruler.To}, To: sheet.Point{X: x, Y: d.Bottom.To + 0.6*d.Em}, Stroke: sheet.Ink, Width: 1.2, Dashed: true})
	t.tag(p, d, words.Snap(&s), x, d.Ruler.To+0.3*d.Em)
}

// tag writes words on a slip of paper about x, with its top at y, inside the
// tracks.
func (t *Timeline) tag(p *paint.Pen, d *sheet.Drawing, words string, x, y float64) {
	const padX, padY = 6.0, 3.0
	w := float64(t.wrapper.WidthOf(words)) + 2*padX
	x = math.Round(math.Max(d.Left, math.Min(x-w/2, d.Right-w)))
	y = math.Round(y)
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: y}, Max: sheet.Point{X: x + w, Y: y + paint.TextSize + 2*padY + 2}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	text := paint.ColumnText(words, float32(x+padX), float32(y+padY+paint.TextSize-1), sheet.Ink)
	p.Text(&text)
}
