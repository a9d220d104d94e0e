package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/sheet"
)

func TestDragDelay(t *testing.T) {
	for _, tt := range []struct {
		name   string
		part   timeline.Part
		frames float64
		want   int
	}{
		{"the delay, later", timeline.PartDelay, 4, 7},
		{"the delay, earlier", timeline.PartDelay, -2, 1},
		{"the delay, below 0", timeline.PartDelay, -30, 0},
		{"the delay, less than half a frame", timeline.PartDelay, 0.4, 3},
		{"the delay, more than half a frame", timeline.PartDelay, 0.6, 4},
		{"the jump", timeline.PartJump, 3, 6},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := open(t, sample(), laptop)
			p := grip(t, w, tt.part, 0)
			press(w, p)
			move(w, p, tt.frames, 0, 5)
			if got := w.delay(); got != tt.want {
				t.Errorf("delay while dragging = %d, want %d", got, tt.want)
			}
			release(w)
			if got := w.delay(); got != tt.want {
				t.Errorf("delay = %d, want %d", got, tt.want)
			}
			steps := 1
			if tt.want == 3 {
				steps = 0
			}
			if got := edits(w.model); got != steps {
				t.Errorf("%d steps to undo, want %d", got, steps)
			}
			if steps == 1 {
				w.undo()
				if w.delay() != 3 || w.model.CanUndo() {
					t.Errorf("after undo the delay is %d, and more to undo: %v", w.delay(), w.model.CanUndo())
				}
				w.redo()
				if got := w.delay(); got != tt.want {
					t.Errorf("after redo the delay is %d, want %d", got, tt.want)
				}
			}
		})
	}
}

// grounded is the sample's first setup without a jump: its landing action
// meets the wake-up, on the ground.
func grounded(landing string, delay int) *timeline.Project {
	p := sample()
	s := &p.Setups[0]
	s.Jump, s.Attack, s.Landing, s.Delay = "", "", landing, delay
	return p
}

func TestDragAGroundedLandingMove(t *testing.T) {
	for _, landing := range []string{"low reed", timeline.DoGuard} {
		w := open(t, grounded(landing, 0), laptop)
		p := grip(t, w, timeline.PartLanding, 0)
		press(w, p)
		move(w, p, 4, 0, 5)
		release(w)
		if w.delay() != 4 || edits(w.model) != 1 {
			t.Errorf("%s dragged by 4 frames: the delay is %d after %d steps", landing, w.delay(), edits(w.model))
		}
	}
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartLanding, 0)
	press(w, p)
	move(w, p, 4, 0, 5)
	release(w)
	if w.delay() != 3 {
		t.Errorf("the landing action after a jump drags the delay to %d", w.delay())
	}
}

func TestDragPastTheWidth(t *testing.T) {
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 4000, 0, 3)
	release(w)
	if got, want := w.delay(), w.model.Plan().Fits(); got != want {
		t.Errorf("delay = %d, want the last that fits, %d", got, want)
	}
}

func TestDragIsLive(t *testing.T) {
	w := open(t, sample(), laptop)
	if got := w.model.Verdict().Word; got != timeline.Unsafe {
		t.Fatalf("at delay 3 the sample is %s", got)
	}
	view := w.sheet.Drawing().View
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 1, 0, 2)
	if got := w.model.Verdict().Word; got != timeline.Safe {
		t.Errorf("at delay 4 the sample is %s, want safe", got)
	}
	if got := w.model.Row(0).Word; got != timeline.Safe {
		t.Errorf("its row says %s, want safe", got)
	}
	if got := w.sheet.Scene.Verdict; got != timeline.Safe {
		t.Errorf("its sheet says %s, want safe", got)
	}
	if got := w.sheet.Drawing().View; got != view {
		t.Errorf("the view moved under the hand from %v to %v", view, got)
	}
	if got := w.title(); got != "new project — Wakeline" {
		t.Errorf("title while dragging %q", got)
	}
	release(w)
	if got := w.title(); got != "new project · edited — Wakeline" {
		t.Errorf("title after it %q", got)
	}
}

func TestEscapeTakesADragBack(t *testing.T) {
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 5, 0, 3)
	key(w, fyne.KeyEscape, 1)
	if got := w.delay(); got != 3 {
		t.Errorf("delay after Escape = %d, want 3", got)
	}
	move(w, p, 9, 0, 3) // the hand still moves
	release(w)
	if w.delay() != 3 || w.model.CanUndo() || w.model.Edited() {
		t.Errorf("after letting go: delay %d, undo %v, edited %v", w.delay(), w.model.CanUndo(), w.model.Edited())
	}
	press(w, p) // and the next drag works
	move(w, p, 2, 0, 3)
	release(w)
	if got := w.delay(); got != 5 {
		t.Errorf("delay after the next drag = %d, want 5", got)
	}
}

func TestDragPress(t *testing.T) {
	w := open(t, sample(), laptop)
	auto := w.model.Plan().Press()
	p := grip(t, w, timeline.PartAttack, 0)
	press(w, p)
	move(w, p, -6, 0, 3)
	release(w)
	if got, want := w.model.Setup().Press, timeline.Some(auto-6); got != want {
		t.Errorf("press = %v, want %v", got, want)
	}
	p = grip(t, w, timeline.PartAttack, 0)
	press(w, p)
	move(w, p, 90, 0, 3)
	if got, want := w.model.Setup().Press, timeline.Some(38); got != want {
		t.Errorf("press = %v, want the last air frame, %v", got, want)
	}
	move(w, p, -90, 0, 3)
	release(w)
	if got, want := w.model.Setup().Press, timeline.Some(0); got != want {
		t.Errorf("press = %v, want the first air frame, %v", got, want)
	}
	if got := edits(w.model); got != 2 {
		t.Errorf("%d steps, want 2", got)
	}
	w.model.PressAuto()
	if got := w.model.Setup().Press; got.Given {
		t.Errorf("press = %v, want auto", got)
	}
}

