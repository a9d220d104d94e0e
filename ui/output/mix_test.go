package output

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
)

// sampleMix is the mix of the sample's setups after Keel Scrape; rename changes
// the name of each before.
func sampleMix(t *testing.T, rename func(string) string) *report.Mix {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	var setups []timeline.Setup
	for _, s := range p.Setups {
		if first := append(setups, s)[0]; s.Ender == "Keel Scrape" && s.Attacker == first.Attacker && s.Rival == first.Rival && s.Position == first.Position {
			setups = append(setups, s)
		}
	}
	for i := range setups {
		setups[i].Name = rename(setups[i].Name)
	}
	m, err := value.NewBook(p).Mix(context.Background(), timeline.NewIndex(p), setups, value.MixOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return &report.Mix{Mix: m, Gauge: p.Ruleset.Gauge}
}

func asIs(name string) string { return name }

func TestAMixIsWrittenInEachFormat(t *testing.T) {
	o := Standard()
	m := sampleMix(t, asIs)
	for _, format := range MixFormats {
		made, err := o.MakeMix(m, format)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := made.Write(&b); err != nil || b.Len() < 500 {
			t.Errorf("%s: %d bytes, %v", format, b.Len(), err)
		}
		if format == "svg" && !strings.Contains(b.String(), "665.88") {
			t.Error("the picture doesn't say what a round is worth")
		}
		if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, "mix."+format), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestTheTableOfAMixHoldsItsNumbers: exactly, with names that no spreadsheet
// takes for a formula.
func TestTheTableOfAMixHoldsItsNumbers(t *testing.T) {
	o := Standard()
	m := sampleMix(t, func(s string) string { return "=" + s })
	made, err := o.MakeMix(m, "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || len(rows) != len(m.Rows)+4 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i := range m.Rows {
		row := rows[i+1]
		if row[0] != "'"+m.Rows[i].Setup || row[1] != m.Rows[i].Share.RatString() || row[3] != m.Rows[i].Worst.RatString() {
			t.Errorf("row %d: %v", i, row[:4])
		}
		for j := range m.Columns {
			if row[4+j] != m.Payoff[i][j].RatString() || rows[0][4+j] != m.Column(j) {
				t.Errorf("%s, %s: %s", row[0], rows[0][4+j], row[4+j])
			}
		}
	}
	if last := rows[len(rows)-1]; last[0] != "value" || last[2] != m.Value.RatString() {
		t.Errorf("last row %v", last[:4])
	}
}
