package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// gridOf is the match-up of the demo's setups under those names.
func gridOf(t *testing.T, change func(string) string) (g compare.Grid, attacker, rival string) {
	t.Helper()
	p := renamed(change)
	attacker, rival = p.Setups[0].Attacker, p.Setups[0].Rival
	m, err := compare.NewMatchup(p, attacker, rival, true)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Setups {
		if err := m.Add(s); err != nil {
			t.Fatal(err)
		}
	}
	return m.Grid(), attacker, rival
}

// TestGridWithPoints: each cell has room for what it comes to, and the key says
// what that is.
func TestGridWithPoints(t *testing.T) {
	for i, naming := range namings {
		g, attacker, rival := gridOf(t, naming.change)
		g.Valued = true
		cells := 0
		for r := range g.Rows {
			for k := range g.Rows[r].Cells {
				c := &g.Rows[r].Cells[k]
				c.Worth = words.Worth{Points: timeline.Some(-12345), Kills: timeline.Some(10000)}
				if c.Judged {
					cells++
				}
			}
		}
		d, err := DrawGrid(&g, attacker, rival, []float64{0, 1280, 2400}[i%3])
		if err != nil {
			t.Fatal(err)
		}
		for k, f := range faults(d) {
			if k < 5 {
				t.Errorf("names %s: %s", naming.name, f)
			}
		}
		said, told := 0, false
		for _, s := range d.Shapes {
			if text, ok := s.(Text); ok {
				if text.Str == "-12345 points; ends 10000" {
					said++
				}
				told = told || strings.HasPrefix(text.Str, "what you gain")
			}
		}
		if said != cells || !told {
			t.Errorf("names %s: %d of %d cells have points, the key says so: %v", naming.name, said, cells, told)
		}
	}
}

// TestGridGeometry: nothing leaves the page, no text lies on another, and a
// mark stands in every cell that is judged.
func TestGridGeometry(t *testing.T) {
	for i, naming := range namings {
		g, attacker, rival := gridOf(t, naming.change)
		d, err := DrawGrid(&g, attacker, rival, []float64{0, 1280, 2400}[i%3])
		if err != nil {
			t.Fatal(err)
		}
		for k, f := range faults(d) {
			if k < 5 {
				t.Errorf("names %s: %s", naming.name, f)
			}
		}
		marks, covers, want, framed := 0, 0, len(g.Rows)+len(judgements), 1 // with those of the key
		for _, s := range d.Shapes {
			switch v := s.(type) {
			case Path:
				marks++
			case Box:
				if v.Texture == Tint && v.Stroke != None {
					covers++
				}
			}
		}
		for _, r := range g.Rows {
			for _, c := range r.Cells {
				if c.Judged {
					want++
				}
				if c.Covers {
					framed++
				}
			}
		}
		if marks != want || covers != framed {
			t.Errorf("names %s: %d marks and %d frames, want %d and %d", naming.name, marks, covers, want, framed)
		}
	}
	wide := compare.Grid{Replies: make([]compare.GridReply, GridColumns+1)}
	long := compare.Grid{Rows: make([]compare.GridRow, GridRows+1)}
	for _, g := range []*compare.Grid{&wide, &long} {
		if _, err := DrawGrid(g, "a", "b", 1280); err == nil {
			t.Errorf("%d rows and %d columns: no error", len(g.Rows), len(g.Replies))
		}
	}
}

