package odds

import (
	"slices"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

func TestWaitWords(t *testing.T) {
	p, s := yard(t, 4)
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	me := Anyone()
	w := WaitOf(plan, 2, me.Timing(p.Ruleset))
	hand := me.Timing(p.Ruleset).Hand
	if !w.Needed || w.Chance != hand.On(w.Window, 2) || w.Best < w.Chance {
		t.Errorf("wait %+v", w)
	}
	for _, c := range []struct {
		name   string
		change func(*timeline.Project, *timeline.Setup, *Person)
		want   string
	}{
		{"as it is", func(*timeline.Project, *timeline.Setup, *Person) {}, ""},
		{"no wait", func(_ *timeline.Project, s *timeline.Setup, _ *Person) { s.Delay, s.Advantage = 0, timeline.Some(48) },
			"No counted wait: each input is held by the buffer until its frame, so the chain is exact."},
		{"no wait and no buffer", func(p *timeline.Project, s *timeline.Setup, _ *Person) {
			p.Ruleset.Buffer, s.Delay, s.Advantage = 0, 0, timeline.Some(48)
		}, "A hand with 25 ms spread (assumed) comes through this chain 15 % of the time: without a buffer every link must be timed."},
		{"nothing is good", func(_ *timeline.Project, s *timeline.Setup, _ *Person) {
			s.Advantage, s.Fillers = timeline.Some(20), nil
		}, ""},
		{"one's own hand", func(_ *timeline.Project, _ *timeline.Setup, of *Person) {
			*of = Person{Bias: -4.04, Spread: 0, Presses: 40}
		},
			"A hand with 0 ms spread, 4 ms early (measured in 40 presses) lands this 100 % of the time; best aim: delay 3."},
	} {
		p, s := yard(t, 4)
		me := Anyone()
		c.change(p, &s, &me)
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		w := WaitOf(plan, s.Delay, me.Timing(p.Ruleset))
		if c.name == "as it is" {
			c.want = "A hand with 25 ms spread (assumed) lands this " + words.Percent(w.Chance) + " of the time; best aim: " + aimWords(w.Aim)
			if words.Percent(w.Best) != words.Percent(w.Chance) {
				c.want += ", " + words.Percent(w.Best)
			}
			c.want += "."
		}
		if got := w.Words(me); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Without a buffer the best aim has to come through the links before it too.
func TestTheBestAimNeedsTheLinks(t *testing.T) {
	p, s := yard(t, 0)
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	timing := Anyone().Timing(p.Ruleset)
	w := WaitOf(plan, s.Delay, timing)
	if _, alone, _ := timing.Hand.Best(w.Window); w.Best != timing.Link()*alone || timing.Link() >= 0.3 || alone <= 0.3 {
		t.Errorf("best %v, of %v by itself after one link of %v", w.Best, alone, timing.Link())
	}
	bare := s
	bare.Fillers, bare.Delay = nil, 8
	if plan, err = timeline.Compile(p, bare); err != nil {
		t.Fatal(err)
	}
	if b := WaitOf(plan, 8, timing); b.Best <= w.Best {
		t.Errorf("without a filler %v, with one %v", b.Best, w.Best)
	}
}

// In short it says what the words say.
func TestFactsOfAWait(t *testing.T) {
	for _, c := range []struct {
		name          string
		delay, k, buf int
		of            Person
		want          []words.Fact
	}{
		{"no wait", 0, 48, 4, Anyone(), []words.Fact{{Name: "lands by hand", Value: "exact, no counted wait"}}},
		{"no wait and no buffer", 0, 48, 0, Person{Spread: 25}, []words.Fact{{Name: "lands by hand", Value: "15 %, no buffer"}, {Name: "your spread", Value: "25 ms, set by hand"}}},
		{"nothing is good", 2, 20, 4, Anyone(), nil},
		{"a hand that never errs", 2, 0, 4, Person{Bias: -4.04, Presses: 40}, []words.Fact{
			{Name: "lands by hand", Value: "100 %"}, {Name: "best aim", Value: "delay 3"},
			{Name: "lands at that aim", Value: "100 %"}, {Name: "your spread", Value: "0 ms, measured"}}},
	} {
		p, s := yard(t, c.buf)
		s.Delay = c.delay
		if p.Ruleset.Buffer = c.buf; c.k > 0 {
			s.Advantage = timeline.Some(c.k)
		}
		if c.want == nil {
			s.Fillers = nil
		}
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		w := WaitOf(plan, s.Delay, c.of.Timing(p.Ruleset))
		if got := w.Facts(c.of); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestCurveMeetsTheChances(t *testing.T) {
	p, s := yard(t, 0)
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	timing := Anyone().Timing(p.Ruleset)
	w := WaitOf(plan, 2, timing)
	curve, last := w.Curve(4), w.Window.Good.Last()
	if len(curve)%4 != 1 || len(curve) < 4*(last+1)+1 || curve[len(curve)-1] >= 0.005 || curve[4*last] < 0.005 {
		t.Fatalf("%d values, the last %v", len(curve), curve[len(curve)-1])
	}
	for d := range len(curve) / 4 {
		at := WaitOf(plan, d, timing)
		if got, want := curve[4*d], timing.Link()*timing.Hand.On(w.Window, d); got != want || d > 0 && got != at.Chance {
			t.Errorf("delay %d: %v, want %v", d, got, want)
		}
	}
	if none := (&Wait{}).Curve(4); none != nil {
		t.Errorf("a curve over nothing: %v", none)
	}
}

func TestAimWords(t *testing.T) {
	for m, want := range map[float64]string{
		0.5: "delay 0", 2.5: "delay 2", 2.1: "between delay 1 and 2", 1.9: "between delay 1 and 2", 0.1: "delay 0",
		-0.4: "1 frame before delay 0", -1.9: "2 frames before delay 0",
	} {
		if got := aimWords(m); got != want {
			t.Errorf("aimWords(%v) = %q, want %q", m, got, want)
		}
	}
}
