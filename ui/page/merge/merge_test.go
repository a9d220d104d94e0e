package merge

import (
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/merge"
	"wakeline/ui/grid"
	"wakeline/ui/page/pagetest"
)

// saved writes a project, and lists where it is a project file.
func saved(t *testing.T, name string, p *timeline.Project, lists ...timeline.SavedList) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if filepath.Ext(name) != storage.Ext {
		if err := storage.WriteText(path, p); err != nil {
			t.Fatal(err)
		}
		return path
	}
	f, err := storage.Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, l := range lists {
		if err := f.Edit("list", func(s *storage.Step) error { return s.PutList("", l) }); err != nil {
			t.Fatal(err)
		}
	}
	return path
}

// read shows the page of a merge.
func read(t *testing.T, h *pagetest.Host, path string) (p *Page) {
	t.Helper()
	Read(h, path, func(shown *Page) {
		p = shown
		h.Show(p)
	})
	if p == nil {
		t.Fatalf("no page: %s", h.DialogText())
	}
	return p
}

// other is the demo with another move, jump, setup and fighter, and a slower
// ender.
func other() *timeline.Project {
	p := pagetest.Sample()
	f := &p.Fighters[0]
	f.Move("tide sweep").Knockdown.Midscreen = timeline.Some(57)
	f.Moves = append(f.Moves, timeline.Move{Name: "slow turn", Kind: timeline.Dash, Length: 30})
	p.Fighters = append(p.Fighters, timeline.Fighter{Name: "Vessin", Rises: timeline.DefaultRises()})
	p.Setups[0].Delay, p.Setups[0].Note = 1, "theirs"
	next := p.Setups[1]
	next.Name, next.Fillers, next.Rival, next.Rises, next.Replies = "a turn, heel", []string{"slow turn"}, "Vessin", nil, nil
	next.Advantage = timeline.Some(78)
	p.Setups = append(p.Setups, next)
	return p
}

// listed are the rows of the page, cells apart by a bar.
func (p *Page) listed() (out []string) {
	for row := range p.table.shown {
		out = append(out, strings.Join([]string{p.table.Text(row, kindColumn), p.table.Text(row, nameColumn), p.table.Text(row, stateColumn), p.table.Text(row, choiceColumn)}, "|"))
	}
	return out
}

func TestTheListSaysWhatDiffers(t *testing.T) {
	h := pagetest.OpenFile(t, pagetest.Sample())
	p := read(t, h, saved(t, "other.json", other()))
	p.at(t, "tide sweep, two steps, heel")
	if got := p.table.Text(p.grid.At().Row, differsColumn); got != "delay 3 → 1; note - → theirs" {
		t.Errorf("differs in %q", got)
	}
	p.at(t, "Vessin")
	if got := p.table.Text(p.grid.At().Row, differsColumn); got != "" {
		t.Errorf("what is new differs in %q", got)
	}
}

// at puts the cursor on the item of that name.
func (p *Page) at(t *testing.T, name string) {
	t.Helper()
	row := slices.IndexFunc(p.table.shown, func(i int) bool { return nameOf(&p.table.of.Items[i]) == name })
	if row < 0 {
		t.Fatalf("%q is not listed: %q", name, p.listed())
	}
	p.grid.Place(grid.Place{Row: row})
}

func TestAMergeIsOneStepAndLosesNothing(t *testing.T) {
	for _, name := range []string{"other.json", "other.wakeline"} {
		h := pagetest.OpenFile(t, pagetest.Sample())
		p := read(t, h, saved(t, name, other(), timeline.SavedList{Name: "Theirs", Search: "note:theirs"}))
		want := []string{
			"fighter|Vessin|new|add", "move|Ostrel: tide sweep|different|keep", "move|Ostrel: slow turn|new|add",
			"setup|tide sweep, two steps, heel|different|keep", "setup|a turn, heel|new|add"}
		if name == "other.wakeline" {
			want = append(want, "list|Theirs|new|add")
		}
		if got := p.listed(); !slices.Equal(got, want) {
			t.Fatalf("listed %q, want %q", got, want)
		}
		if !strings.Contains(p.told.Text, "no setup's verdict turns") || p.merge.Disabled() {
			t.Errorf("by default: %s", p.told.Text)
		}
		p.at(t, "tide sweep, two steps, heel")
		if got := p.sides.of; !reflect.DeepEqual(got, []merge.Detail{{Field: "delay", Ours: "3", Theirs: "1"}, {Field: "note", Ours: "", Theirs: "theirs"}}) {
			t.Errorf("side by side: %v", got)
		}
		test.Tap(p.both)
		p.at(t, "Ostrel: tide sweep")
		p.Open() // Enter
		if got := p.listed(); got[1] != "move|Ostrel: tide sweep|different|replace" || got[3] != "setup|tide sweep, two steps, heel|different|keep both" {
			t.Errorf("chosen: %q", got)
		}
		if !strings.Contains(p.told.Text, "turn") || strings.Contains(p.told.Text, "no setup") {
			t.Errorf("with the other ender: %s", p.told.Text)
		}
		p.ask()
		for _, words := range []string{"Adds 1 fighter.", "Replaces 1 move.", "Adds 1 setup beside those of this project, under new names.", "turn", "Ctrl+Z"} {
			if !strings.Contains(h.DialogText(), words) {
				t.Errorf("the dialog doesn't say %q: %s", words, h.DialogText())
			}
		}
		h.Tap(t, "Merge")
		got, err := h.Model().Document().Whole()
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, s := range got.Setups {
			names = append(names, s.Name)
		}
		if want := []string{"tide sweep, two steps, heel", "tide sweep, heel, both rises", "tide sweep, palm and step", "tide sweep, two steps, heel 2", "a turn, heel"}; !slices.Equal(names, want) {
			t.Errorf("setups %q, want %q", names, want)
		}
		if got.Setups[0].Delay != 3 || got.Setups[3].Delay != 1 || got.Fighters[0].Move("tide sweep").Knockdown.Midscreen.N != 57 || got.Fighter("Vessin") == nil {
			t.Errorf("merged: %+v", got.Setups)
		}
		if lists := h.Model().Document().Lists(); (len(lists) == 1) != (name == "other.wakeline") {
			t.Errorf("lists %v", lists)
		}
		if h.Page != nil || len(h.Notes) == 0 || !strings.Contains(h.Notes[len(h.Notes)-1], "Merged: Adds 1 fighter") {
			t.Errorf("after the merge: %T, %q", h.Page, h.Notes)
		}
		h.Model().Undo()
		if back, err := h.Model().Document().Whole(); err != nil || !reflect.DeepEqual(back, pagetest.Sample()) || len(h.Model().Document().Lists()) != 0 {
			t.Errorf("one undo doesn't take all back: %v", err)
		}
	}
}

