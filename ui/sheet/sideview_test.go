package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// spaced is the demo with distances and reaches: a jump-in that is right at
// midscreen, the same at the wall against a rise that moves back, a jump that
// crosses up, one that falls short, and one of which nothing is known.
func spaced() *timeline.Project {
	p := demo()
	for i := range p.Fighters {
		f := &p.Fighters[i]
		f.Width = some(44)
		for k := range f.Moves {
			m := &f.Moves[k]
			switch m.Name {
			case "heel sweep":
				m.Distance = timeline.Places{Midscreen: some(230), Wall: some(200)}
			case "kite kick":
				m.Reach = &timeline.Interval{Near: -18, Far: 62}
			case "rising lantern":
				m.Reach = &timeline.Interval{Near: 0, Far: 70}
				m.Travel = 24
			case "palm jab":
				m.Reach = &timeline.Interval{Near: 0, Far: 58}
			case "collar grab":
				m.Reach = &timeline.Interval{Near: 0, Far: 46}
			}
		}
	}
	base := p.Setups[0]
	with := func(name string, change func(s *timeline.Setup)) timeline.Setup {
		s := base
		s.Name = name
		change(&s)
		return s
	}
	p.Setups = []timeline.Setup{
		with("at midscreen", func(s *timeline.Setup) {}),
		with("at the wall", func(s *timeline.Setup) {
			s.Position, s.Room, s.Rises, s.Advantage, s.Landing = timeline.Wall, some(30), []string{"backward"}, some(39), "palm jab"
		}),
		with("over it", func(s *timeline.Setup) { s.Distance = some(178) }),
		with("too far", func(s *timeline.Setup) { s.Distance, s.Room = some(420), some(2000) }),
		with("of which nothing is known", func(s *timeline.Setup) { s.Ender, s.Advantage = "", some(42) }),
	}
	return p
}

// namedLong is spaced with names as long as they may be.
func namedLong() *timeline.Project {
	p := spaced()
	long := func(s *string) {
		if *s != "" {
			*s += strings.Repeat(" of the very long name", 8)
		}
	}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		long(&f.Name)
		for k := range f.Moves {
			long(&f.Moves[k].Name)
		}
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		s.Replies = slices.Clone(s.Replies)
		long(&s.Attacker)
		long(&s.Rival)
		long(&s.Ender)
		long(&s.Attack)
		if s.Landing != timeline.DoGuard {
			long(&s.Landing)
		}
		for k := range s.Replies {
			if s.Replies[k].Move != "forward jump" {
				long(&s.Replies[k].Move)
			}
		}
	}
	return p
}

// sideOf is the side view of that setup, in the exchange that decides it.
func sideOf(t testing.TB, p *timeline.Project, index int) words.SideView {
	t.Helper()
	plan := plans(t, p)[index]
	d := plan.Setup.Delay
	rise, line := plan.Deciding(d)
	return words.SideViewAt(plan, d, rise, line)
}

// saysOf is what a drawing says, text by text.
func saysOf(d *Drawing) (out []string) {
	texts, _ := textsOf(d)
	for i := range texts {
		out = append(out, texts[i].Str)
	}
	return out
}

// TestSideViewTexts: on every frame of every side view no text leaves the
// drawing or lies on another, at any size and under long names.
func TestSideViewTexts(t *testing.T) {
	for _, p := range []*timeline.Project{spaced(), namedLong()} {
		for i := range p.Setups {
			v := sideOf(t, p, i)
			for _, w := range [...]float64{MinSideW, 480, 1000, 3840} {
				for f := -3; f < len(v.Attacker.Posts)+3; f++ {
					d := DrawSide(&v, SideOptions{W: w, H: SideHeight(&v, w), Frame: f})
					where := fmt.Sprintf("%.20s, %v wide, frame %d", p.Setups[i].Name, w, f)
					texts, at := textsOf(d)
					for k, r := range at {
						if r.x0 < 0 || r.y0 < 0 || r.x1 > d.W || r.y1 > d.H {
							t.Fatalf("%s: %q at %v leaves the drawing", where, texts[k].Str, r)
						}
						for _, o := range at[:k] {
							if r.hits(o) {
								t.Fatalf("%s: %q at %v lies on another text at %v", where, texts[k].Str, r, o)
							}
						}
					}
					for _, s := range d.Shapes {
						for _, q := range points(s) {
							if !(q.X >= -1 && q.X <= d.W+1 && q.Y >= -1 && q.Y <= d.H+1) {
								t.Fatalf("%s: %T leaves the drawing at %v", where, s, q)
							}
						}
					}
				}
			}
		}
	}
}

