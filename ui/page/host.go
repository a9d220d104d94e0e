package page

import (
	"context"

	"fyne.io/fyne/v2"

	"wakeline/ui/model"
)

// Page is what takes the whole window in place of the setups, until it is
// closed.
type Page interface {
	Content() fyne.CanvasObject
	Changed(c model.Change) // of the model; not told of another document: that closes the page
	Edits() bool            // undo and redo work while it is shown
	Refocus()               // gives it the keys
}

// What a page may have besides.
type (
	// Ending is a page on which Escape first ends what runs there.
	Ending interface {
		EndOwn() bool // false: nothing runs
	}
	// Settling is a page that can't be left while what is typed there can't
	// stand.
	Settling interface{ Leave() bool }
	// Leaving is a page that is told when it is no longer shown.
	Leaving interface{ Left() }
	// Noting is a page with a place for what is said in passing.
	Noting interface{ Note(text string) }
	// Timed is a page that shows what depends on a person's timing.
	Timed interface{ TimingChanged() }
	// Recoloured is a page that holds colours of a theme.
	Recoloured interface{ Recolour() }
)

// Host is the window, as far as a page knows it.
type Host interface {
	Model() *model.Model
	Timing() *model.Timing // whose timing the odds are of
	Preferences() fyne.Preferences
	Canvas() fyne.Canvas

	Context() context.Context // ends with the window
	Run(do func())            // behind the window
	Later(do func())          // on the window's goroutine
	// Task runs do behind the window, with its progress, and then then.
	Task(title string, count func(done, of int) string, do func(Work) error, then func(err error))

	Showing(p Page) bool
	Close()                             // shows the setups again
	PageKey(ev *fyne.KeyEvent) bool     // Escape, F1 and F10, and the keys of a dialog
	Dialogs() *Dialogs                  // asks, tells and fails
	Note(text string)                   // says it in passing
	Done(title string, err error) bool  // tells of an error
	Listed() (setups []int, chosen int) // in the order of the list, and where in it the chosen one is; -1: hidden
	ShowChosen()                        // in the list, also where a filter hides it
}

// Busy reports whether a dialog is up, or a task runs: nothing else can be
// asked for then.
func Busy(h Host) bool { return h.Model().Held || h.Canvas().Overlays().Top() != nil }
