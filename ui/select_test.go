package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/sheet"
)

// chain is the sample's third setup with three fillers, and a rival who has
// time to lie.
func chain() *timeline.Project {
	p := sample()
	p.Setups[2].Fillers = []string{"feint palm", "short step", "low reed"}
	p.Setups[2].Advantage = timeline.Some(82)
	return p
}

// openChain shows it.
func openChain(t testing.TB) *window {
	t.Helper()
	w := open(t, chain(), laptop)
	w.model.Choose(2)
	return w
}

// pressWith holds the left button down at p with keys held.
func pressWith(w *window, p sheet.Point, keys fyne.KeyModifier) {
	ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: keys}
	ev.Position = position(p)
	w.sheet.MouseDown(ev)
}

// click presses and lets go at p.
func click(w *window, p sheet.Point, keys fyne.KeyModifier) {
	pressWith(w, p, keys)
	w.sheet.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
}

// shortcut sends a shortcut with Control to the sheet.
func shortcut(w *window, name fyne.KeyName, more fyne.KeyModifier) {
	w.sheet.TypedShortcut(&desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierControl | more})
}

// wantChosen asks which fillers are chosen.
func wantChosen(t *testing.T, w *window, want ...int) {
	t.Helper()
	if _, got, _ := w.sheet.Selected(); !slices.Equal(got, want) {
		t.Errorf("fillers %v are chosen, want %v", got, want)
	}
}

// wantFillers asks for the setup's fillers by the first letters of their names.
func wantFillers(t *testing.T, w *window, want string) {
	t.Helper()
	got := ""
	for _, name := range w.model.Setup().Fillers {
		got += name[:1]
	}
	if got != want {
		t.Errorf("fillers %q, want %q", got, want)
	}
}

func TestClickChooses(t *testing.T) {
	w := openChain(t)
	w.model.Show(0, 3) // a reply of the setup's own, which can be moved
	for _, part := range []timeline.Part{timeline.PartEnder, timeline.PartDelay, timeline.PartJump, timeline.PartAttack, timeline.PartLanding, timeline.PartRise, timeline.PartReply} {
		h := w.sheet.Hot(part, 0)
		at := sheet.Point{X: h.Max.X - 2, Y: h.Max.Y - 2}
		if got := w.sheet.Drawing().HotAt(at); part == timeline.PartJump || got.Part != part { // where nothing lies over it
			at = sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: h.Min.Y + 2}
		}
		click(w, at, 0)
		if got, _, ok := w.sheet.Selected(); !ok || got != part {
			t.Errorf("a click on part %d chooses %d, %v", part, got, ok)
		}
		if w.status.Hinted != editor.Hints[part] {
			t.Errorf("part %d chosen, hint %q", part, w.status.Hinted)
		}
	}
	if w.model.Edited() {
		t.Error("choosing edits")
	}
	key(w, fyne.KeyEscape, 1)
	if _, _, ok := w.sheet.Selected(); ok {
		t.Error("Escape leaves a block chosen")
	}
}

func TestClickChoosesFillers(t *testing.T) {
	w := openChain(t)
	first, second, third := grip(t, w, timeline.PartFiller, 0), grip(t, w, timeline.PartFiller, 1), grip(t, w, timeline.PartFiller, 2)
	click(w, first, 0)
	wantChosen(t, w, 0)
	click(w, third, fyne.KeyModifierControl)
	wantChosen(t, w, 0, 2)
	click(w, first, fyne.KeyModifierControl)
	wantChosen(t, w, 2)
	click(w, first, fyne.KeyModifierShift)
	wantChosen(t, w, 0, 1, 2)
	click(w, second, 0) // of several chosen: it alone
	wantChosen(t, w, 1)
	w.model.Choose(0)
	if _, _, ok := w.sheet.Selected(); ok {
		t.Error("a block stays chosen in another setup")
	}
}

func TestBandChooses(t *testing.T) {
	w := openChain(t)
	a, b := w.sheet.Hot(timeline.PartFiller, 0), w.sheet.Hot(timeline.PartFiller, 1)
	from := sheet.Point{X: a.Min.X + 3, Y: a.Min.Y - 40}
	if h := w.sheet.Drawing().HotAt(from); h != nil {
		t.Fatalf("no empty ground at %v: %+v", from, h)
	}
	view := w.sheet.Drawing().View
	press(w, from)
	move(w, from, (b.Min.X+5-from.X)/view.Scale, 50, 4)
	wantChosen(t, w, 0, 1)
	key(w, fyne.KeyEscape, 1)
	wantChosen(t, w)
	release(w)
	press(w, from)
	move(w, from, (b.Min.X+5-from.X)/view.Scale, 50, 4)
	release(w)
	wantChosen(t, w, 0, 1)
	c := w.sheet.Hot(timeline.PartFiller, 2)
	from = sheet.Point{X: c.Min.X + 3, Y: c.Min.Y - 40}
	pressWith(w, from, fyne.KeyModifierControl)
	move(w, from, 1, 50, 4)
	release(w)
	wantChosen(t, w, 0, 1, 2)
	if w.sheet.Drawing().View != view || w.model.Edited() {
		t.Error("a band pans or edits")
	}
	click(w, from, 0)
	wantChosen(t, w)
}

