package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// EmptyView stands in place of a sheet that can't be shown: why, and what to
// do first.
type EmptyView struct {
	heading, Text *widget.Label
	Buttons       *fyne.Container
	Box           *fyne.Container
}

func NewEmptyView() *EmptyView {
	e := &EmptyView{heading: widget.NewLabel(""), Text: widget.NewLabel(""), Buttons: container.NewHBox()}
	e.heading.TextStyle.Bold, e.heading.SizeName = true, theme.SizeNameSubHeadingText
	e.Text.Wrapping = fyne.TextWrapWord
	e.heading.Alignment, e.Text.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	e.Box = container.NewVBox(layout.NewSpacer(), e.heading, e.Text, container.NewCenter(e.Buttons), layout.NewSpacer())
	return e
}

// Say shows words and buttons, or hides the view where there are none.
func (e *EmptyView) Say(heading, text string, buttons []*paint.PushButton) {
	e.heading.SetText(heading)
	e.Text.SetText(text)
	e.Buttons.Objects = nil
	for _, b := range buttons {
		e.Buttons.Objects = append(e.Buttons.Objects, b)
	}
	e.Buttons.Refresh()
	e.Box.Hidden = text == ""
	e.Box.Refresh()
}

// Has reports whether o is one of the buttons.
func (e *EmptyView) Has(o fyne.Focusable) bool {
	b, ok := o.(*paint.PushButton)
	return ok && slices.Contains(e.Buttons.Objects, fyne.CanvasObject(b))
}
