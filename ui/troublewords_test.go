package ui

import (
	"strings"
	"testing"

	"wakeline/timeline"
)

// TestABrokenTextIsToldWithoutItsPaths: the dialog says which entry is wrong
// and what was expected, in words.
func TestABrokenTextIsToldWithoutItsPaths(t *testing.T) {
	w := open(t, sample(), laptop)
	_, err := timeline.ReadText([]byte(`{"wakeline": 1, "fighters": [{"name": "Osk", "jumps": [{"name": "hop", "prejump": 4, "airborne": 39, "landing": 3, "guard_after": 9}]}]}`))
	if err == nil || !strings.Contains(err.Error(), "$.") {
		t.Fatalf("error %v, want one with a path", err)
	}
	w.trouble("broken.json", err)
	got := overlayText(w)
	if strings.Contains(got, "$.") || strings.Contains(got, "guard_after") || !strings.Contains(got, "jump 1") || !strings.Contains(got, "expected") {
		t.Errorf("it says %q", got)
	}
}
