package output

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/ui/sheet"
)

// TestTheSheetOfInGameTestsHoldsTheCheckList looks for each setup, advantage and
// reply of the list among the texts that are drawn.
func TestTheSheetOfInGameTestsHoldsTheCheckList(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	broken := p.Setups[0]
	broken.Name, broken.Delay = "too late", timeline.Width-1
	setups := append(slices.Clone(p.Setups), broken)
	each := func(_ context.Context, do func(s *timeline.Setup) error) error {
		for i := range setups {
			if err := do(&setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
	o := Standard()
	for _, format := range CheckListFormats[1:] {
		m, err := o.MakeCheckSheet(context.Background(), timeline.NewIndex(p), each, "All setups", format)
		if err != nil {
			t.Fatal(err)
		}
		if len(m.Skipped) != 1 || (format == "pdf") != (len(m.Sheets) > 1) {
			t.Fatalf("%s: %d skipped, on %d sheets", format, len(m.Skipped), len(m.Sheets))
		}
		var b strings.Builder
		texts := 0
		for _, d := range m.Sheets {
			for _, s := range d.Shapes {
				if text, ok := s.(sheet.Text); ok {
					b.WriteString(text.Str + " ")
					texts++
				}
			}
		}
		drawn := strings.Join(strings.Fields(b.String()), " ")
		for i := range p.Setups {
			plan, err := timeline.Compile(p, p.Setups[i])
			if err != nil {
				t.Fatal(err)
			}
			c := handout.CheckOf(plan)
			for _, want := range []string{c.Setup, fmt.Sprintf(" %d ", c.Advantage)} {
				if !strings.Contains(drawn, want) {
					t.Errorf("%s: %q of %s isn't drawn", format, want, c.Setup)
				}
			}
		}
		if got := strings.Count(drawn, "] unclear"); got != len(p.Setups) {
			t.Errorf("%s: %d results to mark, want %d", format, got, len(p.Setups))
		}
		var out strings.Builder
		if err := m.Write(&out); err != nil || out.Len() == 0 {
			t.Errorf("%s: %v", format, err)
		}
	}
	setups = setups[len(setups)-1:]
	if _, err := o.MakeCheckSheet(context.Background(), timeline.NewIndex(p), each, "All setups", "pdf"); !errors.Is(err, ErrNone) {
		t.Errorf("of none: %v", err)
	}
}
