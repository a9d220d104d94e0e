package value

import (
	"context"
	"math"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

func mixOf(p *timeline.Project, setups []timeline.Setup, g Gauges) (*Mix, error) {
	return NewBook(p).Mix(context.Background(), timeline.NewIndex(p), setups, MixOptions{Gauges: g})
}

// TestMix works the payoffs out by hand: block guards everything and punishes
// the rise for 999; meaty and plain meet the wake-up. Plain doesn't list the
// rise, so it costs what meaty, the first that does, says: 200.
func TestMix(t *testing.T) {
	p := ringOf(t)
	m, err := mixOf(p, p.Setups, Gauges{})
	if err != nil {
		t.Fatal(err)
	}
	var columns []string
	for _, c := range m.Columns {
		columns = append(columns, c.Reply)
	}
	if got := strings.Join(columns, ", "); got != "guard high, guard low, nothing, rise, jab" {
		t.Fatalf("columns: %s", got)
	}
	want := payoffs(t, "0 0 153 -200 173; 0 0 0 999 0; -110 -110 100 -200 120")
	if len(m.Payoff) != len(want) || shares(flat(m.Payoff)) != shares(flat(want)) {
		t.Fatalf("payoffs %v", m.Payoff)
	}
	g := Game{Value: m.Value}
	for _, r := range m.Rows {
		g.Rows = append(g.Rows, r.Share)
	}
	for _, c := range m.Columns {
		g.Columns = append(g.Columns, c.Share)
	}
	if err := g.Check(m.Payoff); err != nil || m.Value.Sign() != 0 {
		t.Errorf("value %s: %v", m.Value.RatString(), err)
	}
	if r := m.Columns[3]; r.BestRow != 1 || r.Best.RatString() != "999" || m.Rows[2].Worst.RatString() != "-200" || !m.Columns[3].Never && m.Columns[3].Share.Sign() != 0 {
		t.Errorf("the rise: %+v", r)
	}
}

// TestWhatIsNoMix: setups of different enders, and a mix without rows.
func TestWhatIsNoMix(t *testing.T) {
	p := ringOf(t)
	p.Setups[1].Position = timeline.Wall
	if _, err := mixOf(p, p.Setups[:2], Gauges{}); err == nil || !strings.Contains(err.Error(), "one attacker, rival, ender and position") {
		t.Errorf("two positions: %v", err)
	}
	p = ringOf(t)
	p.Setups[2].Landing, p.Setups[2].Delay = "drop", 2
	none := Gauges{Attacker: timeline.Some(0)}
	if _, err := mixOf(p, p.Setups[2:], none); err == nil || !strings.Contains(err.Error(), "the gauge doesn't pay") {
		t.Errorf("no row: %v", err)
	}
	if m, err := mixOf(p, p.Setups, none); err != nil || len(m.Rows) != 2 || len(m.LeftOut) != 1 || m.LeftOut[0].Setup != "plain" {
		t.Errorf("one left out: %+v, %v", m, err)
	}
}

// TestMixByHand: a press aimed at delay 6 that lands with a spread of one frame
// on it has 38.3 of 100, and 24.2 on each side of it. A hand that never errs
// changes nothing; one that always comes late and knows it, neither.
func TestMixByHand(t *testing.T) {
	for _, h := range []odds.Hand{{Spread: 1}, {Spread: 1, Bias: 3}} {
		sum := 0.0
		for _, l := range landings(&h, 6, 60) {
			got, _ := l.chance.Float64()
			sum += got
			if want := map[int]float64{5: 0.24173, 6: 0.38292, 7: 0.24173}[l.delay]; want > 0 && math.Abs(got-want) > 1e-5 {
				t.Errorf("%+v on %d: %v, want %v", h, l.delay, got, want)
			}
		}
		if sum != 1 {
			t.Errorf("%+v: all chances are %v", h, sum)
		}
	}
	// Beyond either end it counts on the end: half of a wide hand's presses.
	wide := landings(&odds.Hand{Spread: 1e4}, 1, 3)
	if got, _ := wide[0].chance.Float64(); wide[0].delay != 0 || wide[len(wide)-1].delay != 3 || math.Abs(got-0.5) > 1e-3 {
		t.Errorf("a wide hand: %v", wide)
	}
	p := ringOf(t)
	plain, err := mixOf(p, p.Setups, Gauges{})
	if err != nil {
		t.Fatal(err)
	}
	for _, spread := range []float64{0, 2} {
		m, err := NewBook(p).Mix(context.Background(), timeline.NewIndex(p), p.Setups, MixOptions{Hand: &odds.Hand{Spread: spread}})
		if err != nil {
			t.Fatal(err)
		}
		same := shares(flat(m.Payoff)) == shares(flat(plain.Payoff))
		if m.Exact || same != (spread == 0) || shares(m.Payoff[1]) != shares(plain.Payoff[1]) {
			t.Errorf("a spread of %v: exact %v, payoffs %v", spread, m.Exact, m.Payoff)
		}
	}
}
