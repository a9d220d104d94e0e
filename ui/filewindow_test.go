package ui

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
)

func TestADragInAFileIsOneStepOnDisk(t *testing.T) {
	w := openFile(t, sample())
	if got := w.title(); got != "tides.wakeline · saved — Wakeline" {
		t.Errorf("title %q", got)
	}
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 4, 0, 9)
	if got, steps := onDisk(t, w); got.Setups[0].Delay != 3 || len(steps) != 0 {
		t.Errorf("while it is dragged the file holds delay %d, and %d steps", got.Setups[0].Delay, len(steps))
	}
	release(w)
	got, steps := onDisk(t, w)
	if got.Setups[0].Delay != 7 || w.delay() != 7 {
		t.Errorf("the file holds delay %d, the window shows %d, want 7", got.Setups[0].Delay, w.delay())
	}
	if len(steps) != 1 || steps[0].What != "delay 7" || steps[0].Name != got.Setups[0].Name {
		t.Errorf("the history is %+v, want one step", steps)
	}
	if got := w.menu.undo; got.Label != "Undo delay 7" || got.Disabled {
		t.Errorf("the menu offers %q", got.Label)
	}
	w.model.Choose(1)
	w.menu.update()
	if got := w.menu.undo.Label; got != "Undo delay 7 (tide sweep, two steps, heel)" {
		t.Errorf("with another setup chosen the menu offers %q", got)
	}
}

func TestEveryKindOfEditReachesTheFile(t *testing.T) {
	w := openFile(t, sample())
	w.model.Choose(2)
	w.model.SetFillers([]string{"short step", "feint palm"})
	w.model.SetFillers([]string{"short step"})
	w.model.SetPress(12)
	w.model.PressAuto()
	w.model.SetAdvantage(60)
	w.model.EnderAdvantage()
	key(w, fyne.KeyRight, 2)
	got, steps := onDisk(t, w)
	if !reflect.DeepEqual(got.Setups[2], w.model.Setup()) {
		t.Errorf("the file holds %+v, the window shows %+v", got.Setups[2], w.model.Setup())
	}
	var names []string
	for _, s := range steps {
		names = append(names, s.What)
	}
	want := []string{"delay 2", "delay 1", "knockdown advantage of the ender", "knockdown advantage 60", "press auto", "press on air frame 12", "without feint palm", "short step, feint palm"}
	if !reflect.DeepEqual(names, want) {
		t.Errorf("the history is %q, want %q", names, want)
	}
}

func TestUndoGoesOnAfterTheFileWasClosed(t *testing.T) {
	w := openFile(t, sample())
	path := w.model.Path()
	dragDelay(t, w, 4)
	w.model.Choose(1)
	key(w, fyne.KeyRight, 1)
	w.win.SetCloseIntercept(nil)
	w.end()

	w = start(t, Start{Path: path})
	if w.model.Chosen() != 0 || w.delay() != 7 {
		t.Fatalf("opened again it shows setup %d at delay %d", w.model.Chosen(), w.delay())
	}
	w.undo()
	if w.model.Chosen() != 1 || w.delay() != 4 {
		t.Errorf("undo shows setup %d at delay %d, want the second at 4", w.model.Chosen(), w.delay())
	}
	w.undo()
	if w.model.Chosen() != 0 || w.delay() != 3 || w.model.CanUndo() || !w.model.CanRedo() {
		t.Errorf("undo again shows setup %d at delay %d, more %v", w.model.Chosen(), w.delay(), w.model.CanUndo())
	}
	if got, _ := onDisk(t, w); got.Setups[0].Delay != 3 || got.Setups[1].Delay != 4 {
		t.Errorf("the file holds delays %d and %d, want 3 and 4", got.Setups[0].Delay, got.Setups[1].Delay)
	}
	w.undo() // there is none
	w.redo()
	if got := w.delay(); got != 7 {
		t.Errorf("redo shows delay %d, want 7", got)
	}
	if row := w.model.Row(0); row.Word != w.model.Verdict().Word {
		t.Errorf("the row says %s, the sheet %s", row.Word, w.model.Verdict().Word)
	}
}

