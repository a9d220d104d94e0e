package cast

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Layout = besideLayout{}
	_ fyne.Layout = partsLayout{}
)

// besideLayout lays two sheets beside each other where there is room for both;
// else the first alone.
type besideLayout struct{}

// Layout implements fyne.Layout.
func (besideLayout) Layout(sheets []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	width := size.Width
	if sheets[1].Visible() && width >= 2*sheet.MinW {
		width /= 2
	}
	for i, s := range sheets {
		s.Move(fyne.NewPos(float32(i)*width, 0))
		s.Resize(fyne.NewSize(min(width, size.Width-float32(i)*width), size.Height))
	}
}

// MinSize implements fyne.Layout.
func (besideLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(sheet.MinW, sheet.MinH)
}

// partsLayout lays the table, the words of its cell, and the sheets. Where a
// sheet would be cut there is none, and the table has its room.
type partsLayout struct{}

const (
	leastTable = 150 // height of the table beside a sheet
	mostSheet  = 420
)

// Layout implements fyne.Layout.
func (partsLayout) Layout(parts []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	words := parts[1].MinSize().Height
	tall := max(sheet.MinH, min(mostSheet, 0.45*size.Height))
	if size.Height < tall+words+leastTable {
		tall = 0
	}
	y := float32(0)
	for i, h := range []float32{size.Height - words - tall, words, tall} {
		parts[i].Move(fyne.NewPos(0, y))
		parts[i].Resize(fyne.NewSize(size.Width, h))
		y += h
	}
}

// MinSize implements fyne.Layout.
func (partsLayout) MinSize(parts []fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	return fyne.NewSize(parts[0].MinSize().Width, leastTable+parts[1].MinSize().Height)
}
