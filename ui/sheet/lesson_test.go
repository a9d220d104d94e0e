package sheet

import (
	"fmt"
	"strings"
	"testing"

	"wakeline/timeline/words"
)

// lessonsOf are the lessons of every demo setup under those names.
func lessonsOf(t testing.TB, change func(string) string) (out []words.Lesson) {
	t.Helper()
	for _, p := range plans(t, renamed(change)) {
		out = append(out, words.LessonAt(p, p.Setup.Delay, 1, 0, words.Breaking), words.LessonAt(p, p.Setup.Delay, 2, 0, 3))
	}
	return out
}

// TestLessonGeometry draws lessons over a grid of names and widths.
func TestLessonGeometry(t *testing.T) {
	drawn, bad := 0, 0
	for _, naming := range namings {
		for k, l := range lessonsOf(t, naming.change) {
			w := []float64{0, 480, 640, 1280, 1920, 3840}[(drawn+k)%6]
			d := DrawLesson(&l, w)
			drawn++
			if d.W < MinLessonW || d.W < w || d.H < 100 {
				t.Fatalf("%v by %v units, asked for %v", d.W, d.H, w)
			}
			for _, f := range faults(d) {
				if bad++; bad < 8 {
					t.Errorf("names %s, lesson %d, width %v: %s", naming.name, k, w, f)
				}
			}
		}
	}
	t.Logf("%d lessons", drawn)
}

// TestLessonShows: what the steps say is on the page, and their strips stand on
// one ruler.
func TestLessonShows(t *testing.T) {
	l := words.LessonAt(plans(t, demo())[0], 1, 1, 0, words.Breaking)
	d := DrawLesson(&l, 1280)
	for _, part := range []string{"sweep into kite", "1 frame earlier · delay 0 · against ", "As it is · delay 1 · against ", "1 frame later · delay 2 · against ",
		l.Answer[:40], "startup", "recovery", "attack meets wake-up", "meeting that decides", "jump 1 to 0, lands on 44 to 43",
		"On frame 42, the wake-up of Old Brannoc, kite kick is active, frame", "(at delay 1: "} {
		if !hasText(d, part) {
			t.Errorf("%q is not on the page", part)
		}
	}
	if !strings.HasPrefix(d.Desc, l.Answer) {
		t.Errorf("description %q doesn't begin with %q", d.Desc, l.Answer)
	}
	for i := range l.Steps {
		if s := "the setup is " + string(l.Steps[i].Scene.Verdict) + ": " + l.Steps[i].Sentence; !strings.Contains(d.Desc, s) {
			t.Errorf("description %q lacks %q", d.Desc, s)
		}
	}
	wake, ticks := d.X(42), 0
	for _, s := range d.Shapes { // the tick of the wake-up
		if v, ok := s.(Line); ok && v.From.X == wake && v.To.X == wake && v.Width == medium*d.Em {
			ticks++
		}
	}
	if ticks < 3 {
		t.Errorf("%d lines on frame 42, want one of each of 3 steps", ticks)
	}
	if d.Title != "sweep into kite: lesson" {
		t.Errorf("title %q", d.Title)
	}
}

// TestSmallestText: on a page as wide as a phone no text is under 9 pixels.
func TestSmallestText(t *testing.T) {
	o := Options{W: 480, H: 320}
	var pages []*Drawing
	for _, l := range lessonsOf(t, func(s string) string { return s }) {
		pages = append(pages, DrawLesson(&l, 480), Draw(&l.Steps[0].Scene, o))
	}
	pages = append(pages, DrawGlossary(words.Glossary(), "words", 480))
	seen := 0
	for _, d := range pages {
		for _, s := range d.Shapes {
			if v, ok := s.(Text); ok {
				if seen++; v.Size < 9 {
					t.Fatalf("%s: %q has size %.2f", d.Title, v.Str, v.Size)
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("%d texts", seen)
	}
}

// TestLessonCutsNoNumber: what moved stands whole on the narrowest page.
func TestLessonCutsNoNumber(t *testing.T) {
	moved := 0
	for _, l := range lessonsOf(t, func(s string) string { return s }) {
		d := DrawLesson(&l, MinLessonW)
		for _, s := range l.Steps {
			for _, m := range s.Moved {
				if moved++; !strings.Contains(drawnWords(d), fmt.Sprintf("%s %d to %d", m.What, m.From, m.To)) {
					t.Errorf("%s: %v is not on the page", d.Title, m)
				}
			}
		}
		if !strings.Contains(drawnWords(d), "Every step stands on the same ruler") {
			t.Errorf("%s: the ruler is not explained", d.Title)
		}
	}
	if moved < 20 {
		t.Errorf("%d moved", moved)
	}
}

// TestLessonNamesItsSetup: a long name is broken into lines, not cut.
func TestLessonNamesItsSetup(t *testing.T) {
	l := words.LessonAt(plans(t, demo())[0], 1, 1, 0, words.Breaking)
	l.Setup = "Counted crossing of the very long river that nobody has ever crossed in a single afternoon"
	for _, w := range []float64{MinLessonW, 960} {
		if d := DrawLesson(&l, w); !strings.Contains(drawnWords(d), l.Setup) {
			t.Errorf("%v wide: the name is not on the page", w)
		} else if f := faults(d); len(f) > 0 {
			t.Errorf("%v wide: %s", w, f[0])
		}
	}
}

// drawnWords are all that a drawing says, in its order.
func drawnWords(d *Drawing) string {
	var say []string
	for _, s := range d.Shapes {
		if v, ok := s.(Text); ok {
			say = append(say, v.Str)
		}
	}
	return strings.Join(say, " ")
}
