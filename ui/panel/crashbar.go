package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*CrashBar)(nil)

// CrashBar stands above everything after a command or a view failed, until it
// is closed.
type CrashBar struct {
	widget.BaseWidget

	OnHeight func() // after it comes or goes

	crash  *guard.Crash
	ground *canvas.Rectangle
	Text   *widget.Label
	box    *fyne.Container
}

func NewCrashBar() *CrashBar {
	b := &CrashBar{ground: canvas.NewRectangle(nil), Text: widget.NewLabel("")}
	b.ground.StrokeWidth = 1
	b.Text.Truncation = fyne.TextTruncateEllipsis
	buttons := container.NewHBox(
		paint.NewButton("Copy the report", func() { paint.CopyReport(b.crash) }),
		paint.NewButton("Close", func() {
			b.Hide()
			b.OnHeight()
		}))
	b.box = container.NewStack(b.ground, container.NewPadded(container.NewBorder(nil, nil, nil, buttons, b.Text)))
	b.ExtendBaseWidget(b)
	b.Hide()
	b.Recolour()
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *CrashBar) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.box) }

// Recolour draws in the colours of the theme that is shown.
func (b *CrashBar) Recolour() {
	b.ground.FillColor, b.ground.StrokeColor = paint.Colours().Blend(sheet.Ink, 0.12), paint.Colours().Ink[sheet.Ink]
	b.Refresh()
}

// Say shows what failed.
func (b *CrashBar) Say(c *guard.Crash) {
	b.crash = c
	b.Text.SetText(c.Error() + ". The project and the rest of the window still work.")
	b.Show()
	b.OnHeight()
}
