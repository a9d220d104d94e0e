package odds

import (
	"bufio"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
)

// table reads the rows of a file of testdata, without its comments.
func table(t *testing.T, name string) (rows [][]float64) {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for in := bufio.NewScanner(f); in.Scan(); {
		if strings.HasPrefix(in.Text(), "#") {
			continue
		}
		var row []float64
		for _, cell := range strings.Fields(in.Text()) {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, x)
		}
		rows = append(rows, row)
	}
	return rows
}

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

func good(spans ...timeline.Span) (s timeline.Set) {
	for _, r := range spans {
		in, err := timeline.Range(r.From, r.To)
		if err != nil {
			panic(err)
		}
		s = s.Or(in)
	}
	return s
}

// Against the printed tables named in testdata/phi.txt.
func TestPhiAgainstTables(t *testing.T) {
	rows := table(t, "phi.txt")
	if len(rows) < 20 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, r := range rows {
		if got := Phi(r[0]); !near(got, r[1], 0.5001*math.Pow(10, -r[2])) {
			t.Errorf("Phi(%v) = %v, the table has %v", r[0], got, r[1])
		}
	}
}

// Laplace's continued fraction for the tail, Abramowitz and Stegun, "Handbook
// of Mathematical Functions", 26.2.14: it has nothing of erfc in it.
func TestPhiAgainstAContinuedFraction(t *testing.T) {
	for _, x := range []float64{3, 4, 5, 6, 8, 12, 20, 37} {
		tail := x
		for k := 400; k >= 1; k-- {
			tail = x + float64(k)/tail
		}
		want := math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) / tail
		if got := Phi(-x); !near(got/want, 1, 1e-12) {
			t.Errorf("Phi(%v) = %v, want %v", -x, got, want)
		}
		if got := between(x, math.Inf(1)); !near(got/want, 1, 1e-12) {
			t.Errorf("the upper tail from %v = %v, want %v", x, got, want)
		}
	}
}

// The density summed by Simpson's rule, between any two points.
func TestBetweenAgainstSimpson(t *testing.T) {
	for a := -6.0; a <= 6; a += 0.7 {
		for b := a; b <= a+7; b += 0.9 {
			const n = 2000
			h, sum := (b-a)/n, 0.0
			for i := range n + 1 {
				w := 4.0
				if i == 0 || i == n {
					w = 1
				} else if i%2 == 0 {
					w = 2
				}
				x := a + float64(i)*h
				sum += w * math.Exp(-x*x/2)
			}
			want := sum * h / 3 / math.Sqrt(2*math.Pi)
			if got := between(a, b); !near(got, want, 1e-12+1e-9*want) {
				t.Errorf("between(%.1f, %.1f) = %v, want %v", a, b, got, want)
			}
		}
	}
}

// Against testdata/windows.txt.
func TestWindowsAgainstTable(t *testing.T) {
	widths := []int{1, 2, 3, 4, 5, 6, 8}
	for _, r := range table(t, "windows.txt") {
		h := HandOf(0, r[0], timeline.Rate{Num: 60, Den: 1})
		for i, n := range widths {
			w := Window{Good: good(timeline.Span{From: 100, To: 100 + n})}
			aim, got, ok := h.Best(w)
			if !ok || !near(got, r[1+i], 0.6e-6) || aim != 100+float64(n)/2 {
				t.Errorf("spread %v ms, %d frames: %v at %v, want %v", r[0], n, got, aim, r[1+i])
			}
		}
	}
}

func TestHandOfTheRate(t *testing.T) {
	h := HandOf(-10, 25, timeline.Rate{Num: 60, Den: 1})
	if !near(h.Bias, -0.6, 1e-12) || !near(h.Spread, 1.5, 1e-12) {
		t.Errorf("HandOf = %+v, want -0.6 and 1.5 frames", h)
	}
	if h := HandOf(20, 40, timeline.Rate{Num: 50, Den: 2}); !near(h.Bias, 0.5, 1e-12) || !near(h.Spread, 1, 1e-12) {
		t.Errorf("HandOf at 25 a second = %+v", h)
	}
}

func TestHandThatNeverErrs(t *testing.T) {
	w := Window{Good: good(timeline.Span{From: 3, To: 5})}
	for f, want := range map[int]float64{2: 0, 3: 1, 4: 1, 5: 0} {
		if got := (Hand{}).On(w, f); got != want {
			t.Errorf("On(%d) = %v, want %v", f, got, want)
		}
	}
	if got := (Hand{Bias: 1}).On(w, 4); got != 0 {
		t.Errorf("a frame late on 4 = %v, want 0", got)
	}
}

// The buffer widens the window early only when the first possible frame is in
// it; frames before that one can't be reached at all.
func TestBuffer(t *testing.T) {
	h := Hand{Spread: 1.5}
	set := good(timeline.Span{From: 10, To: 13})
	plain := func(from, to int, aim float64) float64 { return h.Span(timeline.Span{From: from, To: to}, aim) }
	for _, c := range []struct {
		first, buffer, from, to int
	}{
		{0, 4, 10, 13},  // the window begins after the first frame
		{9, 4, 10, 13},  // one frame after it
		{10, 4, 6, 13},  // on it
		{10, 0, 10, 13}, // no buffer
		{12, 4, 8, 13},  // in the middle: 10 and 11 are out of reach, but held
		{13, 4, 0, 0},   // past it
	} {
		w := Window{set, c.first, c.buffer}
		if got, want := h.Chance(w, 11.5), plain(c.from, c.to, 11.5); got != want {
			t.Errorf("%+v: %v, want %v", c, got, want)
		}
		aim, _, ok := h.Best(w)
		if ok != (c.to > c.from) || ok && aim != float64(c.from+c.to)/2 {
			t.Errorf("%+v: best aim %v, %v", c, aim, ok)
		}
	}
}

