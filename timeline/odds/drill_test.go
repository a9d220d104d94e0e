package odds

import (
	"math"
	"os"
	"slices"
	"testing"

	"wakeline/timeline"
)

// yard is a project of one setup: a jump of 43 frames to touchdown that needs
// advantage 42, so that at 50, after a filler of 6, the delay is 2.
func yard(t *testing.T, buffer int) (*timeline.Project, timeline.Setup) {
	t.Helper()
	rules := timeline.DefaultRuleset()
	rules.Buffer = buffer
	p := &timeline.Project{Ruleset: rules, Fighters: []timeline.Fighter{
		{Name: "Amon", Moves: []timeline.Move{
			{Name: "step", Kind: timeline.Dash, Length: 6},
			{Name: "heel", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 7, Active: []int{3}, Guardstun: timeline.Some(12), Hitstun: timeline.Some(14)},
		}, Jumps: []timeline.Jump{{Name: "hop", Prejump: 4, Airborne: 39, Landing: 3}}, Rises: []timeline.Rise{{Name: "normal"}}},
		{Name: "Bera", Moves: []timeline.Move{{Name: "burst", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 30}}, Rises: []timeline.Rise{{Name: "normal"}}},
	}}
	s := timeline.Setup{Name: "hop in", Attacker: "Amon", Rival: "Bera", Position: timeline.Midscreen, Advantage: timeline.Some(50),
		Fillers: []string{"step"}, Delay: 2, Jump: "hop", Attack: "heel", Landing: timeline.DoGuard,
		Replies: []timeline.Reply{{Move: "burst", Demand: timeline.Survive}}}
	p.Setups = []timeline.Setup{s}
	return p, s
}

