package output

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/find"
	"wakeline/timeline/patch"
	"wakeline/ui/sheet"
)

// sampleFound is a search of the sample with so many answers, and its table of
// enders with so many rows; the first of them are those of the search itself.
func sampleFound(t *testing.T, answers, rows int, rename func(string) string) (*find.Told, *find.ToldEnders) {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	q := find.Query{Setup: p.Setups[0], Most: 3, List: 20}
	found, err := find.Search(t.Context(), p, q)
	if err != nil || len(found.Answers) < 3 {
		t.Fatalf("%d answers, %v", len(found.Answers), err)
	}
	enders, err := find.Enders(t.Context(), p, q, []timeline.Position{timeline.Midscreen, timeline.Wall}, nil)
	if err != nil || len(enders) < 3 {
		t.Fatalf("%d enders, %v", len(enders), err)
	}
	told := &find.Told{Setup: p.Setups[0].Name, Query: q, Project: p, Result: found}
	list := found.Answers
	for found.Answers = nil; len(found.Answers) < answers; {
		a := list[len(found.Answers)%len(list)]
		a.Rank, a.Setups = len(found.Answers)+1, slices.Clone(a.Setups)
		a.Setups[0].Name = rename(a.Setups[0].Name)
		found.Answers = append(found.Answers, a)
	}
	found.Count = big.NewInt(int64(answers))
	table := &find.ToldEnders{Setup: p.Setups[0].Name, Query: q, Project: p}
	for len(table.Rows) < rows {
		r := enders[len(table.Rows)%len(enders)]
		r.Ender, r.Advantage = rename(r.Ender), 1000+len(table.Rows)
		table.Rows = append(table.Rows, r)
	}
	return told, table
}

// sampleDay is what a patch of the sample changed, with so many setups among it.
func sampleDay(t *testing.T, setups int, rename func(string) string) *patch.Day {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	before := p.Bare()
	after, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	after.Fighter("Ishka").Move("Millrace").Startup--
	with := patch.New(before, after.Bare())
	d := &patch.Day{Parts: with.Parts, Routes: with.Routes, Weighed: true, Unchanged: 2}
	if err := with.Mixes(t.Context(), p.Setups[:4], func(m patch.Mix) { d.Mixes = append(d.Mixes, m) }); err != nil {
		t.Fatal(err)
	}
	var changed []compare.Change
	for i := range p.Setups {
		if c := with.Setups.Of(&p.Setups[i]); c.Changed() {
			changed = append(changed, c)
		}
	}
	for len(d.Setups) < setups {
		c := changed[len(d.Setups)%len(changed)]
		c.Setup = rename(fmt.Sprint("S", len(d.Setups), "s ", c.Setup))
		d.Setups = append(d.Setups, c)
	}
	return d
}

// textsOf are all texts of some pages.
func textsOf(sheets []*sheet.Drawing) (out []string) {
	for _, d := range sheets {
		for _, s := range d.Shapes {
			if text, ok := s.(sheet.Text); ok {
				out = append(out, text.Str)
			}
		}
	}
	return out
}

