package output

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// someSetups are three of the sample, of which the last knows where both stand,
// and one that can't be judged.
func someSetups(t *testing.T) (*timeline.Index, []timeline.Setup) {
	t.Helper()
	var setups []timeline.Setup
	for _, name := range []string{"One frame under", "Low water", "Behind the sail"} {
		setups = append(setups, planOf(t, name).Setup)
	}
	long := setups[0]
	long.Name, long.Delay = "Too long", timeline.MaxFrames
	return timeline.NewIndex(yard(t, 1)), append(setups[:2:2], long, setups[2])
}

// severalFilms are the orders of films of several setups that are tried.
var severalFilms = map[string]func(o *Order){
	"play":   func(o *Order) { o.Slow = 4 },
	"side":   func(o *Order) { o.Slow, o.Stage = 4, true },
	"sweep":  func(o *Order) {},
	"lesson": func(o *Order) { o.Neighbours, o.Stage = 1, true },
	"band":   func(o *Order) { o.Stage, o.Clear, o.Shape = true, true, sheet.VideoShapeNamed("band") },
	"square": func(o *Order) { o.Slow, o.Shape = 4, sheet.VideoShapeNamed("square") },
}

func filmOfSeveral(t *testing.T, format string, change func(o *Order)) (*Made, *Order) {
	t.Helper()
	o := Standard()
	o.W, o.H, o.Scale = 480, 320, 0.2
	change(&o)
	index, setups := someSetups(t)
	m, err := o.MakeFilm(context.Background(), index, eachOf(setups), "The yard", format)
	if err != nil {
		t.Fatal(err)
	}
	return m, &o
}

// TestAFilmOfSeveralSetups: each setup's own film, picture for picture, after a
// title that names it; all pictures have one size, and what can't be judged is
// named.
func TestAFilmOfSeveralSetups(t *testing.T) {
	for name, change := range severalFilms {
		m, o := filmOfSeveral(t, Frames, change)
		if len(m.Skipped) != 1 || !strings.Contains(m.Skipped[0].Error(), "Too long") {
			t.Errorf("%s: skipped %v", name, m.Skipped)
		}
		_, setups := someSetups(t)
		at := 0
		for i, k := range []int{0, 1, 3} {
			title := m.film.shots[at]
			said := strings.Join(textsOf([]*sheet.Drawing{title.sheet()}), "\n")
			if s := &setups[k]; title.section != s.Name || !strings.Contains(said, s.Name) || !strings.Contains(said, fmt.Sprintf("%d of 3 setups", i+1)) || !strings.Contains(title.say, s.Rival) {
				t.Errorf("%s: title %d says %q, and of it is said %q", name, i, said, title.say)
			}
			if long := float64(title.pictures*m.film.rate.Den) / float64(m.film.rate.Num); long < titleSeconds || long > titleSeconds+3 {
				t.Errorf("%s: title %d is shown for %g s", name, i, long)
			}
			at++
			alone := filmed(o, planOf(t, setups[k].Name))
			if alone.rate != m.film.rate || alone.shown != m.film.shown {
				t.Fatalf("%s: %v pictures a second, alone %v", name, m.film.rate, alone.rate)
			}
			for j := range alone.shots {
				got, want := &m.film.shots[at+j], &alone.shots[j]
				if got.pictures != want.pictures || got.name != want.name || got.say != want.say || len(got.base.Shapes) != len(want.base.Shapes) || len(got.over) != len(want.over) {
					t.Fatalf("%s: %s, shot %d isn't as it is alone", name, setups[k].Name, j)
				}
			}
			at += len(alone.shots)
		}
		if at != len(m.film.shots) {
			t.Errorf("%s: %d shots, want %d", name, len(m.film.shots), at)
		}
		for i, d := range m.Sheets {
			if math.Abs(d.W-m.Sheets[0].W)+math.Abs(d.H-m.Sheets[0].H) > 0.01 {
				t.Fatalf("%s: picture %d is %g by %g, the first %g by %g", name, i, d.W, d.H, m.Sheets[0].W, m.Sheets[0].H)
			}
		}
	}
}

