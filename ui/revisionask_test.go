package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// inDialog are the fields and the choices of the dialog on top, in their
// order.
func inDialog(t *testing.T, w *window) (fields []*paint.PageEntry, choices []*paint.Pick) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		switch o := o.(type) {
		case *paint.PageEntry:
			fields = append(fields, o)
		case *paint.Pick:
			choices = append(choices, o)
		}
	}
	return fields, choices
}

// TestARevisionFromTheWindow edits moves by hand and makes the last of the
// edits a revision: what programs say the numbers are from follows, and the
// setups that it changed are offered.
func TestARevisionFromTheWindow(t *testing.T) {
	w := openFile(t, sample())
	d := pageOf(t, w)
	d.enter(t, "tide sweep", "recovery", "23")
	d.fighters.SetSelected("Maerwyn")
	d.enter(t, "rising gale", "startup", "3")
	var made *widget.Button
	for _, o := range test.LaidOutObjects(d.Content()) {
		if b := buttonOf(o); b != nil && b.Text == "New revision…" {
			made = b
		}
	}
	if made == nil {
		t.Fatal("the page has no command for a revision")
	}
	test.Tap(made)
	fields, choices := inDialog(t, w)
	if got := overlayText(w); !strings.Contains(got, "“first” keeps the move data as they are now") {
		t.Errorf("it says %q", got)
	}
	tap(t, w, "Create")
	if got := overlayText(w); !strings.Contains(got, "A revision needs a name.") {
		t.Errorf("without a name it says %q", got)
	}
	fields[0].SetText(storage.FirstRevision)
	tap(t, w, "Create")
	if got := overlayText(w); !strings.Contains(got, "called first already") {
		t.Errorf("with a name that is taken it says %q", got)
	}
	fields[0].SetText(" 1.1 ")
	fields[1].SetText("patch notes")
	if got := choices[0].Options; len(got) != 3 || !strings.Contains(got[1], "“startup of rising gale: 3”") {
		t.Fatalf("it offers %q", got)
	}
	choices[0].SetSelected(choices[0].Options[1])
	if got := overlayText(w); !strings.Contains(got, "as they were before that edit; that edit belongs to the new one already") {
		t.Errorf("it says %q", got)
	}
	tap(t, w, "Create")
	if got := overlayText(w); !strings.Contains(got, "changed from first to 1.1") {
		t.Fatalf("it says %q", got)
	}
	tap(t, w, "Close")
	was, is := mustData(t, w, "first"), mustData(t, w, "1.1")
	if was.Fighters[0].Moves[0].Recovery != 23 || was.Fighters[1].Moves[0].Startup != 5 || is.Fighters[1].Moves[0].Startup != 3 {
		t.Errorf("first holds %+v, 1.1 %+v", was.Fighters[1].Moves[0], is.Fighters[1].Moves[0])
	}
	if got := w.status.Source(); got != "Frame data: tides.wakeline, revision 1.1, patch notes (not verified against the game)" {
		t.Errorf("the window says %q", got)
	}
	var o output.Order
	page.Source(w.model, &o)
	if o.Source.Revision != "1.1" || o.Source.Note != "patch notes" {
		t.Errorf("a file says %+v", o.Source)
	}
	w.Close()
	w.undo()
	if got := w.status.Source(); got != "Frame data: tides.wakeline (not verified against the game)" {
		t.Errorf("taken back, the window says %q", got)
	}
}

func TestARevisionNeedsAProjectFile(t *testing.T) {
	w := open(t, sample(), laptop)
	if !w.menu.revise.Disabled {
		t.Error("a project in memory offers a revision")
	}
	w.askRevision()
	if got := overlayText(w); !strings.Contains(got, "stored in a project file") {
		t.Errorf("it says %q", got)
	}
	tap(t, w, "Save as project file…")
	if got := overlayText(w); !strings.Contains(got, "which is saved as you edit") || w.Dialogs().Count() != 1 {
		t.Errorf("its button asks %q", got)
	}
}

// TestTheMoveDataFitASmallWindow holds the page, beside the bar of pages, to
// the width of a small screen.
func TestTheMoveDataFitASmallWindow(t *testing.T) {
	w, _ := openData(t, sample())
	if got := w.win.Content().MinSize().Width; got > 1024 {
		t.Errorf("the window needs %g units", got)
	}
}