func TestShiftPans(t *testing.T) {
	w := openChain(t)
	a := w.sheet.Hot(timeline.PartFiller, 0)
	from := sheet.Point{X: a.Min.X + 3, Y: a.Min.Y - 40}
	view := w.sheet.Drawing().View
	pressWith(w, from, fyne.KeyModifierShift)
	move(w, from, 7, 0, 3)
	release(w)
	if got := w.sheet.Drawing().View.From; got > view.From-6.9 || got < view.From-7.1 {
		t.Errorf("panned from %g to %g, want 7 back", view.From, got)
	}
}

func TestDragSeveralFillers(t *testing.T) {
	w := openChain(t)
	click(w, grip(t, w, timeline.PartFiller, 0), 0)
	click(w, grip(t, w, timeline.PartFiller, 2), fyne.KeyModifierControl)
	p := grip(t, w, timeline.PartFiller, 0)
	press(w, p)
	move(w, p, 18, 0, 6)
	wantFillers(t, w, "sfl")
	release(w)
	wantFillers(t, w, "sfl")
	wantChosen(t, w, 1, 2)
	if got := edits(w.model); got != 1 {
		t.Errorf("%d steps, want 1", got)
	}
	p = grip(t, w, timeline.PartFiller, 1)
	press(w, p)
	move(w, p, 0, 90, 3)
	wantFillers(t, w, "s")
	key(w, fyne.KeyEscape, 1)
	release(w)
	wantFillers(t, w, "sfl")
	wantChosen(t, w, 1, 2)
	w.undo()
	wantFillers(t, w, "fsl")
}

func TestWalkByKeys(t *testing.T) {
	w := openChain(t)
	var got []timeline.Part
	for range 11 {
		shortcut(w, fyne.KeyRight, 0)
		part, _, _ := w.sheet.Selected()
		got = append(got, part)
	}
	want := []timeline.Part{
		timeline.PartEnder, timeline.PartFiller, timeline.PartFiller, timeline.PartFiller, timeline.PartDelay,
		timeline.PartJump, timeline.PartAttack, timeline.PartLanding, timeline.PartRise, timeline.PartReply, timeline.PartEnder,
	}
	if !slices.Equal(got, want) {
		t.Errorf("walks over %v, want %v", got, want)
	}
	shortcut(w, fyne.KeyLeft, 0)
	if part, _, _ := w.sheet.Selected(); part != timeline.PartReply {
		t.Errorf("back at part %d, want the reply", part)
	}
	w.sheet.Select(editor.One(timeline.PartFiller, 1))
	shortcut(w, fyne.KeyRight, fyne.KeyModifierShift)
	wantChosen(t, w, 1, 2)
	shortcut(w, fyne.KeyRight, fyne.KeyModifierShift)
	wantChosen(t, w, 1, 2)
	shortcut(w, fyne.KeyLeft, fyne.KeyModifierShift)
	wantChosen(t, w, 1)
	shortcut(w, fyne.KeyLeft, fyne.KeyModifierShift)
	wantChosen(t, w, 0, 1)
	shortcut(w, fyne.KeyDown, 0)
	wantFillers(t, w, "lfs")
	wantChosen(t, w, 1, 2)
	shortcut(w, fyne.KeyDown, 0)
	wantFillers(t, w, "lfs")
	shortcut(w, fyne.KeyUp, 0)
	wantFillers(t, w, "fsl")
	if got := edits(w.model); got != 2 {
		t.Errorf("%d steps, want 2", got)
	}
}

