package ui

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

const (
	newHandLabel = "New hand…"
	mostOfAName  = 40 // letters
)

// handRow is whose hand is drilled, and what takes its presses back.
func (d *drillPage) handRow() fyne.CanvasObject {
	d.hand = paint.NewPick(d.w, nil, d.chooseHand)
	d.discard = paint.NewPageButton(d.w, "Discard last press", nil, d.discardPress)
	d.clear = paint.NewPageButton(d.w, "Clear record…", nil, d.askClear)
	return container.NewBorder(nil, nil, widget.NewLabel("Hand"), container.NewHBox(d.discard, d.clear), d.hand)
}

// fillHands offers the hands there are, and shows the one chosen.
func (d *drillPage) fillHands() {
	d.of = d.w.Timing().Name()
	d.hand.Options = append(page.HandTitles(d.w.Timing().Names()), newHandLabel)
	d.hand.Selected = page.HandTitle(d.of)
	d.hand.Refresh()
}

// takeHand follows another choice of the hand, or another record. Of a drill
// that runs the hand stays.
func (d *drillPage) takeHand() {
	if d.running() {
		return
	}
	if d.of != d.w.Timing().Name() {
		d.clock.presses, d.clock.idle, d.kept = nil, 0, ""
	}
	d.fillHands()
	d.show()
}

func (d *drillPage) chooseHand(label string) {
	switch label {
	case page.HandTitle(d.of):
		return
	case newHandLabel:
		d.hand.Selected = page.HandTitle(d.of)
		d.hand.Refresh()
		d.askNewHand()
	case page.NamelessHand:
		d.w.Timing().ChooseHand("")
		d.aim()
	default:
		d.w.Timing().ChooseHand(label)
		d.aim()
	}
}

func (d *drillPage) askNewHand() {
	entry := paint.NewPageEntry(d.w)
	entry.SetPlaceHolder("A name")
	note := widget.NewLabel("Each hand has a record of its own. The one that is chosen is drilled, and the odds are of it.")
	note.Wrapping = fyne.TextWrapWord
	d.w.Dialogs().Form("New hand", "Create", container.NewVBox(entry, note), entry, func() error {
		name, err := nameOfHand(entry.Text)
		if err == nil {
			d.w.Timing().ChooseHand(name)
		}
		return err
	})
}

// nameOfHand reads a name that was typed.
func nameOfHand(text string) (string, error) {
	name := strings.TrimSpace(text)
	switch {
	case name == "" || name == page.NamelessHand || name == newHandLabel:
		return "", errors.New("expected a name")
	case len([]rune(name)) > mostOfAName:
		return "", fmt.Errorf("expected a name of at most %d letters, got %d", mostOfAName, len([]rune(name)))
	case strings.ContainsFunc(name, unicode.IsControl):
		return "", errors.New("expected a name without control characters")
	}
	return name, nil
}

// discards reports whether there is a press to discard.
func (d *drillPage) discards() bool {
	return len(d.clock.presses) > 0 || !d.running() && len(d.w.Timing().Drilled()) > 0
}

// clears reports whether there is a record to clear.
func (d *drillPage) clears() bool { return !d.running() && d.discards() }

// discardPress removes the last press of the hand: of the drill that runs, or
// off the record.
func (d *drillPage) discardPress() {
	if !d.discards() {
		return
	}
	n := len(d.clock.presses)
	recorded := !d.running() && (d.saved || n == 0)
	if recorded && !d.forget("The press could not be discarded", model.DrillKeeper.DiscardPress) {
		return
	}
	if n > 0 {
		d.clock.presses = d.clock.presses[:n-1]
	}
	if recorded {
		d.w.Timing().Again()
	}
	d.show()
	d.said.SetText("The last press is discarded.")
	d.aim()
}

// askClear asks whether the record of the hand is cleared.
func (d *drillPage) askClear() {
	n := len(d.w.Timing().Drilled())
	if !d.saved {
		n += len(d.clock.presses)
	}
	of := ""
	if d.of != "" {
		of = " of " + d.of
	}
	body := widget.NewLabel(fmt.Sprintf("%s%s will be removed. This can't be undone.", model.CountOf(n, "press"), of))
	a := d.w.Dialogs().New("Clear the record?", body)
	a.Main("Cancel", a.Hide)
	a.Button("Clear record", func() {
		a.Hide()
		d.clearRecord()
	})
	a.Show(fyne.NewSize(420, 0), nil)
}

// clearRecord removes every press of the hand.
func (d *drillPage) clearRecord() {
	if !d.clears() || !d.forget("The record could not be cleared", model.DrillKeeper.ClearDrills) {
		return
	}
	d.clock.presses, d.clock.idle, d.kept = nil, 0, ""
	d.w.Timing().Again()
	d.show()
}

// forget changes the record of the hand, and reports whether it could.
func (d *drillPage) forget(trouble string, how func(k model.DrillKeeper, hand string) error) bool {
	keeper, ok := d.doc.(model.DrillKeeper)
	if !ok {
		return false
	}
	if err := how(keeper, d.of); err != nil {
		d.w.Dialogs().Fail(trouble, err)
		return false
	}
	return true
}

// enable has a button take presses, or not.
func enable(b *paint.PushButton, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}
