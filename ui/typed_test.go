package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/editor"
	"wakeline/ui/sheet"
)

// number is the number of a part as the setup has it.
func number(w *window, part timeline.Part) int {
	n, _ := w.sheet.Value(part)
	return n
}

func TestTypeNumbers(t *testing.T) {
	for _, tt := range []struct {
		name  string
		part  timeline.Part
		typed string
		want  int
		why   string // it is refused
	}{
		{"delay", timeline.PartDelay, "12", 12, ""},
		{"delay, on the jump", timeline.PartJump, "0", 0, ""},
		{"delay past the width", timeline.PartDelay, "700", 3, "Expected 0 to 454, the last delay that fits; got 700."},
		{"press", timeline.PartAttack, "30", 30, ""},
		{"press past the air", timeline.PartAttack, "39", 27, "an air frame of the jump, 0 to 38"},
		{"advantage", timeline.PartRise, "61", 61, ""},
		{"advantage past the width", timeline.PartRise, "512", 58, "from 0 to 511"},
		{"late", timeline.PartReply, "5", 5, ""},
		{"late as another is", timeline.PartReply, "2", 0, "each reply once"},
		{"no number", timeline.PartDelay, "1x", 3, "Expected a whole number."},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := open(t, sample(), laptop)
			w.model.Show(0, 3) // rising gale
			w.sheet.Select(editor.One(tt.part, 0))
			w.sheet.TypedRune(rune(tt.typed[0]))
			e, _ := w.Canvas().Focused().(*editor.NumberEntry)
			if e == nil || !w.sheet.Typed.Open() {
				t.Fatal("a digit opens no field")
			}
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(e).Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(w.sheet))
			if size := w.sheet.Size(); at.X < 0 || at.Y < 0 || at.X+e.Size().Width > size.Width || at.Y+e.Size().Height > size.Height {
				t.Errorf("the field stands at %v of a sheet of %v", at, size)
			}
			test.Type(e, tt.typed[1:])
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if got := number(w, tt.part); got != tt.want {
				t.Errorf("the number is %d, want %d", got, tt.want)
			}
			if tt.why != "" {
				if !w.sheet.Typed.Open() || !strings.Contains(w.sheet.Typed.Why, tt.why) {
					t.Errorf("refused with %q, want %q", w.sheet.Typed.Why, tt.why)
				}
				test.Type(e, "0")
				if w.sheet.Typed.Why != "" {
					t.Error("the reason stays while more is typed")
				}
				e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			}
			if w.sheet.Typed.Open() || w.Canvas().Focused() != fyne.Focusable(w.sheet) {
				t.Error("the field stays, or the keys don't go back to the sheet")
			}
			steps := 1
			if tt.why != "" {
				steps = 0
			}
			if got := edits(w.model); got != steps {
				t.Errorf("%d steps, want %d", got, steps)
			}
		})
	}
}

func TestTypeOnWhatIsUnderThePointer(t *testing.T) {
	w := open(t, sample(), laptop)
	ev := &desktop.MouseEvent{}
	ev.Position = position(grip(t, w, timeline.PartDelay, 0))
	w.sheet.MouseMoved(ev)
	w.sheet.TypedRune('9')
	if !w.sheet.Typed.Open() {
		t.Fatal("a digit over the delay opens no field")
	}
	w.sheet.Typed.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	key(w, fyne.KeyReturn, 1)
	if e := w.sheet.Typed.Entry; e == nil || e.Text != "3" {
		t.Errorf("Enter doesn't open the field with the number")
	}
	w.Canvas().Focus(w.setups.Field)
	if w.sheet.Typed.Open() || w.delay() != 3 {
		t.Errorf("the keys elsewhere: still open, or the delay is %d", w.delay())
	}
	w.Canvas().Focus(w.sheet)
	w.sheet.MouseOut()
	fit := w.sheet.Drawing().View
	w.sheet.ZoomIn()
	if w.sheet.TypedRune('0'); w.sheet.Typed.Open() || w.sheet.Drawing().View != fit {
		t.Error("0 over nothing doesn't fit the sheet")
	}
	w.sheet.Select(editor.One(timeline.PartLanding, 0))
	if w.sheet.TypedRune('7'); w.sheet.Typed.Open() {
		t.Error("a digit opens a field on a block without a number")
	}
}

