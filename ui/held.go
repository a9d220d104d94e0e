package ui

import (
	"image/color"
	"wakeline/ui/sheet"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// heldKeys asks the driver which modifiers are down; the tests' driver knows
// none.
func heldKeys() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// keyCtrl and keyShift are the modifiers of shortcuts.
const keyCtrl, keyShift = fyne.KeyModifierControl, fyne.KeyModifierShift

// bigStep is how many frames an arrow moves the delay with Shift.
const bigStep = 10

// scrollTo scrolls to a height and paints what comes into view: the scroller
// tells of what the wheel and the bar do alone.
func scrollTo(s *container.Scroll, y float32) {
	s.ScrollToOffset(fyne.NewPos(0, y))
	s.Content.Refresh()
}

// point is a place in a widget as one on a sheet.
func point(p fyne.Position) sheet.Point { return sheet.Point{X: float64(p.X), Y: float64(p.Y)} }

// fade is c with a share of its opacity.
func fade(c color.RGBA, share float64) color.RGBA {
	of := func(v uint8) uint8 { return uint8(float64(v)*share + 0.5) }
	return color.RGBA{of(c.R), of(c.G), of(c.B), of(c.A)}
}

// leastShare is how much of a fitted view the scene must fill.
const leastShare = 0.65
