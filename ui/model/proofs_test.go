package model

import (
	"fmt"
	"maps"
	"path/filepath"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// ofTwo is a document of a project file with two setups.
func ofTwo(t *testing.T) *Document {
	t.Helper()
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "Brenno", Rises: []timeline.Rise{{Name: "normal"}}}}}
	for _, name := range []string{"high", "low"} {
		p.Setups = append(p.Setups, timeline.Setup{Name: name, Attacker: "Brenno", Rival: "Brenno", Advantage: timeline.Some(40), Position: timeline.Midscreen, Landing: timeline.DoGuard})
	}
	f, err := storage.Create(filepath.Join(t.TempDir(), "two"+storage.Ext), p)
	if err != nil {
		t.Fatal(err)
	}
	d, err := NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

// TestAResultIsTakenIntoWhatIsKnown records results one after another: what is
// known of the file afterwards is what the file says, and what no result can
// change isn't looked up again.
func TestAResultIsTakenIntoWhatIsKnown(t *testing.T) {
	d := ofTwo(t)
	m := NewModel(d)
	name := timeline.Term{Part: timeline.NamePart, Text: "low"}
	terms := []timeline.Term{{Part: timeline.TestPart, Text: "none"}, {Part: timeline.TestPart, Text: "worked"}, {Part: timeline.TestPart, Text: "failed"}, name}
	ask := func() {
		t.Helper()
		for _, term := range terms {
			rows, err := d.having(term)
			if err != nil {
				t.Fatal(err)
			}
			if now, err := d.file.Search(term); err != nil || fmt.Sprint(rows) != fmt.Sprint(now) {
				t.Errorf("%v: known %v, in the file %v, %v", term, rows, now, err)
			}
		}
		now, err := d.file.Tried()
		d.Tried(0)
		if err != nil || !maps.Equal(d.tried, now) {
			t.Errorf("known results %v, in the file %v, %v", d.tried, now, err)
		}
	}
	ask()
	for i, result := range []string{"worked", "failed", "worked"} {
		if err := m.Prove(storage.Proof{Setup: d.Head(i % 2).Name, Revision: d.Latest.Name, Date: "2026-03-01", Result: result}); err != nil {
			t.Fatal(err)
		}
		if _, known := d.Words.Rows[name]; !known || d.tried == nil {
			t.Errorf("after %q all is looked up again", result)
		}
		if undo, _ := d.Next(); undo.What != "in-game test: "+result {
			t.Errorf("undo would take back %q", undo.What)
		}
		ask()
	}
}

// TestALookUpFromBeforeAResultIsNotKept looks up, behind the window, what was
// not tested, while a result is recorded.
func TestALookUpFromBeforeAResultIsNotKept(t *testing.T) {
	d := ofTwo(t)
	of, err := d.ReadSearch("test:none")
	if err != nil {
		t.Fatal(err)
	}
	find, keep := d.Ahead(of)
	find()
	if err := d.Prove(storage.Proof{Setup: "low", Revision: d.Latest.Name, Date: "2026-03-01", Result: "worked"}); err != nil {
		t.Fatal(err)
	}
	keep()
	found, err := d.Search(of, func(int, timeline.Word) bool { return false })
	if want := []bool{true, false}; err != nil || fmt.Sprint(found) != fmt.Sprint(want) {
		t.Errorf("not tested are %v, want %v, %v", found, want, err)
	}
}
