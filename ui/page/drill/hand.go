package drill

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

const (
	newHandLabel = "New hand…"
	mostOfAName  = 40 // letters
)

// handRow chooses whose hand is drilled, and takes its presses back.
type handRow struct {
	host   page.Host
	record *record
	aim    func() // gives the keys to the sheet
	clear  func() // clears the record

	pick             *paint.Pick
	discards, clears *paint.PushButton
	box              fyne.CanvasObject
}

func newHandRow(host page.Host, r *record, aim, discard, clear func()) *handRow {
	h := &handRow{host: host, record: r, aim: aim, clear: clear}
	h.pick = paint.NewPick(host, nil, h.choose)
	h.discards = paint.NewPageButton(host, "Discard last press", nil, discard)
	h.clears = paint.NewPageButton(host, "Clear record…", nil, h.askClear)
	h.box = container.NewBorder(nil, nil, widget.NewLabel("Hand"), container.NewHBox(h.discards, h.clears), h.pick)
	return h
}

// fill offers the hands there are, and shows the one chosen.
func (h *handRow) fill() {
	h.record.hand = h.host.Timing().Name()
	h.pick.Options = append(page.HandTitles(h.host.Timing().Names()), newHandLabel)
	h.reset()
}

// reset shows the hand that is drilled as the one chosen.
func (h *handRow) reset() {
	h.pick.Selected = page.HandTitle(h.record.hand)
	h.pick.Refresh()
}

// enable has the row take another choice where no drill runs, and its buttons
// what there is for them.
func (h *handRow) enable() {
	enable(h.pick, !h.record.clock.running())
	enable(h.discards, h.record.discards())
	enable(h.clears, h.record.clears())
}

func (h *handRow) choose(label string) {
	switch label {
	case page.HandTitle(h.record.hand):
		return
	case newHandLabel:
		h.reset()
		h.askNew()
		return
	case page.NamelessHand:
		label = ""
	}
	h.host.Timing().ChooseHand(label)
	h.aim()
}

func (h *handRow) askNew() {
	entry := paint.NewPageEntry(h.host)
	entry.SetPlaceHolder("A name")
	note := page.Wrapped("Each hand has a record of its own. The one that is chosen is drilled, and the odds are of it.")
	h.host.Dialogs().Form("New hand", "Create", container.NewVBox(entry, note), entry, func() error {
		name, err := nameOfHand(entry.Text)
		if err == nil {
			h.host.Timing().ChooseHand(name)
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

// askClear asks whether the record of the hand is cleared.
func (h *handRow) askClear() {
	of := ""
	if h.record.hand != "" {
		of = " of " + h.record.hand
	}
	body := widget.NewLabel(fmt.Sprintf("%s%s will be removed. This can't be undone.", model.CountOf(h.record.count(), "press"), of))
	a := h.host.Dialogs().New("Clear the record?", body)
	a.Main("Cancel", a.Hide)
	a.Button("Clear record", func() {
		a.Hide()
		h.clear()
	})
	a.Show(fyne.NewSize(420, 0), nil)
}

// enable has a control take what a person does, or not.
func enable(c fyne.Disableable, on bool) {
	if on {
		c.Enable()
	} else {
		c.Disable()
	}
}
