package ui

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/page/data"
	"wakeline/ui/panel"
)

// standingSample is the sample in which setup 0 is asked its rival's standing
// replies, which are those it had as its own.
func standingSample() *timeline.Project {
	p := sample()
	s := &p.Setups[0]
	p.Fighter(s.Rival).Replies = s.Replies
	s.Replies = nil
	return p
}

// sourceOf is the line of words that says whose the replies are.
func sourceOf(t testing.TB, w *window) *panel.RepliesSource {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.below.Box) {
		if s, ok := o.(*panel.RepliesSource); ok {
			return s
		}
	}
	t.Fatal("nothing says whose the replies are")
	return nil
}

// paintedIn is what is painted in an object, a line each.
func paintedIn(in fyne.CanvasObject) string {
	var b strings.Builder
	for _, o := range test.LaidOutObjects(in) {
		if text, ok := o.(*canvas.Text); ok {
			b.WriteString(text.Text + "\n")
		}
	}
	return b.String()
}

// stored is the chosen setup as the document has it.
func stored(w *window) timeline.Setup {
	s, _ := w.model.Document().Setup(w.model.Chosen())
	return s
}

func TestRepliesSayWhoseTheyAre(t *testing.T) {
	w := open(t, standingSample(), laptop)
	rival := w.model.Data().Fighter(w.model.Setup().Rival)
	said := func(want string) {
		t.Helper()
		if got := paintedIn(w.below.Box); !strings.Contains(got, want) {
			t.Errorf("nothing says %q", want)
		}
	}
	said(rival.Name + "'s standing replies")
	said("make own")
	before := replyList(w)
	w.replies.Body.TypedRune('o')
	if got := stored(w).Replies; !reflect.DeepEqual(got, rival.Replies) || replyList(w) != before {
		t.Errorf("made its own they are %v", got)
	}
	said("this setup's own replies")
	said("use " + rival.Name + "'s")
	sourceOf(t, w).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := stored(w).Replies; got != nil || replyList(w) != before || edits(w.model) != 2 {
		t.Errorf("given back they are %v after %d edits", got, edits(w.model))
	}
	w.undo()
	if stored(w).Replies == nil {
		t.Error("undone they are not its own")
	}
	w.undo()
	if stored(w).Replies != nil {
		t.Error("undone twice they are still its own")
	}
}

// TestAnEditOfStandingRepliesMakesThemTheSetupsOwn leaves the rival's alone.
func TestAnEditOfStandingRepliesMakesThemTheSetupsOwn(t *testing.T) {
	w := open(t, standingSample(), laptop)
	rival := w.model.Setup().Rival
	was := w.model.Data().Fighter(rival).Replies
	w.model.Show(0, w.model.BuiltIn())
	w.replies.Body.TypedRune('7')
	if got := stored(w).Replies; len(got) != len(was) || got[0].Late != 7 || !reflect.DeepEqual(w.model.Data().Fighter(rival).Replies, was) {
		t.Errorf("own %v; standing %v", got, w.model.Data().Fighter(rival).Replies)
	}
}

// TestACopyIsAskedTheStandingRepliesToo, and so is a setup that takes another
// rival.
func TestACopyIsAskedTheStandingRepliesToo(t *testing.T) {
	w := open(t, standingSample(), laptop)
	w.duplicateSetup()
	if s := stored(w); s.Replies != nil || !strings.HasSuffix(s.Name, "copy") {
		t.Errorf("the copy %q has replies of its own: %v", s.Name, s.Replies)
	}
	s := w.model.Setup()
	for i := range w.model.Data().Fighters {
		if f := &w.model.Data().Fighters[i]; f.Name != s.Rival {
			s.Rival, s.Rises = f.Name, nil
			if err := w.model.Change(s); err != nil || stored(w).Replies != nil {
				t.Errorf("against %s it has %v, %v", f.Name, stored(w).Replies, err)
			}
			return
		}
	}
}

func TestEqualRepliesAreMerged(t *testing.T) {
	p := sample()
	for i := range 3 {
		s := p.Setups[0]
		s.Name += strings.Repeat("!", i+1)
		p.Setups = append(p.Setups, s)
	}
	rival := p.Setups[0].Rival
	want := p.Setups[0].Replies
	w := open(t, p, laptop)
	words := map[string]timeline.Word{}
	for i := range w.model.Len() {
		words[w.model.Row(i).Name] = w.model.Row(i).Word
	}
	w.askMergeReplies()
	settleAll(w.Canvas())
	if text := overlayText(w); !strings.Contains(text, "become "+rival+"'s standing ones") {
		t.Fatalf("the dialog says %q", text)
	}
	tap(t, w, "Merge")
	if got := w.model.Data().Fighter(rival).Replies; !reflect.DeepEqual(got, want) || edits(w.model) != 1 {
		t.Errorf("standing %v, want %v; %d edits", got, want, edits(w.model))
	}
	merged := 0
	for i := range w.model.Len() {
		if s, _ := w.model.Document().Setup(i); s.Replies == nil {
			merged++
		}
		if r := w.model.Row(i); r.Word != words[r.Name] {
			t.Errorf("%s was %s and is %s", r.Name, words[r.Name], r.Word)
		}
	}
	if merged < 4 {
		t.Errorf("%d setups are asked the standing replies", merged)
	}
	w.undo()
	if w.model.Data().Fighter(rival).Replies != nil || stored(w).Replies == nil {
		t.Error("undone they are merged still")
	}
	w.redo()
	w.askMergeReplies()
	if text := overlayText(w); strings.Contains(text, "become "+rival) {
		t.Errorf("again it offers %q", text)
	}
}

