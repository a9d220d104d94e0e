package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// textsOf are the texts of d, and where they lie.
func textsOf(d *Drawing) (texts []Text, at []rect) {
	for _, s := range d.Shapes {
		if t, ok := s.(Text); ok {
			texts = append(texts, t)
			at = append(at, textRect(t.At.X, t.At.Y, TextWidth(t.Str, t.Size, t.Bold), t.Size, t.Anchor))
		}
	}
	return texts, at
}

// points are the corners of a shape.
func points(s Shape) []Point {
	switch s := s.(type) {
	case Box:
		return []Point{s.Min, s.Max}
	case Line:
		return []Point{s.From, s.To}
	case Path:
		return s.Points
	case Text:
		r := textRect(s.At.X, s.At.Y, TextWidth(s.Str, s.Size, s.Bold), s.Size, s.Anchor)
		return []Point{{r.x0, r.y0}, {r.x1, r.y1}}
	}
	return nil
}

// faults says what is wrong with the geometry of d, empty where nothing is.
func faults(d *Drawing) (out []string) {
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for _, s := range d.Shapes {
		for _, q := range points(s) {
			if math.IsNaN(q.X) || math.IsNaN(q.Y) || q.X < -0.01 || q.Y < -0.01 || q.X > d.W+0.01 || q.Y > d.H+0.01 {
				fault("%T leaves the %v by %v sheet at %v: %+v", s, d.W, d.H, q, s)
				break
			}
		}
		if b, ok := s.(Box); ok && (b.Max.X < b.Min.X || b.Max.Y < b.Min.Y) {
			fault("box from %v to %v", b.Min, b.Max)
		}
	}
	texts, at := textsOf(d)
	for i := range texts {
		if texts[i].Size < 8 {
			fault("text %q is only %v high", texts[i].Str, texts[i].Size)
		}
		for k := range i {
			if at[i].hits(at[k]) {
				fault("texts %q and %q overlap: %v, %v", texts[i].Str, texts[k].Str, at[i], at[k])
			}
		}
		for _, s := range d.Shapes {
			b, ok := s.(Box)
			if !ok || b.Fill != Ink || b.Texture == Blank || b.Texture == Tint {
				continue
			}
			if at[i].hits(rect{b.Min.X + 0.1, b.Min.Y + 0.1, b.Max.X - 0.1, b.Max.Y - 0.1}) {
				fault("text %q lies on a filled bar %v to %v", texts[i].Str, b.Min, b.Max)
			}
		}
	}
	for _, h := range d.Hots {
		if !(h.Min.X < h.Max.X) || !(h.Min.Y < h.Max.Y) || h.Min.X < d.Left-0.01 || h.Max.X > d.W || h.Min.Y < 0 || h.Max.Y > d.H {
			fault("hot %+v", h)
		}
	}
	return out
}

// renamed is the demo with every name changed.
func renamed(change func(string) string) *timeline.Project {
	p := demo()
	plan := map[string]bool{"": true, timeline.DoGuard: true, timeline.DoParry: true}
	name := func(s *string) {
		if !plan[*s] {
			*s = change(*s)
		}
	}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		name(&f.Name)
		for k := range f.Moves {
			name(&f.Moves[k].Name)
		}
		for k := range f.Jumps {
			name(&f.Jumps[k].Name)
		}
		for k := range f.Rises {
			name(&f.Rises[k].Name)
		}
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		for _, n := range []*string{&s.Name, &s.Attacker, &s.Rival, &s.Ender, &s.Jump, &s.Attack, &s.Landing} {
			name(n)
		}
		s.Fillers = append([]string(nil), s.Fillers...)
		s.Rises = append([]string(nil), s.Rises...)
		s.Replies = append([]timeline.Reply(nil), s.Replies...)
		for k := range s.Fillers {
			name(&s.Fillers[k])
		}
		for k := range s.Rises {
			name(&s.Rises[k])
		}
		for k := range s.Replies {
			name(&s.Replies[k].Move)
		}
	}
	return p
}

var namings = []struct {
	name   string
	change func(string) string
}{
	{"as they are", func(s string) string { return s }},
	{"two hundred letters", func(s string) string { return s + strings.Repeat(" long winded", 18)[:200-len(s)] }},
	{"one word", func(s string) string { return s[:1] + strings.Repeat("Wm", 80) + s }},
	{"CJK", func(s string) string { return strings.Repeat("跳躍攻撃", 40) + s }},
	{"combining", func(s string) string {
		return "e\u0301\u0301\u0301\u0301\u0301\u0301" + strings.Repeat("Z\u0323\u030c\u0351", 40) + s
	}},
	{"invisible", func(s string) string { return "\ufeff\u200b" + s + "\u00ad\u200f\u2060" }},
}

