package paint

import (
	"slices"
	"testing"
)

func TestFilledRowsAreNotedOnceAndNotForever(t *testing.T) {
	var f FilledRows[int]
	for range 3 {
		for row := range 40 {
			f.Note(row)
		}
	}
	if len(f) != 40 || !slices.IsSorted(f) {
		t.Errorf("noted %v, want 0 to 39 once", f)
	}
	before := f
	for row := range 10_000 {
		f.Note(row)
		if len(f) > mostFilled || f[len(f)-1] != row && row >= 40 {
			t.Fatalf("after %d there are %d, the last %d", row, len(f), f[len(f)-1])
		}
	}
	if !slices.IsSorted(before) || len(before) != 40 {
		t.Errorf("who goes through them meanwhile sees %v", before)
	}
}
