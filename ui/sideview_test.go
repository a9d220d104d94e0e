package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
)

// spaced is the sample's first setup with a distance, and a wall behind.
func spaced() *timeline.Project {
	p := sample()
	s := &p.Setups[0]
	s.Distance, s.Room = timeline.Some(150), timeline.Some(60)
	return p
}

// holdSide takes hold of a part of the side view, and returns where.
func holdSide(t testing.TB, w *window, part timeline.Part) fyne.Position {
	t.Helper()
	d := w.side.Drawing()
	if d == nil {
		t.Fatal("no side view is drawn")
	}
	for i := len(d.Hots) - 1; i >= 0; i-- {
		h := &d.Hots[i]
		mid := fyne.NewPos(float32((h.Min.X+h.Max.X)/2), float32(h.Min.Y+1))
		if h.Part != part {
			continue
		}
		w.side.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: mid}, Button: desktop.MouseButtonPrimary})
		return mid
	}
	t.Fatalf("part %d can't be taken hold of", part)
	return fyne.Position{}
}

// dragSide moves what is held from a place by so many units of the axis, in
// steps.
func dragSide(w *window, from fyne.Position, units, steps int) {
	for i := 1; i <= steps; i++ {
		at := from.AddXY(float32(float64(units*i)/float64(steps)*w.side.Drawing().View.Scale), 0)
		w.side.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(1, 0)})
	}
}

// TestDragInTheSideView: the rival edits the distance and leaves the wall, the
// wall edits the room, each one step for undo.
func TestDragInTheSideView(t *testing.T) {
	for _, tt := range []struct {
		name           string
		part           timeline.Part
		by             int
		distance, room int
	}{
		{"the rival, away", timeline.PartPlace, 25, 175, 35},
		{"the rival, nearer", timeline.PartPlace, -40, 110, 100},
		{"the rival, past the wall", timeline.PartPlace, 300, 210, 0},
		{"the rival, past the attacker", timeline.PartPlace, -400, 0, 210},
		{"the wall, away", timeline.PartWall, 30, 150, 90},
		{"the wall, past the rival", timeline.PartWall, -200, 150, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := open(t, spaced(), laptop)
			w.toggleSide()
			from := holdSide(t, w, tt.part)
			dragSide(w, from, tt.by, 5)
			got := w.model.Setup()
			if got.Distance != timeline.Some(tt.distance) || got.Room != timeline.Some(tt.room) {
				t.Errorf("while dragging, distance %v and room %v, want %d and %d", got.Distance, got.Room, tt.distance, tt.room)
			}
			if d := w.model.Plan().Distance(); d != timeline.Some(tt.distance) {
				t.Errorf("the plan is of distance %v, want %d", d, tt.distance)
			}
			w.side.DragEnd()
			if got := edits(w.model); got != 1 {
				t.Errorf("%d steps to undo, want 1", got)
			}
			w.undo()
			if got := w.model.Setup(); got.Distance != timeline.Some(150) || got.Room != timeline.Some(60) || w.model.CanUndo() {
				t.Errorf("after undo, distance %v, room %v, more to undo %v", got.Distance, got.Room, w.model.CanUndo())
			}
		})
	}
}

// TestDragTheTouchdown takes the jump that comes nearest, and keeps its own
// where that is the nearest.
func TestDragTheTouchdown(t *testing.T) {
	p := spaced()
	s := &p.Setups[0]
	f := p.Fighter(s.Attacker)
	own := *f.Jump(s.Jump)
	other := own
	other.Name, other.Travel = "leap", own.Travel+40
	f.Jumps = append(f.Jumps, other)
	s.Room = timeline.Some(400) // out of the way
	w := open(t, p, laptop)
	w.toggleSide()
	at := holdSide(t, w, timeline.PartTouchdown)
	dragSide(w, at, (other.Travel-own.Travel)/4, 1)
	if got := w.model.Setup().Jump; got != own.Name {
		t.Errorf("a quarter of the way, the jump is %q, want %q still", got, own.Name)
	}
	dragSide(w, at, other.Travel-own.Travel, 3)
	w.side.DragEnd()
	if got := w.model.Setup().Jump; got != other.Name || edits(w.model) != 1 {
		t.Errorf("the jump is %q after %d steps, want %q after 1", got, edits(w.model), other.Name)
	}
	w.undo()
	if got := w.model.Setup().Jump; got != own.Name {
		t.Errorf("after undo the jump is %q, want %q", got, own.Name)
	}
}

// TestEscapeTakesTheSideDragBack leaves nothing to undo.
func TestEscapeTakesTheSideDragBack(t *testing.T) {
	w := open(t, spaced(), laptop)
	w.toggleSide()
	dragSide(w, holdSide(t, w, timeline.PartPlace), 30, 2)
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.side.DragEnd()
	if got := w.model.Setup().Distance; got != timeline.Some(150) || w.model.CanUndo() {
		t.Errorf("distance %v after Escape, more to undo %v, want 150 and nothing", got, w.model.CanUndo())
	}
}

// TestSideViewFollowsTheLine: it is on the line's frame, and says so of a setup
// without a distance.
func TestSideViewFollowsTheLine(t *testing.T) {
	w := open(t, spaced(), laptop)
	w.toggleSide()
	w.scrub.Set(12)
	a := w.side.Drawing().Desc
	w.scrub.Set(20)
	if b := w.side.Drawing().Desc; a == b || b == "" {
		t.Errorf("on frames 12 and 20 the side view tells %q and %q, want two things", a, b)
	}
	w.toggleSide()
	if w.side.Visible() || !w.replies.Visible() {
		t.Error("the side view is still shown after it was asked for again, want the replies")
	}
}

func BenchmarkDragStepSide(b *testing.B) {
	p := crowd(60)
	p.Setups[0].Distance, p.Setups[0].Room = timeline.Some(150), timeline.Some(60)
	w := open(b, p, fyne.NewSize(1440, 900))
	w.toggleSide()
	from := holdSide(b, w, timeline.PartPlace)
	scale := w.side.Drawing().View.Scale
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		at := from.AddXY(float32(float64(n%24)*scale), 0)
		w.side.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(1, 0)})
	}
}
