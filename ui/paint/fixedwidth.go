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

// NoWider has what it holds take the width that there is, however much it asks
// for: in a scroll a long name is cut at the edge, and what stands beside it
// stays in sight.
type NoWider struct{}

// Layout implements fyne.Layout.
func (NoWider) Layout(of []fyne.CanvasObject, size fyne.Size) { FixedWidth{}.Layout(of, size) }

// MinSize implements fyne.Layout.
func (NoWider) MinSize(of []fyne.CanvasObject) (least fyne.Size) {
	for _, o := range of {
		least.Height = max(least.Height, o.MinSize().Height)
	}
	return least
}