func TestBestAimIsBest(t *testing.T) {
	for _, c := range []struct {
		hand  Hand
		spans []timeline.Span
	}{
		{Hand{0, 1.5}, []timeline.Span{{From: 4, To: 5}}},
		{Hand{-2.2, 0.4}, []timeline.Span{{From: 4, To: 9}}},
		{Hand{0.5, 3}, []timeline.Span{{From: 4, To: 5}, {From: 6, To: 7}}}, // best in the gap
		{Hand{0.5, 0.3}, []timeline.Span{{From: 4, To: 5}, {From: 6, To: 9}}},
		{Hand{0, 2}, []timeline.Span{{From: 0, To: 1}, {From: 2, To: 6}, {From: 20, To: 22}}},
	} {
		w := Window{Good: good(c.spans...), First: 0}
		aim, chance, ok := c.hand.Best(w)
		if !ok || !near(c.hand.Chance(w, aim), chance, 1e-15) {
			t.Fatalf("%+v: Best = %v, %v, %v", c, aim, chance, ok)
		}
		for m := -10.0; m < 40; m += 0.01 {
			if got := c.hand.Chance(w, m); got > chance+1e-6 {
				t.Errorf("%+v: %v at %.2f is better than %v at %v", c, got, m, chance, aim)
			}
		}
	}
	if _, _, ok := (Hand{0, 1}).Best(Window{}); ok {
		t.Error("an empty window has a best aim")
	}
}

func TestCurveAndLink(t *testing.T) {
	h, w := Hand{0, 1.5}, Window{Good: good(timeline.Span{From: 5, To: 8}), First: 0, Buffer: 4}
	curve := h.Curve(w, timeline.Span{From: 3, To: 10})
	if len(curve) != 7 {
		t.Fatalf("%d points, want 7", len(curve))
	}
	for i, c := range curve {
		if want := h.Span(timeline.Span{From: 5, To: 8}, float64(3+i)+0.5); c != want {
			t.Errorf("point %d = %v, want %v", i, c, want)
		}
		if c > curve[3] {
			t.Errorf("point %d is above the middle", i)
		}
	}
	if got := (Timing{h, 4}).Link(); got != 1 {
		t.Errorf("a buffered link = %v, want 1", got)
	}
	// One frame at 25 ms of spread, from testdata/windows.txt.
	if got := (Timing{HandOf(3, 25, timeline.Rate{Num: 60, Den: 1}), 0}).Link(); !near(got, 0.261117, 1e-6) {
		t.Errorf("a link without a buffer = %v", got)
	}
	if got, want := (Timing{h, 4}).Wait(w.Good, 5, 6), h.Span(timeline.Span{From: 1, To: 8}, 6.5); got != want {
		t.Errorf("Wait = %v, want %v", got, want)
	}
}

// A hundred thousand presses land as often as the formula says, within four
// standard deviations of the binomial count.
func TestSimulatedPresses(t *testing.T) {
	const n = 100_000
	rng := rand.New(rand.NewPCG(20, 26))
	for _, c := range []struct {
		hand   Hand
		window Window
		aim    float64
	}{
		{Hand{0, 1.5}, Window{good(timeline.Span{From: 10, To: 13}), 0, 4}, 11.5},
		{Hand{-0.7, 2.4}, Window{good(timeline.Span{From: 10, To: 12}), 10, 4}, 10.2},
		{Hand{0.4, 0.6}, Window{good(timeline.Span{From: 10, To: 11}, timeline.Span{From: 13, To: 15}), 9, 3}, 12},
		{Hand{1.1, 3}, Window{good(timeline.Span{From: 0, To: 1}), 0, 0}, -0.6},
		{Hand{0, 1}, Window{good(timeline.Span{From: 10, To: 12}), 3, 4}, 14.4},
	} {
		hits := 0
		for range n {
			f := int(math.Floor(c.aim + c.hand.Bias + c.hand.Spread*rng.NormFloat64()))
			if f < c.window.First && f >= c.window.First-c.window.Buffer {
				f = c.window.First // held until then
			}
			if f >= c.window.First && c.window.Good.Has(f) {
				hits++
			}
		}
		p := c.hand.Chance(c.window, c.aim)
		if d := math.Abs(float64(hits)-n*p) / math.Sqrt(n*p*(1-p)); d > 4 {
			t.Errorf("%+v: %d of %d, the formula says %.1f: %.1f standard deviations off", c, hits, n, n*p, d)
		}
	}
}

// Too much advantage is burned by fillers of known length: the chain is exact,
// a counted wait is not.
func TestFactAChainIsExactAWaitIsNot(t *testing.T) {
	hand := Timing{HandOf(0, DefaultSpread, timeline.Rate{Num: 60, Den: 1}), 4}
	if got := hand.Link(); got != 1 {
		t.Errorf("a buffered link = %v, want 1", got)
	}
	if got := hand.Wait(good(timeline.Span{From: 12, To: 13}), 0, 12); !near(got, 0.261117, 1e-6) {
		t.Errorf("a wait of twelve frames for one frame = %v", got)
	}
}

func BenchmarkBest(b *testing.B) {
	h, w := Hand{0.2, 1.5}, Window{good(timeline.Span{From: 5, To: 8}, timeline.Span{From: 10, To: 11}), 0, 4}
	for b.Loop() {
		h.Best(w)
	}
}
