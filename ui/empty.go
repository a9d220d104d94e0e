package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// emptyView stands in place of a sheet that can't be shown: why, and what to
// do first.
type emptyView struct {
	heading, text *widget.Label
	buttons       *fyne.Container
	box           *fyne.Container
}

func newEmptyView() *emptyView {
	e := &emptyView{heading: widget.NewLabel(""), text: widget.NewLabel(""), buttons: container.NewHBox()}
	e.heading.TextStyle.Bold, e.heading.SizeName = true, theme.SizeNameSubHeadingText
	e.text.Wrapping = fyne.TextWrapWord
	e.heading.Alignment, e.text.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	e.box = container.NewVBox(layout.NewSpacer(), e.heading, e.text, container.NewCenter(e.buttons), layout.NewSpacer())
	return e
}

// say shows words and buttons, or hides the view where there are none.
func (e *emptyView) say(heading, text string, buttons []*paint.PushButton) {
	e.heading.SetText(heading)
	e.text.SetText(text)
	e.buttons.Objects = nil
	for _, b := range buttons {
		e.buttons.Objects = append(e.buttons.Objects, b)
	}
	e.buttons.Refresh()
	e.box.Hidden = text == ""
	e.box.Refresh()
}

// has reports whether o is one of the buttons.
func (e *emptyView) has(o fyne.Focusable) bool {
	b, ok := o.(*paint.PushButton)
	return ok && slices.Contains(e.buttons.Objects, fyne.CanvasObject(b))
}