func TestDragWakeUp(t *testing.T) {
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartRise, 0)
	press(w, p)
	move(w, p, -3, 0, 3)
	release(w)
	if got, want := w.model.Setup().Advantage, timeline.Some(55); got != want {
		t.Errorf("advantage = %v, want %v", got, want)
	}
	p = grip(t, w, timeline.PartRise, 0)
	press(w, p)
	move(w, p, -300, 0, 2)
	release(w)
	if got, want := w.model.Setup().Advantage, timeline.Some(0); got != want {
		t.Errorf("advantage = %v, want %v", got, want)
	}
	w.model.EnderAdvantage()
	if got := w.model.Plan().K; got != 58 {
		t.Errorf("advantage = %d, want the ender's, 58", got)
	}
}

func TestDragFiller(t *testing.T) {
	three := sample()
	three.Setups[2].Fillers = []string{"feint palm", "short step", "feint palm"}
	three.Setups[2].Fillers[2] = "low reed"
	for _, tt := range []struct {
		name   string
		index  int
		frames float64
		down   float64
		want   []string
	}{
		{"not past a middle", 0, 5, 0, []string{"feint palm", "short step", "low reed"}},
		{"past the next", 0, 14, 0, []string{"short step", "feint palm", "low reed"}},
		{"past both", 0, 30, 0, []string{"short step", "low reed", "feint palm"}},
		{"the last to the front", 2, -40, 0, []string{"low reed", "feint palm", "short step"}},
		{"off the track", 1, 0, 90, []string{"feint palm", "low reed"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := open(t, three, laptop)
			w.model.Choose(2)
			p := grip(t, w, timeline.PartFiller, tt.index)
			press(w, p)
			move(w, p, tt.frames, tt.down, 8)
			release(w)
			if got := w.model.Setup().Fillers; !slices.Equal(got, tt.want) {
				t.Errorf("fillers %q, want %q", got, tt.want)
			}
			if w.undo(); !slices.Equal(w.model.Setup().Fillers, three.Setups[2].Fillers) {
				t.Errorf("after undo %q", w.model.Setup().Fillers)
			}
		})
	}
	t.Run("off and back", func(t *testing.T) {
		w := open(t, three, laptop)
		w.model.Choose(2)
		p := grip(t, w, timeline.PartFiller, 1)
		press(w, p)
		move(w, p, 0, 90, 2)
		if got := len(w.model.Setup().Fillers); got != 2 {
			t.Errorf("%d fillers off the track, want 2", got)
		}
		move(w, p, 0, 3, 2)
		release(w)
		if w.model.Edited() {
			t.Errorf("edited: %q", w.model.Setup().Fillers)
		}
	})
}

func TestPanAndWheel(t *testing.T) {
	w := open(t, sample(), laptop)
	d := w.sheet.Drawing()
	empty := sheet.Point{X: d.Left + 300, Y: d.H - 12}
	if h := d.HotAt(empty); h != nil {
		t.Fatalf("no empty place at %v: %+v", empty, h)
	}
	from := d.View.From
	press(w, empty)
	move(w, empty, -10, 0, 4)
	release(w)
	if got := w.sheet.Drawing().View.From; got < from+9.9 || got > from+10.1 {
		t.Errorf("panned from %g to %g, want 10 on", from, got)
	}
	if w.model.Edited() {
		t.Error("a pan edits")
	}

	x := d.Left + 400.0
	before, scale := w.sheet.Drawing().Frame(x), w.sheet.Drawing().View.Scale
	wheel := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 40)}
	wheel.Position = fyne.NewPos(float32(x), 200)
	w.sheet.Scrolled(wheel)
	d = w.sheet.Drawing()
	if got := d.View.Scale; got < scale*1.19 || got > scale*1.21 {
		t.Errorf("scale %g after one step of the wheel, was %g", got, scale)
	}
	if got := d.Frame(x); got < before-0.01 || got > before+0.01 {
		t.Errorf("frame %g under the pointer, was %g", got, before)
	}

	from = d.View.From
	w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	w.sheet.Scrolled(wheel)
	if got := w.sheet.Drawing().View; got.From >= from || got.Scale != d.View.Scale {
		t.Errorf("Shift and the wheel went from %g to %v", from, got)
	}
	w.sheet.TypedRune('0')
	if got := w.sheet.Drawing().View.Scale; got != scale {
		t.Errorf("scale %g when fitted, want %g", got, scale)
	}
}

func TestHoverTellsWhatADragDoes(t *testing.T) {
	w := open(t, sample(), laptop)
	ev := &desktop.MouseEvent{}
	ev.Position = position(grip(t, w, timeline.PartDelay, 0))
	w.sheet.MouseMoved(ev)
	if w.status.Hinted != editor.Hints[timeline.PartDelay] || w.sheet.Cursor() != desktop.HResizeCursor {
		t.Errorf("over the delay: hint %q, cursor %v", w.status.Hinted, w.sheet.Cursor())
	}
	w.sheet.MouseOut()
	if w.status.Hinted != "" || w.sheet.Cursor() != desktop.DefaultCursor {
		t.Errorf("off the sheet: hint %q, cursor %v", w.status.Hinted, w.sheet.Cursor())
	}
}
