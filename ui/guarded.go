package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/guard"
)

// survive, deferred first by what the toolkit calls, ends a failure there: it is
// noted, and told of above the window. where says what failed, as a sentence
// begins.
func survive(where string) {
	if why := recover(); why != nil {
		guard.Tell(guard.Recovered(where, why))
	}
}

// guarded is do, for the toolkit to call: a failure of it ends there. Of nil it
// is nil.
func guarded(where string, do func()) func() {
	if do == nil {
		return nil
	}
	return func() {
		defer survive(where)
		do()
	}
}

// guardedOf is guarded for what is called with something.
func guardedOf[T any](where string, do func(T)) func(T) {
	if do == nil {
		return nil
	}
	return func(v T) {
		defer survive(where)
		do(v)
	}
}

// guardedOf2 is guarded for what is called with two things.
func guardedOf2[T, U any](where string, do func(T, U)) func(T, U) {
	if do == nil {
		return nil
	}
	return func(v T, u U) {
		defer survive(where)
		do(v, u)
	}
}

// copyReport puts the report of a failure on the clipboard.
func copyReport(c *guard.Crash) { fyne.CurrentApp().Clipboard().SetContent(c.Report()) }

// menuItem is an item of a menu, whose failure doesn't end the program.
func menuItem(label string, do func()) *fyne.MenuItem {
	return fyne.NewMenuItem(label, guarded("The command "+label, do))
}
