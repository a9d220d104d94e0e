package sheet

import (
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TestAHoldBarTellsItsSpans: a box for each span, on its side of where the setup
// stands; an arrow where one goes on; what breaks marked where it is nearest;
// and nothing in the colour of a judgement while it isn't known.
func TestAHoldBarTellsItsSpans(t *testing.T) {
	const x0, x1, y = 40.0, 340.0, 10.0
	b := func(from, to int) timeline.Bounds { return timeline.Bounds{From: from, To: to} }
	for _, c := range []struct {
		name                 string
		h                    words.Holding
		before, over, after  int // spans left of where it stands, there, and right of it
		arrows, breaks, less int // less: how many of the breaks are marked to the left
	}{
		{"both sides alike", words.Holding{At: 48, Tried: b(32, 64), Spans: []timeline.Bounds{b(47, 49)}}, 0, 1, 0, 0, 2, 1},
		{"less breaks first", words.Holding{At: 48, Tried: b(32, 64), Spans: []timeline.Bounds{b(48, 52)}}, 0, 1, 0, 0, 1, 1},
		{"more breaks first", words.Holding{At: 120, Tried: b(0, 320), Spans: []timeline.Bounds{b(20, 121), b(140, 150)}}, 0, 1, 1, 0, 1, 0},
		{"or more", words.Holding{At: 120, Tried: b(0, 320), Spans: []timeline.Bounds{b(95, 320)}}, 0, 1, 0, 1, 1, 1},
		{"or less, or more", words.Holding{At: 48, Tried: b(32, 64), Spans: []timeline.Bounds{b(32, 64)}}, 0, 1, 0, 2, 0, 0},
		{"from 0 on there is no less", words.Holding{At: 5, Tried: b(0, 21), Spans: []timeline.Bounds{b(0, 7)}}, 0, 1, 0, 0, 1, 0},
		{"it needs less", words.Holding{At: 120, Tried: b(0, 320), Spans: []timeline.Bounds{b(10, 11), b(60, 90)}}, 2, 0, 0, 0, 0, 0},
		{"none, below 0", words.Holding{At: -30, Tried: b(0, 170)}, 0, 0, 0, 0, 0, 0},
	} {
		for _, j := range []timeline.Judgement{timeline.JudgedSafe, timeline.JudgedLimited} {
			for _, known := range []bool{true, false} {
				shapes := HoldBar(&c.h, j, known, x0, x1, y)
				var at float64 // where it stands
				for _, s := range shapes {
					if l, ok := s.(Line); ok && l.Stroke == Ink && l.From.X == l.To.X {
						at = l.From.X
					}
				}
				before, over, after, arrows, breaks, less := 0, 0, 0, 0, 0, 0
				inside := func(q Point) {
					if q.X < x0 || q.X > x1 || q.Y < y || q.Y > y+HoldBarHeight {
						t.Errorf("%s: %v lies outside the bar", c.name, q)
					}
				}
				for _, s := range shapes {
					switch s := s.(type) {
					case Box:
						inside(s.Min)
						inside(s.Max)
						if s.Stroke == None {
							continue // the ground under a hatch
						}
						if judged := s.Stroke == RoleOf(j); judged != known || s.Dashed == known {
							t.Errorf("%s, known %v: a span in role %d, dashed %v", c.name, known, s.Stroke, s.Dashed)
						}
						if known && (s.Texture == Hatch) != (j == timeline.JudgedLimited) {
							t.Errorf("%s: a span of judgement %d is filled with texture %d", c.name, j, s.Texture)
						}
						switch {
						case s.Max.X < at:
							before++
						case s.Min.X > at:
							after++
						default:
							over++
						}
					case Line:
						inside(s.From)
						inside(s.To)
					case Path:
						for _, q := range s.Points {
							inside(q)
						}
						switch {
						case s.Stroke == RoleOf(timeline.JudgedUnsafe):
							breaks++
							if s.Points[0].X < at {
								less++
							}
						case s.Fill != Ink:
							arrows++
						}
					}
				}
				if before != c.before || over != c.over || after != c.after || arrows != c.arrows {
					t.Errorf("%s: %d spans before, %d over, %d after, %d arrows, want %d, %d, %d, %d", c.name, before, over, after, arrows, c.before, c.over, c.after, c.arrows)
				}
				if want := map[bool]int{true: c.breaks}[known]; breaks != want || known && less != c.less {
					t.Errorf("%s, known %v: %d marks of what breaks, %d to the left, want %d, %d", c.name, known, breaks, less, want, c.less)
				}
			}
		}
	}
}
