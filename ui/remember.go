package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
	"wakeline/ui/sheet"
)

// The names of what is remembered of the window from one run to the next.
const (
	prefWidth   = "window.width"
	prefHeight  = "window.height"
	prefNumbers = "numbers" // shown or hidden; empty: as there is room
	prefLeft    = "tab.left"
	prefWelcome = "welcome.done"
	prefScale   = "sheet.scale" // where a hand has zoomed or panned; 0: fitted
	prefFrom    = "sheet.from"
)

// The sizes of a first window, and the bounds of what is remembered.
const (
	firstWidth, firstHeight = 1280, 800
	leastWidth, leastHeight = 800, 520
	mostWidth, mostHeight   = 7680, 4320
)

// rememberedSize is the size of the last run's window, in units at 100 %, as
// far as it is sane.
func (w *window) rememberedSize() fyne.Size {
	prefs := w.Preferences()
	within := func(name string, first, least, most float32) float32 {
		v := float32(prefs.FloatWithFallback(name, float64(first)))
		if !(v >= least && v <= most) { // also what is no number
			return first
		}
		return v
	}
	return fyne.NewSize(within(prefWidth, firstWidth, leastWidth, mostWidth), within(prefHeight, firstHeight, leastHeight, mostHeight))
}

// rememberWindow keeps the window's size, and what stands beside the sheet,
// for the next run.
func (w *window) rememberWindow() {
	prefs, size := w.Preferences(), w.text.whole()
	prefs.SetFloat(prefWidth, float64(size.Width))
	prefs.SetFloat(prefHeight, float64(size.Height))
	view, own := w.sheet.View()
	if !own {
		view.Scale, view.From = 0, 0
	}
	prefs.SetFloat(prefScale, view.Scale)
	prefs.SetFloat(prefFrom, view.From)
	w.keepPanes()
}

// recallView shows the part of the sheet that the last run left in view.
func (w *window) recallView() {
	prefs := w.Preferences()
	w.sheet.Look(sheet.View{Scale: prefs.Float(prefScale), From: prefs.Float(prefFrom)})
}

// recallLeft shows what stood beside the sheet in the last run.
func (w *window) recallLeft() {
	prefs := w.Preferences()
	for i, name := range w.left.Row.Names {
		if name == prefs.String(prefLeft) {
			w.left.Show(i)
		}
	}
	w.left.OnShow = func(i int) { prefs.SetString(prefLeft, w.left.Row.Names[i]) }
}

// buildNumbers makes the pane of numbers, and the strip of the first start.
func (w *window) buildNumbers() {
	w.numbers = panel.NewInspector(w.model, func(do func()) { w.Run(do) }, func(do func()) { w.Later(do) })
	n := w.numbers
	n.OnLeave, n.OnHide, n.OnProof, n.OnUndo, n.OnRedo = w.refocus, w.hideNumbers, w.askProof, w.undoStep, w.redoStep
	n.OnData = func() {
		if w.openData != nil {
			w.openData()
		}
	}
	n.OnRoutes = w.showRoutesTo
	w.sheet.OnSelect = w.look
	w.welcome = panel.NewWelcome(w.model)
	w.welcome.OnDone = w.endWelcome
}

// changedWelcome begins or ends the strip of the first start, or goes on with
// it.
func (w *window) changedWelcome(c model.Change) {
	if c&model.ProjectChanged != 0 {
		d := w.model.Document()
		if d.Sample && w.model.Chosen() >= 0 && !w.Preferences().Bool(prefWelcome) {
			w.welcome.Begin()
		} else {
			w.welcome.Hide()
		}
		w.panes.Layout(nil, w.main.Size())
		return
	}
	w.welcome.Changed(c)
	if w.welcome.Visible() && w.welcome.All() {
		w.Preferences().SetBool(prefWelcome, true)
	}
}

// endWelcome closes the strip for good.
func (w *window) endWelcome() {
	w.Preferences().SetBool(prefWelcome, true)
	w.welcome.Hide()
	w.panes.Layout(nil, w.main.Size())
	w.refocus()
}

// showNumbers shows the numbers where they were asked for, or else where the
// window is wide enough for them.
func (w *window) showNumbers(width float32) {
	there := width >= numbersFrom
	if asked := w.Preferences().String(prefNumbers); asked != "" {
		there = asked == "shown"
	}
	switch {
	case there == w.numbers.Visible():
	case there:
		w.numbers.Show()
		w.look()
	default:
		w.numbers.Hide()
	}
}

// goNumbers shows the numbers and gives them the keys; where they have them,
// it hides the numbers.
func (w *window) goNumbers() {
	if w.numbers.Visible() && w.numbers.Has(w.Canvas().Focused()) {
		w.hideNumbers()
		return
	}
	w.keepNumbers("shown")
	w.Canvas().Focus(w.numbers.First())
}

// hideNumbers hides the numbers from now on.
func (w *window) hideNumbers() {
	w.keepNumbers("hidden")
	w.refocus()
}

// keepNumbers shows the numbers or hides them, and remembers which.
func (w *window) keepNumbers(asked string) {
	w.Preferences().SetString(prefNumbers, asked)
	w.panes.Layout(nil, w.main.Size())
}

// look shows the numbers of the block that is chosen on the sheet.
func (w *window) look() {
	defer paint.Survive("The numbers")
	if !w.numbers.Visible() {
		return
	}
	if part, fillers, ok := w.sheet.Selected(); ok {
		w.numbers.Look(w.model.RowOf(part, fillers))
	} else {
		w.numbers.Look(nil)
	}
}

// followSystem shows light or dark as the system asks, from now on.
func (w *window) followSystem() {
	w.Preferences().RemoveValue(prefTheme)
	w.lookAtSystem(paint.SystemDark)
	w.menu.update()
}

// lookAtSystem shows light or dark as the system asks, where no theme was
// chosen.
func (w *window) lookAtSystem(asks func(fyne.ThemeVariant) (dark, known bool)) {
	variant := w.app.Settings().ThemeVariant()
	w.Run(func() {
		dark, known := asks(variant)
		w.Later(func() {
			name := paint.PaperName
			if dark {
				name = paint.NightName
			}
			if known && w.Preferences().String(prefTheme) == "" && paint.Colours().Name != name {
				w.showPalette(paint.PaletteNamed(name))
			}
		})
	})
}