var sizes = [][2]float64{{320, 300}, {480, 320}, {480, 1000}, {519, 300}, {640, 400}, {1024, 600}, {1280, 300}, {1920, 1000}, {3840, 700}}

var views = []*View{nil, {0, 0.5}, {-20, 3}, {38.25, 11}, {41.7, 40}, {-8, 40}, {-600, 0.5}, {500, 12}, {3, 7.77}, {25, 22}}

// TestGeometry draws every demo setup over a grid of names, sizes, views,
// delays and exchanges.
func TestGeometry(t *testing.T) {
	outcomes := map[timeline.Outcome]int{}
	verdicts := map[timeline.Word]int{}
	drawn, bad := 0, 0
	for _, naming := range namings {
		ps := plans(t, renamed(naming.change))
		for k, p := range ps {
			for _, d := range []int{p.Setup.Delay, 0, 1, 5, 9} {
				v := words.VerdictAt(p, d)
				for line := range p.Lines() {
					s := words.SceneAt(p, d, line%p.Rises(), line)
					outcomes[s.Cell.Outcome]++
					verdicts[s.Verdict]++
					for i := range 3 { // every third of the sizes and views, so that all pairs come up
						size, view := sizes[(drawn+i)%len(sizes)], views[(drawn/3+i*7)%len(views)]
						o := Options{W: size[0], H: size[1], View: view, Sentence: v.Because, Position: string(p.Setup.Position)}
						for _, f := range faults(Draw(&s, o)) {
							if bad++; bad < 12 {
								t.Errorf("names %s, setup %d, delay %d, line %d, size %v, view %v: %s", naming.name, k, d, line, size, view, f)
							}
						}
					}
					drawn++
				}
			}
		}
	}
	t.Logf("%d scenes, %d drawings, %d faults; outcomes %v; verdicts %v", drawn, 3*drawn, bad, outcomes, verdicts)
	for o := range timeline.Outcome(timeline.Outcomes) {
		if outcomes[o] == 0 {
			t.Errorf("no scene with outcome %v", o)
		}
	}
}

// FuzzDraw draws any scene at any size and view.
func FuzzDraw(f *testing.F) {
	f.Add("sweep", uint8(0), uint8(0), uint8(0), 1024.0, 600.0, 0.0, 12.0)
	f.Add("跳", uint8(7), uint8(9), uint8(4), 320.0, 300.0, 41.5, 40.0)
	f.Add("\xff\u0301", uint8(2), uint8(200), uint8(11), math.NaN(), math.Inf(1), -1e300, 1e-300)
	ps := plans(f, demo())
	f.Fuzz(func(t *testing.T, name string, setup, delay, line uint8, w, h, from, scale float64) {
		p := ps[int(setup)%len(ps)]
		d := int(delay) % (p.Fits() + 1)
		s := words.SceneAt(p, d, 0, int(line)%p.Lines())
		s.Setup, s.Rival, s.Attacker, s.Reply, s.Rise = name, name, name, name, name
		for _, blocks := range [][]timeline.Block{s.Top, s.Bottom} {
			for i := range blocks {
				blocks[i].Name = name
			}
		}
		o := Options{W: math.Min(w, 6000), H: math.Min(h, 3000), View: &View{from, math.Min(scale, 200)}, Sentence: name + " " + s.Sentence}
		if got := faults(Draw(&s, o)); len(got) > 0 {
			t.Error(got[0])
		}
	})
}

// TestFaultsAreSeen holds the test above to its word.
func TestFaultsAreSeen(t *testing.T) {
	s, o := sheetOf(t, 0, 1024, 600)
	bar := Box{Min: Point{500, 100}, Max: Point{540, 120}, Fill: Ink, Texture: Solid}
	for name, add := range map[string][]Shape{
		"overlap":   {Text{At: Point{700, 300}, Str: "one", Size: 12}, Text{At: Point{710, 303}, Str: "two", Size: 12}},
		"off":       {Text{At: Point{1000, 300}, Str: "leaves the sheet", Size: 12}},
		"not drawn": {Line{From: Point{math.NaN(), 0}, To: Point{10, 10}}},
		"on a bar":  {bar, Text{At: Point{505, 115}, Str: "x", Size: 12}},
	} {
		d := Draw(&s, o)
		if d.Shapes = append(d.Shapes, add...); len(faults(d)) == 0 {
			t.Errorf("%s: no fault seen", name)
		}
	}
}
