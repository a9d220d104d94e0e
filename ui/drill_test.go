package ui

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/drill"
)

// drilled keeps ten presses of a hand as a drill would, and has the window
// take them.
func drilled(t *testing.T, w *window, hand string, late float64) {
	t.Helper()
	d := storage.Drill{Date: "2026-03-04T10:00:00Z", Setup: w.model.Setup().Name, Hand: hand, Picture: 16}
	for i := range 10 {
		d.Presses = append(d.Presses, storage.Press{What: "jump", Late: late + float64(i%3)})
	}
	if err := w.model.Document().KeepDrill(d); err != nil {
		t.Fatal(err)
	}
	w.Timing().Again()
}

func TestTheBarOpensTheDrill(t *testing.T) {
	w := open(t, sample(), laptop)
	w.showDrill()
	d, ok := w.page.(*drill.Page)
	if !ok || d.Edits() || !d.Content().Visible() {
		t.Fatalf("the page is %T", w.page)
	}
	w.showMatchup()
	if w.Showing(d) {
		t.Error("the drill is still shown")
	}
}

// The odds over the sheet and the search are of the hand that is chosen.
func TestADrillFeedsTheWindow(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.SetDelay(max(1, w.model.Verdict().Window[0].From))
	before := w.explain.Odds()
	for _, name := range []string{"", "Ann"} {
		w.Timing().ChooseHand(name)
		drilled(t, w, name, 10)
		if after := w.explain.Odds(); after == before || after != w.Timing().Words() {
			t.Errorf("the odds of %q are %q", name, after)
		}
		w.showFind()
		hand := "measured in 10 presses" + map[bool]string{true: " of " + name}[name != ""]
		if !slices.ContainsFunc(test.LaidOutObjects(w.page.Content()), func(o fyne.CanvasObject) bool {
			l, ok := o.(*widget.Label)
			return ok && strings.Contains(l.Text, hand)
		}) {
			t.Errorf("the search does not say that it is for what was %s", hand)
		}
		w.Close()
	}
}

func TestAProjectFileTakesTheDrillsAlong(t *testing.T) {
	w := open(t, sample(), laptop)
	drilled(t, w, "", 10)
	before := w.Timing().Person()
	w.keepAsFile(filepath.Join(t.TempDir(), "kept"+storage.Ext))
	doc, ok := w.model.Document().OnDisk()
	if !ok {
		t.Fatal(overlayText(w))
	}
	t.Cleanup(w.end)
	drills, err := doc.File().Drills()
	if err != nil || len(drills) != 1 || w.Timing().Person().Presses != before.Presses || before.Presses != 10 {
		t.Errorf("%d drills, %v, the hand %+v, want %+v", len(drills), err, w.Timing().Person(), before)
	}
}

func TestYourTimingIsRemembered(t *testing.T) {
	w := open(t, sample(), laptop)
	for text, want := range map[string]bool{"12,5": true, " 30 ": true, "-1": false, "x": false, "NaN": false, "20000": false} {
		if _, err := page.Milliseconds("the spread", text, 0); (err == nil) != want {
			t.Errorf("%q: %v", text, err)
		}
	}
	w.timing.Choose(model.Choice{Source: model.TimingTyped, Spread: 12.5, Bias: -3})
	if got := w.Timing().Person(); got.Spread != 12.5 || got.Bias != -3 || got.Assumed || got.Presses != 0 {
		t.Errorf("the hand is %+v", got)
	}
	w.askTiming()
	if w.Canvas().Overlays().Top() == nil {
		t.Error("nothing asks")
	}
}
