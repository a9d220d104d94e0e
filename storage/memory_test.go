package storage

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"wakeline/timeline"
)

// openedText is a project text in a folder of its own, and the file in memory
// that it was read into.
func openedText(t *testing.T, p *timeline.Project) (*File, string) {
	t.Helper()
	path := filepath.Join(tempDir(t), "p.json")
	if err := os.WriteFile(path, timeline.WriteText(p), 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := OpenText(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f, path
}

func setDelay(t *testing.T, f *File, name string, delay int) {
	t.Helper()
	if err := f.Edit("delay", func(s *Step) error {
		p, err := f.setupNamed(s.tx, name)
		if err != nil {
			return err
		}
		p.Delay = delay
		return s.PutSetup(name, &p)
	}); err != nil {
		t.Fatal(err)
	}
}

// setupNamed reads one setup, also in the midst of a step.
func (s *state) setupNamed(q querier, name string) (out timeline.Setup, err error) {
	err = s.eachSetup(q, "WHERE s.name = '"+name+"'", func(_ int64, _ int, setup *timeline.Setup) error {
		out = *setup
		return nil
	})
	return out, err
}

func TestATextIsEditedInMemoryAndExported(t *testing.T) {
	p := sample(t)
	f, path := openedText(t, p)
	holds(t, f, p, "opened")
	if f.Path() != path || !f.InMemory() || f.ReadOnly() != "" || f.Unsaved() {
		t.Errorf("path %q, in memory %v, read-only %q, unsaved %v", f.Path(), f.InMemory(), f.ReadOnly(), f.Unsaved())
	}
	if _, err := f.Undo(); !errors.Is(err, ErrNoStep) {
		t.Errorf("undo of an opened text: %v, want %v", err, ErrNoStep)
	}
	name := p.Setups[0].Name
	setDelay(t, f, name, 7)
	if err := f.Edit("rename", func(s *Step) error { return s.PutFighter(p.Fighters[0].Name, &timeline.Fighter{Name: "Renamed"}) }); err != nil {
		t.Fatal(err)
	}
	want := clone(t, p)
	want.Setups[0].Delay = 7
	was := want.Fighters[0].Name
	want.Fighters[0].Name, want.Fighters[0].Body = "Renamed", timeline.Maybe{}
	for i := range want.Setups {
		s := &want.Setups[i]
		if s.Attacker == was {
			s.Attacker = "Renamed"
		}
		if s.Rival == was {
			s.Rival = "Renamed"
		}
	}
	holds(t, f, want, "edited")
	if still, err := ReadText(path); err != nil || !reflect.DeepEqual(still, p) {
		t.Errorf("the text on disk changed before it was saved, or: %v", err)
	}
	if err := f.ExportText(path); err != nil {
		t.Fatal(err)
	}
	if now, err := ReadText(path); err != nil || !reflect.DeepEqual(now, want) {
		t.Errorf("exported: %v; equal %v", err, reflect.DeepEqual(now, want))
	}
	for range 2 {
		if _, err := f.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	holds(t, f, p, "undone")
	for range 2 {
		if _, err := f.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	holds(t, f, want, "done again")
}

func TestAFileInMemoryTouchesNoDisk(t *testing.T) {
	p, state := sample(t), tempDir(t)
	Begin(state)
	t.Cleanup(func() { Begin("") })
	home := tempDir(t)
	t.Chdir(home)
	t.Setenv("TMPDIR", home)
	f, path := openedText(t, p)
	before := filesIn(t, filepath.Dir(path), state, home)
	name := p.Setups[0].Name
	for d := range 9 {
		setDelay(t, f, name, d+1)
	}
	second, err := OpenText(path) // no lock keeps it out
	if err != nil || second.ReadOnly() != "" {
		t.Fatalf("opened twice: %v", err)
	}
	if err := second.Close(); err != nil {
		t.Fatal(err)
	}
	if now := filesIn(t, filepath.Dir(path), state, home); !reflect.DeepEqual(now, before) {
		t.Errorf("while it is open: %v, want %v", now, before)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if err := End(time.Minute); err != nil {
		t.Error(err)
	}
	if now := filesIn(t, filepath.Dir(path), state, home); !reflect.DeepEqual(now, before) {
		t.Errorf("after it was closed: %v, want %v", now, before)
	}
	if err := f.Edit("late", func(s *Step) error { return s.RemoveSetup(name) }); err == nil {
		t.Error("a closed file takes an edit")
	}
}

// filesIn lists what lies in those folders, with sizes.
func filesIn(t *testing.T, folders ...string) map[string]int64 {
	t.Helper()
	out := map[string]int64{}
	for _, folder := range folders {
		if err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
			if err != nil {
				return err
			}
			info, err := d.Info()
			if err == nil && !d.IsDir() {
				out[path] = info.Size()
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestUnsavedFollowsTheSteps(t *testing.T) {
	f, _ := openedText(t, sample(t))
	name := sample(t).Setups[0].Name
	step := func(do func() (string, error)) {
		t.Helper()
		if _, err := do(); err != nil {
			t.Fatal(err)
		}
	}
	expect := func(want bool, when string) {
		t.Helper()
		if got := f.Unsaved(); got != want {
			t.Errorf("%s: unsaved = %v, want %v", when, got, want)
		}
	}
	setDelay(t, f, name, 1)
	expect(true, "edited")
	step(f.Undo)
	expect(false, "undone")
	step(f.Redo)
	expect(true, "done again")
	f.Saved("elsewhere.json")
	expect(false, "saved")
	if f.Path() != "elsewhere.json" {
		t.Errorf("path = %q", f.Path())
	}
	setDelay(t, f, name, 1) // nothing changes, so there is no step
	expect(false, "edited to what it was")
	step(f.Undo)
	expect(true, "taken back past what was saved")
	setDelay(t, f, name, 2)
	expect(true, "the saved state is gone")
	step(f.Undo)
	expect(true, "as it was opened, which isn't what was saved")
	if err := f.Edit("broken", func(s *Step) error { return s.PutSetup(name, &timeline.Setup{Name: "x"}) }); err == nil {
		t.Fatal("a broken edit was taken")
	}
	expect(true, "after an edit that failed")
}

func TestAnEmptyFileInMemory(t *testing.T) {
	f, err := InMemory("", nil)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	holds(t, f, &timeline.Project{Ruleset: timeline.DefaultRuleset()}, "empty")
	if f.Path() != "" || f.Unsaved() {
		t.Errorf("path %q, unsaved %v", f.Path(), f.Unsaved())
	}
	if err := f.Edit("a fighter", func(s *Step) error {
		return s.PutFighter("", &timeline.Fighter{Name: "One", Rises: timeline.DefaultRises()})
	}); err != nil {
		t.Fatal(err)
	}
	if err := f.AddDrill(Drill{Date: "2030-01-02T03:04:05Z", Setup: "s", Presses: []Press{{What: "jump"}}}); err != nil {
		t.Fatal(err)
	}
	if drills, err := f.Drills(); err != nil || len(drills) != 1 {
		t.Errorf("drills: %v, %v", drills, err)
	}
}

func TestOpenTextTellsOfABrokenText(t *testing.T) {
	path := filepath.Join(tempDir(t), "p.json")
	if err := os.WriteFile(path, []byte(`{"wakeline": 1, "rulset": {}}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := OpenText(path); err == nil || !contains(err.Error(), path) || !contains(err.Error(), "rulset") {
		t.Errorf("error = %v, want the path and the field", err)
	}
}

func BenchmarkInMemory(b *testing.B) {
	p := sample(b)
	for b.Loop() {
		f, err := InMemory("", p)
		if err != nil {
			b.Fatal(err)
		}
		f.Close()
	}
}
