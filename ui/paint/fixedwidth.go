package paint

import "fyne.io/fyne/v2"

// FixedWidth gives all that it holds one width.
type FixedWidth struct{ Width float32 }

// Layout implements fyne.Layout.
func (f FixedWidth) Layout(of []fyne.CanvasObject, size fyne.Size) {
	for _, o := range of {
		o.Resize(size)
	}
}

// MinSize implements fyne.Layout.
func (f FixedWidth) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(f.Width, 100) }
