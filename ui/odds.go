package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline/odds"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// The names of what is remembered of the person's hand.
const (
	prefHand   = "hand"        // one of the sources below; empty: the drill
	prefSpread = "hand.spread" // milliseconds
	prefBias   = "hand.bias"

	prefHandName = "hand.name" // whose record is taken
)

// Where the numbers of a hand come from.
const (
	handDrilled = "drill" // the project's drill, and until there is one the assumption
	handAssumed = "assumed"
	handTyped   = "typed"
)

const mostMilliseconds = 10_000

// hands knows whose hand the odds are of.
type hands struct {
	w      *window
	doc    model.Document
	drills []storage.Drill // of doc
}

// record is the project's drills.
func (h *hands) record() []storage.Drill {
	if doc := h.w.model.Document(); h.doc != doc {
		h.doc, h.drills = doc, nil
		if d, ok := doc.(model.DrillKeeper); ok {
			drills, err := d.Drills()
			if err != nil {
				h.w.status.Hint("The drill's record can't be read: " + err.Error())
			}
			h.drills = drills
		}
	}
	return h.drills
}

// drilled is by how much the presses of the chosen hand came late.
func (h *hands) drilled() []float64 { return storage.Late(h.record(), h.name()) }

// name is whose hand is chosen, on this machine; until one is, that of the
// project's last drill. It is empty for the hand without a name.
func (h *hands) name() string {
	last := ""
	if of := storage.Hands(h.record()); len(of) > 0 {
		last = of[0]
	}
	return h.w.app.Preferences().StringWithFallback(prefHandName, last)
}

// names are the hands to choose from, that without a name among them.
func (h *hands) names() []string {
	out := append(storage.Hands(h.record()), h.name(), "")
	slices.Sort(out)
	return slices.Compact(out)
}

// choose chooses whose hand is drilled, and whose record the odds are of.
func (h *hands) choose(name string) {
	if name != h.name() {
		h.w.app.Preferences().SetString(prefHandName, name)
		h.told()
	}
}

// again has the drill's record read anew, and shows the odds that come of it.
func (h *hands) again() {
	h.doc = nil
	h.told()
}

// told shows the odds of another hand.
func (h *hands) told() {
	h.w.sheet.Refresh()
	h.w.explain.Refresh()
	h.w.numbers.changed(model.ShownChanged)
	switch p := h.w.page.(type) {
	case *findPage:
		p.run()
	case *drillPage:
		p.takeHand()
	}
}

// person is the hand that odds are of.
func (h *hands) person() odds.Person {
	prefs := h.w.app.Preferences()
	switch prefs.String(prefHand) {
	case handAssumed:
		return odds.Anyone()
	case handTyped:
		return odds.Person{Spread: prefs.FloatWithFallback(prefSpread, odds.DefaultSpread), Bias: prefs.Float(prefBias)}
	}
	if p, ok := odds.Measured(h.drilled()); ok {
		p.Name = h.name()
		return p
	}
	return odds.Anyone()
}

// wait is what the chosen setup asks of a hand; ok is false where it can't be
// judged.
func (h *hands) wait(p odds.Person) (w odds.Wait, ok bool) {
	plan := h.w.model.Plan()
	if plan == nil {
		return w, false
	}
	return odds.WaitOf(plan, h.w.model.Setup().Delay, p.Timing(h.w.model.Data().Ruleset)), true
}

// words says how likely the chosen setup's wait lands; empty where there is
// nothing to say.
func (h *hands) words() string {
	p := h.person()
	w, ok := h.wait(p)
	if !ok {
		return ""
	}
	return w.Words(p)
}

// facts says it in short.
func (h *hands) facts() []words.Fact {
	p := h.person()
	w, ok := h.wait(p)
	if !ok {
		return nil
	}
	return w.Facts(p)
}

