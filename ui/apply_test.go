package ui

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
)

// documents are the same project, in memory and in a file.
func documents(t *testing.T) map[string]*model.Document {
	t.Helper()
	f, err := storage.Create(filepath.Join(t.TempDir(), "one.wakeline"), sample())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	d, err := model.NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]*model.Document{"text": inMemory(t, sample()), "file": d}
}

// TestApply holds both kinds of document against the core's own edits, and
// takes them back.
func TestApply(t *testing.T) {
	p := sample()
	f := &p.Fighters[0]
	move := f.Moves[0]
	move.Name, move.Damage = "renamed", 123
	jump := f.Jumps[0]
	jump.Landing++
	rise := p.Fighters[1].Rises[0]
	rise.Name = "renamed rise"
	rules := p.Ruleset
	rules.Buffer = 9
	twin := p.Setups[0]
	twin.Name = "twin"
	steps := [][]timeline.Edit{
		{timeline.MoveEdit{Owner: f.Name, Before: f.Moves[0].Name, To: &move}},
		{timeline.JumpEdit{Owner: f.Name, Before: jump.Name, To: &jump}},
		{timeline.RiseEdit{Owner: p.Fighters[1].Name, Before: p.Fighters[1].Rises[0].Name, To: &rise}},
		{timeline.RulesetEdit{Ruleset: rules}},
		{timeline.FighterEdit{Before: "", Fighter: &timeline.Fighter{Name: "New", Rises: []timeline.Rise{{Name: "normal"}}}}},
		{timeline.FighterEdit{Before: "New", Fighter: &timeline.Fighter{Name: "Newer", Body: timeline.Some(9)}},
			timeline.MoveEdit{Owner: "Newer", To: &timeline.Move{Name: "step", Kind: timeline.Dash, Length: 9}}},
		{timeline.MoveEdit{Owner: "Newer", Before: "step"}, timeline.FighterEdit{Before: "Newer"}},
		{timeline.SetupEdit{Before: p.Setups[1].Name}},
	}
	for name, d := range documents(t) {
		m := model.NewModel(d)
		want := []*timeline.Project{p}
		for i, edits := range steps {
			next, err := want[i].With(edits...)
			if err != nil {
				t.Fatal(err)
			}
			if err := m.Apply("edit", edits...); err != nil {
				t.Fatalf("%s: step %d: %v", name, i, err)
			}
			want = append(want, next)
			check(t, name, i, d, next)
		}
		if err := m.Apply("twice", timeline.SetupEdit{Setup: &want[0].Setups[0]}); err == nil {
			t.Errorf("%s: a name twice is taken", name)
		}
		for i := len(steps) - 1; i >= 0; i-- {
			m.Undo()
			check(t, name, -i, d, want[i])
		}
		for i := range steps {
			m.Redo()
			check(t, name, i, d, want[i+1])
		}
	}
}

func check(t *testing.T, name string, step int, d *model.Document, want *timeline.Project) {
	t.Helper()
	got, err := d.Whole()
	if err != nil {
		t.Fatal(err)
	}
	if a, b := string(timeline.WriteText(got)), string(timeline.WriteText(want)); a != b {
		t.Fatalf("%s: step %d: got %s, want %s", name, step, a, b)
	}
}

func TestNewSetupIsChosen(t *testing.T) {
	for name, d := range documents(t) {
		m := model.NewModel(d)
		s := m.Setup()
		s.Name = "another"
		if err := m.Apply("duplicate", timeline.SetupEdit{Setup: &s}); err != nil {
			t.Fatal(err)
		}
		if got := m.Setup().Name; got != "another" {
			t.Errorf("%s: %q is chosen", name, got)
		}
		m.Undo()
		if m.Len() != 3 || m.Chosen() < 0 || m.Chosen() > 2 {
			t.Errorf("%s: after undo %d of %d is chosen", name, m.Chosen(), m.Len())
		}
	}
}

// TestChange edits what no drag reaches, and is refused what breaks a rule.
func TestChange(t *testing.T) {
	for name, d := range documents(t) {
		m := model.NewModel(d)
		var failed error
		m.OnFail = func(err error) { failed = err }
		s := m.Setup()
		s.Note, s.Tags = "a note", []string{"corner"}
		if err := m.Change(s); err != nil {
			t.Fatal(err)
		}
		if got, _ := d.Setup(0); !reflect.DeepEqual(got, s) {
			t.Errorf("%s: holds %+v, want %+v", name, got, s)
		}
		s.Attack = "no such"
		if err := m.Change(s); err == nil || !strings.Contains(err.Error(), "attack") {
			t.Errorf("%s: an unknown attack: %v", name, err)
		}
		s = m.Setup()
		s.Name, _ = "fresh name", failed
		if err := m.Change(s); err != nil || m.Setup().Name != "fresh name" {
			t.Errorf("%s: a rename: %v", name, err)
		}
		other, _ := d.Setup(1)
		s.Name = other.Name
		if err := m.Change(s); err == nil || failed == nil || m.Setup().Name != "fresh name" {
			t.Errorf("%s: a taken name: %v, %v, now %q", name, err, failed, m.Setup().Name)
		}
	}
}