// TestGridSaysWhatTheWindowSays: each cell the outcome and the frames to spare,
// and the key every sign.
func TestGridSaysWhatTheWindowSays(t *testing.T) {
	g, attacker, rival := gridOf(t, namings[0].change)
	d, err := DrawGrid(&g, attacker, rival, 1280)
	if err != nil {
		t.Fatal(err)
	}
	var got, want []string
	texts, _ := textsOf(d)
	for i := range g.Rows {
		r := &g.Rows[i]
		want = append(want, string(r.Word), r.Setup)
		for k := range r.Cells {
			c := &r.Cells[k]
			if !c.Judged {
				want = append(want, "does", "not fit")
				continue
			}
			want = append(want, strings.Fields(c.Cell.Outcome.String())...)
			if c.Cell.Spare.Given {
				want = append(want, fmt.Sprint(c.Cell.Spare.N))
			}
		}
	}
	from := slices.IndexFunc(texts, func(x Text) bool { return x.Str == string(g.Rows[0].Word) })
	for _, x := range texts[from:] {
		got = append(got, x.Str)
	}
	if len(got) < len(want) || !slices.Equal(got[:len(want)], want) {
		t.Errorf("the cells say\n%q, want\n%q", got, want)
	}
	for _, part := range []string{"safe", "limited", "unsafe", "even", "outlined", "frames to spare", "demands nothing"} {
		if !slices.ContainsFunc(got[len(want):], func(s string) bool { return strings.Contains(s, part) }) {
			t.Errorf("the key doesn't say %q: %q", part, got[len(want):])
		}
	}
}

// TestAGridOnPages: every page is as large as it must be, has its heads and the
// names of its rows; each cell stands once, beside its setup and under its reply;
// and nothing lies on anything or leaves its page.
func TestAGridOnPages(t *testing.T) {
	for _, naming := range namings {
		for _, c := range []struct {
			rows    int
			w, high float64
			valued  bool
		}{{0, 900, 1200, false}, {7, 900, 1200, false}, {500, 1050, 700, false}, {60, 1050, 700, true}, {9, 640, 300, true}} {
			g, attacker, rival := gridOf(t, naming.change)
			rows := g.Rows
			for g.Rows = nil; len(g.Rows) < c.rows; {
				r := rows[len(g.Rows)%len(rows)]
				r.Setup = fmt.Sprintf("%d. %s", len(g.Rows), r.Setup)
				r.Cells = slices.Clone(r.Cells)
				for k := range r.Cells { // each another
					r.Cells[k].Judged, r.Cells[k].Cell.Spare = true, timeline.Some(1000*len(g.Rows)+k)
					r.Cells[k].Worth = words.Worth{Points: timeline.Some(-12345), Kills: timeline.Some(10000)}
				}
				g.Rows = append(g.Rows, r)
			}
			g.Valued = c.valued
			pages, err := DrawGridOn(&g, attacker, rival, c.w, c.high)
			if err != nil {
				t.Fatal(err)
			}
			seen, heads := map[string]int{}, map[string]bool{}
			for n, d := range pages {
				if d.W != c.w || d.H != c.high {
					t.Errorf("%+v: a page of %g by %g", c, d.W, d.H)
				}
				if want := fmt.Sprintf(", page %d", n+1); len(pages) > 1 && !strings.HasSuffix(d.Title, want) {
					t.Errorf("page %d is called %q", n+1, d.Title)
				}
				for k, f := range faults(d) {
					if k < 3 {
						t.Errorf("names %s, %+v, page %d: %s", naming.name, c, n+1, f)
					}
				}
				texts, _ := textsOf(d)
				var cells, names []float64 // by height
				for _, x := range texts {
					if x.Size == d.Em && x.Anchor == AtEnd {
						seen[x.Str]++
						cells = append(cells, x.At.Y)
					}
					if num, _, ok := strings.Cut(x.Str+" ", ". "); ok && x.Bold && x.Size == d.Em {
						seen["row "+num]++
						names = append(names, x.At.Y)
					}
					if x.Size == 0.95*d.Em {
						heads[x.Str] = true
					}
				}
				for _, y := range cells {
					if !slices.ContainsFunc(names, func(of float64) bool { return math.Abs(of-y) < d.Em }) {
						t.Errorf("%+v, page %d: cells on %g, no name", c, n+1, y)
					}
				}
				if c.rows > 0 && (len(names) == 0 || len(cells)%len(names) != 0) {
					t.Errorf("%+v, page %d: %d cells of %d rows", c, n+1, len(cells), len(names))
				}
			}
			for i := range g.Rows {
				if got := seen[fmt.Sprint("row ", i)]; got == 0 || got != seen["row 0"] {
					t.Errorf("%+v: row %d is named %d times, the first %d", c, i, got, seen["row 0"])
				}
				for k := range g.Replies {
					if got := seen[fmt.Sprint(1000*i+k)]; got != 1 {
						t.Fatalf("%+v: the cell of row %d and reply %d stands %d times", c, i, k, got)
					}
				}
			}
			if naming.name == namings[0].name && !heads[g.Replies[len(g.Replies)-1].Title] {
				t.Errorf("%+v: no head of the last reply in %v", c, heads)
			}
		}
	}
	long := compare.Grid{Rows: make([]compare.GridRow, 30*MostTablePages)}
	if _, err := DrawGridOn(&long, "a", "b", 1050, 400); err == nil {
		t.Error("more pages than a document takes: no error")
	}
}

