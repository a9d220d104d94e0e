package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// varied is a project whose setups differ in what the list filters by.
func varied() *timeline.Project {
	p := sample()
	mirror := p.Setups[0]
	mirror.Name, mirror.Rival, mirror.Replies, mirror.Rises = "a mirror", "Ostrel", nil, nil
	far := p.Setups[0]
	far.Name, far.Jump, far.Attack, far.Fillers = "much too long", "", "", slices.Repeat([]string{"short step"}, 60)
	p.Setups = append(p.Setups, mirror, far)
	p.Setups[1].Delay, p.Setups[2].Delay = 7, 2 // in their windows
	p.Setups[0].Tags, p.Setups[1].Tags = []string{"corner", "safe jump"}, []string{"corner"}
	return p
}

// inDirect are the words of all setups, judged one by one.
func inDirect(t *testing.T, p *timeline.Project) (words []string) {
	t.Helper()
	for _, s := range p.Setups {
		word := panel.NoVerdict
		if plan, err := timeline.Compile(p, s); err == nil {
			word = string(plan.Word(s.Delay))
		}
		words = append(words, word)
	}
	return words
}

func TestFilterBy(t *testing.T) {
	p := varied()
	words := inDirect(t, p)
	having := func(word string) (out []int) {
		for i := range words {
			if words[i] == word {
				out = append(out, i)
			}
		}
		return out
	}
	for _, w := range []*window{open(t, p, laptop), openFile(t, p)} {
		for _, c := range []struct {
			by   panel.SetupFilter
			want []int
		}{
			{panel.SetupFilter{}, []int{0, 1, 2, 3, 4}},
			{panel.SetupFilter{Tag: "corner"}, []int{0, 1}},
			{panel.SetupFilter{Tag: "corn"}, nil},
			{panel.SetupFilter{Rival: "Ostrel"}, []int{3}},
			{panel.SetupFilter{Attacker: "Ostrel", Rival: "Maerwyn"}, []int{0, 1, 2, 4}},
			{panel.SetupFilter{Attacker: "Maerwyn"}, nil},
			{panel.SetupFilter{Verdict: "safe"}, having("safe")},
			{panel.SetupFilter{Verdict: "limited"}, having("limited")},
			{panel.SetupFilter{Verdict: "unsafe"}, having("unsafe")},
			{panel.SetupFilter{Verdict: panel.NoVerdict}, having(panel.NoVerdict)},
		} {
			w.setups.By = c.by
			w.setups.Filter()
			if got := w.setups.Shown; !slices.Equal(got, c.want) {
				t.Errorf("%+v shows %v, want %v", c.by, got, c.want)
			}
			if got := w.setups.Narrowed.Visible(); got != w.setups.Filtered() {
				t.Errorf("%+v: what is filtered is told %v", c.by, got)
			}
		}
		if len(having(panel.NoVerdict)) != 1 || len(having("safe")) != 2 {
			t.Fatalf("the setups don't differ: %v", words)
		}
		w.setups.By = panel.SetupFilter{Tag: "corner", Verdict: "safe"}
		w.setups.Field.SetText("heel")
		if got, want := w.setups.What.Text, "safe, tag corner"; got != want {
			t.Errorf("it says %q, want %q", got, want)
		}
		w.setups.ClearWord.Tapped(nil)
		if w.setups.Filtered() || len(w.setups.Shown) != 5 || w.setups.Field.Text != "" {
			t.Errorf("cleared, it shows %v with %+v", w.setups.Shown, w.setups.By)
		}
	}
}

// TestPicks filters by what a hand chooses.
func TestPicks(t *testing.T) {
	w := open(t, varied(), laptop)
	w.setups.AskPicks()
	if got, want := w.setups.Picks.Tag.Options, []string{"any tag", "corner", "safe jump"}; !slices.Equal(got, want) {
		t.Errorf("tags offered %q, want %q", got, want)
	}
	w.setups.Picks.Tag.SetSelected("safe jump")
	if got := w.setups.Shown; !slices.Equal(got, []int{0}) {
		t.Errorf("shows %v", got)
	}
	w.setups.Picks.Tag.SetSelected("any tag")
	if got := w.setups.Shown; len(got) != 5 {
		t.Errorf("shows %v", got)
	}
}

func TestOrders(t *testing.T) {
	p := varied()
	w := open(t, p, laptop)
	words := inDirect(t, p)
	spare := make([]int, len(p.Setups))
	for i, s := range p.Setups {
		spare[i] = timeline.Width
		if plan, err := timeline.Compile(p, s); err == nil {
			v := plan.Verdict(s.Delay)
			spare[i] = v.Spare().Or(timeline.Width)
		}
	}
	rank := map[string]int{"unsafe": 1, "limited": 2, "safe": 3}
	for o, less := range map[panel.SetupOrder]func(a, b int) int{
		panel.ByAge:     func(a, b int) int { return a - b },
		panel.ByName:    func(a, b int) int { return strings.Compare(p.Setups[a].Name, p.Setups[b].Name) },
		panel.ByRival:   func(a, b int) int { return strings.Compare(p.Setups[a].Rival, p.Setups[b].Rival) },
		panel.ByVerdict: func(a, b int) int { return rank[words[a]] - rank[words[b]] },
		panel.BySpare:   func(a, b int) int { return spare[a] - spare[b] },
	} {
		w.setups.SetOrder(o)
		want := []int{0, 1, 2, 3, 4}
		slices.SortStableFunc(want, less)
		if got := w.setups.Shown; !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", panel.OrderWords[o], got, want)
		}
	}
	w.setups.SetOrder(panel.ByName)
	if err := w.model.Rename("zz"); err != nil {
		t.Fatal(err)
	}
	if got := w.setups.Shown; got[len(got)-1] != w.model.Chosen() {
		t.Errorf("renamed, the setup stands at %v", got)
	}
}

