package output

import (
	"context"
	"errors"
	"strings"
	"testing"

	"wakeline/timeline"
)

// TestExercisesLeaveOutWhatHasNone: a setup with nothing to judge can't be an
// exercise; of many it is left out and named, in a page and in a folder.
func TestExercisesLeaveOutWhatHasNone(t *testing.T) {
	p := yard(t, 1)
	blank := timeline.Setup{
		Name: "nothing yet", Attacker: p.Setups[0].Attacker, Rival: p.Setups[0].Rival, Ender: p.Setups[0].Ender, Position: p.Setups[0].Position,
		Jump: p.Setups[0].Jump, Landing: timeline.DoGuard, Replies: []timeline.Reply{},
	}
	far := p.Setups[0]
	far.Name, far.Delay = "far too late", 500
	setups := []timeline.Setup{blank, p.Setups[0], far, p.Setups[1]}
	ctx, ix := context.Background(), timeline.NewIndex(p)
	for _, exercise := range []bool{false, true} {
		o := Standard()
		o.Exercise = exercise
		left := []string{"far too late"}
		if exercise {
			left = []string{"nothing yet", "far too late"}
		}
		made, err := o.MakeLessonPage(ctx, ix, eachOf(setups), "The yard")
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(made.Text, "<section "); n != len(setups)-len(left) {
			t.Errorf("exercise %v: %d setups in the page, want %d", exercise, n, len(setups)-len(left))
		}
		dir := t.TempDir()
		b := Batch{Order: o, Folder: dir, Names: "{n}", Format: "html"}
		did, err := b.Run(ctx, ix, eachOf(setups))
		if err != nil || len(filesIn(t, dir)) != len(setups)-len(left) {
			t.Errorf("exercise %v: a folder has %q, %v", exercise, filesIn(t, dir), err)
		}
		for _, skipped := range [][]error{made.Skipped, did.Skipped} {
			if len(skipped) != len(left) {
				t.Errorf("exercise %v: %q are left out, want %q", exercise, skipped, left)
				continue
			}
			for i := range left {
				if !strings.Contains(skipped[i].Error(), left[i]) {
					t.Errorf("exercise %v: %q is left out, want %s", exercise, skipped[i], left[i])
				}
			}
		}
		plan, err := timeline.Compile(p, blank)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := o.Make(plan, "html"); (err == nil) == exercise {
			t.Errorf("exercise %v: a setup with nothing to judge alone: %v", exercise, err)
		}
		if _, err := o.MakeLessonPage(ctx, ix, eachOf([]timeline.Setup{far}), "none"); !errors.Is(err, ErrNone) {
			t.Errorf("a page of nothing: %v", err)
		}
	}
}

// TestALessonPageHoldsSoMany: more setups are an error, not a page that no
// browser opens.
func TestALessonPageHoldsSoMany(t *testing.T) {
	p := yard(t, 5)
	o := Standard()
	o.Neighbours = 0
	if _, err := o.MakeLessonPage(context.Background(), timeline.NewIndex(p), eachOf(p.Setups), "All"); err == nil || !strings.Contains(err.Error(), "at most 100 setups") {
		t.Errorf("a page of %d setups: %v", len(p.Setups), err)
	}
}