func drillOf(t *testing.T, buffer int) *Drill {
	t.Helper()
	p, s := yard(t, buffer)
	d, err := NewDrill(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// at is how many nanoseconds after a round's beginning a moment is.
func at(moment float64) int64 { return int64(math.Ceil((moment + Lead) * 1e9 / 60)) }

func TestADrillAsksForTheWindow(t *testing.T) {
	d := drillOf(t, 4)
	p, s := yard(t, 4)
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	want, _ := plan.WindowSet().Shift(6)
	if !d.Good || d.What != "jump" || d.Jump.Window.Good != want || d.Jump.Window.First != 6 || d.Jump.Aim != 8.5 || want.Empty() {
		t.Errorf("drill %+v, want the window %v and 8.5 to aim at", d, want)
	}
	if d.End <= 8+43 {
		t.Errorf("a round is over on %d, before the landing", d.End)
	}
}

func TestAPressIsJudgedByFloor(t *testing.T) {
	d := drillOf(t, 0)
	spans := d.Jump.Window.Spans()
	first, last := spans[0].From, spans[len(spans)-1].To-1
	frame := 1000.0 / 60
	for _, c := range []struct {
		moment float64
		frame  int
		off    int
	}{
		{float64(first), first, 0}, {float64(first) - 0.001, first - 1, -1}, {float64(last) + 0.999, last, 0},
		{float64(last) + 1, last + 1, 1}, {float64(last) + 4.5, last + 4, 4}, {-3.25, -4, -4 - first},
	} {
		got := d.Press(d.Jump, at(c.moment))
		if got.Frame != c.frame || got.Off != c.off || math.Abs(got.Late-(c.moment-d.Jump.Aim)*frame) > 0.001 {
			t.Errorf("a press at %v: %+v, want frame %d, off %d", c.moment, got, c.frame, c.off)
		}
	}
}

func TestTheBufferHoldsAnEarlyPress(t *testing.T) {
	w := Window{good(timeline.Span{From: 6, To: 8}), 6, 4}
	d := &Drill{rules: timeline.DefaultRuleset()}
	for _, c := range []struct {
		moment    float64
		acts, off int
	}{{1.9, -1, -1}, {2, 6, 0}, {5.9, 6, 0}, {7, 7, 0}, {8, 8, 1}} {
		if p := d.Press(Target{w, 6.5}, at(c.moment)); p.Acts != c.acts || p.Off != c.off {
			t.Errorf("pressed at %v: acts on %d, off %d, want %d, %d", c.moment, p.Acts, p.Off, c.acts, c.off)
		}
	}
}

// In the game a press within the buffer acts on the first possible frame, also
// where that one is not good: the jump comes on it, and is early by so much.
func TestAPressInTheBufferJumpsOnTheFirstFrame(t *testing.T) {
	d := &Drill{rules: timeline.DefaultRuleset()}
	at0 := Target{Window{good(timeline.Span{From: 2, To: 4}), 0, 3}, 2.5}
	later := Target{Window{good(timeline.Span{From: 40, To: 42}), 6, 3}, 40.5}
	for _, c := range []struct {
		target    Target
		moment    float64
		acts, off int
		words     string
		counts    bool
	}{
		{at0, -3.01, -1, -6, "The jump does not come: it was pressed on -4, and a press acts from -3 on.", true},
		{at0, -2.5, 0, -2, "The jump comes 2 frames early, on 0: pressed on -3, the buffer holds it until 0.", true},
		{at0, -0.5, 0, -2, "The jump comes 2 frames early, on 0: pressed on -1, the buffer holds it until 0.", true},
		{at0, 0.5, 0, -2, "The jump comes 2 frames early, on 0.", true},
		{at0, 2, 2, 0, "The jump comes in time, on 2.", true},
		{at0, 4, 4, 1, "The jump comes 1 frame late, on 4.", true},
		// Long before the aim, but not before it would act: it is the round's press.
		{later, 3.5, 6, -34, "The jump comes 34 frames early, on 6: pressed on 3, the buffer holds it until 6.", true},
		{later, 2.5, -1, -38, "The jump does not come: it was pressed on 2, and a press acts from 3 on.", false},
	} {
		p := d.Press(c.target, at(c.moment))
		if p.Acts != c.acts || p.Off != c.off || p.Words("jump") != c.words || d.Counts(c.target, at(c.moment)) != c.counts {
			t.Errorf("pressed at %v: acts on %d, off %d, %q, counts %v, want %+v", c.moment, p.Acts, p.Off, p.Words("jump"), d.Counts(c.target, at(c.moment)), c)
		}
	}
}

// What the drill takes for a good press of the attack, the core finds so.
func TestTheAttackIsPressedWhereTheSetupStaysGood(t *testing.T) {
	p, s := yard(t, 4)
	d := drillOf(t, 4)
	target, ok := d.Attack(8)
	if !ok || target.Window.First != 12 {
		t.Fatalf("target %+v, %v", target, ok)
	}
	// The core's own press, pressed on the frame whose middle is aimed at.
	if plan, err := timeline.Compile(p, s); err != nil || target.Aim != float64(12+plan.Press())+0.5 {
		t.Errorf("aims at %v, %v", target.Aim, err)
	}
	if !target.Window.Good.Has(int(target.Aim)) {
		t.Errorf("aims at %v, which is not good", target.Aim)
	}
	for press := range 39 {
		s.Press = timeline.Some(press)
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if want := plan.Word(2) != timeline.Unsafe; target.Window.Good.Has(12+press) != want {
			t.Errorf("pressed on air frame %d: %v, want %v", press, !want, want)
		}
	}
	if later, _ := d.Attack(10); later.Aim != target.Aim+2 {
		t.Errorf("a jump 2 later moves the aim from %v to %v", target.Aim, later.Aim)
	}
}

func TestNoTimingIsGood(t *testing.T) {
	p, s := yard(t, 0)
	s.Advantage, s.Fillers = timeline.Some(20), nil
	d, err := NewDrill(p, s)
	if err != nil {
		t.Fatal(err)
	}
	if d.Good || d.Jump.Aim != 2.5 || d.Jump.Window.Off(2) != 0 || d.Jump.Window.Off(4) != 2 {
		t.Errorf("drill %+v", d)
	}
	s.Delay = 500
	if _, err := NewDrill(p, s); err == nil {
		t.Error("a setup that does not fit the width can be drilled")
	}
}

func TestFalseStartsDoNotCount(t *testing.T) {
	d := drillOf(t, 4)
	for moment, want := range map[float64]bool{d.Jump.Aim - 31: false, d.Jump.Aim - 30: true, d.Jump.Aim + 100: true} {
		if got := d.Counts(d.Jump, at(moment)); got != want {
			t.Errorf("a press at %v counts: %v, want %v", moment, got, want)
		}
	}
}

// A press lands where Around says.
func TestAroundTheAim(t *testing.T) {
	d := drillOf(t, 4)
	around := d.Around(d.Jump)
	if len(around) == 0 {
		t.Fatal("nowhere")
	}
	for moment := d.Jump.Aim - 12; moment < d.Jump.Aim+12; moment += 0.26 {
		p := d.Press(d.Jump, at(moment))
		in := false
		for _, r := range around {
			in = in || r[0] <= p.Late && p.Late < r[1]
		}
		if in != (p.Off == 0) {
			t.Errorf("a press %v ms late: in %v, %+v", p.Late, around, p)
		}
	}
}

func TestBeats(t *testing.T) {
	for moment, want := range map[float64]int{-Lead: 3, -61: 3, -60: 2, -31: 2, -30: 1, -0.1: 1, 0: 0, 12: 0} {
		if got := Beat(moment); got != want {
			t.Errorf("Beat(%v) = %d, want %d", moment, got, want)
		}
	}
}

func TestMeasuredPerson(t *testing.T) {
	late := []float64{5, 3, 8, 1, 6, 4, 5, 7, 2}
	if _, ok := Measured(late); ok {
		t.Error("9 presses are believed")
	}
	p, ok := Measured(append(late, 400))
	if !ok || p.Presses != 10 || p.Bias != 5 || p.Spread > 10 || p.Assumed {
		t.Errorf("person %+v, %v: the missed press moves it", p, ok)
	}
	if got := (Person{Spread: 20.04, Bias: 3}).Words(); got != "A hand with 20 ms spread, 3 ms late (set by hand)" {
		t.Errorf("words %q", got)
	}
	ann := Person{Spread: 20, Presses: 40, Name: "Ann"}
	if got := ann.Words(); got != "A hand with 20 ms spread (measured in 40 presses of Ann)" || ann.short() != "20 ms, measured" {
		t.Errorf("words %q and %q", got, ann.short())
	}
}

func TestEstimateLines(t *testing.T) {
	e := Estimate{Bias: Figure{-4.26, 2}, Spread: Figure{20, 3}, RobustBias: Figure{1, 2}, RobustSpread: Figure{18.5, 3}, Missed: 1}
	lines := e.Lines()
	if len(lines) != 3 || lines[0] != "Plain: 4.3 ms early on average (standard error 2 ms), spread 20 ms (standard error 3 ms)." ||
		lines[1] != "Robust: 1 ms late on average (standard error 2 ms), spread 18.5 ms (standard error 3 ms)." {
		t.Errorf("lines %q", lines)
	}
	if e.Missed = 0; len(e.Lines()) != 2 {
		t.Error("a missed press that was not")
	}
}

// TestBeatTimes: the count's beats are where Frame has them.
func TestBeatTimes(t *testing.T) {
	d := drillOf(t, 4)
	beats := d.Beats()
	if len(beats) != Beats+1 {
		t.Fatalf("%d beats, want %d", len(beats), Beats+1)
	}
	for k, b := range beats {
		if got, want := d.Moment(b.Nanoseconds()), float64(k*Lead/Beats-Lead); math.Abs(got-want) > 1e-6 {
			t.Errorf("beat %d at %g, want %g", k, got, want)
		}
	}
}

// TestDrillPressesKeepTheVerdict: a press that lands meets every demand that
// the set one meets, in the demo and with each of its attacks pressed anywhere.
func TestDrillPressesKeepTheVerdict(t *testing.T) {
	text, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := timeline.ReadText(text)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, s := range p.Setups {
		// Against all that the rival has, to be beaten: presses differ most there.
		s.Replies = nil
		rival := p.Fighter(s.Rival)
		for _, m := range rival.Moves {
			if !m.Air {
				s.Replies = append(s.Replies, timeline.Reply{Move: m.Name, Demand: timeline.Beat})
			}
		}
		for _, j := range rival.Jumps {
			s.Replies = append(s.Replies, timeline.Reply{Move: j.Name, Demand: timeline.Beat})
		}
		d, err := NewDrill(p, s)
		if err != nil || !d.Air || !d.Good {
			continue
		}
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if plan.Word(s.Delay) == timeline.Unsafe {
			continue
		}
		set := plan.Verdict(s.Delay)
		for _, at := range d.presses.Spans() {
			for press := at.From; press < at.To; press++ {
				s.Press = timeline.Some(press)
				plan, err := timeline.Compile(p, s)
				if err != nil {
					t.Fatal(err)
				}
				got := plan.Verdict(s.Delay)
				for r := range set.Rises {
					for i, want := range set.Rises[r].Replies {
						if is := got.Rises[r].Replies[i]; want.Demand == timeline.Beat && met(want) && !met(is) && !slices.Contains(set.Uncovered, want.Reply) {
							t.Errorf("%s: pressed on %d, %s is %v, and %v as set", s.Name, press, want.Reply, is.Outcome, want.Outcome)
						}
						checked++
					}
				}
			}
		}
	}
	if checked < 100 {
		t.Errorf("only %d exchanges were looked at", checked)
	}
}

// met reports whether a reply that is to be beaten is.
func met(v timeline.ReplyVerdict) bool {
	switch v.Outcome.String() {
	case "stuffed", "held":
		return true
	case "let through":
		return !v.ToPunish.Given || v.ToPunish.N > 0
	}
	return false
}
