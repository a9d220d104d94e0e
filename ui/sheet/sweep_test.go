package sheet

import (
	"fmt"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// sweepOf draws the sweep of the demo's first setup.
func sweepOf(t testing.TB, w, h float64) []*Drawing {
	t.Helper()
	p := plans(t, demo())[0]
	var scenes []words.Scene
	var say []string
	for _, d := range timeline.Sweep(p, 0, 2, 40) {
		rise, line := p.Deciding(d)
		scenes = append(scenes, words.SceneAt(p, d, rise, line))
		say = append(say, words.VerdictAt(p, d).Because)
	}
	return Sweep(scenes, say, Options{W: w, H: h})
}

// TestSweepStandsStill: rulers and lanes of all pictures are in one place.
func TestSweepStandsStill(t *testing.T) {
	ds := sweepOf(t, 960, 430)
	for i, d := range ds {
		if a := ds[0]; d.View != a.View || d.Top != a.Top || d.Bars != a.Bars || d.Bottom != a.Bottom || d.Left != a.Left || d.W != a.W || d.H != a.H {
			t.Errorf("picture %d: view %v, lanes %v, %v; the first has %v, %v, %v", i, d.View, d.Bars, d.Bottom, a.View, a.Bars, a.Bottom)
		}
		if f := faults(d); len(f) > 0 {
			t.Errorf("picture %d: %s", i, f[0])
		}
	}
	for word, at := range map[string]int{"SAFE": 2, "UNSAFE": 3} {
		if !hasText(ds[at], word) {
			t.Errorf("picture %d doesn't say %s", at, word)
		}
	}
}

// TestScrubbed: the line stands where its frame begins, and the sheet is left
// as it was.
func TestScrubbed(t *testing.T) {
	d := sweepOf(t, 960, 430)[0]
	n := len(d.Shapes)
	for _, f := range []int{-8, 0, 42, 90} {
		s := Scrubbed(d, f)
		if l, ok := s.Shapes[n].(Line); !ok || l.From.X != d.X(float64(f)) || l.To.X != l.From.X || len(d.Shapes) != n {
			t.Errorf("frame %d: %+v, want a line on %v", f, s.Shapes[n], d.X(float64(f)))
		}
		if !hasText(s, fmt.Sprint(f)) {
			t.Errorf("frame %d isn't written", f)
		}
	}
}
