package model

import (
	"fmt"
	"testing"

	"wakeline/timeline"
)

// TestALongerWordIsLookedForInWhatAShorterFound types a word letter by letter:
// once few setups are left, the others aren't looked at again until an edit.
func TestALongerWordIsLookedForInWhatAShorterFound(t *testing.T) {
	d := ofTwo(t) // "high" and "low"
	any := func(text string) timeline.Term { return timeline.Term{Text: text} }
	rows := func(text string) string {
		t.Helper()
		found, err := d.having(any(text))
		if err != nil {
			t.Fatal(err)
		}
		return fmt.Sprint(found)
	}
	low := rows("lo")
	if want := fmt.Sprint([]int64{d.heads[1].ID}); low != want || rows("low") != want {
		t.Errorf("lo is in %s, low in %s, want %s", low, rows("low"), want)
	}
	d.Words.Rows = map[timeline.Term][]int64{any("lo"): {}}
	if got := rows("low"); got != "[]" {
		t.Errorf("low is looked for beyond what lo found: %s", got)
	}
	if got := rows("ow"); got != low {
		t.Errorf("ow is in %s, want %s", got, low)
	}
	d.Words.forget()
	if got := rows("low"); got != low {
		t.Errorf("after an edit low is in %s, want %s", got, low)
	}
}

// TestWhatIsNoTextOfASetupNarrowsNothing holds the terms that may not be looked
// for among what others found.
func TestWhatIsNoTextOfASetupNarrowsNothing(t *testing.T) {
	for _, c := range []struct {
		of, among timeline.Term
		want      bool
	}{
		{timeline.Term{Text: "Palm"}, timeline.Term{Text: "al"}, true},
		{timeline.Term{Text: "palm", Whole: true}, timeline.Term{Text: "ALM"}, true},
		{timeline.Term{Text: "palm"}, timeline.Term{Text: "pam"}, false},
		{timeline.Term{Text: "palm"}, timeline.Term{Text: "palms"}, false},
		{timeline.Term{Text: "palm"}, timeline.Term{Text: "palm", Whole: true}, false},
		{timeline.Term{Text: "palm"}, timeline.Term{Part: timeline.NamePart, Text: "pa"}, false},
		{timeline.Term{Part: timeline.NamePart, Text: "palm"}, timeline.Term{Text: "pa"}, false},
		{timeline.Term{Part: timeline.TestPart, Text: "worked"}, timeline.Term{Part: timeline.TestPart, Text: "work"}, false},
		{timeline.Term{Part: timeline.VerdictPart, Text: "unsafe"}, timeline.Term{Part: timeline.VerdictPart, Text: "safe"}, false},
	} {
		if got := c.of.Narrows(c.among); got != c.want {
			t.Errorf("%+v narrows %+v: %v, want %v", c.of, c.among, got, c.want)
		}
	}
}
