package find

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/output"
	"wakeline/ui/page/pagetest"
)

// TestTheAnswersShownAreExported: each with its rank, fillers and wait, in the
// order shown.
func TestTheAnswersShownAreExported(t *testing.T) {
	_, f := openFind(t, pagetest.Sample())
	shown := f.Shown()
	if shown == nil || len(f.list.answers) == 0 {
		t.Fatal("nothing is shown")
	}
	o := output.Standard()
	made, err := shown.Make(context.Background(), &o, "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || len(rows) != len(f.list.answers)+1 {
		t.Fatalf("%d rows of %d answers, %v", len(rows), len(f.list.answers), err)
	}
	for i := range f.list.answers {
		a := &f.list.answers[i]
		if row := rows[i+1]; row[0] != fmt.Sprint(a.Rank) || row[1] != a.Setups[0].Name || row[2] != strings.Join(a.Setups[0].Fillers, ", ") || row[3] != fmt.Sprint(a.Wait()) {
			t.Errorf("answer %d: %q", i, row)
		}
	}
	for _, format := range []string{"png", "pdf"} {
		made, err := shown.Make(context.Background(), &o, format)
		if err != nil || len(made.Sheets) == 0 {
			t.Errorf("%s: %v", format, err)
			continue
		}
		if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
			var b bytes.Buffer
			if err := made.Write(&b); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "found."+format), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	f.form.most.SetSelected("0")
	f.form.wait.SetSelected(noWaiting)
	f.form.where.SetSelected("wall")
	if made, err := f.Shown().Make(context.Background(), &o, "json"); err != nil || len(f.list.answers) != 0 || !strings.Contains(made.Text, `"count": 0,`) || !strings.Contains(made.Text, f.told.Because[0]) {
		t.Errorf("without an answer: %v, %s", err, made.Text)
	}
	f.say("none")
	if f.Shown() != nil {
		t.Error("where nothing was searched something is exported")
	}
}

// TestTheTableOfEndersIsExported: while it is shown, as it is shown.
func TestTheTableOfEndersIsExported(t *testing.T) {
	_, f := openFind(t, pagetest.Sample())
	f.tabs.Show(1)
	shown := f.Shown()
	if shown == nil || shown.Kind != output.Enders || len(f.enders.rows) == 0 {
		t.Fatalf("%+v is shown, with %d rows", shown, len(f.enders.rows))
	}
	o := output.Standard()
	made, err := shown.Make(context.Background(), &o, "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || len(rows) != len(f.enders.rows)+1 {
		t.Fatalf("%d rows of %d, %v", len(rows), len(f.enders.rows), err)
	}
	for i := range f.enders.rows {
		r := &f.enders.rows[i]
		row := rows[i+1]
		if row[0] != r.Ender || row[1] != string(r.Position) || row[2] != fmt.Sprint(r.Advantage) || len(row) != 3+len(r.Cells) {
			t.Errorf("row %d: %q", i, row)
		}
		for k := range r.Cells {
			want := "none: " + r.Cells[k].Because
			if a := r.Cells[k].Shortest; a != nil {
				want = string(a.Word) + ": " + a.Short()
			}
			if row[3+k] != want {
				t.Errorf("row %d, cell %d says %q, want %q", i, k, row[3+k], want)
			}
		}
	}
	f.tabs.Show(0)
	if shown := f.Shown(); shown == nil || shown.Kind != output.Found {
		t.Errorf("back at the answers %+v is shown", shown)
	}
}

// TestAnAnswersSheetDrawsWhatFollows the meeting that decides it.
func TestAnAnswersSheetDrawsWhatFollows(t *testing.T) {
	p := pagetest.Sample()
	f := p.Fighter(p.Setups[0].Attacker)
	for i := range f.Moves {
		f.Moves[i].Damage = 100
	}
	_, page := openFind(t, p)
	drawn := 0
	for i := range page.list.answers {
		page.list.choose(i)
		a := &page.list.answers[i].Setups[0]
		plan, err := timeline.Compile(p, *a)
		if err != nil {
			t.Fatal(err)
		}
		m := plan.Meetings(a.Delay, nil)
		want := words.Then(value.NewBook(p).Sequel(&m, value.Gauges{}, m.Deciding()))
		if got := page.sheet.Scene; got.Then != want || (got.After != nil) != (want != "") {
			t.Errorf("answer %d says %q, want %q", i, got.Then, want)
		}
		if want != "" {
			drawn++
		}
	}
	if drawn == 0 {
		t.Error("of no answer anything follows")
	}
}