func TestDragReplyIsLateness(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Show(0, 4) // quick jab
	p := grip(t, w, timeline.PartReply, 4)
	press(w, p)
	move(w, p, 6, 0, 4)
	release(w)
	if got := w.model.Setup().Replies[1].Late; got != 6 {
		t.Errorf("%d late, want 6", got)
	}
	if rise, line := w.model.Shown(); rise != 0 || line != 4 {
		t.Errorf("shows %d, %d, want 0, 4", rise, line)
	}
	p = grip(t, w, timeline.PartReply, 4)
	press(w, p)
	move(w, p, -90, 0, 4)
	if got := w.model.Setup().Replies[1].Late; got != 0 {
		t.Errorf("%d late, want 0", got)
	}
	key(w, fyne.KeyEscape, 1)
	release(w)
	if got := w.model.Setup().Replies[1].Late; got != 6 || edits(w.model) != 1 {
		t.Errorf("%d late after Escape, want 6", got)
	}
}

// guide is the tag of the guide line that lies over the sheet, empty for none.
func guide(w *window) string {
	for _, o := range w.sheet.Renderer.Over.Texts.All[:w.sheet.Renderer.Over.Texts.Used] {
		if strings.Contains(o.Text, " on the ") {
			return o.Text
		}
	}
	return ""
}

func TestPullToFramesThatMatter(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Show(0, 3)
	w.sheet.Zoom(-4.6, 400)
	scale := w.sheet.Drawing().View.Scale
	rise, line := w.model.Shown()
	// The first delay from which the hand is led elsewhere.
	plan := w.model.Plan()
	from, snap := -1, timeline.Snap{}
	for d := 8; d < 60 && from < 0; d++ {
		s, ok := plan.SnapDelay(d, rise, line, int(math.Floor(editor.Pull/scale)))
		if ok && s.Value != d {
			from, snap = d, s
		}
	}
	if from < 0 || scale*2 > editor.Pull*2 {
		t.Fatalf("no frame to be led to at %g units a frame", scale)
	}
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, float64(from-3), 0, 4)
	if got := w.delay(); got != snap.Value {
		t.Errorf("at %d the hand comes to %d, want %d", from, got, snap.Value)
	}
	if got := guide(w); got != words.Snap(&snap) {
		t.Errorf("the guide says %q, want %q", got, words.Snap(&snap))
	}
	w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierControl }
	move(w, p, float64(from-3), 0, 1)
	if got := w.delay(); got != from {
		t.Errorf("unpulled, the hand comes to %d, want %d", got, from)
	}
	release(w)
	if got := guide(w); got != "" {
		t.Errorf("the guide %q stays", got)
	}
}

// TestGuideWhereItFallsOnOne: also where no pull was needed.
func TestGuideWhereItFallsOnOne(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Show(0, 3)
	rise, line := w.model.Shown()
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	shown := 0
	for d := range 25 {
		w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierControl }
		move(w, p, float64(d-3), 0, 1)
		want := ""
		if s, ok := w.model.Plan().SnapDelay(d, rise, line, 0); ok {
			want = words.Snap(&s)
			shown++
		}
		if got := guide(w); w.delay() != d || got != want {
			t.Errorf("at delay %d, want %d, the guide says %q, want %q", w.delay(), d, got, want)
		}
	}
	if shown == 0 {
		t.Error("no frame matters")
	}
}

// TestGuideOfPressAndAdvantage: their drags are led and told alike.
func TestGuideOfPressAndAdvantage(t *testing.T) {
	for _, part := range []timeline.Part{timeline.PartAttack, timeline.PartRise} {
		w := open(t, sample(), laptop)
		w.model.Show(0, 3)
		rise, line := w.model.Shown()
		start := number(w, part)
		p := grip(t, w, part, 0)
		press(w, p)
		shown := 0
		for n := start - 12; n < start+5; n++ {
			move(w, p, float64(n-start), 0, 1)
			ask, want := w.model.Plan().SnapAdvantage, ""
			if part == timeline.PartAttack {
				ask = w.model.Plan().SnapPress
			}
			if s, ok := ask(number(w, part), w.delay(), rise, line, 0); ok {
				want = words.Snap(&s)
				shown++
			}
			if got := guide(w); got != want {
				t.Errorf("part %d at %d: the guide says %q, want %q", part, number(w, part), got, want)
			}
		}
		if shown == 0 {
			t.Errorf("part %d: no frame matters", part)
		}
		release(w)
	}
}

