package report_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
)

// sampleMix is the mix of the sample's setups that follow Keel Scrape.
func sampleMix(t *testing.T) *report.Mix { return mixOf(t, 1) }

// mixOf is the same with several copies of each setup.
func mixOf(t *testing.T, copies int) *report.Mix {
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
	for n := 1; n < copies; n++ {
		for _, s := range setups[:len(setups)/n] {
			s.Name = fmt.Sprintf("%s %d", s.Name, n)
			setups = append(setups, s)
		}
	}
	m, err := value.NewBook(p).Mix(context.Background(), timeline.NewIndex(p), setups, value.MixOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return &report.Mix{Mix: m}
}

// TestNotesNameAFewThatAreNeverWorthPlaying: many would push the table out of
// sight, which says it of each.
func TestNotesNameAFewThatAreNeverWorthPlaying(t *testing.T) {
	m := mixOf(t, 12)
	never := m.NeverRows()
	notes, err := m.Notes()
	if err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("Never worth playing: %s and %d more.", strings.Join(never[:8], ", "), len(never)-8)
	if len(never) < 20 || !slices.Contains(notes, want) {
		t.Errorf("of %d it notes %q, want %q", len(never), notes, want)
	}
}

// TestAMixIsToldInFull: each setup and each reply is named, and a number that
// is no whole one as the fraction that it is.
func TestAMixIsToldInFull(t *testing.T) {
	m := sampleMix(t)
	var b strings.Builder
	if err := m.Text(&b); err != nil {
		t.Fatal(err)
	}
	for i := range m.Rows {
		if !strings.Contains(b.String(), m.Rows[i].Setup) {
			t.Errorf("%q isn't told", m.Rows[i].Setup)
		}
	}
	for j := range m.Columns {
		if !strings.Contains(b.String(), m.Habit(j)) {
			t.Errorf("the habit %q isn't told", m.Column(j))
		}
	}
	if m.Value.IsInt() || !strings.Contains(m.Answer(), "("+m.Value.RatString()+")") {
		t.Errorf("%q, want the value as a fraction", m.Answer())
	}
	b.Reset()
	if err := m.JSON(&b); err != nil {
		t.Fatal(err)
	}
	var doc struct{ Value string }
	if err := json.Unmarshal([]byte(b.String()), &doc); err != nil || doc.Value != m.Value.RatString() {
		t.Errorf("value %q, %v", doc.Value, err)
	}
}

// TestAReadingSaysWhatItGains: against a rival with one habit it is what that
// habit costs the rival.
func TestAReadingSaysWhatItGains(t *testing.T) {
	m := sampleMix(t)
	j := slices.IndexFunc(m.Columns, func(c value.MixColumn) bool { return c.Best.Cmp(m.Value) > 0 })
	weights := make([]int, len(m.Columns))
	weights[j] = 7
	r, ok := m.Reading(weights)
	if !ok {
		t.Fatal("there is no reading")
	}
	if said := m.Read(&r); !strings.Contains(said, m.Rows[r.Row].Setup+" makes "+report.Short(m.Columns[j].Best)) || !strings.Contains(said, report.Short(r.Gain)) {
		t.Error(said)
	}
	r.Gain = new(big.Rat)
	if said := m.Read(&r); !strings.HasSuffix(said, "and the mix makes as much.") {
		t.Error(said)
	}
}

// TestAProofThatFailsIsNotTold: a value that the shares don't prove is an error.
func TestAProofThatFailsIsNotTold(t *testing.T) {
	m := sampleMix(t)
	if said, err := m.Proof(); err != nil || !strings.Contains(said, m.Points(m.Value)) {
		t.Errorf("%q, %v", said, err)
	}
	m.Value = new(big.Rat).Add(m.Value, big.NewRat(1, 2))
	if _, err := m.Proof(); err == nil {
		t.Error("a wrong value is proved")
	}
	if err := m.Text(&strings.Builder{}); err == nil {
		t.Error("a wrong value is told")
	}
}
