package ui

import (
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// TestNothingToJudgeIsNotSafe makes a setup of an ender alone: the sheet, the
// words, the numbers and the list say that there is nothing to judge yet; with
// a reply to survive it has a verdict.
func TestNothingToJudgeIsNotSafe(t *testing.T) {
	p := sample()
	s := &p.Setups[0]
	s.Fillers, s.Delay, s.Jump, s.Attack, s.Replies = nil, 0, "", "", nil
	w := open(t, p, laptop)
	texts := func() string {
		var out []string
		for _, shape := range w.sheet.Drawing().Shapes {
			if text, ok := shape.(sheet.Text); ok {
				out = append(out, text.Str)
			}
		}
		return strings.Join(out, "|")
	}
	if got := texts(); strings.Contains(strings.ToLower(got), "safe") || !strings.Contains(got, "NOTHING TO|JUDGE YET") {
		t.Errorf("the sheet says %q", got)
	}
	if got := w.model.Row(0).Word; got != timeline.Blank {
		t.Errorf("the list says %q", got)
	}
	if w.explain.Fill(); !strings.HasPrefix(w.explain.Rows[0].Text, "Nothing to judge yet.") || w.explain.Rows[2].Text != "" {
		t.Errorf("the words are %q", w.explain.Rows[0].Text)
	}
	for _, f := range w.numbers.Facts.Facts {
		if f.Name == "verdict" && f.Value != string(timeline.Blank) || f.Name == "window" {
			t.Errorf("the numbers say %s %s", f.Name, f.Value)
		}
	}
	w.setups.By.Verdict = string(timeline.Blank)
	if w.setups.Filter(); len(w.setups.Shown) != 1 || w.setups.Shown[0] != 0 {
		t.Errorf("the list finds %v", w.setups.Shown)
	}
	w.replies.AddNamed("rising gale")
	if got := w.model.Row(0).Word; got != timeline.Safe || !strings.Contains(texts(), "SAFE") {
		t.Errorf("with a reply the list says %q, the sheet %q", got, texts())
	}
}
