package output

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// filmOf compiles the yard's first setup and films it.
func filmOf(t *testing.T, change func(o *Order)) (*timeline.Plan, *film) {
	t.Helper()
	p := yard(t, 1)
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	o := Standard()
	change(&o)
	return plan, filmed(&o, plan)
}

// TestAFilmSaysEachStep: of a lesson the answer, and then what its page says of
// each step, in order; each for as long as it takes to say it.
func TestAFilmSaysEachStep(t *testing.T) {
	plan, f := filmOf(t, func(o *Order) { o.Neighbours = 2 })
	l := words.LessonAt(plan, plan.Setup.Delay, 2, 0, words.Breaking)
	parts := f.parts()
	if len(parts) != len(l.Steps)+1 || !strings.HasPrefix(parts[0].Text, l.Answer) {
		t.Fatalf("%d parts of %d steps, the first says %q", len(parts), len(l.Steps), parts[0].Text)
	}
	for i, p := range parts[1:] {
		if s := &l.Steps[i]; p.Title != fmt.Sprintf("%s, delay %d", s.Title, s.Delay) || !strings.HasPrefix(p.Text, s.Sentence) {
			t.Errorf("step %d: %+v, want %s: %s", i, p, s.Title, s.Sentence)
		}
		if seconds := float64(p.Pictures) / 2; seconds < 3 || seconds < float64(len(p.Title+p.Text))/14 {
			t.Errorf("step %d is shown for %g s: %s", i, seconds, p.Text)
		}
	}
}

// TestAFilmPlaysAsTheGame: a picture a frame, at exactly the game's rate, as
// many times slower; a sweep's as long as a delay is held.
func TestAFilmPlaysAsTheGame(t *testing.T) {
	plan, f := filmOf(t, func(o *Order) { o.Slow = 4 })
	s := words.SceneAt(plan, plan.Setup.Delay, 0, 0)
	if rate := plan.Rules().Rate; f.rate != (timeline.Rate{Num: rate.Num, Den: 4 * rate.Den}) || len(f.shots) < s.Wake || len(f.parts()) != 1 {
		t.Errorf("%v pictures a second, %d shots, %d parts", f.rate, len(f.shots), len(f.parts()))
	}
	plan, f = filmOf(t, func(o *Order) { o.Hold = 80 })
	if parts := f.parts(); f.rate != (timeline.Rate{Num: 100, Den: 80}) || len(parts) != len(timeline.Sweep(plan, plan.Setup.Delay, past, mostDelays)) {
		t.Errorf("%v pictures a second, %d parts", f.rate, len(parts))
	}
}

// TestCaptionsGoWithTheFilm: from its beginning to its end.
func TestCaptionsGoWithTheFilm(t *testing.T) {
	plan, f := filmOf(t, func(o *Order) { o.Neighbours = 1 })
	o := Standard()
	o.Neighbours = 1
	pictures := 0
	for _, s := range f.shots {
		pictures += s.pictures
	}
	m, err := o.Make(plan, "srt")
	var b bytes.Buffer
	if err == nil {
		err = m.Write(&b)
	}
	end := fmt.Sprintf("--> 00:%02d:%02d,%03d\r\n", pictures/120, pictures/2%60, pictures%2*500)
	if err != nil || !strings.HasPrefix(b.String(), "1\r\n00:00:00,000 --> ") || !strings.Contains(b.String(), end) {
		t.Errorf("%v; no %q in\n%s", err, end, b.String())
	}
}