// TestVerdictsBehindTheWindow filters very many setups while they are edited.
func TestVerdictsBehindTheWindow(t *testing.T) {
	p := many(3000)
	w := open(t, p, laptop)
	hops := make(chan func(), 100)
	w.tasks.Spawn = func(do func()) { go do() }
	w.tasks.Later = func(do func()) { hops <- do }
	finish := func() {
		for w.setups.Verdicts.Running() {
			(<-hops)()
		}
	}
	w.setups.By.Verdict = "unsafe"
	w.setups.Filter()
	if !w.setups.Verdicts.Running() || len(w.setups.Shown) > 1 || w.setups.What.Text != "judged 0 of 3000" || w.setups.ClearWord.Text != "stop" {
		t.Fatalf("running %v, shows %d, says %q", w.setups.Verdicts.Running(), len(w.setups.Shown), w.setups.What.Text)
	}
	key(w, fyne.KeyRight, 2)
	finish()
	want := func() (n int) {
		p, err := w.model.Document().Whole()
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range inDirect(t, p) {
			if word == "unsafe" {
				n++
			}
		}
		return n
	}
	if got := len(w.setups.Shown); got != want() || got == 0 || got == 3000 {
		t.Errorf("%d unsafe setups, want %d", got, want())
	}
	before := len(w.setups.Shown)
	m := *w.model.Data().Fighter("Ostrel").Move("tide sweep")
	m.Knockdown.Midscreen = timeline.Some(60)
	if err := w.model.Apply("advantage", timeline.MoveEdit{Owner: "Ostrel", Before: m.Name, To: &m}); err != nil {
		t.Fatal(err)
	}
	if !w.setups.Verdicts.Running() {
		t.Error("an edit of the move data left the verdicts as they were")
	}
	finish()
	if got := len(w.setups.Shown); got != want() || got == before {
		t.Errorf("%d unsafe setups after the edit, were %d, want %d", got, before, want())
	}
	w.setups.Verdicts.Forget()
	w.setups.Filter()
	w.setups.ClearWord.Tapped(nil)
	if w.setups.Verdicts.Running() || w.setups.By.Verdict != "" || len(w.setups.Shown) != 3000 {
		t.Errorf("stopped: running %v, shows %d", w.setups.Verdicts.Running(), len(w.setups.Shown))
	}
	for len(hops) > 0 {
		(<-hops)()
	}
}

func TestSetupActions(t *testing.T) {
	for _, w := range []*window{open(t, sample(), laptop), openFile(t, sample())} {
		names := func() (out []string) {
			for i := range w.model.Len() {
				out = append(out, w.model.Document().Head(i).Name)
			}
			return out
		}
		began := names()
		w.model.Choose(1)
		w.duplicateSetup()
		if got, want := w.model.Setup().Name, began[1]+", copy"; got != want || w.model.Len() != 4 || w.model.Chosen() != 3 {
			t.Fatalf("the copy is %q, want %q; %v", got, want, names())
		}
		w.duplicateSetup()
		w.model.Choose(1)
		w.duplicateSetup()
		if got, want := w.model.Setup().Name, began[1]+", copy 2"; got != want {
			t.Errorf("the next copy is %q, want %q", got, want)
		}
		w.undo()
		w.undo()
		if w.model.Len() != 4 {
			t.Errorf("undone twice there are %v", names())
		}

		w.model.Choose(3)
		w.askRename()
		entry := focusedEntry(t, w)
		entry.SetText(began[0])
		tap(t, w, "Rename")
		if got := overlayText(w); !strings.Contains(got, "Another setup has that name already.") {
			t.Errorf("a name that is taken: %q", got)
		}
		entry.SetText("low tide")
		tap(t, w, "Rename")
		if got := w.model.Setup().Name; got != "low tide" || overlayText(w) != "" {
			t.Errorf("renamed to %q; %s", got, overlayText(w))
		}
		w.undo()
		if got, want := w.model.Setup().Name, began[1]+", copy"; got != want {
			t.Errorf("after undo its name is %q, want %q", got, want)
		}

		w.model.Choose(1)
		w.deleteSetup()
		if got := names(); slices.Contains(got, began[1]) || len(got) != 3 || w.model.Setup().Name != began[2] {
			t.Errorf("deleted: %v, chosen %q", got, w.model.Setup().Name)
		}
		if want := "Deleted " + began[1] + ". Ctrl+Z brings it back"; w.status.Hinted != want {
			t.Errorf("the status line says %q, want %q", w.status.Hinted, want)
		}
		w.undo()
		if got := w.model.Setup().Name; got != began[1] || w.model.Chosen() != 1 {
			t.Errorf("the setup brought back isn't chosen, but %q", got)
		}
		for w.model.Len() > 0 {
			w.deleteSetup()
		}
		w.undo()
		if w.model.Len() != 1 || w.model.Plan() == nil {
			t.Errorf("the last one brought back: %v", names())
		}
	}
}

