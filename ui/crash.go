package ui

import (
	"fmt"
	"runtime/debug"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

// crash is a failure of the program's own in one view or command. The rest of
// the window lives on.
type crash struct {
	where string // what failed, as a sentence begins
	why   any    // what it panicked with
	stack []byte
}

// newCrash notes the failure that was recovered from, on its own goroutine.
func newCrash(where string, why any) *crash { return &crash{where, why, debug.Stack()} }

// Error says in one line what failed.
func (c *crash) Error() string { return fmt.Sprintf("%s failed: %v", c.where, c.why) }

// report is what may be sent to who can mend it.
func (c *crash) report() string { return "Wakeline: " + c.Error() + "\n\n" + string(c.stack) }

// copy puts the report on the clipboard.
func (c *crash) copy() { fyne.CurrentApp().Clipboard().SetContent(c.report()) }

// noteCrash writes a failure where the program's errors go.
var noteCrash = func(c *crash) { fyne.LogError(c.report(), nil) }

// survive, deferred by what handles an event, ends a failure there: it is
// noted, and told through OnCrash.
func (m *Model) survive(where string) {
	if why := recover(); why != nil {
		c := newCrash(where, why)
		noteCrash(c)
		if m.OnCrash != nil {
			m.OnCrash(c)
		}
	}
}

// survive is Model.survive for what has no model.
func survive(where string) {
	if why := recover(); why != nil {
		c := newCrash(where, why)
		noteCrash(c)
		if tellCrash != nil {
			tellCrash(c)
		}
	}
}

// tellCrash has the window that was opened last tell of a failure.
var tellCrash func(c *crash)

// try runs do and returns its error, or how it failed.
func try(where string, do func() error) (err error) {
	defer func() {
		if why := recover(); why != nil {
			c := newCrash(where, why)
			noteCrash(c)
			err = c
		}
	}()
	return do()
}

// failedView stands in place of a view that failed: the words, and a button
// that copies the report.
type failedView struct {
	crash *crash
	text  canvas.Text
	copy  *widget.Button
}

const failedLine = 22 // units

// objects lays the view out. Where there is no room for the button there are
// words alone.
func (f *failedView) objects(c *crash, p *palette, size fyne.Size) []fyne.CanvasObject {
	if f.copy == nil {
		f.copy = widget.NewButton("Copy the report", func() { f.crash.copy() })
	}
	if f.crash == nil || f.crash.Error() != c.Error() {
		f.crash = c
	}
	fit := wrapper{size: textSize}
	f.text = canvas.Text{Text: fit.fit(fmt.Sprintf("This view failed: %v", c.why), size.Width-16), TextSize: textSize, Color: p.ink[sheet.Ink]}
	f.text.Move(fyne.NewPos(8, 4))
	f.copy.Resize(f.copy.MinSize())
	f.copy.Move(fyne.NewPos(8, 4+failedLine))
	if size.Height < 8+failedLine+f.copy.MinSize().Height || size.Width < 16+f.copy.MinSize().Width {
		return []fyne.CanvasObject{&f.text}
	}
	return []fyne.CanvasObject{&f.text, f.copy}
}

// painted paints a view. Where that fails it returns what is shown instead.
func (f *failedView) painted(owner fyne.Widget, p *palette, size fyne.Size, paint func()) []fyne.CanvasObject {
	err := try(fmt.Sprintf("The view %T", owner), func() error {
		paint()
		return nil
	})
	if err == nil {
		f.crash = nil
		return nil
	}
	c, again := err.(*crash), f.crash != nil
	instead := f.objects(c, p, size)
	if !again && tellCrash != nil { // the words may lie where nobody sees them
		tellCrash(c)
	}
	return instead
}
