package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/paint"
)

// TestFirstStart follows the strip's three sentences.
func TestFirstStart(t *testing.T) {
	p := sample()
	p.Setups[0].Delay = 7 // the last that holds
	a := test.NewTempApp(t)
	begin := func() *window {
		w := newWindow(a, Start{Sample: p, inline: true})
		w.win.Resize(laptop)
		t.Cleanup(func() {
			w.win.SetCloseIntercept(nil)
			w.win.Close()
			noFailures(t)
		})
		return w
	}
	w := begin()
	is := func(what string, want ...bool) {
		t.Helper()
		for i, done := range w.welcome.Done {
			if done != want[i] {
				t.Errorf("%s: done %v, want %v", what, w.welcome.Done, want)
				return
			}
		}
	}
	if !w.welcome.Visible() {
		t.Fatal("the sample opens without the strip")
	}
	if got := w.welcome.Position().Y; got < w.sides.Size().Height {
		t.Errorf("the strip lies at %g, over what answers a drag", got)
	}
	key(w, fyne.KeyLeft, 1)
	is("another delay that holds", false, false, false)
	key(w, fyne.KeyRight, 2)
	is("the verdict turned", true, false, false)
	for i := range w.model.Plan().Lines() {
		if w.model.Mark(0, i) == timeline.JudgedUnsafe {
			w.model.Show(0, i)
			break
		}
	}
	is("looked at what broke it", true, true, false)
	for range 3 {
		w.undo()
	}
	is("taken back", true, true, true)
	if !strings.Contains(textOf(w.welcome), "That is all it takes") {
		t.Errorf("the strip says %q", textOf(w.welcome))
	}
	w.welcome.Close.Tapped(nil)
	if w.welcome.Visible() {
		t.Error("the strip can't be closed")
	}
	if w = begin(); w.welcome.Visible() {
		t.Error("the strip comes again")
	}
}

// TestStripIsForTheSample shows no strip over a hand's own work.
func TestStripIsForTheSample(t *testing.T) {
	if w := open(t, sample(), laptop); w.welcome.Visible() {
		t.Error("a project of one's own begins with the strip")
	}
}

// TestEmptyViews says in each state what to do first.
func TestEmptyViews(t *testing.T) {
	data := sample()
	data.Setups = nil
	rival := &timeline.Project{Ruleset: data.Ruleset, Fighters: data.Fighters[1:]}
	for _, c := range []struct {
		name, words, buttons string
		w                    *window
	}{
		{"nothing", "Begin with a fighter", "Move data, Import…, Import copied table…, Open…", open(t, nil, laptop)},
		{"an empty file", "Begin with a fighter", "Move data, Import…, Import copied table…", openFile(t, &timeline.Project{Ruleset: data.Ruleset})},
		{"no ender", "begins with a move that knocks down", "Move data, Import…", open(t, rival, laptop)},
		{"no setup", "Create the first setup", "New setup…, Move data", open(t, data, laptop)},
		{"no setup in a file", "Create the first setup", "New setup…, Move data", openFile(t, data)},
	} {
		var labels []string
		for _, o := range c.w.empty.Buttons.Objects {
			labels = append(labels, o.(*paint.PushButton).Text)
		}
		if got := strings.Join(labels, ", "); !c.w.empty.Box.Visible() || c.w.upDown.Visible() || !strings.Contains(c.w.empty.Text.Text, c.words) || got != c.buttons {
			t.Errorf("%s: %q with %s", c.name, c.w.empty.Text.Text, got)
		}
	}
	w := open(t, data, laptop)
	test.Tap(w.empty.Buttons.Objects[0].(*paint.PushButton))
	tap(t, w, "Create")
	if w.empty.Box.Visible() || !w.upDown.Visible() || w.model.Len() != 1 {
		t.Errorf("after the first setup %d setups, shown %v", w.model.Len(), w.upDown.Visible())
	}
}

// TestFirstStartFitsTheSmallestWindow asks for no more room than there is,
// however long the words are.
func TestFirstStartFitsTheSmallestWindow(t *testing.T) {
	size := fyne.NewSize(1024, 640)
	w := open(t, sample(), size)
	w.welcome.Begin()
	w.main.Refresh()
	for i := range w.model.Data().Setups {
		w.model.Choose(i)
		if got := w.win.Content().MinSize(); got.Height > size.Height || got.Width > size.Width {
			t.Errorf("setup %d: the window needs %v", i, got)
		}
	}
	w.welcome.Body.Refresh()
	said := 0
	for _, o := range test.LaidOutObjects(w.welcome.Body) {
		if text, ok := o.(*canvas.Text); ok && text.Visible() {
			said++
			if end := text.Position().Y + text.MinSize().Height; end > w.welcome.Size().Height {
				t.Errorf("%q ends at %g of %g units", text.Text, end, w.welcome.Size().Height)
			}
		}
	}
	if said == 0 {
		t.Error("the strip says nothing")
	}
}