// TestAnswersAreWrittenInEachFormat: with no row, with some and with 500, of
// short names and of long ones; each row stands once, and a picture that would
// be too large is refused in words.
func TestAnswersAreWrittenInEachFormat(t *testing.T) {
	o := Standard()
	long := func(s string) string { return s + strings.Repeat(" and a very long name indeed", 6) }
	for _, n := range []int{0, 3, 500} {
		for _, rename := range []func(string) string{asIs, long} {
			told, enders := sampleFound(t, n, n, rename)
			day := sampleDay(t, n, rename)
			for _, c := range []struct {
				name string
				make func(format string) (*Made, error)
				rows int
				row  func(i int) string // what names row i
			}{
				{"found", func(f string) (*Made, error) { return o.MakeFound(told, f) }, n, func(i int) string { return fmt.Sprint(i + 1) }},
				{"enders", func(f string) (*Made, error) { return o.MakeEnders(enders, f) }, n, func(i int) string { return fmt.Sprint(1000 + i) }},
				{"compared", func(f string) (*Made, error) { return o.MakeCompared(day, "1.0", "1.1", f) }, n + len(day.Parts) + len(day.Routes) + len(day.Mixes), func(i int) string { return fmt.Sprint("S", i, "s") }},
			} {
				for _, format := range TableFormats {
					made, err := c.make(format)
					if picture := format == "png" || format == "svg"; picture && c.rows > sheet.TableRows {
						if err == nil || !strings.Contains(err.Error(), "a PDF or CSV has room for more") {
							t.Errorf("%s of %d rows as %s: %v", c.name, c.rows, format, err)
						}
						continue
					}
					if err != nil {
						t.Fatalf("%s as %s: %v", c.name, format, err)
					}
					switch format {
					case "csv":
						rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
						if err != nil || len(rows) != c.rows+1 {
							t.Errorf("%s: %d rows, %v, want %d", c.name, len(rows), err, c.rows+1)
						}
					case "json":
						if !json.Valid([]byte(made.Text)) {
							t.Errorf("%s: the json is none", c.name)
						}
					case "pdf":
						seen := map[string]int{}
						for _, s := range textsOf(made.Sheets) {
							first, _, _ := strings.Cut(s, " ")
							seen[first]++
						}
						for i := range n {
							// A rank may stand elsewhere too, and columns that go on repeat what is fixed.
							if got := seen[c.row(i)]; got == 0 || c.name != "found" && got != seen[c.row(0)] {
								t.Errorf("%s of %d: row %d stands %d times, the first %d", c.name, n, i, got, seen[c.row(0)])
							}
						}
						for _, d := range made.Sheets {
							if d.H > d.W*1.5 || d.W > d.H*1.5 {
								t.Errorf("%s: a page of %g by %g", c.name, d.W, d.H)
							}
						}
						if n == 500 && len(made.Sheets) < 5 {
							t.Errorf("%s: %d rows on %d pages", c.name, c.rows, len(made.Sheets))
						}
					}
				}
			}
		}
	}
}

// TestWhatIsWrittenOfAnAnswer: its verdict, also where no mark is; why an ender
// has none; and that mixes were not weighed.
func TestWhatIsWrittenOfAnAnswer(t *testing.T) {
	o := Standard()
	told, enders := sampleFound(t, 3, 8, asIs)
	told.Answers[1].Word = timeline.Limited
	made, err := o.MakeFound(told, "csv")
	if err != nil || !strings.Contains(made.Text, ",limited\r\n") && !strings.Contains(made.Text, ",limited\n") {
		t.Errorf("the csv doesn't say that an answer is limited: %v\n%s", err, made.Text)
	}
	if made, err = o.MakeEnders(enders, "csv"); err != nil || !strings.Contains(made.Text, "none: No delay ") {
		t.Errorf("the csv doesn't say why there is none: %v\n%s", err, made.Text)
	}
	day := sampleDay(t, 1, asIs)
	day.Weighed = false
	if made, err = o.MakeCompared(day, "1.0", "1.1", "svg"); err != nil || !slices.Contains(textsOf(made.Sheets), "The mixes were not weighed.") {
		t.Errorf("it isn't said that mixes were not weighed: %v", err)
	}
	day.Weighed = true
	if made, err = o.MakeCompared(day, "1.0", "1.1", "svg"); err != nil || slices.Contains(textsOf(made.Sheets), "The mixes were not weighed.") {
		t.Errorf("it is said that mixes were not weighed: %v", err)
	}
	told.Answers, told.Count, told.Because, told.Limited = nil, new(big.Int), []string{"A filler of 3 frames is missing."}, big.NewInt(1)
	made, err = o.MakeFound(told, "svg")
	if texts := textsOf(made.Sheets); err != nil || !slices.Contains(texts, told.Because[0]) || !slices.Contains(texts, "Left out: 1 answer, safe but for replies that no timing covers.") {
		t.Errorf("without an answer it says %q, %v", texts, err)
	}
}