// askHand asks whose hand the odds are of.
func (w *window) askHand() {
	prefs := w.app.Preferences()
	labels := []string{fmt.Sprintf("Assume a spread of %g ms", odds.DefaultSpread), "These numbers, in milliseconds", "What the drills of this project measured"}
	sources := []string{handAssumed, handTyped, handDrilled}
	spread, bias := paint.NewPageEntry(w), paint.NewPageEntry(w)
	spread.SetText(strconv.FormatFloat(prefs.FloatWithFallback(prefSpread, odds.DefaultSpread), 'g', -1, 64))
	bias.SetText(strconv.FormatFloat(prefs.Float(prefBias), 'g', -1, 64))
	source := paint.NewPick(w, labels, nil)
	source.OnChanged = func(s string) {
		defer paint.Survive("The timing")
		for _, e := range []*paint.PageEntry{spread, bias} {
			if s == labels[1] {
				e.Enable()
			} else {
				e.Disable()
			}
		}
	}
	source.SetSelected(labels[2])
	for i, s := range sources {
		if s == prefs.String(prefHand) {
			source.SetSelected(labels[i])
		}
	}
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	names := w.hands.names()
	hand := paint.NewPick(w, handTitles(names), nil)
	chosen := func() string { return names[max(0, hand.SelectedIndex())] }
	hand.OnChanged = paint.GuardedOf("The timing", func(string) { note.SetText(w.hands.drillWords(chosen())) })
	hand.SetSelected(handTitle(w.hands.name()))
	numbers := container.NewGridWithColumns(2,
		container.NewBorder(nil, nil, widget.NewLabel("Spread"), nil, spread),
		container.NewBorder(nil, nil, widget.NewLabel("Late by"), nil, bias))
	about := widget.NewLabel("The spread is the standard deviation of your presses round the moment you aim at. Late by is how late they come on average; a negative number is early.")
	about.Wrapping, about.Importance = fyne.TextWrapWord, widget.LowImportance
	w.askForm("Your timing", "Save", container.NewVBox(source, numbers, about, widget.NewSeparator(), container.NewBorder(nil, nil, widget.NewLabel("Hand"), nil, hand), note), spread, func() error {
		s, err := milliseconds("the spread", spread.Text, 0)
		if err != nil {
			return err
		}
		b, err := milliseconds("late by", bias.Text, -mostMilliseconds)
		if err != nil {
			return err
		}
		for i := range labels {
			if labels[i] == source.Selected {
				prefs.SetString(prefHand, sources[i])
			}
		}
		prefs.SetFloat(prefSpread, s)
		prefs.SetFloat(prefBias, b)
		if name := chosen(); name != w.hands.name() {
			prefs.SetString(prefHandName, name)
		}
		w.hands.told()
		return nil
	}, func(a *ask) {
		if w.page != nil { // the keys stay there
			a.closed = func() {}
		}
	})
}

// milliseconds reads a number of a form.
func milliseconds(what, text string, least float64) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || !(v >= least && v <= mostMilliseconds) {
		return 0, fmt.Errorf("%s: expected milliseconds from %g to %d, got %q", what, least, mostMilliseconds, text)
	}
	return v, nil
}

// drillWords says what the project's drills have measured of a hand.
func (h *hands) drillWords(name string) string {
	late := storage.Late(h.record(), name)
	e, err := odds.Measure(late)
	of := ""
	if name != "" {
		of = " of " + name
	}
	switch {
	case len(late) == 0:
		return fmt.Sprintf("There is no drill%s yet. Until there are %d presses, odds by the drill assume %g ms.", of, odds.FewestPresses, odds.DefaultSpread)
	case err != nil || len(late) < odds.FewestPresses:
		return fmt.Sprintf("The record has %s%s so far. Until there are %d, odds by the drill assume %g ms.", countPresses(len(late)), of, odds.FewestPresses, odds.DefaultSpread)
	}
	return fmt.Sprintf("The record has %s%s. ", countPresses(len(late)), of) + strings.Join(e.Lines(), " ") + " Odds by the drill take the robust numbers."
}

func countPresses(n int) string {
	if n == 1 {
		return "1 press"
	}
	return fmt.Sprintf("%d presses", n)
}
