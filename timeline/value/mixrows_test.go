package value

import (
	"context"
	"math"
	"math/big"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// TestWhatARowIsAsked: a row's own costs stand before those of another, and the
// columns are the rises that some row claims, also for a row that doesn't.
func TestWhatARowIsAsked(t *testing.T) {
	p := ringOf(t)
	bea := &p.Fighters[1]
	bea.Rises = []timeline.Rise{{Name: "normal"}, {Name: "never", Extra: 1}, {Name: "late", Extra: 6}}
	p.Setups[0].Rises, p.Setups[2].Rises = []string{"normal"}, []string{"late"}
	p.Setups[2].Replies = []timeline.Reply{{Move: "rise", Demand: timeline.Survive, Costs: timeline.Some(70)}}
	m, err := mixOf(p, []timeline.Setup{p.Setups[0], p.Setups[2]}, Gauges{})
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Columns) != 10 || m.Columns[0].Rise != "normal" || m.Columns[5].Rise != "late" {
		t.Fatalf("columns: %+v", m.Columns)
	}
	// On the late rise the kick is over on 12, before 16.
	want := payoffs(t, "0 0 153 -200 173 0 0 0 -200 -20; -110 -110 100 -70 120 0 0 0 -70 -20")
	if shares(flat(m.Payoff)) != shares(flat(want)) {
		t.Errorf("payoffs %v", m.Payoff)
	}
	never := 0
	for _, r := range m.Rows {
		if r.Never && r.Share.Sign() != 0 {
			t.Errorf("a row with a share is never used: %+v", r)
		}
	}
	for _, c := range m.Columns {
		if c.Never && c.Share.Sign() != 0 {
			t.Errorf("a column with a share is never used: %+v", c)
		} else if c.Never {
			never++
		}
	}
	if never == 0 || m.Rows[0].Never && m.Rows[1].Never {
		t.Errorf("never used: %d columns, rows %+v", never, m.Rows)
	}
}

// TestTheStringIsOfTheRowsOwnRise: on the late rise, the one that it claims, a
// kick at delay 6 is over too soon, so that there is no string: guarded on the
// normal rise it is at -3. By hand, aimed at 8 against a wake-up on 12, only
// what lands on 6 is such a kick: on 5 it is at -2, from 7 on the string
// follows, at +3.
func TestTheStringIsOfTheRowsOwnRise(t *testing.T) {
	p := ringOf(t)
	s := &p.Setups[2]
	s.Pressure, s.Rises, s.Follow = 0, []string{"late"}, []timeline.FollowStep{{Move: "five", By: timeline.Cancel}}
	other := p.Setups[1]
	other.Rises = []string{"normal"}
	for _, c := range []struct {
		extra, delay int
		hand         *odds.Hand
		want         float64
	}{
		{6, 6, nil, -150}, {0, 6, nil, 0},
		{2, 8, &odds.Hand{Spread: 1}, -150 * 0.5 * (math.Erfc(1.5/math.Sqrt2) - math.Erfc(2.5/math.Sqrt2))},
	} {
		p.Fighters[1].Rises = []timeline.Rise{{Name: "normal"}, {Name: "late", Extra: c.extra}}
		s.Delay = c.delay
		m, err := NewBook(p).Mix(context.Background(), timeline.NewIndex(p), []timeline.Setup{*s, other}, MixOptions{Hand: c.hand})
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := m.Payoff[0][0].Float64(); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("a late rise %d later, delay %d: guarded on the normal one %v, want %v", c.extra, c.delay, got, c.want)
		}
	}
}

// TestAKnockdownAtTheOtherPositionLeadsNowhere: drop knocks down midscreen.
func TestAKnockdownAtTheOtherPositionLeadsNowhere(t *testing.T) {
	p := ringOf(t)
	s := &p.Setups[2]
	s.OnHit, s.Pressure, s.Advantage = "down", 400, timeline.Some(10)
	for position, carried := range map[timeline.Position]bool{timeline.Midscreen: true, timeline.Wall: false} {
		s.Position = position
		o := MixOptions{Carry: timeline.Ratio{Num: 1, Den: 2}, Pair: p.Setups[2:]}
		m, err := NewBook(p).Mix(context.Background(), timeline.NewIndex(p), p.Setups[2:], o)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := m.Payoff[0][timeline.LineNothing].Float64()
		if want := map[bool]float64{true: 246, false: 123}[carried]; math.Abs(got-want) > 1e-6 || m.Exact == carried {
			t.Errorf("%s: a hit makes %v, want %v; exact %v", position, got, want, m.Exact)
		}
	}
}

