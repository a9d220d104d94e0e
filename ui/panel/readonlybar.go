package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*ReadOnlyBar)(nil)

// ReadOnlyBar stands above everything while nothing can be edited: it says
// why, and offers what may help.
type ReadOnlyBar struct {
	widget.BaseWidget

	ground *canvas.Rectangle
	rule   *canvas.Rectangle
	plates [2]*canvas.Rectangle // under the buttons
	Text   *widget.Label
	Again  *paint.PushButton
	help   *fyne.Container // the buttons
	box    *fyne.Container
}

// AnotherHasIt is why a file is read-only that another window edits, in the
// words of package storage.
const AnotherHasIt = "another window has it open"

// NewReadOnlyBar returns the bar; takeOver tries to edit the file, and
// copyFile offers to save a copy of it.
func NewReadOnlyBar(takeOver, copyFile func()) *ReadOnlyBar {
	b := &ReadOnlyBar{ground: canvas.NewRectangle(nil), rule: canvas.NewRectangle(nil), Text: widget.NewLabel("")}
	b.Text.Truncation = fyne.TextTruncateEllipsis
	b.Again = paint.NewButton("Take over", takeOver)
	b.rule.SetMinSize(fyne.NewSize(0, 1))
	b.help = container.NewHBox()
	for i, button := range []*paint.PushButton{b.Again, paint.NewButton("Save a copy…", copyFile)} {
		button.Importance = widget.LowImportance
		b.plates[i] = canvas.NewRectangle(nil)
		b.plates[i].StrokeWidth = 1
		b.help.Add(container.NewStack(b.plates[i], button))
	}
	row := container.New(layout.NewCustomPaddedLayout(3, 3, 3, 4), container.NewBorder(nil, nil, nil, b.help, b.Text))
	b.box = container.NewStack(b.ground, container.NewBorder(nil, b.rule, nil, nil, row))
	b.ExtendBaseWidget(b)
	b.Recolour()
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *ReadOnlyBar) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.box) }

// Recolour draws in the colours of the theme that is shown.
func (b *ReadOnlyBar) Recolour() {
	b.ground.FillColor, b.rule.FillColor = paint.Colours().Blend(sheet.Ink, 0.12), paint.Colours().Ink[sheet.Soft]
	for _, plate := range b.plates {
		plate.FillColor, plate.StrokeColor = paint.Colours().Ink[sheet.Paper], paint.Colours().Ink[sheet.Soft]
	}
	b.Refresh()
}

// Say shows the bar with why, or hides it where that is empty.
func (b *ReadOnlyBar) Say(why string) {
	if why == "" {
		b.Hide()
		return
	}
	words, again := "Read-only: "+why+".", "Try again"
	if why == AnotherHasIt {
		words, again = "Read-only: another window has it open. What is edited there shows here.", "Take over"
	}
	if why == storage.AnswersOnly {
		words = "Student mode: nothing but answers of exercises is saved. View > Student mode ends it."
		b.help.Hide()
	} else {
		b.help.Show()
	}
	if b.Text.Text != words {
		b.Text.SetText(words)
		b.Again.SetText(again)
	}
	b.Show()
}
