package paint

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/ui/sheet"
)

// FailedView stands in place of a view that failed: the words, and a button
// that copies the report.
type FailedView struct {
	Crash *guard.Crash
	text  canvas.Text
	copy  *widget.Button

	unmeasured bool // its least size can't be told
}

const failedLine = 22 // units

// objects lays the view out. Where there is no room for the button there are
// words alone.
func (f *FailedView) objects(c *guard.Crash, size fyne.Size) []fyne.CanvasObject {
	if f.copy == nil {
		f.copy = widget.NewButton("Copy the report", Guarded("The report", func() { CopyReport(f.Crash) }))
	}
	if f.Crash == nil || f.Crash.Error() != c.Error() {
		f.Crash = c
	}
	fit := Wrapper{Size: TextSize}
	f.text = canvas.Text{Text: fit.Fit(fmt.Sprintf("This view failed: %v", c.Why), size.Width-16), TextSize: TextSize, Color: Colours().Ink[sheet.Ink]}
	f.text.Move(fyne.NewPos(8, 4))
	f.copy.Resize(f.copy.MinSize())
	f.copy.Move(fyne.NewPos(8, 4+failedLine))
	if size.Height < 8+failedLine+f.copy.MinSize().Height || size.Width < 16+f.copy.MinSize().Width {
		return []fyne.CanvasObject{&f.text}
	}
	return []fyne.CanvasObject{&f.text, f.copy}
}

// measured is the least size of a view, nothing where measuring it fails. That
// is told of once, as views are measured at each frame.
func (f *FailedView) measured(owner fyne.Widget, min func() fyne.Size) (s fyne.Size) {
	defer func() {
		if why := recover(); why != nil && !f.unmeasured {
			f.unmeasured = true
			guard.Tell(guard.Recovered(viewName(owner), why))
		}
	}()
	s = min()
	f.unmeasured = false
	return s
}

// viewName names a view where it failed.
func viewName(o fyne.CanvasObject) string { return fmt.Sprintf("The view %T", o) }

// SurviveView is survive for a view.
func SurviveView(o fyne.CanvasObject) {
	if why := recover(); why != nil {
		guard.Tell(guard.Recovered(viewName(o), why))
	}
}

// Painted paints a view. Where that fails it returns what is shown instead.
func (f *FailedView) Painted(owner fyne.Widget, size fyne.Size, paint func()) []fyne.CanvasObject {
	err := guard.Try(viewName(owner), func() error {
		paint()
		return nil
	})
	if err == nil {
		f.Crash = nil
		return nil
	}
	c, again := err.(*guard.Crash), f.Crash != nil
	instead := f.objects(c, size)
	if !again { // the words may lie where nobody sees them
		guard.Tell(c)
	}
	return instead
}
