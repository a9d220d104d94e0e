package sheet

import (
	"math"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// worthDemo is the demo's first setup in a project with damage, a route and a
// string.
func worthDemo() *timeline.Project {
	p := demo()
	f := &p.Fighters[0]
	for i := range f.Moves {
		f.Moves[i].Damage = 10 * f.Moves[i].Startup
	}
	f.Moves = append(f.Moves, timeline.Move{Name: "long paw", Kind: timeline.Strike, Level: timeline.Mid, Startup: 9, Active: []int{4}, Recovery: 13, OnHit: some(7), OnGuard: some(-7), Damage: 120})
	f.Routes = []timeline.Route{{Name: "garden path", Steps: []timeline.RouteStep{
		{Move: "long paw", By: timeline.Link}, {Move: "palm jab", By: timeline.Link}, {Move: "heel sweep", By: timeline.Cancel}}}}
	s := &p.Setups[0]
	s.OnHit = "garden path"
	s.Follow = []timeline.FollowStep{{Move: "palm jab", By: timeline.Link}, {Move: "palm jab", Wait: 3, By: timeline.Link}, {Move: "long paw", By: timeline.Cancel}}
	return p
}

// followed is a scene of it on its first rise, with what follows.
func followed(t testing.TB, line int) words.Scene {
	t.Helper()
	p := worthDemo()
	plan := plans(t, p)[0]
	m := plan.Meetings(plan.Setup.Delay, nil)
	v := words.VerdictOf(&m)
	e := timeline.Exchange{Line: line}
	s := words.SceneOf(&m, &v, e)
	s.Follow(value.NewBook(p).Sequel(&m, value.Gauges{}, e))
	if s.After == nil {
		t.Fatal("nothing follows")
	}
	return s
}

func followedSheet(t testing.TB, line int, w, h float64) (words.Scene, Options) {
	s := followed(t, line)
	v := words.VerdictAt(plans(t, worthDemo())[0], 0)
	return s, Options{W: w, H: h, Sentence: v.Because, Position: string(timeline.Midscreen)}
}

// TestWhatFollowsLiesOnItsFrames: each step is drawn solid exactly where package
// value has it active, on the same ruler as the rest, and the dimension of each
// gap has its number.
func TestWhatFollowsLiesOnItsFrames(t *testing.T) {
	for _, line := range []int{timeline.LineGuardHigh, timeline.LineNothing, timeline.FirstReply} {
		for _, view := range []*View{nil, {From: 30, Scale: 9}} {
			s := followed(t, line)
			d := Draw(&s, Options{W: 1280, H: 560, View: view})
			for i := range s.After.Steps {
				step := &s.After.Steps[i]
				if !step.Touch.Given {
					t.Fatalf("%s doesn't touch", step.Name)
				}
				x0, found := d.X(float64(step.Touch.N)), false
				for _, shape := range d.Shapes {
					b, ok := shape.(Box)
					found = found || ok && b.Texture == Solid && b.Fill == Ink && math.Abs(b.Min.X-x0) < 0.01 && b.Min.Y >= d.Bars.From-0.01 && b.Max.Y <= d.Bars.To+0.01
				}
				if in := x0 >= d.Left && x0 < d.Right; found != in {
					t.Errorf("line %d, view %v: %s on %v is drawn: %v", line, view, step.Name, step.Touch, found)
				}
			}
			if free := d.X(float64(s.After.Free())); view == nil && free > d.Right {
				t.Errorf("line %d: the attacker is free on %d, past the sheet's right edge", line, s.After.Free())
			}
		}
	}
}

// TestWhatFollowsIsSaid holds the words on the sheet, and for who can't see it.
func TestWhatFollowsIsSaid(t *testing.T) {
	for line, want := range map[int][]string{
		timeline.LineGuardHigh: {"true string", "gap 10: rising lantern beats it", "-7: gives up the turn: short fuse punishes"},
		timeline.LineNothing:   {"garden path, ", "knocked down", "hitstun"},
		timeline.FirstReply:    {"garden path, "},
	} {
		s := followed(t, line)
		d := Draw(&s, Options{W: 1600, H: 640})
		all := ""
		for _, shape := range d.Shapes {
			if text, ok := shape.(Text); ok {
				all += text.Str + "\n"
			}
		}
		for _, w := range want {
			if !strings.Contains(all, w) {
				t.Errorf("line %d: the sheet doesn't say %q:\n%s", line, w, all)
			}
		}
		if !strings.HasSuffix(d.Desc, s.Then) || s.Then == "" {
			t.Errorf("line %d: the description is %q, want it to end with %q", line, d.Desc, s.Then)
		}
	}
}

// TestNothingFollowsOnACoveredSheet: an exercise doesn't tell how it ends.
func TestNothingFollowsOnACoveredSheet(t *testing.T) {
	s := followed(t, timeline.LineNothing)
	plain := words.SceneAt(plans(t, worthDemo())[0], 0, 0, timeline.LineNothing).Covered()
	plain.Follow(s.After)
	if plain.After != nil || plain.Then != "" {
		t.Errorf("what follows is told: %q", plain.Then)
	}
}

// TestALessonDrawsWhatFollows: under each of its steps, on one ruler that reaches
// to the end of all of it; the route is named, each step is active where it
// touches, nothing lies on anything, and it is said. A setup that says nothing of
// what follows is drawn as before.
func TestALessonDrawsWhatFollows(t *testing.T) {
	for _, w := range []float64{480, 900, 1280, 1920} {
		for _, line := range []int{timeline.LineGuardHigh, timeline.LineNothing, timeline.FirstReply} {
			plan := plans(t, worthDemo())[0]
			l := words.LessonAt(plan, plan.Setup.Delay, 1, 0, line)
			before := DrawLesson(&l, w)
			value.FollowLesson(&l, plan)
			d := DrawLesson(&l, w)
			for _, f := range faults(d) {
				t.Errorf("line %d, %g wide: %s", line, w, f)
			}
			if !(d.View.Scale < before.View.Scale) {
				t.Errorf("line %d, %g wide: the ruler is as long as before", line, w)
			}
			for i := range l.Steps {
				s := &l.Steps[i]
				if s.Scene.After == nil {
					if line == timeline.LineGuardHigh {
						t.Errorf("nothing follows at delay %d", s.Delay)
					}
					continue
				}
				if !strings.Contains(d.Desc, s.Scene.Then) || s.Scene.Then == "" {
					t.Errorf("line %d: the description lacks %q", line, s.Scene.Then)
				}
				if s.Scene.Span.To != l.Span.To || l.Span.To < s.Scene.After.Free() {
					t.Errorf("line %d, delay %d: drawn to %d of %d, and the attacker is free on %d", line, s.Delay, s.Scene.Span.To, l.Span.To, s.Scene.After.Free())
				}
				for k := range s.Scene.After.Steps {
					x, found := d.X(float64(s.Scene.After.Steps[k].Touch.N)), 0
					for _, shape := range d.Shapes {
						if b, ok := shape.(Box); ok && b.Texture == Solid && b.Fill == Ink && math.Abs(b.Min.X-x) < 0.01 {
							found++
						}
					}
					if found == 0 {
						t.Errorf("line %d, delay %d: %s is nowhere active on its touch", line, s.Delay, s.Scene.After.Steps[k].Name)
					}
				}
				if name := s.Scene.After.Name; name != "" && w >= 900 {
					if texts, _ := textsOf(d); !strings.Contains(strings.Join(strs(texts), "\n"), name) {
						t.Errorf("line %d, %g wide: the route %s isn't named", line, w, name)
					}
				}
			}
		}
	}
	plan := plans(t, worthDemo())[0]
	plan.Setup.OnHit, plan.Setup.Follow, plan.Setup.Punish = "", nil, nil
	l := words.LessonAt(plan, plan.Setup.Delay, 1, 0, timeline.LineNothing)
	before := len(DrawLesson(&l, 900).Shapes)
	value.FollowLesson(&l, plan)
	if d := DrawLesson(&l, 900); len(d.Shapes) != before || l.Steps[0].Scene.After != nil {
		t.Error("a setup that says nothing of what follows is drawn with it")
	}
}

func strs(of []Text) (out []string) {
	for _, x := range of {
		out = append(out, x.Str)
	}
	return out
}
