package compare

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline/patch"
	"wakeline/ui/output"
)

// TestWhatChangedIsExported: all of it, also what is folded; its mixes are
// weighed where the page was left before it had weighed them.
func TestWhatChangedIsExported(t *testing.T) {
	_, c, _ := openPage(t, patched())
	if c.Shown() != nil {
		t.Error("before anything was compared something is exported")
	}
	c.Run()
	day := c.patch.Day
	o := output.Standard()
	text := func(format string) string {
		t.Helper()
		made, err := c.Shown().Make(context.Background(), &o, format)
		if err != nil {
			t.Fatal(err)
		}
		return made.Text
	}
	rows, err := csv.NewReader(strings.NewReader(text("csv"))).ReadAll()
	if want := len(day.Parts) + len(day.Setups) + len(day.Routes) + len(day.Mixes); err != nil || len(rows) != want+1 || len(day.Mixes) == 0 {
		t.Fatalf("%d rows, %v, want %d, of which %d mixes", len(rows), err, want+1, len(day.Mixes))
	}
	for i := range day.Setups {
		s := &day.Setups[i]
		if !slices.ContainsFunc(rows, func(r []string) bool {
			return r[1] == s.Setup && r[2] == s.Before.Words() && r[3] == s.After.Words() && r[4] == s.Because
		}) {
			t.Errorf("no row tells of %s", s.Setup)
		}
	}
	whole := text("json")
	var read struct {
		From, To string
		Mixes    []struct{ Attacker string }
	}
	if err := json.Unmarshal([]byte(whole), &read); err != nil || read.From != "first" || read.To != "1.2" || len(read.Mixes) != len(day.Mixes) {
		t.Errorf("the json tells of %+v, %v", read, err)
	}

	c.patch.Day.Mixes, c.patch.Day.Weighed = nil, false
	if got := text("json"); got != whole {
		t.Error("the mixes that the page had not weighed are missing")
	}
	if c.patch.Day.Weighed {
		t.Error("what the page shows has changed")
	}
	shown := c.Shown()
	ended, end := context.WithCancel(context.Background())
	end()
	if _, err := shown.Make(ended, &o, "json"); !errors.Is(err, context.Canceled) {
		t.Errorf("given up, it ends with %v", err)
	}
	if made, err := shown.Make(context.Background(), &o, "csv"); err != nil || !strings.Contains(made.Text, string(patch.Mixes)) {
		t.Errorf("asked again, it is not weighed: %v", err)
	}
}
