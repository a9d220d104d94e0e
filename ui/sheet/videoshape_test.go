package sheet_test

import (
	"math"
	"strings"
	"testing"

	. "wakeline/ui/sheet"
)

// TestVideoTypeIsRead: of every shape the smallest type, where a phone shows
// the picture as wide as its screen: upright, or on its side.
func TestVideoTypeIsRead(t *testing.T) {
	for _, c := range []struct {
		shape       string
		phone, read float64 // in pixels of a style sheet
	}{{"wide", 844, 11}, {"tall", 390, 11}, {"square", 390, 10}, {"band", 844, 9}} {
		v := VideoShapeNamed(c.shape)
		for setup := range Demo().Setups {
			s, o := SheetOf(t, setup, 0, 0)
			d := v.Framed(Draw(&s, v.Fit(o)))
			if w, h := d.W*v.Scale(), d.H*v.Scale(); math.Round(w) != float64(v.Wide) || math.Round(h) != float64(v.High) {
				t.Errorf("%s is %g by %g pixels", c.shape, w, h)
			}
			for _, shape := range d.Shapes {
				if text, ok := shape.(Text); ok && text.Size*v.Scale()*c.phone/float64(v.Wide) < c.read {
					t.Errorf("%s: %q has %.1f pixels on a phone, want %g", c.shape, text.Str, text.Size*v.Scale()*c.phone/float64(v.Wide), c.read)
				}
			}
		}
	}
}

// TestVideoMarginsStayFree: nothing but the ground lies in what a player may
// cover.
func TestVideoMarginsStayFree(t *testing.T) {
	for i := range VideoShapes {
		shapes := []VideoShape{VideoShapes[i]}
		if w, ok := VideoShapes[i].WithSide(); ok {
			shapes = append(shapes, w)
		}
		for k := range shapes {
			v := &shapes[k]
			s, o := SheetOf(t, 0, 0, 0)
			d := Draw(&s, v.Fit(o))
			if k > 0 {
				view := SideOf(t, Spaced(), 0)
				d = Under(d, DrawSide(&view, v.FitSide(SideOptions{Frame: view.Frame})))
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
