package output

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/compare"
)

// sampleCast is the cast of the sample's first fighter, against one more who has
// no replies; rename changes the name of each setup before.
func sampleCast(t *testing.T, rename func(string) string) *compare.CastTable {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	silent := p.Fighters[2]
	silent.Name, silent.Replies = "Silent", nil
	p.Fighters = append(p.Fighters, silent)
	cast, err := compare.NewCast(p, p.Fighters[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	out := &compare.CastTable{Cast: cast}
	for i := range p.Setups {
		if s := &p.Setups[i]; s.Attacker == cast.Attacker {
			s.Name = rename(s.Name)
			out.Rows = append(out.Rows, cast.Row(s))
		}
	}
	out.Fewest = compare.FewestOfCast(len(cast.Rivals), out.Rows, compare.CoverLimit)
	return out
}

func TestACastIsWrittenInEachFormat(t *testing.T) {
	o := Standard()
	c := sampleCast(t, asIs)
	for _, format := range CastFormats {
		made, err := o.MakeCast(c, format)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := made.Write(&b); err != nil || b.Len() < 500 {
			t.Errorf("%s: %d bytes, %v", format, b.Len(), err)
		}
		if format == "svg" {
			for _, want := range []string{c.Answer(), "no replies", "or slower", "Silent", c.Rows[c.Fewest.Sets[0]].Setup} {
				if !strings.Contains(b.String(), want) {
					t.Errorf("the picture doesn't say %q", want)
				}
			}
		}
		if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, "cast."+format), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestTheTableOfACastReadsBack: each cell says the verdict, the window and what
// it holds against; what is not known is not called safe; names are none that a
// spreadsheet takes for a formula.
func TestTheTableOfACastReadsBack(t *testing.T) {
	o := Standard()
	c := sampleCast(t, func(s string) string { return "=" + s })
	made, err := o.MakeCast(c, "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || len(rows) != len(c.Rows)+1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	unknown := 0
	for i := range c.Rows {
		r, got := &c.Rows[i], rows[i+1]
		if got[0] != "'"+r.Setup || got[1] != r.Rival || got[2] != fmt.Sprintf("%d of %d", r.Covers(), len(c.Rivals)) {
			t.Errorf("row %d begins %q", i, got[:3])
		}
		for k := range r.Cells {
			cell, said := &r.Cells[k], got[3+k]
			if rows[0][3+k] != c.Rivals[k] {
				t.Errorf("column %d is %q", k, rows[0][3+k])
			}
			if cell.Unknown() {
				unknown++
				if said != "no replies" {
					t.Errorf("%s vs %s is not known: %q", r.Setup, c.Rivals[k], said)
				}
				continue
			}
			if !strings.HasPrefix(said, string(cell.Word)+": ") {
				t.Errorf("%s vs %s is %s: %q", r.Setup, c.Rivals[k], cell.Word, said)
			}
			for _, b := range cell.Window {
				if !strings.Contains(said, fmt.Sprint(b.From)) || !strings.Contains(said, fmt.Sprint(b.To)) {
					t.Errorf("%s vs %s: %q, want %v", r.Setup, c.Rivals[k], said, b)
				}
			}
			if n := cell.HoldsStartup; n.Given && len(cell.Window) > 0 && !strings.Contains(said, fmt.Sprintf("%d frame", n.N)) {
				t.Errorf("%s vs %s: %q, want %d frames or slower", r.Setup, c.Rivals[k], said, n.N)
			}
		}
	}
	if unknown == 0 {
		t.Error("every cell is known")
	}
}

func TestTheJSONOfACastHasASentenceForEachCell(t *testing.T) {
	o := Standard()
	c := sampleCast(t, asIs)
	made, err := o.MakeCast(c, "json")
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Attacker string
		Setups   []struct {
			Setup string
			Cells []struct {
				Rival, Verdict, Because string
			}
		}
	}
	if err := json.Unmarshal([]byte(made.Text), &got); err != nil || got.Attacker != c.Attacker || len(got.Setups) != len(c.Rows) {
		t.Fatalf("%+v, %v", got, err)
	}
	for i := range c.Rows {
		for k := range c.Rows[i].Cells {
			if cell := got.Setups[i].Cells[k]; cell.Rival != c.Rivals[k] || cell.Verdict != string(c.Rows[i].Cells[k].Word) || cell.Because == "" {
				t.Errorf("%s: %+v", c.Rows[i].Setup, cell)
			}
		}
	}
}
