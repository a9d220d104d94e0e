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
	f.say("none")
	if f.Shown() != nil {
		t.Error("without answers something is exported")
	}
}