// TestContents: every entry once, in order, with the page that it stands on.
func TestContents(t *testing.T) {
	for _, n := range []int{0, 1, 24, 25, 130} {
		for _, naming := range namings {
			var entries []Entry
			for i := range n {
				entries = append(entries, Entry{Name: naming.change(fmt.Sprintf("entry %d", i)), About: naming.change("who vs whom"), Word: timeline.Unsafe})
				if n == 24 {
					entries[i].Answer = naming.change(fmt.Sprintf("answer %d", i))
				}
			}
			pages := Contents("All of them", entries, 1050, 720)
			var numbers []string
			for _, d := range pages {
				if f := faults(d); len(f) > 0 {
					t.Errorf("%d entries, names %s: %s", n, naming.name, f[0])
				}
				texts, _ := textsOf(d)
				for _, x := range texts {
					if x.Anchor == AtEnd {
						numbers = append(numbers, x.Str)
					}
				}
			}
			var want []string
			for i := range n {
				want = append(want, fmt.Sprint(len(pages)+i+1))
			}
			if !slices.Equal(numbers, want) {
				t.Errorf("%d entries, names %s: pages %v, want %v", n, naming.name, numbers, want)
			}
		}
	}
}

// TestACaptionSaysWhatItIsTold: its lines, its note and a key, none on another.
func TestACaptionSaysWhatItIsTold(t *testing.T) {
	s, _ := sheetOf(t, 0, 640, 400)
	for _, w := range []float64{480, 1050} {
		for _, note := range []string{"", "a note", strings.Repeat("a long note ", 80)} {
			texts := textsApart(t, DrawCaption(&s, []string{"Inputs: one, two.", strings.Repeat("more ", 60)}, note, w))
			if texts[0] != "Inputs: one, two." || slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, "Note: a") }) != (note != "") {
				t.Errorf("%g wide, note %.10q: %q", w, note, texts)
			}
			for _, sign := range []string{"startup", "attack meets wake-up", "meeting that decides"} {
				if !slices.Contains(texts, sign) {
					t.Errorf("%g wide: the key doesn't say %q", w, sign)
				}
			}
		}
	}
}

// TestContact: every strip with its name, none over another.
func TestContact(t *testing.T) {
	var strips []*Drawing
	var names []string
	for i, p := range plans(t, demo()) {
		rise, line := p.Deciding(p.Setup.Delay)
		s := words.SceneAt(p, p.Setup.Delay, rise, line)
		strips = append(strips, Draw(&s, Options{W: ContactW, H: ContactH, Sentence: words.VerdictAt(p, p.Setup.Delay).Because}))
		names = append(names, fmt.Sprintf("file %d.png", i))
	}
	for _, n := range []int{1, 4, 10, 24, 30} {
		many, called := make([]*Drawing, n), make([]string, n)
		for i := range n {
			many[i], called[i] = strips[i%len(strips)], fmt.Sprintf("%d %s", i, names[i%len(names)])
		}
		d := DrawContact(many, called, "Evening class", 2, 3)
		for k, f := range faults(d) {
			if k < 5 {
				t.Errorf("%d strips: %s", n, f)
			}
		}
		for i := range min(n, ContactPage) {
			if !hasText(d, called[i]) || !strings.Contains(d.Desc, called[i]) {
				t.Errorf("%d strips: %q is missing", n, called[i])
			}
		}
		if !hasText(d, "page 2 of 3") {
			t.Errorf("%d strips: the page isn't numbered", n)
		}
	}
}
