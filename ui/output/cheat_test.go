package output

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// cheatSetups are n setups like the sample's, in turn, that are not unsafe.
func cheatSetups(t testing.TB, n int) (*timeline.Index, []timeline.Setup) {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	index := timeline.NewIndex(p)
	var out []timeline.Setup
	for i := 0; len(out) < n; i++ {
		s := p.Setups[i%len(p.Setups)]
		if plan, err := index.Compile(s); err == nil && plan.Called(s.Delay) != timeline.Unsafe {
			s.Name = fmt.Sprintf("%s %d", s.Name, i)
			out = append(out, s)
		}
	}
	return index, out
}

// TestACheatSheetIsOnePage: in each shape of paper, also of 40 setups, with all of
// them on it; what has no room in the smallest letters has several.
func TestACheatSheetIsOnePage(t *testing.T) {
	for _, c := range []struct {
		n     int
		page  sheet.Page
		pages int // 0: several
	}{{1, sheet.A4, 1}, {20, sheet.A4, 1}, {40, sheet.A4, 1}, {32, sheet.Letter, 1}, {200, sheet.A4, 0}, {3, sheet.Phone, 1}, {40, sheet.Phone, 0}} {
		o := Standard()
		o.Page = c.page
		index, setups := cheatSetups(t, c.n)
		made, err := o.MakeCheatSheet(context.Background(), index, eachOf(setups), "All", "pdf")
		if err != nil {
			t.Fatal(err)
		}
		if n := len(made.Sheets); c.pages > 0 && n != c.pages || c.pages == 0 && n < 2 {
			t.Errorf("%d setups on %s: %d pages", c.n, c.page.Name, n)
		}
		var b bytes.Buffer
		if err := made.Write(&b); err != nil {
			t.Fatal(err)
		}
		said := map[string]bool{}
		for _, d := range made.Sheets {
			for _, s := range d.Shapes {
				if text, ok := s.(sheet.Text); ok {
					said[text.Str] = true
				}
			}
		}
		for _, s := range setups {
			if !said[s.Name] {
				t.Errorf("%d setups on %s: %s is missing", c.n, c.page.Name, s.Name)
			}
		}
	}
}

// TestACheatSheetLeavesUnsafeSetupsOut: and says how many; its table reads back.
func TestACheatSheetLeavesUnsafeSetupsOut(t *testing.T) {
	o := Standard()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	index, unsafe := timeline.NewIndex(p), 0
	for i := range p.Setups {
		plan, err := index.Compile(p.Setups[i])
		if err != nil {
			t.Fatal(err)
		}
		if plan.Called(p.Setups[i].Delay) == timeline.Unsafe {
			unsafe++
		}
		p.Setups[i].Name = "=" + p.Setups[i].Name
	}
	long := p.Setups[0]
	long.Name, long.Delay = "Too long", timeline.MaxFrames
	all := append(p.Setups, long)
	made, err := o.MakeCheatSheet(context.Background(), index, eachOf(all), "All", "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || unsafe == 0 || len(rows) != len(p.Setups)-unsafe+1 {
		t.Fatalf("%d rows of %d setups, %d unsafe, %v", len(rows), len(p.Setups), unsafe, err)
	}
	for _, row := range rows[1:] {
		if !strings.HasPrefix(row[0], "'=") || row[3] == "unsafe" || row[4] == "" || !strings.HasPrefix(row[5], "knockdown advantage ") {
			t.Errorf("row %q", row)
		}
	}
	if len(made.Skipped) != 1 || !strings.Contains(made.Skipped[0].Error(), "Too long") {
		t.Errorf("skipped: %v", made.Skipped)
	}
	made, err = o.MakeCheatSheet(context.Background(), index, eachOf(all), "All", "svg")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := made.Write(&b); err != nil || !strings.Contains(b.String(), fmt.Sprintf("%d setups left out, as unsafe.", unsafe)) {
		t.Errorf("the picture doesn't say what was left out: %v", err)
	}
	if _, err := o.MakeCheatSheet(context.Background(), index, eachOf([]timeline.Setup{long}), "All", "pdf"); err == nil {
		t.Error("a sheet of nothing is made")
	}
}

// BenchmarkCheatSheet makes one of 40 setups, as a PDF of one page.
func BenchmarkCheatSheet(b *testing.B) {
	o := Standard()
	index, setups := cheatSetups(b, 40)
	for b.Loop() {
		made, err := o.MakeCheatSheet(context.Background(), index, eachOf(setups), "All", "pdf")
		if err != nil {
			b.Fatal(err)
		}
		var out bytes.Buffer
		if err := made.Write(&out); err != nil {
			b.Fatal(err)
		}
	}
}
