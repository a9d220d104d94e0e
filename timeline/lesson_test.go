package timeline

import (
	"reflect"
	"strings"
	"testing"
)

// TestLessonSays holds a lesson's words to hand-worked numbers: a jump of 43
// frames to touchdown against advantage 42, and a reversal that is active
// three frames after the wake-up.
func TestLessonSays(t *testing.T) {
	p := dropIn(42, reversal(4))
	s := p.Setups[0]
	s.Delay = 2
	plan, err := Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	l := plan.Lesson(2, 1, 0, Breaking)
	if len(l.Steps) != 3 || l.Own != 1 {
		t.Fatalf("%d steps, own %d, want 3 and 1", len(l.Steps), l.Own)
	}
	me, you, move := s.Attacker, s.Rival, s.Replies[0].Move
	if me == you {
		me, you = "the attacker", "the rival"
	}
	want := []struct{ title, sentence string }{
		{"1 frame earlier", "Started 1 frame earlier, " + me + " jumps on frame 1 and lands on frame 44. " +
			move + " hits on frame 45 and meets the guard of " + me + ", which is up from frame 44: 1 frame to spare."},
		{"As it is", me + " jumps on frame 2 and lands on frame 45. " +
			move + " hits on frame 45 and meets the guard of " + me + ", which is up from frame 45: not one frame to spare."},
		{"1 frame later", "Started 1 frame later, " + me + " jumps on frame 3 and lands on frame 46."},
	}
	for i, w := range want {
		got := l.Steps[i]
		if got.Title != w.title || !strings.HasPrefix(got.Sentence, w.sentence) || got.Later != i-1 || got.Delay != i+1 {
			t.Errorf("step %d = %q, %q, want %q, %q", i, got.Title, got.Sentence, w.title, w.sentence)
		}
	}
	if got, want := l.Steps[0].Moved, []Shifted{{"jump", 2, 1}, {"touchdown", 45, 44}}; !reflect.DeepEqual(got, want) {
		t.Errorf("moved %v, want %v", got, want)
	}
	if len(l.Steps[1].Moved) != 0 {
		t.Errorf("the setup as it is has moved: %v", l.Steps[1].Moved)
	}
	if c := l.Steps[0].Contacts[1]; c.Frame != 45 || c.Finds != "a guard" || c.Was != "" || c.Rival != "the first active frame of "+move {
		t.Errorf("contact = %+v, want a guard on 45, as before", c)
	}
}

// TestLessonOfRandomSetups: steps lie one frame apart around the setup, every
// step shows what its plan shows, and contacts agree with the meeting.
func TestLessonOfRandomSetups(t *testing.T) {
	touched, kept, apart := 0, 0, 0
	for seed := range uint64(400) {
		p := randomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		d, n := p.Setups[0].Delay, int(seed%4)
		line := int(seed) % plan.Lines()
		if seed%3 == 0 {
			line = Breaking
		}
		l := plan.Lesson(d, n, 0, line)
		if own := &l.Steps[l.Own]; own.Delay != d || own.Later != 0 || own.Moved != nil {
			t.Fatalf("seed %d: own step %+v, want delay %d", seed, own, d)
		}
		for i := range l.Steps {
			s := &l.Steps[i]
			rise, at := 0, line
			if line == Breaking {
				rise, at = plan.Deciding(s.Delay)
			}
			if s.Delay != l.Steps[0].Delay+i || s.Later != s.Delay-d || s.Later < -n || s.Later > n || s.Scene.Cell != plan.Scene(s.Delay, rise, at).Cell {
				t.Fatalf("seed %d: step %d has delay %d of %d", seed, i, s.Delay, d)
			}
			if s.Scene.Span.To != l.Span.To || !strings.HasSuffix(s.Sentence, ".") {
				t.Fatalf("seed %d: step %d ends on %d of %d; %q", seed, i, s.Scene.Span.To, l.Span.To, s.Sentence)
			}
			for _, c := range s.Contacts {
				if (c.Was != "") != (c.Was != "" && c.Was != c.Finds) || c.Finds == "" {
					t.Fatalf("seed %d: contact %+v", seed, c)
				}
			}
			first := s.Contacts[0]
			idle := plan.Scene(s.Delay, rise, 2).Cell
			meets := idle.Outcome == AttackHits && idle.AfterWake == Some(0) && idle.Meeting == Some(first.Frame)
			if meets && !strings.Contains(first.Finds, "active frame") {
				t.Fatalf("seed %d, delay %d: frame %d meets %q, but touches a rival that does nothing there", seed, s.Delay, first.Frame, first.Finds)
			}
			switch {
			case meets:
				touched++
			case first.Was == "":
				kept++
			default:
				apart++
			}
		}
	}
	if touched == 0 || kept == 0 || apart == 0 {
		t.Errorf("%d contacts touched, %d kept, %d others: want some of each", touched, kept, apart)
	}
}

// TestLessonStaysInRange: no step before delay 0, none past the last delay.
func TestLessonStaysInRange(t *testing.T) {
	p := dropIn(42, reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ d, n, from, to int }{
		{0, 2, 0, 2}, {1, 3, 0, 4}, {3, 0, 3, 3}, {3, -5, 3, 3}, {plan.LastDelay(), 2, plan.LastDelay() - 2, plan.LastDelay()},
		{plan.Fits(), 1, plan.Fits() - 1, plan.Fits()},
	} {
		l := plan.Lesson(c.d, c.n, 0, 3)
		if from, to := l.Steps[0].Delay, l.Steps[len(l.Steps)-1].Delay; from != c.from || to != c.to {
			t.Errorf("Lesson(%d, %d) from %d to %d, want %d to %d", c.d, c.n, from, to, c.from, c.to)
		}
		if short := c.d < c.n; short != (l.Missing != "") {
			t.Errorf("Lesson(%d, %d) says %q is missing", c.d, c.n, l.Missing)
		}
	}
}

// TestLessonSaysWhatAGroundedMoveIsDoing: a jab of startup 5, active for 3, on
// frames 4 to 6 after its start.
func TestLessonSaysWhatAGroundedMoveIsDoing(t *testing.T) {
	p := jabAt(4)
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for frame, want := range map[int]string{0: "jab, not active yet", 3: "jab, not active yet", 4: "jab, active frame 1 of 3", 7: "jab, no longer active", 400: "a guard"} {
		if got := plan.finds(0, frame); got != want {
			t.Errorf("frame %d finds %q, want %q", frame, got, want)
		}
	}
}

// TestTaughtThrowAfterGrace: a throw that meets the first frame that it can is
// not too late, and what it is said to meet is the truth.
func TestTaughtThrowAfterGrace(t *testing.T) {
	p := jabAt(4)
	p.Ruleset.ThrowGraceRise = 2
	p.Fighters[0].Moves = append(p.Fighters[0].Moves, Move{Name: "haul", Kind: Throw, Level: LevelThrow, Startup: 7, Active: []int{2}, Recovery: 20})
	p.Setups[0].Landing = "haul"
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	want := "Hesk begins haul on frame 0. The attack touches Tarn on frame 6, 2 frames after Tarn could first act."
	if got := plan.Lesson(0, 0, 0, 2).Steps[0].Sentence; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
