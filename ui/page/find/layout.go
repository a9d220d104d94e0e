package find

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
)

const formWidth = 256

// answersLayout lays the answers beside the sheet of the one chosen, which gets
// the more of what room there is.
type answersLayout struct{}

const (
	answersWide = 330 // the least
	sheetShare  = 0.6
)

// Layout implements fyne.Layout.
func (answersLayout) Layout(of []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	left := max(min(answersWide, size.Width*0.5), size.Width*(1-sheetShare))
	of[0].Move(fyne.NewPos(0, 0))
	of[0].Resize(fyne.NewSize(left, size.Height))
	of[1].Move(fyne.NewPos(left, 0))
	of[1].Resize(fyne.NewSize(size.Width-left, size.Height))
}

// MinSize implements fyne.Layout.
func (answersLayout) MinSize(of []fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	a, b := of[0].MinSize(), of[1].MinSize()
	return fyne.NewSize(answersWide+b.Width, max(a.Height, b.Height))
}
