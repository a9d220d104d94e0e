package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
)

// textsApart holds that no text of a drawing leaves it, and none lies on
// another. It returns the texts.
func textsApart(t *testing.T, d *Drawing) (texts []string) {
	t.Helper()
	var taken []rect
	for _, s := range d.Shapes {
		text, ok := s.(Text)
		if !ok || text.Str == "" {
			continue
		}
		r := textRect(text.At.X, text.At.Y, TextWidth(text.Str, text.Size, text.Bold), text.Size, text.Anchor)
		if r.x0 < 0 || r.x1 > d.W || r.y0 < 0 || r.y1 > d.H {
			t.Errorf("%g by %g: %q lies outside: %v", d.W, d.H, text.Str, r)
		}
		for i, o := range taken {
			if r.hits(rect{o.x0 + 0.5, o.y0 + 0.5, o.x1 - 0.5, o.y1 - 0.5}) {
				t.Errorf("%g by %g: %q lies on %q", d.W, d.H, text.Str, texts[i])
			}
		}
		taken, texts = append(taken, r), append(texts, text.Str)
	}
	return texts
}

// drawnTable is a table of so many rows and columns besides the two fixed ones,
// whose texts have a name in them.
func drawnTable(rows, columns int, name string) *Table {
	tab := &Table{Heading: name + " vs all", Answer: "Some setup of " + name + " holds.", Notes: []string{"Note: " + name}, Fixed: 2,
		Columns: []TableColumn{{Head: "Setup", Least: 8, Most: 20}, {Head: "Holds against", Least: 4, Most: 5, AtEnd: true}},
		Key:     append(MarkKeys(timeline.JudgedSafe, timeline.JudgedUnsafe), TableKey{Sample: "Setup", Look: UnderCell, Means: "in the minimum set"}, TableKey{Sample: "no replies", Look: SoftCell, Means: "nothing is known"})}
	for k := range columns {
		tab.Columns = append(tab.Columns, TableColumn{Head: fmt.Sprint("Rival ", k, " ", name), Least: 5, Most: 10})
	}
	for i := range rows {
		r := TableRow{Cells: []TableCell{{Lines: []string{fmt.Sprint("row", i, " ", name)}, Look: UnderCell}, {Lines: []string{"12 of 60"}}}}
		for k := range columns {
			r.Cells = append(r.Cells, TableCell{Lines: []string{fmt.Sprint("cell", i, "x", k), "4 frames or slower"}, Marked: k%2 == 0, Mark: timeline.JudgedLimited})
		}
		tab.Rows = append(tab.Rows, r)
	}
	return tab
}

// TestATableStandsInItsPlace: no text leaves its page, none lies on another,
// and each cell is drawn once, under its heads and beside the name of its row.
func TestATableStandsInItsPlace(t *testing.T) {
	for _, c := range []struct {
		rows, columns int
		name          string
		w, high       float64
	}{
		{5, 3, "Low", 480, 0}, {40, 12, "Low", 1280, 0}, {40, 3, "Low", 900, 1200}, {30, 30, "Low", 1050, 700},
		{12, 9, strings.Repeat("A very long name indeed ", 6), 1050, 700}, {12, 9, strings.Repeat("Longword", 20), 640, 0}, {0, 4, "Low", 640, 0},
	} {
		pages, err := DrawTable(drawnTable(c.rows, c.columns, c.name), c.w, c.high)
		if err != nil {
			t.Fatal(err)
		}
		drawn := map[string]int{}
		for _, d := range pages {
			if c.high > 0 && (d.W != c.w || d.H != c.high) {
				t.Errorf("a page of %g by %g, want %g by %g", d.W, d.H, c.w, c.high)
			}
			texts := textsApart(t, d)
			if !slices.Contains(texts, "Setup") {
				t.Errorf("%+v: a page without heads", c)
			}
			for i := range c.rows {
				row, cells := false, false
				for _, s := range texts {
					row = row || s == fmt.Sprint("row", i) || strings.HasPrefix(s, fmt.Sprint("row", i, " "))
					cells = cells || strings.HasPrefix(s, fmt.Sprint("cell", i, "x"))
				}
				if row != cells {
					t.Errorf("%+v: row %d: its name is there: %v, its cells: %v", c, i, row, cells)
				}
			}
			for _, s := range texts {
				if strings.HasPrefix(s, "cell") {
					drawn[s]++
				}
			}
		}
		if len(drawn) != c.rows*c.columns {
			t.Errorf("%+v: %d cells are drawn", c, len(drawn))
		}
		for s, n := range drawn {
			if n != 1 {
				t.Errorf("%+v: %s is drawn %d times", c, s, n)
			}
		}
	}
}

// TestSectionsHeadTheirRows: also where their rows go on on the next page.
func TestSectionsHeadTheirRows(t *testing.T) {
	tab := drawnTable(40, 2, "Low")
	for i := range tab.Rows {
		tab.Rows[i].Section = [...]string{"First part", "Second part"}[i/30]
	}
	pages, err := DrawTable(tab, 900, 700)
	if err != nil {
		t.Fatal(err)
	}
	first, second := 0, 0
	for _, d := range pages {
		texts := textsApart(t, d)
		if slices.Contains(texts, "First part") {
			first++
		}
		if slices.Contains(texts, "Second part") {
			second++
		}
	}
	if len(pages) < 3 || first < 2 || first+second < len(pages) {
		t.Errorf("%d pages, %d with the first part, %d with the second", len(pages), first, second)
	}
}

func TestATableTooLargeForAPictureHasPages(t *testing.T) {
	for _, tab := range []*Table{drawnTable(TableRows+1, 2, "a"), drawnTable(2, TableColumns, "a")} {
		if _, err := DrawTable(tab, 900, 0); err == nil {
			t.Error("too large a picture is drawn")
		}
		if _, err := DrawTable(tab, 900, 600); err != nil {
			t.Error(err)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	tab := drawnTable(300, 60, "Low")
	for b.Loop() {
		if _, err := DrawTable(tab, 1050, 700); err != nil {
			b.Fatal(err)
		}
	}
}
