package odds

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// Certified values of the Statistical Reference Datasets of NIST (StRD,
// univariate summary statistics): NumAcc1 to NumAcc4, whose data are made by
// the rule that their pages give, and Michelso.
func TestMomentsAgainstReferenceData(t *testing.T) {
	swing := func(middle, low, high float64) []float64 {
		out := []float64{middle}
		for range 500 {
			out = append(out, low, high)
		}
		return out
	}
	for _, c := range []struct {
		name     string
		data     []float64
		mean, sd float64
		digits   float64 // of the deviation: what doubles can hold of the data
	}{
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, 15},
		{"NumAcc2", swing(1.2, 1.1, 1.3), 1.2, 0.1, 14},
		{"NumAcc3", swing(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 9},
		{"NumAcc4", swing(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 8},
		{"Michelso", michelson(), 299.852400000000, 0.0790105478190518, 12},
	} {
		mean, sd := moments(c.data)
		if !near(mean/c.mean, 1, 1e-15) {
			t.Errorf("%s: mean %.17g, certified %.17g", c.name, mean, c.mean)
		}
		if !near(sd/c.sd, 1, math.Pow(10, -c.digits)) {
			t.Errorf("%s: standard deviation %.17g, certified %.17g", c.name, sd, c.sd)
		}
	}
}

// michelson is the speed of light in air in hundred measurements of 1879, in
// thousands of kilometres a second.
func michelson() (out []float64) {
	for _, kmps := range []float64{
		850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960, 960,
		960, 940, 960, 940, 880, 800, 850, 880, 900, 840, 830, 790, 810, 880, 880, 830, 800, 790, 760, 800,
		880, 880, 880, 860, 720, 720, 620, 860, 970, 950, 880, 910, 850, 870, 840, 840, 850, 840, 840, 840,
		890, 810, 810, 820, 800, 770, 760, 740, 750, 760, 910, 920, 890, 860, 880, 720, 840, 850, 850, 780,
		890, 840, 780, 810, 760, 810, 790, 810, 820, 850, 870, 870, 810, 740, 810, 940, 950, 800, 810, 870,
	} {
		out = append(out, (299000+kmps)/1000)
	}
	return out
}

// The example of Wikipedia's "Median absolute deviation": of 1, 1, 2, 2, 4, 6
// and 9 the median is 2 and the median distance from it 1.
func TestRobustAgainstAWorkedExample(t *testing.T) {
	e, err := Measure([]float64{1, 1, 2, 2, 4, 6, 9})
	if err != nil || e.RobustBias.Value != 2 || !near(e.RobustSpread.Value, 1.4826, 1e-5) || e.N != 7 {
		t.Errorf("Measure = %+v, %v", e, err)
	}
	if m := median([]float64{4, 1, 3, 2}); m != 2.5 {
		t.Errorf("median of four = %v, want 2.5", m)
	}
}

// Spreads of many drills of n presses lie round the true one as widely as the
// standard errors say.
func TestStandardErrors(t *testing.T) {
	const drills, n = 4000, 60
	rng := rand.New(rand.NewPCG(7, 11))
	var of [4][]float64
	var said [4]float64
	for range drills {
		late := make([]float64, n)
		for i := range late {
			late[i] = -8 + 25*rng.NormFloat64()
		}
		e, err := Measure(late)
		if err != nil {
			t.Fatal(err)
		}
		for k, f := range []Figure{e.Bias, e.Spread, e.RobustBias, e.RobustSpread} {
			of[k] = append(of[k], f.Value)
			said[k] += f.Error / drills
		}
	}
	for k, true_ := range []float64{-8, 25, -8, 25} {
		mean, sd := moments(of[k])
		if !near(mean, true_, 0.6) {
			t.Errorf("figure %d: %v on average, want %v", k, mean, true_)
		}
		if !near(said[k]/sd, 1, 0.06) {
			t.Errorf("figure %d: standard error %v, drills differ by %v", k, said[k], sd)
		}
	}
}

// One missed press spoils the plain estimate, not the robust one.
func TestOneMissedPress(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	late := make([]float64, 40)
	for i := range late {
		late[i] = 5 + 20*rng.NormFloat64()
	}
	before, _ := Measure(late)
	late[17] = 900
	after, _ := Measure(late)
	if after.Spread.Value < 4*before.Spread.Value {
		t.Fatalf("the plain spread went from %v to %v only", before.Spread.Value, after.Spread.Value)
	}
	if !near(after.RobustSpread.Value, before.RobustSpread.Value, 2) || !near(after.RobustBias.Value, before.RobustBias.Value, 2) {
		t.Errorf("the robust figures went from %+v, %+v to %+v, %+v", before.RobustBias, before.RobustSpread, after.RobustBias, after.RobustSpread)
	}
	if before.Missed != 0 || after.Missed != 1 {
		t.Errorf("missed = %d and %d, want 0 and 1", before.Missed, after.Missed)
	}
}

func TestFewAndEqualPresses(t *testing.T) {
	for n := range 2 {
		if e, err := Measure(make([]float64, n)); !errors.Is(err, ErrFewPresses) || e.N != n {
			t.Errorf("Measure of %d = %+v, %v", n, e, err)
		}
	}
	e, err := Measure([]float64{3, 3, 3, 3, 7})
	if err != nil || e.RobustSpread.Value != e.Spread.Value || e.Spread.Value == 0 {
		t.Errorf("mostly equal presses: %+v, %v, want the plain spread", e, err)
	}
	if e, err := Measure([]float64{3, 3}); err != nil || e.Spread.Value != 0 || e.Bias.Value != 3 || e.Missed != 0 {
		t.Errorf("equal presses: %+v, %v", e, err)
	}
}

// The standard errors of -2, -1, 0, 1 and 2, worked by GNU bc from the formulas
// in the doc comment of Estimate: 1.4826 is 1 over the upper quartile q of the
// normal distribution, and 1.1664 is 1 / (4 q phi(q)), the error of a sample's
// median (1 / 2f at its place) for distances, whose density there is 2 phi(q).
func TestStandardErrorsOfFive(t *testing.T) {
	e, err := Measure([]float64{-2, -1, 0, 1, 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"bias", e.Bias.Error, 0.7071068}, {"spread", e.Spread.Error, 0.5590170},
		{"robust spread itself", e.RobustSpread.Value, 1.4826022},
		{"robust bias", e.RobustBias.Error, 0.8309972}, {"robust spread", e.RobustSpread.Error, 0.7733697},
	} {
		if math.Abs(c.got-c.want) > 1e-6 {
			t.Errorf("%s: %.8f, want %.7f", c.what, c.got, c.want)
		}
	}
}
