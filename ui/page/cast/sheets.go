package cast

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Layout = besideLayout{}

// besideLayout lays two things beside each other where there is room for both;
// else the first alone.
type besideLayout struct{}

// Layout implements fyne.Layout.
func (besideLayout) Layout(parts []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	width := size.Width
	if both := parts[1].Visible() && width >= 2*sheet.MinW; both {
		width /= 2
		parts[1].Move(fyne.NewPos(width, 0))
		parts[1].Resize(fyne.NewSize(width, size.Height))
	} else {
		parts[1].Move(fyne.NewPos(size.Width, 0))
		parts[1].Resize(fyne.NewSize(0, size.Height))
	}
	parts[0].Move(fyne.Position{})
	parts[0].Resize(fyne.NewSize(width, size.Height))
}

// MinSize implements fyne.Layout.
func (besideLayout) MinSize(parts []fyne.CanvasObject) fyne.Size {
	return parts[0].MinSize()
}

// titled is a sheet under a line of its own.
type titled struct {
	title *widget.Label
	sheet *paint.AnswerSheet
	box   *fyne.Container
}

func newTitled() titled {
	t := titled{title: paint.NewLowLabel(), sheet: paint.NewAnswerSheet()}
	t.box = container.NewBorder(t.title, nil, nil, nil, t.sheet)
	return t
}
