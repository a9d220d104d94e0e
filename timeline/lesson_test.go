package timeline_test

import (
	"reflect"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// TestLessonSays holds a lesson's words to hand-worked numbers: a jump of 43
// frames to touchdown against advantage 42, and a reversal that is active
// three frames after the wake-up.
func TestLessonSays(t *testing.T) {
	p := DropIn(42, Reversal(4))
	s := p.Setups[0]
	s.Delay = 2
	plan, err := Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	l := words.LessonAt(plan, 2, 1, 0, words.Breaking)
	if len(l.Steps) != 3 || l.Own != 1 {
		t.Fatalf("%d steps, own %d, want 3 and 1", len(l.Steps), l.Own)
	}
	me, you, move := s.Attacker, s.Rival, s.Replies[0].Move
	if me == you {
		me, you = "the attacker", "the rival"
	}
	passed := "On frame 42 the attack is active but touches nothing: " + move + " is immune to strikes then. "
	want := []struct{ title, sentence string }{
		{"1 frame earlier", "Started 1 frame earlier, " + me + " jumps on frame 1 and lands on frame 44. " +
			passed + move + " touches on frame 45 and is blocked: " + me + " guards from frame 44, with 1 frame to spare."},
		{"As it is", me + " jumps on frame 2 and lands on frame 45. " +
			passed + move + " touches on frame 45 and is blocked: " + me + " guards from frame 45, with no frame to spare."},
		{"1 frame later", "Started 1 frame later, " + me + " jumps on frame 3 and lands on frame 46."},
	}
	for i, w := range want {
		got := l.Steps[i]
		if got.Title != w.title || !strings.HasPrefix(got.Sentence, w.sentence) || got.Later != i-1 || got.Delay != i+1 {
			t.Errorf("step %d = %q, %q, want %q, %q", i, got.Title, got.Sentence, w.title, w.sentence)
		}
	}
	if got, want := l.Steps[0].Moved, []words.Shifted{{What: "jump", From: 2, To: 1}, {What: "lands on", From: 45, To: 44}}; !reflect.DeepEqual(got, want) {
		t.Errorf("moved %v, want %v", got, want)
	}
	if len(l.Steps[1].Moved) != 0 {
		t.Errorf("the setup as it is has moved: %v", l.Steps[1].Moved)
	}
	if c := l.Steps[0].Contacts[1]; c.Frame != 45 || c.Finds != "Hesk guards" || c.Was != "" || c.Rival != "the first active frame of "+move {
		t.Errorf("contact = %+v, want a guard on 45, as before", c)
	}
}

// TestLessonOfRandomSetups: steps lie one frame apart around the setup, every
// step shows what its plan shows, and contacts agree with the meeting.
func TestLessonOfRandomSetups(t *testing.T) {
	touched, kept, apart := 0, 0, 0
	for seed := range uint64(400) {
		p := RandomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		d, n := p.Setups[0].Delay, int(seed%4)
		line := int(seed) % plan.Lines()
		if seed%3 == 0 {
			line = words.Breaking
		}
		l := words.LessonAt(plan, d, n, 0, line)
		if own := &l.Steps[l.Own]; own.Delay != d || own.Later != 0 || own.Moved != nil {
			t.Fatalf("seed %d: own step %+v, want delay %d", seed, own, d)
		}
		for i := range l.Steps {
			s := &l.Steps[i]
			rise, at := 0, line
			if line == words.Breaking {
				rise, at = plan.Deciding(s.Delay)
			}
			if s.Delay != l.Steps[0].Delay+i || s.Later != s.Delay-d || s.Later < -n || s.Later > n || s.Scene.Cell != words.SceneAt(plan, s.Delay, rise, at).Cell {
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
			idle := words.SceneAt(plan, s.Delay, rise, 2).Cell
			meets := idle.Outcome == AttackHits && idle.AfterWake == Some(0) && idle.Meeting == Some(first.Frame)
			if meets && !strings.Contains(first.Finds, "is active, frame") {
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
	p := DropIn(42, Reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ d, n, from, to int }{
		{0, 2, 0, 2}, {1, 3, 0, 4}, {3, 0, 3, 3}, {3, -5, 3, 3}, {plan.LastDelay(), 2, plan.LastDelay() - 2, plan.LastDelay()},
		{plan.Fits(), 1, plan.Fits() - 1, plan.Fits()},
	} {
		l := words.LessonAt(plan, c.d, c.n, 0, 3)
		if from, to := l.Steps[0].Delay, l.Steps[len(l.Steps)-1].Delay; from != c.from || to != c.to {
			t.Errorf("Lesson(%d, %d) from %d to %d, want %d to %d", c.d, c.n, from, to, c.from, c.to)
		}
		if short := c.d < c.n; short != (l.Missing != "") {
			t.Errorf("Lesson(%d, %d) says %q is missing", c.d, c.n, l.Missing)
		}
	}
}

// TestTaughtThrowAfterGrace: a throw that meets the first frame that it can is
// not too late, and what it is said to meet is the truth.
func TestTaughtThrowAfterGrace(t *testing.T) {
	p := JabAt(4)
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
	want := "Hesk begins haul on frame 0. The attack hits Tarn on frame 6, the first on which Tarn can be thrown. After the wake-up Tarn can't be thrown for 2 frames (throw immunity after wake-up)."
	if got := words.LessonAt(plan, 0, 0, 0, 2).Steps[0].Sentence; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestLessonBeginsWithItsAnswer: where it is safe, and why, in one sentence.
func TestLessonBeginsWithItsAnswer(t *testing.T) {
	turn := Move{Name: "turn", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}}
	bait := func(p *Project) { p.Setups[0].Attack = "" }
	for _, c := range []struct {
		name    string
		project *Project
		change  func(p *Project)
		d       int
		want    string
	}{
		{"one delay", DropIn(42, Reversal(2)), nil, 0, "Safe at delay 0: meets the wake-up on 42, lands on 43 and guards; reversal touches on 43 and is blocked, with no frame to spare, 25 frames to punish it."},
		{"several", DropIn(42, Reversal(4)), nil, 1, "Safe at delay 0 to 2 (here at delay 1): meets the wake-up on 42, lands on 44 and guards; reversal touches on 45 and is blocked, with 1 frame to spare, 25 frames to punish it."},
		{"unsafe", DropIn(42, Reversal(4)), nil, 3, "Safe at delay 0 to 2; unsafe at delay 3: reversal hits on 45; the attacker guards only from 46: 1 frame too late."},
		{"missed", DropIn(42, Reversal(4)), nil, 6, "Safe at delay 0 to 2; unsafe at delay 6: a rival that does nothing is hit on 43, 1 frame after its first free frame, advantage +12."},
		{"limited", DropIn(42, Reversal(4), turn), nil, 2, "Safe at delay 0 to 2, but for turn, which no timing covers (here at delay 2): meets the wake-up on 42"},
		{"none", DropIn(42, turn), nil, 0, "No delay is safe: turn parries the attack on 42."},
		{"blank", DropIn(50), bait, 4, "Nothing is demanded yet: no attack follows the ender"},
		{"bait", DropIn(50, Reversal(4)), bait, 4, "Safe at delay 0 to 10 (here at delay 4): a bait, which has no attack, lands on 47 and guards; "},
	} {
		if c.change != nil {
			c.change(c.project)
		}
		plan, err := Compile(c.project, c.project.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		if got := words.LessonAt(plan, c.d, 1, 0, words.Breaking).Answer; !strings.HasPrefix(got, c.want) || !strings.HasSuffix(got, ".") {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestLessonNamesAnotherReply: where the reply that decides changes from one
// step to the next it is said, and no meeting is said to have moved from the
// one reply's to the other's.
func TestLessonNamesAnotherReply(t *testing.T) {
	p := DropIn(42, Reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	l := words.LessonAt(plan, 5, 1, 0, words.Breaking) // at 4 and 5 the reversal breaks it, at 6 the missed wake-up
	if got := l.Steps[1].Changed; got != "" {
		t.Errorf("delay 5: %q", got)
	}
	if got, want := l.Steps[2].Changed, "What decides here is a rival that does nothing; in the step above it was reversal."; got != want {
		t.Errorf("delay 6: %q, want %q", got, want)
	}
	changed, meetings := 0, 0
	for seed := range uint64(400) {
		p := RandomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		l := words.LessonAt(plan, plan.Setup.Delay, 3, 0, words.Breaking)
		own := &l.Steps[l.Own].Scene
		for i := range l.Steps {
			s := &l.Steps[i]
			if i > 0 {
				before := &l.Steps[i-1].Scene
				other := before.Reply != s.Scene.Reply || before.Rise != s.Scene.Rise
				if other != (s.Changed != "") {
					t.Fatalf("seed %d: from %s to %s it says %q", seed, before.Reply, s.Scene.Reply, s.Changed)
				}
				if other {
					changed++
				}
			}
			for _, m := range s.Moved {
				if m.What == "meeting" {
					if meetings++; own.Reply != s.Scene.Reply || own.Rise != s.Scene.Rise {
						t.Fatalf("seed %d: the meeting with %s moved from that with %s", seed, s.Scene.Reply, own.Reply)
					}
				}
			}
		}
	}
	if changed == 0 || meetings == 0 {
		t.Errorf("%d changes, %d meetings moved", changed, meetings)
	}
}

// TestLessonShowsAlso: a delay far from the setup's own is shown too, once.
func TestLessonShowsAlso(t *testing.T) {
	p := DropIn(47, Reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		also []int
		want []int
		own  int
	}{{nil, []int{5, 6, 7}, 1}, {[]int{0}, []int{0, 5, 6, 7}, 2}, {[]int{20}, []int{5, 6, 7, 20}, 1}, {[]int{7}, []int{5, 6, 7}, 1}} {
		l := words.LessonAt(plan, 6, 1, 0, words.Breaking, c.also...)
		var got []int
		for _, s := range l.Steps {
			got = append(got, s.Delay)
		}
		if !reflect.DeepEqual(got, c.want) || l.Own != c.own || l.Steps[l.Own].Delay != 6 {
			t.Errorf("with %v: %v, own %d, want %v, own %d", c.also, got, l.Own, c.want, c.own)
		}
	}
}
