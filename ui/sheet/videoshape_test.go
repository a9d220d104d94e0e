package sheet_test

import (
	"math"
	"strings"
	"testing"

	. "wakeline/ui/sheet"
)

// TestVideoTypeIsRead: of every shape the smallest type, also beside a side
// view, where a phone shows the picture as wide as its screen: upright, or on its
// side.
func TestVideoTypeIsRead(t *testing.T) {
	for _, c := range []struct {
		shape             string
		phone, read, with float64 // in pixels of a style sheet
	}{{"wide", 844, 11, 10.5}, {"tall", 390, 11, 9.7}, {"square", 390, 10, 9.7}, {"band", 844, 9, 9}} {
		v := VideoShapeNamed(c.shape)
		check := func(v *VideoShape, d *Drawing, read float64) {
			t.Helper()
			if w, h := d.W*v.Scale(), d.H*v.Scale(); math.Round(w) != float64(v.Wide) || math.Round(h) != float64(v.High) {
				t.Errorf("%s is %g by %g pixels", c.shape, w, h)
			}
			for _, shape := range d.Shapes {
				if text, ok := shape.(Text); ok && text.Size*v.Scale()*c.phone/float64(v.Wide) < read {
					t.Errorf("%s: %q has %.1f pixels on a phone, want %g", c.shape, text.Str, text.Size*v.Scale()*c.phone/float64(v.Wide), read)
				}
			}
		}
		for setup := range Demo().Setups {
			s, o := SheetOf(t, setup, 0, 0)
			check(v, v.Framed(Draw(&s, v.Fit(o))), c.read)
		}
		with := v.WithSide()
		for setup := range Spaced().Setups {
			s, o := SheetOf(t, 0, 0, 0)
			view := SideOf(t, Spaced(), setup)
			check(&with, with.Framed(with.Joined(Draw(&s, with.Fit(o)), DrawSide(&view, with.FitSide(SideOptions{Frame: view.Frame})))), c.with)
		}
	}
}

// TestASideViewHasRoomInEachShape: it says who stands where and how far apart
// they are, and lies clear of the strip; what the strip says of the meeting isn't
// lost for it.
func TestASideViewHasRoomInEachShape(t *testing.T) {
	for i := range VideoShapes {
		v := VideoShapes[i].WithSide()
		for setup := range Spaced().Setups {
			view := SideOf(t, Spaced(), setup)
			if !view.Known {
				continue
			}
			s, o := SheetOf(t, 0, 0, 0)
			o.Sentence = "Meets the wake-up on 42."
			strip, side := Draw(&s, v.Fit(o)), DrawSide(&view, v.FitSide(SideOptions{Frame: view.Frame}))
			if d := v.Joined(strip, side); d.W > strip.W+0.01 && d.H > strip.H+0.01 || d.W*d.H > strip.W*strip.H+side.W*side.H+0.01 {
				t.Errorf("%s: a strip of %g by %g and a side view of %g by %g are %g by %g together", v.Name, strip.W, strip.H, side.W, side.H, d.W, d.H)
			}
			said := func(d *Drawing) (all string) {
				for _, shape := range d.Shapes {
					if text, ok := shape.(Text); ok {
						all += text.Str + "|"
					}
				}
				return all
			}
			for _, want := range []string{"|" + view.Attacker.Name[:3], "|" + view.Rival.Name[:3], "|" + view.Gap(view.Frame) + "|"} {
				if got := "|" + said(side); !strings.Contains(got, want) {
					t.Errorf("%s, setup %d: no %q in %q", v.Name, setup, want, got)
				}
			}
			if got := said(strip); !strings.Contains(strings.ReplaceAll(got, "|", " "), "Meets the wake-up on 42.") {
				t.Errorf("%s: the strip says %q", v.Name, got)
			}
		}
	}
}

// TestVideoMarginsStayFree: nothing but the ground lies in what a player may
// cover.
func TestVideoMarginsStayFree(t *testing.T) {
	for i := range VideoShapes {
		shapes := []VideoShape{VideoShapes[i], VideoShapes[i].WithSide()}
		for k := range shapes {
			v := &shapes[k]
			s, o := SheetOf(t, 0, 0, 0)
			d := Draw(&s, v.Fit(o))
			if k > 0 {
				view := SideOf(t, Spaced(), 0)
				d = v.Joined(d, DrawSide(&view, v.FitSide(SideOptions{Frame: view.Frame})))
			}
			d = v.Framed(d)
			in := Area{Point{v.Side, v.Top}, Point{float64(v.Wide) - v.Side, float64(v.High) - v.Below}}
			free := func(p Point) {
				if x, y := p.X*v.Scale(), p.Y*v.Scale(); x < in.Min.X-0.01 || x > in.Max.X+0.01 || y < in.Min.Y-0.01 || y > in.Max.Y+0.01 {
					t.Errorf("%s: something at %.1f, %.1f, want it in %v", v.Name, x, y, in)
				}
			}
			for _, shape := range d.Shapes[1:] {
				switch s := shape.(type) {
				case Box:
					free(s.Min)
					free(s.Max)
				case Line:
					free(s.From)
					free(s.To)
				case Path:
					for _, p := range s.Points {
						free(p)
					}
				case Text:
					x := s.Start(TextWidth(s.Str, s.Size, s.Bold))
					free(Point{x, s.At.Y - 0.7*s.Size})
					free(Point{x + TextWidth(s.Str, s.Size, s.Bold), s.At.Y})
				}
			}
		}
	}
}

// TestAnUprightPictureSaysAll: its sentence isn't cut, also where it is long.
func TestAnUprightPictureSaysAll(t *testing.T) {
	v := VideoShapeNamed("tall")
	s, o := SheetOf(t, 0, 0, 0)
	o.Sentence = "No delay meets the wake-up: the nearest, delay 0, misses it by 2 frames, as the attack touches on 57, 2 frames after the wake-up on 55. Four moves have no reach: distance was not judged there."
	said := ""
	for _, shape := range Draw(&s, v.Fit(o)).Shapes {
		if text, ok := shape.(Text); ok {
			said += text.Str + " "
		}
	}
	if !strings.Contains(said, "distance was not judged there.") {
		t.Errorf("it says %q", said)
	}
}