func TestTheRepliesLeadToTheStandingOnes(t *testing.T) {
	w := open(t, standingSample(), laptop)
	rival := w.model.Setup().Rival
	w.showStanding()
	d, ok := w.page.(*data.Page)
	if !ok {
		t.Fatalf("shown is %T", w.page)
	}
	if got := pageText(w); !strings.Contains(got, "Replies") || pageOf(t, w).fighters.Selected != rival || pageOf(t, w).grid.Shown().Heads()[0] != "reply" {
		t.Errorf("%v shows %s of %s", d, pageOf(t, w).grid.Shown().Heads(), pageOf(t, w).fighters.Selected)
	}
}

// TestAnEnderLeadsToItsRoutes shows the first route that ends in the chosen
// setup's ender, and says so where there is none.
func TestAnEnderLeadsToItsRoutes(t *testing.T) {
	p := sample()
	s := &p.Setups[0]
	f := p.Fighter(s.Attacker)
	var jab string
	for i := range f.Moves {
		if m := &f.Moves[i]; !m.Air && m.Hits() && m.Name != s.Ender {
			jab = m.Name
		}
	}
	f.Routes = []timeline.Route{{Name: "other", Steps: []timeline.RouteStep{{Move: jab, By: timeline.Link}}}}
	w := open(t, p, laptop)
	item(t, w, "Routes to this ender").Action()
	if got := w.status.Hinted; w.page != nil || !strings.Contains(got, "No route of "+s.Attacker+" ends in "+s.Ender) {
		t.Errorf("without a route it shows %T and says %q", w.page, got)
	}
	route := timeline.Route{Name: "to it", Steps: []timeline.RouteStep{{Move: jab, By: timeline.Link}, {Move: s.Ender, By: timeline.Cancel}}}
	if err := w.model.Apply("route", timeline.RouteEdit{Owner: s.Attacker, To: &route}); err != nil {
		t.Fatal(err)
	}
	item(t, w, "Routes to this ender").Action()
	if d := pageOf(t, w); d.row() != "to it" || d.fighters.Selected != s.Attacker {
		t.Errorf("it shows %q of %s", d.row(), d.fighters.Selected)
	}
}

// TestOwnRepliesBecomeTheRivalsStandingOnes where the rival has none, as one
// step.
func TestOwnRepliesBecomeTheRivalsStandingOnes(t *testing.T) {
	w := open(t, sample(), laptop)
	was := stored(w).Replies
	rival := w.model.Setup().Rival
	w.replies.Body.TypedRune('o')
	if got := w.model.Data().Fighter(rival).Replies; !reflect.DeepEqual(got, was) || stored(w).Replies != nil || edits(w.model) != 1 {
		t.Errorf("standing %v, own %v, %d edits", got, stored(w).Replies, edits(w.model))
	}
	if got := paintedIn(w.below.Box); !strings.Contains(got, rival+"'s standing replies") {
		t.Error("nothing says whose they are now")
	}
	w.undo()
	if got := w.model.Data().Fighter(rival).Replies; got != nil || !reflect.DeepEqual(stored(w).Replies, was) {
		t.Errorf("undone: standing %v, own %v", got, stored(w).Replies)
	}
}

// TestAnOlderProjectIsOfferedToMergeItsReplies opens a file of a version in which
// each setup listed its own replies, and one that was opened before.
func TestAnOlderProjectIsOfferedToMergeItsReplies(t *testing.T) {
	old, err := os.ReadFile("../storage/testdata/v6.wakeline")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "old"+storage.Ext)
	if err := os.WriteFile(path, old, 0o644); err != nil {
		t.Fatal(err)
	}
	w := start(t, Start{Sample: sample()})
	w.openPath(path)
	if got := overlayText(w); !strings.Contains(got, "Merge equal replies") || !strings.Contains(got, "3 setups against Ishka: their 5 replies become Ishka's standing ones.") {
		t.Fatalf("offered is %q", got)
	}
	w.Canvas().Overlays().Remove(w.Canvas().Overlays().Top())
	if steps, err := w.model.Document().File().History(1); err != nil || len(steps) != 1 || strings.Contains(steps[0].What, "merge") {
		t.Errorf("the last step is %v, %v, before anything was chosen", steps, err)
	}
	w.showSample()
	w.openPath(path)
	if got := overlayText(w); got != "" {
		t.Errorf("opened again, it offers %q", got)
	}
}