func TestASecondWindowIsReadOnlyAndTakesOver(t *testing.T) {
	first := openFile(t, sample())
	w := start(t, Start{Path: first.model.Path()})
	if got := w.title(); got != "tides.wakeline · read-only: another window has it open — Wakeline" {
		t.Errorf("title %q", got)
	}
	if !w.bar.Visible() || !strings.Contains(w.bar.Text.Text, "another window has it open") || w.bar.Again.Text != "Take over" {
		t.Errorf("the bar says %q, offers %q", w.bar.Text.Text, w.bar.Again.Text)
	}
	dragDelay(t, w, 4)
	key(w, fyne.KeyRight, 1)
	w.undo()
	if w.delay() != 3 || !strings.Contains(w.status.Hinted, "read-only") {
		t.Errorf("delay %d, and it says %q", w.delay(), w.status.Hinted)
	}
	for _, i := range []*fyne.MenuItem{w.menu.undo, w.menu.intake, w.menu.compact} {
		if !i.Disabled {
			t.Errorf("%s is offered", i.Label)
		}
	}

	dragDelay(t, first, 2) // and shows here when it is looked at
	now, _ := model.StampOf(w.model.Path())
	d := w.model.Document()
	d.Seen.Written = now.Written.Add(-1)
	w.lookAgain(d, now)
	if got := w.delay(); got != 5 {
		t.Errorf("the first window's edit shows as delay %d, want 5", got)
	}

	test.Tap(w.bar.Again)
	if got := overlayText(w); !strings.Contains(got, "Another window still has it open") || w.model.ReadOnly() == "" {
		t.Errorf("with the first still open, taking over says %q", got)
	}
	tap(t, w, "Close")
	first.end()
	test.Tap(w.bar.Again)
	if got := overlayText(w); got != "" || w.bar.Visible() || w.title() != "tides.wakeline · saved — Wakeline" {
		t.Errorf("after taking over: %q, bar %v, title %q", got, w.bar.Visible(), w.title())
	}
	key(w, fyne.KeyRight, 1)
	if got, _ := onDisk(t, w); got.Setups[0].Delay != 6 {
		t.Errorf("the file holds delay %d, want 6", got.Setups[0].Delay)
	}
}

func TestAFileThatVanishesTakesTheGestureBack(t *testing.T) {
	w := openFile(t, sample())
	key(w, fyne.KeyRight, 1)
	if err := os.Remove(w.model.Path()); err != nil {
		t.Fatal(err)
	}
	dragDelay(t, w, 3)
	if got := overlayText(w); !strings.Contains(got, "could not be saved and was taken back") || !strings.Contains(got, "gone") {
		t.Errorf("the dialog says %q", got)
	}
	if w.delay() != 4 || !w.bar.Visible() || w.bar.Again.Text != "Try again" {
		t.Errorf("delay %d, bar %v with %q", w.delay(), w.bar.Visible(), w.bar.Again.Text)
	}
	tap(t, w, "Close")
	w.model.Choose(1) // the window lives on
	key(w, fyne.KeyRight, 1)
	if w.model.Chosen() != 1 || w.delay() != 4 {
		t.Errorf("shows setup %d at delay %d", w.model.Chosen(), w.delay())
	}
	copied := filepath.Join(t.TempDir(), "copy"+storage.Ext)
	w.copyTo(w.model.Document(), copied)
	if got := overlayText(w); got != "" {
		t.Fatalf("the copy of what is gone: %s", got)
	}
	f, err := storage.Open(copied)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if p, err := f.Project(); err != nil || p.Setups[0].Delay != 4 {
		t.Errorf("the copy holds %+v, %v", p, err)
	}
}

func TestAnEditThatCannotBeKeptIsTakenBack(t *testing.T) {
	w := open(t, sample(), laptop)
	doc := inMemory(t, sample())
	w.show(doc)
	doc.File().Close() // nothing can be written any more
	before := w.model.Setup()
	dragDelay(t, w, 3)
	if got := overlayText(w); !strings.Contains(got, "closed") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Close")
	w.sheet.TypedRune('[')
	if !reflect.DeepEqual(w.model.Setup(), before) || w.sheet.Scene.Verdict != w.model.Verdict().Word {
		t.Errorf("it shows %+v", w.model.Setup())
	}
	if row := w.model.Row(0); row.Word != w.model.Verdict().Word {
		t.Errorf("the row says %s", row.Word)
	}
}

func TestShortcutsDoNothingBehindADialog(t *testing.T) {
	w := openFile(t, sample())
	dragDelay(t, w, 2)
	w.showKeys()
	w.undo()
	item(t, w, "History").Action()
	if w.delay() != 5 || w.page != nil {
		t.Errorf("delay %d, page %T", w.delay(), w.page)
	}
}

func TestSearchInAFile(t *testing.T) {
	p := many(300)
	p.Setups[7].Tags = []string{"Pale Mist"}
	p.Setups[9].Note = "mist at night"
	w := openFile(t, p)
	for typed, want := range map[string][]int{
		"palm step":               {2},
		"pale mist":               {7},
		"NIGHT mist":              {9},
		"no. 29 heel ostrel maer": {29, 129, 229, 290, 291, 292, 293, 294, 295, 296, 297, 298, 299},
		"100%":                    nil,
	} {
		w.setups.Field.SetText(typed)
		if got := w.setups.Shown; len(got)+len(want) > 0 && !reflect.DeepEqual(got, want) {
			t.Errorf("%q finds %v, want %v", typed, got, want)
		}
	}
	w.setups.Field.SetText("")
	if got := len(w.setups.Shown); got != 300 {
		t.Errorf("%d setups, want 300", got)
	}
}