// focusedEntry is the field with the focus.
func focusedEntry(t *testing.T, w *window) *widget.Entry {
	t.Helper()
	switch e := w.Canvas().Focused().(type) {
	case *widget.Entry:
		return e
	case *paint.PageEntry:
		return &e.Entry
	}
	t.Fatalf("the focus is on %T", w.Canvas().Focused())
	return nil
}

func TestNewSetup(t *testing.T) {
	for _, w := range []*window{open(t, sample(), laptop), openFile(t, sample())} {
		w.setups.By.Tag = "none such"
		w.setups.Filter()
		w.askNewSetup()
		tap(t, w, "Create")
		if got := overlayText(w); got != "" {
			t.Fatal(got)
		}
		want := timeline.Setup{Name: "tide sweep vs Maerwyn", Attacker: "Ostrel", Rival: "Maerwyn", Ender: "tide sweep", Position: timeline.Midscreen, Landing: timeline.DoGuard}
		if got := w.model.Setup(); !model.SameSetup(&got, &want) || w.model.Plan() == nil {
			t.Errorf("the new setup is %+v, %v", got, w.model.Err())
		}
		if w.setups.Row() < 0 {
			t.Error("the list hides it")
		}
		w.askNewSetup()
		focusedEntry(t, w).SetText("tide sweep vs Maerwyn")
		tap(t, w, "Create")
		if got := overlayText(w); !strings.Contains(got, "Another setup has that name already.") {
			t.Errorf("a name that is taken: %q", got)
		}
		tap(t, w, "Cancel")
		w.undo()
		if w.model.Len() != 3 {
			t.Errorf("after undo there are %d setups", w.model.Len())
		}
	}
}

func TestNewSetupNeedsAnEnder(t *testing.T) {
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	w := open(t, p, laptop)
	shown := false
	w.openData = func() { shown = true }
	w.askNewSetup()
	if got := overlayText(w); !strings.Contains(got, "There is no fighter in this project yet.") {
		t.Errorf("it says %q", got)
	}
	tap(t, w, "Move data")
	if !shown {
		t.Error("the move data are not shown")
	}
	rival := sample().Fighters[1]
	if err := w.model.Apply("fighter", timeline.FighterEdit{Fighter: &rival}); err != nil {
		t.Fatal(err)
	}
	w.askNewSetup()
	if got := overlayText(w); !strings.Contains(got, "No move of this project knocks down yet") {
		t.Errorf("it says %q", got)
	}
}

func TestTriedInTheGame(t *testing.T) {
	w := openFile(t, sample())
	d := w.model.Document()
	w.model.Choose(1)
	for _, result := range []string{"worked", "unclear"} {
		w.askProof()
		for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
			if r, ok := o.(*paint.Pick); ok {
				r.SetSelected(result)
			}
		}
		focusedEntry(t, w).SetText("on a pad")
		tap(t, w, "Save")
		if got := d.Tried(1); got != result {
			t.Fatalf("it was tried: %q, want %q; %s", got, result, overlayText(w))
		}
	}
	proofs, err := d.Proofs(1)
	if err != nil || len(proofs) != 2 || proofs[0].Result != "worked" || proofs[0].Note != "on a pad" || proofs[0].Revision != storage.FirstRevision {
		t.Errorf("proofs %+v, %v", proofs, err)
	}
	if d.Tried(0) != "" {
		t.Error("another setup was tried too")
	}
	w.undo()
	if got := d.Tried(1); got != "worked" {
		t.Errorf("after undo it was tried: %q", got)
	}

	w = open(t, sample(), laptop)
	w.askProof()
	if got := overlayText(w); !strings.Contains(got, "stored in a project file") {
		t.Errorf("of a project in memory it says %q", got)
	}
}

func TestSetupMenu(t *testing.T) {
	w := open(t, sample(), laptop)
	for _, r := range w.setups.List.Rows {
		if r.At == 2 {
			r.TappedSecondary(&fyne.PointEvent{Position: fyne.NewPos(30, 10)})
		}
	}
	if w.model.Chosen() != 2 {
		t.Errorf("setup %d is chosen, want that under the pointer", w.model.Chosen())
	}
	if w.Canvas().Overlays().Top() == nil {
		t.Error("there is no menu")
	}
	w.Canvas().Overlays().Remove(w.Canvas().Overlays().Top())
	w.Canvas().Focus(w.setups.List)
	w.setups.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
	if got := overlayText(w); w.Canvas().Overlays().Top() == nil {
		t.Errorf("F2 in the list asks for nothing: %q", got)
	}
}
