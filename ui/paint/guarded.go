package paint

import (
	"fyne.io/fyne/v2"

	"wakeline/storage/guard"
)

// Survive, deferred first by what the toolkit calls, ends a failure there: it is
// noted, and told of above the window. where says what failed, as a sentence
// begins.
func Survive(where string) {
	if why := recover(); why != nil {
		guard.Tell(guard.Recovered(where, why))
	}
}

// Guarded is do, for the toolkit to call: a failure of it ends there. Of nil it
// is nil.
func Guarded(where string, do func()) func() {
	if do == nil {
		return nil
	}
	return func() {
		defer Survive(where)
		do()
	}
}

// GuardedOf is guarded for what is called with something.
func GuardedOf[T any](where string, do func(T)) func(T) {
	if do == nil {
		return nil
	}
	return func(v T) {
		defer Survive(where)
		do(v)
	}
}

// GuardedOf2 is guarded for what is called with two things.
func GuardedOf2[T, U any](where string, do func(T, U)) func(T, U) {
	if do == nil {
		return nil
	}
	return func(v T, u U) {
		defer Survive(where)
		do(v, u)
	}
}

// CopyReport puts the report of a failure on the clipboard.
func CopyReport(c *guard.Crash) { fyne.CurrentApp().Clipboard().SetContent(c.Report()) }

// MenuItem is an item of a menu, whose failure doesn't end the program.
func MenuItem(label string, do func()) *fyne.MenuItem {
	return fyne.NewMenuItem(label, Guarded("The command "+label, do))
}
