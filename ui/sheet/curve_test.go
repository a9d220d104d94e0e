package sheet

import (
	"math"
	"slices"
	"testing"

	"wakeline/timeline/words"
)

// bell is a curve round delay m.
func bell(m float64) *Odds {
	o := &Odds{Per: 4, Label: "68 of 100"}
	for i := range 61 {
		o.Chances = append(o.Chances, math.Exp(-math.Pow(float64(i)/4-m, 2)/4))
	}
	return o
}

// curveOf is the curve's path, nil where there is none: the one that is there
// with odds and not without.
func curveOf(d, without *Drawing) *Path {
	for _, s := range d.Shapes {
		if p, ok := s.(Path); ok && p.Stroke == Ink && len(p.Points) > 20 && !slices.ContainsFunc(without.Shapes, func(o Shape) bool {
			q, ok := o.(Path)
			return ok && len(q.Points) == len(p.Points)
		}) {
			return &p
		}
	}
	return nil
}

func TestTheCurveStandsOverItsDelays(t *testing.T) {
	p := plans(t, demo())[2]
	d := p.Setup.Delay
	s := words.SceneAt(p, d, 0, 3)
	o := Options{W: 1280, H: 760, Sentence: words.VerdictAt(p, d).Because}
	plain := Draw(&s, o)
	o.Odds = bell(float64(d))
	got := Draw(&s, o)
	c := curveOf(got, plain)
	if c == nil {
		t.Fatal("no curve")
	}
	top := slices.MinFunc(c.Points, func(a, b Point) int { return int(math.Copysign(1, a.Y-b.Y)) })
	if want := got.X(float64(s.Delay.To)); math.Abs(top.X-want) > 0.25 {
		t.Errorf("the likeliest aim stands at %v, its delay at %v", top.X, want)
	}
	for _, q := range c.Points {
		if q.Y < got.Bars.To || q.Y > got.Bottom.From {
			t.Fatalf("the curve leaves its lane: %v", q)
		}
	}
	writes := func(d *Drawing, what string) bool {
		return slices.ContainsFunc(d.Shapes, func(s Shape) bool { x, ok := s.(Text); return ok && x.Str == what })
	}
	for _, what := range []string{"68 of 100", "chance by hand"} {
		if !writes(got, what) {
			t.Errorf("%q is not written", what)
		}
	}
	o.Odds.Label = ""
	if uncounted := Draw(&s, o); curveOf(uncounted, plain) != nil || writes(uncounted, "chance by hand") {
		t.Error("chances are drawn where no wait is counted")
	} else if uncounted.Bottom != got.Bottom {
		t.Errorf("the tracks jump from %v to %v when a wait is counted", uncounted.Bottom, got.Bottom)
	}
	o.Odds.Label = "68 of 100"
	if len(Draw(&s, Options{W: 420, H: MinH, Odds: o.Odds}).Shapes) != len(Draw(&s, Options{W: 420, H: MinH}).Shapes) {
		t.Error("a sheet without room draws the curve")
	}
}

func TestTheCurveKeepsOffTheRest(t *testing.T) {
	bad := 0
	for k, p := range plans(t, demo()) {
		for _, d := range []int{p.Setup.Delay, 0, 2, 9} {
			for i, size := range sizes {
				s := words.SceneAt(p, d, 0, i%p.Lines())
				o := Options{W: size[0], H: size[1], View: views[(i+k)%len(views)], Sentence: s.Sentence, Odds: bell(float64(d) + 0.5)}
				for _, f := range faults(Draw(&s, o)) {
					if bad++; bad < 8 {
						t.Errorf("setup %d, delay %d, size %v: %s", k, d, size, f)
					}
				}
			}
		}
	}
}

func TestNoCurveWithoutChances(t *testing.T) {
	s, o := sheetOf(t, 0, 1280, 760)
	for _, odds := range []*Odds{{}, {Per: 4}, {Chances: []float64{1, 1}}} {
		o.Odds = odds
		if got := faults(Draw(&s, o)); len(got) > 0 {
			t.Error(got[0])
		}
	}
}
