package model

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/merge"
)

// A merge that is cancelled while it is stored leaves the project as it was; one
// that is not is stored whole, and one undo takes it back.
func TestAMergeIsStoredWholeOrNotAtAll(t *testing.T) {
	ours, theirs := mergedData(), mergedData()
	theirs.Fighters[3].Moves[5].Recovery++
	theirs.Ruleset.Buffer++
	for n := range 500 {
		s := mergedSetup(n)
		if n < 300 {
			ours.Setups = append(ours.Setups, s)
		}
		s.Delay += n % 2
		theirs.Setups = append(theirs.Setups, s)
	}
	f, err := storage.Create(filepath.Join(t.TempDir(), "ours"+storage.Ext), ours)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	defer doc.Close()
	none := func(int, int) {}
	mine, err := doc.Side(t.Context(), none)
	if err != nil || !reflect.DeepEqual(mine.Project, ours) {
		t.Fatalf("the document as a side: %v", err)
	}
	c := merge.Compare(mine, merge.Side{Project: theirs, Lists: []timeline.SavedList{{Name: "Theirs", Search: "tag:=x"}}})
	choices := c.Defaults()
	for i, it := range c.Items {
		if it.State == merge.Different {
			choices[i] = merge.Theirs
			if it.Kind == merge.SetupKind && i%3 == 0 {
				choices[i] = merge.Both
			}
		}
	}
	r, err := c.Merge(t.Context(), choices, nil)
	if err != nil {
		t.Fatal(err)
	}
	same := func(when string, want *timeline.Project, lists int) {
		t.Helper()
		got, err := doc.Whole()
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s the project is another, %v", when, err)
		}
		if err := doc.Reload(); err != nil || len(doc.Lists()) != lists {
			t.Errorf("%s there are %d lists, %v, want %d", when, len(doc.Lists()), err, lists)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	err = doc.StoreMerge(ctx, "merge", r, func(done, of int) {
		if done > of/2 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	same("after it was cancelled", ours, 0)
	told := 0
	if err := doc.StoreMerge(t.Context(), "merge", r, func(done, of int) { told = done }); err != nil || told != len(r.Edits)+1 {
		t.Fatalf("told of %d of %d edits, %v", told, len(r.Edits)+1, err)
	}
	same("after the merge", r.Project, 1)
	if _, err := doc.Undo(); err != nil {
		t.Fatal(err)
	}
	same("after undo", ours, 0)
	if _, err := doc.Redo(); err != nil {
		t.Fatal(err)
	}
	same("after redo", r.Project, 1)
	if _, err := doc.Side(ctx, none); !errors.Is(err, context.Canceled) {
		t.Errorf("read after the end: %v", err)
	}
	if got := fmt.Sprint(MergeWords(c, choices)); got != "[Replaces 1 ruleset field Replaces 1 move Adds 200 setups Replaces 100 setups Adds 50 setups beside those of this project, under new names Adds 1 list]" {
		t.Error(got)
	}
}