// TestSideViewSays: a view of which nothing is known says so and draws neither
// ground nor bodies; what is known has places to take hold of, where they are.
func TestSideViewSays(t *testing.T) {
	p := spaced()
	v := sideOf(t, p, 4)
	d := DrawSide(&v, SideOptions{W: 900})
	if got := saysOf(d); !strings.Contains(strings.Join(got, " "), "isn't known") || len(d.Hots) > 0 || len(d.Shapes) > 4 {
		t.Errorf("a view of nothing has %d shapes, %d places and says %q, want a sentence alone", len(d.Shapes), len(d.Hots), got)
	}
	v = sideOf(t, p, 1)
	d = DrawSide(&v, SideOptions{W: 900, H: 260, Frame: v.Frame})
	for part, units := range map[timeline.Part]int{timeline.PartPlace: v.Rival.At(v.Frame).X / timeline.PerUnit, timeline.PartWall: v.Wall.N, timeline.PartTouchdown: 190} {
		found := false
		for _, h := range d.Hots {
			found = found || h.Part == part && h.Min.X <= d.X(float64(units)) && d.X(float64(units)) <= h.Max.X
		}
		if !found {
			t.Errorf("no place of part %d about %d units: %v", part, units, d.Hots)
		}
	}
	if !strings.Contains(strings.Join(saysOf(d), "|"), v.Gap(v.Frame)) {
		t.Errorf("the drawing says %q, want %q among it", saysOf(d), v.Gap(v.Frame))
	}
}

// TestSideSweepStandsStill: of a sweep all views have one scale.
func TestSideSweepStandsStill(t *testing.T) {
	plan := plans(t, spaced())[0]
	var views []words.SideView
	for d := range 6 {
		rise, line := plan.Deciding(d)
		views = append(views, words.SideViewAt(plan, d, rise, line))
	}
	for i, d := range SideSweep(views, SideOptions{W: 900, H: 260}) {
		first := SideSweep(views, SideOptions{W: 900, H: 260})[0]
		if d.View != first.View || d.Top != first.Top || d.H != first.H {
			t.Errorf("picture %d has view %v, %v, want %v, %v", i, d.View, d.Top, first.View, first.Top)
		}
	}
}

// TestUnder: the drawing under another keeps its shapes, further down, over one
// ground.
func TestUnder(t *testing.T) {
	s, o := sheetOf(t, 0, 900, 400)
	v := sideOf(t, spaced(), 0)
	top, below := Draw(&s, o), DrawSide(&v, SideOptions{W: 900, H: 260, Frame: v.Frame})
	d := Under(top, below)
	if d.H != 660 || len(d.Shapes) != len(top.Shapes)+len(below.Shapes)-1 || !d.OnGround() {
		t.Fatalf("%v high with %d shapes, on ground %v, want 660 with %d, true", d.H, len(d.Shapes), d.OnGround(), len(top.Shapes)+len(below.Shapes)-1)
	}
	last, want := d.Shapes[len(d.Shapes)-1].(Text), below.Shapes[len(below.Shapes)-1].(Text)
	if want.At.Y += 400; last != want {
		t.Errorf("the last shape is %v, want %v", last, want)
	}
}

func BenchmarkDrawSide(b *testing.B) {
	plan := plans(b, spaced())[0]
	rise, line := plan.Deciding(0)
	for b.Loop() {
		v := words.SideViewAt(plan, 0, rise, line)
		DrawSide(&v, SideOptions{W: 1100, H: 230, Frame: v.Frame})
	}
}

// TestSideViewSaysWhyItBreaks: where the attack doesn't reach, on the frame on
// which it should have met, and on no other.
func TestSideViewSaysWhyItBreaks(t *testing.T) {
	v := sideOf(t, spaced(), 3)
	if v.Cell.Meeting.Given || v.Judgement != timeline.JudgedUnsafe {
		t.Fatalf("the exchange is %+v, want an attack out of reach", v.Cell)
	}
	const why = "kite kick is 173 units short on frame 42"
	if v.Why != why {
		t.Errorf("Why = %q, want %q", v.Why, why)
	}
	for _, f := range []int{v.Frame - 1, v.Frame, v.Frame + 1} {
		d := DrawSide(&v, SideOptions{W: 1000, H: 260, Frame: f})
		say := strings.Join(saysOf(d), "|")
		if got := strings.Contains(say, why) && strings.Contains(say, "attack whiffs"); got != (f == v.Frame) {
			t.Errorf("on frame %d, which is %d from the one that decides, it says %q", f, f-v.Frame, say)
		}
	}
	if v := sideOf(t, spaced(), 0); v.Why != "" {
		t.Errorf("of an attack that meets it says why it doesn't: %q", v.Why)
	}
}
