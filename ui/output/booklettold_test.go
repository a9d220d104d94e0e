package output

import (
	"context"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// TestEachPageOfABookletSaysItsInputs: of strips and of lessons, with the note and
// a key; and the contents have the answer of each.
func TestEachPageOfABookletSaysItsInputs(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	p.Setups = p.Setups[:6]
	p.Setups[1].Note = ""
	index := timeline.NewIndex(p)
	textOf := func(d *sheet.Drawing) string {
		var all []string
		for _, s := range d.Shapes {
			if text, ok := s.(sheet.Text); ok {
				all = append(all, text.Str)
			}
		}
		return strings.Join(all, " ")
	}
	for _, neighbours := range []int{Strip, 1} {
		for _, stage := range []bool{false, true} {
			o := Standard()
			o.Neighbours, o.Stage = neighbours, stage
			made, err := o.MakeBooklet(context.Background(), index, eachOf(p.Setups), "All")
			if err != nil {
				t.Fatal(err)
			}
			pages := len(made.Sheets) - len(p.Setups)
			contents := ""
			for _, d := range made.Sheets[:pages] {
				contents += textOf(d)
			}
			for i := range p.Setups {
				s := &p.Setups[i]
				plan, err := index.Compile(*s)
				if err != nil {
					t.Fatal(err)
				}
				d := made.Sheets[pages+i]
				said := textOf(d)
				for _, want := range slices.Concat(words.Inputs(plan, s.Delay), []string{"Inputs:", "meeting that decides", s.Note}) {
					if !strings.Contains(said, want) {
						t.Errorf("neighbours %d: the page of %s doesn't say %q", neighbours, s.Name, want)
					}
				}
				if strings.Contains(said, "Note:") != (s.Note != "") {
					t.Errorf("the note of %s: %q", s.Name, s.Note)
				}
				if neighbours == Strip && d.H != sheet.A4.Across().Fit(d.W) {
					t.Errorf("the page of %s is %g high, not %g", s.Name, d.H, sheet.A4.Across().Fit(d.W))
				}
				if answer := words.AnswerAt(plan, s.Delay); !strings.Contains(contents, answer[:40]) {
					t.Errorf("the contents don't say %q", answer)
				}
			}
		}
	}
}
