package page

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

const mostMilliseconds = 10_000

// AskTiming asks whose timing the odds are of. Over a page the keys stay where
// they were.
func AskTiming(w Host, overPage bool) {
	timing := w.Timing()
	now := timing.Choice()
	labels := []string{fmt.Sprintf("Assume a spread of %g ms", odds.DefaultSpread), "These numbers, in milliseconds", "What the drills of this project measured"}
	sources := []string{model.TimingAssumed, model.TimingTyped, model.TimingDrilled}
	spread, bias := paint.NewPageEntry(w), paint.NewPageEntry(w)
	spread.SetText(strconv.FormatFloat(now.Spread, 'g', -1, 64))
	bias.SetText(strconv.FormatFloat(now.Bias, 'g', -1, 64))
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
		if s == now.Source {
			source.SetSelected(labels[i])
		}
	}
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	names := timing.Names()
	hand := paint.NewPick(w, HandTitles(names), nil)
	chosen := func() string { return names[max(0, hand.SelectedIndex())] }
	hand.OnChanged = paint.GuardedOf("The timing", func(string) { note.SetText(timing.DrillWords(chosen())) })
	hand.SetSelected(HandTitle(now.Hand))
	numbers := container.NewGridWithColumns(2,
		container.NewBorder(nil, nil, widget.NewLabel("Spread"), nil, spread),
		container.NewBorder(nil, nil, widget.NewLabel("Late by"), nil, bias))
	about := widget.NewLabel("The spread is the standard deviation of your presses round the moment you aim at. Late by is how late they come on average; a negative number is early.")
	about.Wrapping, about.Importance = fyne.TextWrapWord, widget.LowImportance
	w.Dialogs().Form("Your timing", "Save", container.NewVBox(source, numbers, about, widget.NewSeparator(), container.NewBorder(nil, nil, widget.NewLabel("Hand"), nil, hand), note), spread, func() error {
		s, err := Milliseconds("the spread", spread.Text, 0)
		if err != nil {
			return err
		}
		b, err := Milliseconds("late by", bias.Text, -mostMilliseconds)
		if err != nil {
			return err
		}
		next := model.Choice{Source: now.Source, Spread: s, Bias: b, Hand: chosen()}
		for i := range labels {
			if labels[i] == source.Selected {
				next.Source = sources[i]
			}
		}
		timing.Choose(next)
		return nil
	}, func(a *Dialog) {
		if overPage {
			a.Closed = func() {}
		}
	})
}

// Milliseconds reads a number of a form.
func Milliseconds(what, text string, least float64) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || !(v >= least && v <= mostMilliseconds) {
		return 0, fmt.Errorf("%s: expected milliseconds from %g to %d, got %q", what, least, mostMilliseconds, text)
	}
	return v, nil
}

// NamelessHand is what the hand without a name is called.
const NamelessHand = "no name"

// HandTitle is what a hand is called in a list.
func HandTitle(name string) string {
	if name == "" {
		return NamelessHand
	}
	return name
}

func HandTitles(names []string) (out []string) {
	for _, name := range names {
		out = append(out, HandTitle(name))
	}
	return out
}