// TestPay plays routes from a gauge: what is left is at most a full one.
func TestPay(t *testing.T) {
	p := ringOf(t)
	ada := &p.Fighters[0]
	ada.Move("five").GaugeGain = 2
	some, none := timeline.Some, timeline.Maybe{}
	steps := []timeline.RouteStep{{Move: "five", By: timeline.Cancel}, {Move: "drop", By: timeline.Cancel}} // gains 2, then costs 2
	for _, c := range []struct {
		cost, gain timeline.Maybe
		needs      int
		left       [4]int // from 0 to 3; -1 where it can't be paid
	}{
		{none, none, 0, [4]int{0, 1, 1, 1}},
		{some(1), none, 1, [4]int{-1, 2, 3, 3}},
		{some(1), some(1), 1, [4]int{-1, 1, 2, 3}},
		{none, some(2), 2, [4]int{-1, -1, 2, 3}},
		{none, some(5), 2, [4]int{-1, -1, 3, 3}},
	} {
		r := RouteOf(p.Ruleset, ada, &timeline.Route{Name: "trial", GaugeCost: c.cost, GaugeGain: c.gain, Steps: steps})
		if r.Needs() != some(c.needs) {
			t.Errorf("cost %v, gain %v: needs %v, want %d", c.cost, c.gain, r.Needs(), c.needs)
		}
		for gauge, want := range c.left {
			if left, ok := r.Pay(gauge); ok != (want >= 0) || ok && left != want {
				t.Errorf("cost %v, gain %v: from %d %d is left, %v; want %d", c.cost, c.gain, gauge, left, ok, want)
			}
		}
	}
}

// TestFinishAsksTheReplyAtOnce: a setup that meets the rise when it comes late
// is beaten by it on the wake-up's first frame.
func TestFinishAsksTheReplyAtOnce(t *testing.T) {
	p := ringOf(t)
	s := &p.Setups[2]
	s.Replies = []timeline.Reply{{Move: "rise", Demand: timeline.Survive, Late: 3}}
	for reply, ends := range map[string]bool{"rise": false, "jab": true} {
		f, err := NewBook(p).Finish(context.Background(), timeline.NewIndex(p), FinishQuery{Begin: *s, Setups: p.Setups, Reply: reply, Health: timeline.Some(100)})
		if err != nil || f.Ends != ends {
			t.Errorf("%s: %+v, %v; want an end: %v", reply, f, err, ends)
		}
	}
}

// TestAWideHandCountsAtBothEnds: half of its presses pass the last delay.
func TestAWideHandCountsAtBothEnds(t *testing.T) {
	for _, l := range landings(&odds.Hand{Spread: 1e4}, 1, 3) {
		got, _ := l.chance.Float64()
		if want := map[int]float64{0: 0.5, 3: 0.5}[l.delay]; math.Abs(got-want) > 1e-3 {
			t.Errorf("on %d: %v, want %v", l.delay, got, want)
		}
	}
	if l := landings(&odds.Hand{Spread: 2}, 0, 3); len(l) != 1 || l[0].chance.Cmp(big.NewRat(1, 1)) != 0 {
		t.Errorf("no wait to count: %v", l)
	}
}

// TestAFinishOfSafeSetups: a kick one frame late meets no wake-up, so it is no
// round, though it would hit.
func TestAFinishOfSafeSetups(t *testing.T) {
	p := ringOf(t)
	for delay, ends := range map[int]bool{6: true, 7: false} {
		p.Setups[2].Delay = delay
		f, err := NewBook(p).Finish(context.Background(), timeline.NewIndex(p), FinishQuery{Begin: p.Setups[2], Setups: p.Setups, Reply: timeline.Nothing, Health: timeline.Some(100)})
		if err != nil || f.Ends != ends {
			t.Errorf("delay %d: %+v, %v; want an end: %v", delay, f, err, ends)
		}
	}
}

// TestTheNextRoundIsOfThePairAndPlace: a kick into drop does 123 and leads to
// the setups after drop, but not to those of others, or elsewhere.
func TestTheNextRoundIsOfThePairAndPlace(t *testing.T) {
	p := ringOf(t)
	ada, bea := p.Fighters[0], p.Fighters[1]
	ada.Name, bea.Name = "Cid", "Dee"
	p.Fighters = append(p.Fighters, ada, bea)
	begin := p.Setups[2]
	begin.OnHit, begin.Advantage = "down", timeline.Some(10)
	for _, c := range []struct {
		name   string
		change func(s *timeline.Setup)
		rounds int
	}{
		{"the same", func(*timeline.Setup) {}, 2},
		{"another attacker", func(s *timeline.Setup) { s.Attacker = "Cid" }, 1},
		{"another rival", func(s *timeline.Setup) { s.Rival = "Dee" }, 1},
		{"at the wall", func(s *timeline.Setup) { s.Position = timeline.Wall }, 1},
		{"after another ender", func(s *timeline.Setup) { s.Ender = "six" }, 1},
	} {
		next := begin
		next.Name = "next"
		c.change(&next)
		f, err := NewBook(p).Finish(context.Background(), timeline.NewIndex(p), FinishQuery{Begin: begin, Setups: []timeline.Setup{next}, Reply: timeline.Nothing, Health: timeline.Some(200)})
		if err != nil || f.Ends != (c.rounds == 2) || len(f.Rounds) != c.rounds {
			t.Errorf("%s: %+v, %v; want %d rounds", c.name, f, err, c.rounds)
		}
	}
}

// TestARivalThatCantPay: a reply that its gauge doesn't pay is no column.
func TestARivalThatCantPay(t *testing.T) {
	p := ringOf(t)
	p.Fighters[1].Move("rise").GaugeCost = 2
	for gauge, columns := range map[int]int{0: 4, 1: 4, 2: 5, 3: 5} {
		if m, err := mixOf(p, p.Setups, Gauges{Rival: timeline.Some(gauge)}); err != nil || len(m.Columns) != columns {
			t.Errorf("with %d segments: %+v, %v; want %d columns", gauge, m, err, columns)
		}
	}
}