// TestAFilmOfSeveralIsSpoken: a chapter a setup that begins on its title, by
// exact times; a script with a heading for each, and its parts under it.
func TestAFilmOfSeveralIsSpoken(t *testing.T) {
	for name, change := range severalFilms {
		film, _ := filmOfSeveral(t, Frames, change)
		chapters, _ := filmOfSeveral(t, "srt", func(o *Order) {
			change(o)
			o.Chapters = true
		})
		blocks := strings.Split(strings.TrimSuffix(chapters.Text, "\r\n\r\n"), "\r\n\r\n")
		if len(blocks) != 3 {
			t.Fatalf("%s: %d chapters:\n%s", name, len(blocks), chapters.Text)
		}
		pictures, n := 0, 0
		for i := range film.film.shots {
			s := &film.film.shots[i]
			if s.section != "" {
				ms := (2000*pictures*film.film.rate.Den + film.film.rate.Num) / (2 * film.film.rate.Num)
				begins := fmt.Sprintf("%d\r\n%02d:%02d:%02d,%03d --> ", n+1, ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
				if n >= len(blocks) || !strings.HasPrefix(blocks[n], begins) || !strings.HasSuffix(blocks[n], "\r\n"+s.section) {
					t.Errorf("%s: chapter %d is %q, want it to begin with %q and name %s", name, n+1, blocks[n], begins, s.section)
				}
				n++
			}
			pictures += s.pictures
		}
		script, _ := filmOfSeveral(t, "txt", change)
		if got := strings.Count(script.Text, "\n## "); got != 3 || !strings.HasPrefix(script.Text, "# The yard\n") || strings.Count(script.Text, "\n### ") != len(film.film.parts())-3 {
			t.Errorf("%s: %d headings, want 3, and %d parts under them:\n%s", name, got, len(film.film.parts())-3, script.Text)
		}
	}
}

// TestAFilmOfSeveralIsWritten, and read back, as a GIF and as an APNG.
func TestAFilmOfSeveralIsWritten(t *testing.T) {
	for _, name := range []string{"side", "sweep"} {
		m, _ := filmOfSeveral(t, "apng", severalFilms[name])
		var b bytes.Buffer
		if err := m.Write(&b); err != nil {
			t.Fatal(err)
		}
		if _, frames := readAPNG(t, b.Bytes()); len(frames) != len(m.film.shots) {
			t.Errorf("%s: %d pictures of %d shots", name, len(frames), len(m.film.shots))
		}
		_, whole := m.Seconds(0)
		g, _ := filmOfSeveral(t, "gif", severalFilms[name])
		if err := g.Write(&b); err != nil {
			t.Fatal(err)
		}
		long := 0
		for _, n := range g.Times {
			long += n
		}
		if len(g.Sheets) != len(m.film.shots) || math.Abs(float64(long)/100-whole) > 0.5 {
			t.Errorf("%s: the GIF has %d pictures and lasts %g s, want %d and %g", name, len(g.Sheets), float64(long)/100, len(m.film.shots), whole)
		}
	}
}

// TestAFilmOfSeveralHasBounds: it says that there is none to film, or too many.
func TestAFilmOfSeveralHasBounds(t *testing.T) {
	o := Standard()
	index, setups := someSetups(t)
	if _, err := o.MakeFilm(context.Background(), index, eachOf(setups[2:3]), "", "gif"); !errors.Is(err, ErrNone) || !strings.Contains(err.Error(), "Too long") {
		t.Errorf("nothing to film: %v", err)
	}
	many := make([]timeline.Setup, MostFilmed+1)
	for i := range many {
		many[i] = setups[0]
	}
	if _, err := o.MakeFilm(context.Background(), index, eachOf(many), "", "vtt"); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("at most %d setups", MostFilmed)) {
		t.Errorf("too many: %v", err)
	}
	if _, err := o.MakeFilm(context.Background(), index, eachOf(setups), "", "png"); err == nil {
		t.Error("a picture is a film")
	}
}
