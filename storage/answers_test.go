package storage

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

func TestAnswersAreKeptAndDeleted(t *testing.T) {
	path := filepath.Join(tempDir(t), "class.wakeline")
	f, err := Create(path, sample(t))
	if err != nil {
		t.Fatal(err)
	}
	all := []Answer{
		{Date: "2026-11-29T10:00:00Z", Student: "Mara", Setup: "One", Kind: "safe delay", Right: true, Tries: 1, Points: 2},
		{Date: "2026-11-29T10:01:00Z", Setup: "Two", Kind: "one frame more", Tries: 2, Hints: 3},
		{Date: "2026-11-29T10:02:00Z", Student: "Öl '; --", Setup: "嵐", Kind: "read the strip", Right: true, Tries: 2, Hints: 1, Points: 1},
	}
	for _, a := range all {
		if err := f.AddAnswer(a); err != nil {
			t.Fatal(err)
		}
	}
	if steps, err := f.History(9); err != nil || len(steps) != 0 {
		t.Errorf("answers are steps of undo: %v, %v", steps, err)
	}
	f.Close()
	if f, err = Open(path); err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got, err := f.Answers(); err != nil || !reflect.DeepEqual(got, all) {
		t.Fatalf("%+v, %v, want %+v", got, err, all)
	}
	if err := f.ClearAnswers(""); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Answers(); err != nil || !reflect.DeepEqual(got, []Answer{all[0], all[2]}) {
		t.Errorf("without those of no name: %+v, %v", got, err)
	}
	if err := f.AddAnswer(Answer{Tries: -1}); err == nil {
		t.Error("a count below 0 is kept")
	}
}

// TestAnswersAloneAreTaken refuses all else, and takes it again afterwards.
func TestAnswersAloneAreTaken(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	s := p.Setups[0]
	s.Note = "another"
	put := func() error { return f.Edit("note", func(step *Step) error { return step.PutSetup(s.Name, &s) }) }
	if err := put(); err != nil {
		t.Fatal(err)
	}
	f.TakeAnswersOnly(true)
	if f.ReadOnly() != AnswersOnly {
		t.Errorf("read-only because %q", f.ReadOnly())
	}
	for name, do := range map[string]func() error{
		"edit": put, "undo": func() error { _, err := f.Undo(); return err }, "redo": func() error { _, err := f.Redo(); return err },
		"drill": func() error { return f.AddDrill(Drill{Presses: []Press{{What: "jump"}}}) }, "clear": func() error { return f.ClearAnswers("") },
	} {
		if err := do(); err == nil || !strings.Contains(err.Error(), AnswersOnly) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := f.AddAnswer(Answer{Kind: "one"}); err != nil {
		t.Error(err)
	}
	f.TakeAnswersOnly(false)
	if _, err := f.Undo(); err != nil || f.ReadOnly() != "" {
		t.Errorf("afterwards: %v, %q", err, f.ReadOnly())
	}
	if got, err := f.Answers(); err != nil || len(got) != 1 {
		t.Errorf("undo takes answers back: %v, %v", got, err)
	}
}