func TestWhatCanNotBeMergedIsToldBefore(t *testing.T) {
	h := pagetest.OpenFile(t, pagetest.Sample())
	p := read(t, h, saved(t, "other.json", other()))
	p.at(t, "Ostrel: slow turn")
	test.Tap(p.keep)
	if !p.merge.Disabled() || !strings.Contains(p.told.Text, "Can't be merged like this") || !strings.Contains(p.told.Text, "slow turn") {
		t.Errorf("without the move: %s", p.told.Text)
	}
	p.selectAll()
	if p.both.Disabled() { // a setup is among those selected
		t.Error("what only some of the selected rows have can't be chosen")
	}
	p.state.SetSelected(troubled)
	if got := p.listed(); !slices.Equal(got, []string{"setup|a turn, heel|new|add"}) {
		t.Errorf("in trouble: %q", got)
	}
	if !strings.Contains(p.item.Text, "slow turn") {
		t.Errorf("the setup says %q", p.item.Text)
	}
	p.selectAll()
	test.Tap(p.keep) // it is left out too
	if p.merge.Disabled() || len(p.listed()) != 0 {
		t.Errorf("without both: %s, %q", p.told.Text, p.listed())
	}
	h.PageKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if h.Page != nil {
		t.Error("Escape doesn't close the page")
	}
}

func TestTheListOfAMergeIsFiltered(t *testing.T) {
	h := pagetest.Open(t, pagetest.Sample()) // a text
	p := read(t, h, saved(t, "other.wakeline", other(), timeline.SavedList{Name: "Theirs", Search: "x"}))
	if !strings.Contains(p.answer.Text, "Saved lists are left out") || slices.ContainsFunc(p.table.of.Items, func(it merge.Item) bool { return it.Kind == merge.ListKind }) {
		t.Errorf("a text: %s", p.answer.Text)
	}
	count := func(state, kind, words string) int {
		p.state.SetSelected(state)
		p.kind.SetSelected(kind)
		p.filter.SetText(words)
		return len(p.listed())
	}
	all := count(allStates, allKinds, "")
	if all != len(p.table.of.Items) || count("Equal", allKinds, "")+count("New", allKinds, "")+count("Different", allKinds, "") != all {
		t.Errorf("of %d items %d are listed", len(p.table.of.Items), all)
	}
	if n := count(allStates, "Setup", ""); n != 4 {
		t.Errorf("%d setups are listed", n)
	}
	if n := count(allStates, allKinds, "SLOW turn"); n != 1 {
		t.Errorf("%d are found by a name", n)
	}
	if count("Only here", allKinds, "nowhere") != 0 || p.item.Text != "Nothing is listed." {
		t.Errorf("of nothing: %q", p.item.Text)
	}

	// Another edit of the project is compared anew, and what was chosen stays.
	count(openStates, allKinds, "")
	p.at(t, "tide sweep, two steps, heel")
	test.Tap(p.take)
	s, err := h.Model().Document().Setup(2)
	if err != nil {
		t.Fatal(err)
	}
	s.Note = "edited"
	if err := h.Model().Apply("note", timeline.SetupEdit{Before: s.Name, Setup: &s}); err != nil {
		t.Fatal(err)
	}
	if got := p.listed(); !slices.Contains(got, "setup|tide sweep, palm and step|different|keep") || !slices.Contains(got, "setup|tide sweep, two steps, heel|different|replace") {
		t.Errorf("after an edit: %q", got)
	}
}

func TestAFileThatIsNoProjectIsNotMerged(t *testing.T) {
	h := pagetest.OpenFile(t, pagetest.Sample())
	for _, path := range []string{filepath.Join(t.TempDir(), "none.json"), filepath.Join(t.TempDir(), "none.wakeline")} {
		Read(h, path, func(*Page) { t.Errorf("%s is merged", path) })
		if h.Dialogs().Count() != 1 {
			t.Fatalf("%s: nothing is said", path)
		}
		h.Tap(t, "Close")
	}
	p := read(t, h, saved(t, "same.json", pagetest.Sample()))
	if !p.merge.Disabled() || !strings.Contains(p.answer.Text, "There is nothing to merge") || len(p.listed()) != 0 {
		t.Errorf("with itself: %s, %q", p.answer.Text, p.listed())
	}
}