func TestRemove(t *testing.T) {
	for _, tt := range []struct {
		part timeline.Part
		gone func(s timeline.Setup) bool
		said string // where it can't be
	}{
		{timeline.PartEnder, nil, "The ender can't be removed"},
		{timeline.PartRise, nil, "The wake-up can't be removed"},
		{timeline.PartDelay, func(s timeline.Setup) bool { return s.Delay == 0 }, ""},
		{timeline.PartJump, func(s timeline.Setup) bool { return s.Jump == "" && s.Attack == "" }, ""},
		{timeline.PartAttack, func(s timeline.Setup) bool { return s.Attack == "" && s.Jump != "" }, ""},
		{timeline.PartLanding, func(s timeline.Setup) bool { return s.Landing == timeline.DoGuard }, ""},
		{timeline.PartReply, func(s timeline.Setup) bool { return len(s.Replies) == 5 && s.Replies[2].Move == "slow anchor" }, ""},
	} {
		p := sample()
		p.Setups[0].Landing = "low reed"
		w := open(t, p, laptop)
		w.model.Show(0, 5) // grip
		before := w.model.Setup()
		w.sheet.Select(editor.One(tt.part, 0))
		key(w, fyne.KeyDelete, 1)
		s := w.model.Setup()
		if tt.gone == nil {
			if !model.SameSetup(&s, &before) || !strings.HasPrefix(w.status.Hinted, tt.said) {
				t.Errorf("part %d: edited, or hint %q", tt.part, w.status.Hinted)
			}
			continue
		}
		if !tt.gone(s) {
			t.Errorf("part %d is still there", tt.part)
		}
		if w.undo(); w.model.CanUndo() {
			t.Errorf("part %d: more than one step", tt.part)
		}
		if s := w.model.Setup(); !model.SameSetup(&s, &before) {
			t.Errorf("part %d: undo leaves %+v", tt.part, s)
		}
	}
	w := open(t, sample(), laptop)
	w.model.Show(0, 0) // guard high
	w.sheet.Select(editor.One(timeline.PartReply, 0))
	if key(w, fyne.KeyBackspace, 1); w.model.Edited() || !strings.Contains(w.status.Hinted, "always judged") {
		t.Errorf("a reply that is always judged: hint %q", w.status.Hinted)
	}
}

func TestCopyAndPaste(t *testing.T) {
	w := openChain(t)
	clip := fyne.CurrentApp().Clipboard()
	w.sheet.TypedShortcut(&fyne.ShortcutCopy{})
	if clip.Content() != "" || !strings.HasPrefix(w.status.Hinted, "Select fillers") {
		t.Errorf("nothing chosen: copied %q, hint %q", clip.Content(), w.status.Hinted)
	}
	w.sheet.TypedShortcut(&fyne.ShortcutSelectAll{})
	wantChosen(t, w, 0, 1, 2)
	w.sheet.TypedShortcut(&fyne.ShortcutCopy{})
	if got, want := clip.Content(), "feint palm\nshort step\nlow reed"; got != want {
		t.Errorf("copied %q, want %q", got, want)
	}
	w.sheet.Select(editor.One(timeline.PartFiller, 0))
	w.sheet.TypedShortcut(&fyne.ShortcutCut{})
	wantFillers(t, w, "sl")
	w.sheet.Select(editor.One(timeline.PartFiller, 0))
	w.sheet.TypedShortcut(&fyne.ShortcutPaste{})
	wantFillers(t, w, "sfl")
	wantChosen(t, w, 1)
	shortcut(w, fyne.KeyD, 0)
	wantFillers(t, w, "sffl")
	wantChosen(t, w, 2)
	if got := edits(w.model); got != 3 {
		t.Errorf("%d steps, want 3", got)
	}

	w.model.Choose(0) // of the same attacker
	w.sheet.TypedShortcut(&fyne.ShortcutPaste{})
	wantFillers(t, w, "sf")

	clip.SetContent("short step\r\n\n  rising gale \nfalling heel\n")
	w.sheet.TypedShortcut(&fyne.ShortcutPaste{})
	wantFillers(t, w, "sfs")
	if want := "1 filler pasted. No filler of Ostrel: rising gale, falling heel."; w.status.Hinted != want {
		t.Errorf("hint %q, want %q", w.status.Hinted, want)
	}
	before := edits(w.model)
	clip.SetContent(strings.Repeat("nonsense\n", 5000))
	w.sheet.TypedShortcut(&fyne.ShortcutPaste{})
	if edits(w.model) != before || !strings.HasPrefix(w.status.Hinted, "No filler of Ostrel: nonsense, nonsense, nonsense, and ") {
		t.Errorf("%d steps, hint %q", edits(w.model), w.status.Hinted)
	}
	clip.SetContent(strings.Repeat("short step\n", 100))
	w.sheet.TypedShortcut(&fyne.ShortcutPaste{})
	if edits(w.model) != before || !strings.Contains(w.status.Hinted, "would run to frame") {
		t.Errorf("too many: %d steps, hint %q", edits(w.model), w.status.Hinted)
	}
}

// TestShortcutsReachTheWindow: what the sheet doesn't know it leaves alone.
func TestShortcutsReachTheWindow(t *testing.T) {
	w := open(t, sample(), laptop)
	key(w, fyne.KeyRight, 1)
	w.undo()
	w.sheet.TypedShortcut(&fyne.ShortcutRedo{})
	if got := w.delay(); got != 4 {
		t.Errorf("delay %d after redo, want 4", got)
	}
}