func TestCardTells(t *testing.T) {
	w := open(t, sample(), laptop)
	for _, part := range []timeline.Part{timeline.PartEnder, timeline.PartFiller, timeline.PartDelay, timeline.PartAttack, timeline.PartLanding, timeline.PartRise, timeline.PartReply} {
		h := w.sheet.Hot(part, 0)
		at := sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: h.Min.Y + 2}
		if got := w.sheet.Drawing().HotAt(at); got.Part != part {
			at.X = h.Max.X - 2
		}
		ev := &desktop.MouseEvent{}
		ev.Position = position(at)
		w.sheet.MouseMoved(ev)
		c := w.sheet.Card
		if c == nil || c.Part != part || c.Title == "" || len(c.Facts) == 0 {
			t.Errorf("part %d: card %+v", part, c)
			continue
		}
		shown := map[string]bool{}
		r := w.sheet.Renderer
		for _, o := range r.Over.Texts.All[:r.Over.Texts.Used] {
			shown[o.Text] = true
		}
		for _, f := range c.Facts {
			if !shown[f.Name] || !shown[f.Value] {
				t.Errorf("part %d: the card doesn't show %v", part, f)
			}
		}
		box := r.Over.Boxes.All[r.Over.Boxes.Used-1]
		for _, o := range r.Over.Boxes.All[:r.Over.Boxes.Used] { // the card is the largest
			if o.Size().Width*o.Size().Height > box.Size().Width*box.Size().Height {
				box = o
			}
		}
		a, b := box.Position(), box.Position().AddXY(box.Size().Width, box.Size().Height)
		if float64(a.X) < h.Max.X && float64(b.X) > h.Min.X && float64(a.Y) < h.Max.Y && float64(b.Y) > h.Min.Y {
			t.Errorf("part %d: the card from %v to %v covers the block %+v", part, a, b, h)
		}
		if a.X < 0 || a.Y < 0 || b.X > w.sheet.Size().Width || b.Y > w.sheet.Size().Height {
			t.Errorf("part %d: the card from %v to %v leaves the sheet", part, a, b)
		}
	}
	key(w, fyne.KeyRight, 1)
	if w.sheet.Card != nil {
		t.Error("the card stays while keys are used")
	}
}

// TestTheCardKeepsOffTheVerdict lays a long card for every block of the
// sample in the smallest window.
func TestTheCardKeepsOffTheVerdict(t *testing.T) {
	w := open(t, sample(), fyne.NewSize(1024, 640))
	const wide, high = 330, 9*editor.CardLine + 2*editor.CardPad
	for i := range w.model.Data().Setups {
		w.model.Choose(i)
		d := w.sheet.Drawing()
		if d.Flag == (sheet.Area{}) {
			t.Fatalf("setup %d: no stamp of the meeting", i)
		}
		for k := range d.Hots {
			h := &d.Hots[k]
			at := editor.PlaceCard(d, h, sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: (h.Min.Y + h.Max.Y) / 2}, wide, high)
			over := sheet.Area{Min: at, Max: sheet.Point{X: at.X + wide, Y: at.Y + high}}
			if head := (sheet.Area{Max: sheet.Point{X: d.W, Y: d.Ruler.From}}); over.Over(head) > 0 || over.Over(d.Flag) > 0 {
				t.Errorf("setup %d, part %d: the card at %v lies on the verdict", i, h.Part, at)
			}
			if over.Max.X > d.W || over.Max.Y > d.H {
				t.Errorf("setup %d, part %d: the card at %v is cut", i, h.Part, at)
			}
		}
	}
}
