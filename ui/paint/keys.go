package paint

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/sheet"
)

// TypingPause is how long nothing is typed before what takes long begins.
const TypingPause = 120 * time.Millisecond

// HeldKeys asks the driver which modifiers are down; the tests' driver knows
// none.
func HeldKeys() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// KeyCtrl and keyShift are the modifiers of shortcuts.
const KeyCtrl, KeyShift = fyne.KeyModifierControl, fyne.KeyModifierShift

// BigStep is how many frames an arrow moves the delay with Shift.
const BigStep = 10

// ScrollTo scrolls to a height and paints what comes into view: the scroller
// tells of what the wheel and the bar do alone.
func ScrollTo(s *container.Scroll, y float32) {
	s.ScrollToOffset(fyne.NewPos(0, y))
	s.Content.Refresh()
}

// Point is a place in a widget as one on a sheet.
func Point(p fyne.Position) sheet.Point { return sheet.Point{X: float64(p.X), Y: float64(p.Y)} }

// Fade is c with a share of its opacity.
func Fade(c color.RGBA, share float64) color.RGBA {
	of := func(v uint8) uint8 { return uint8(float64(v)*share + 0.5) }
	return color.RGBA{of(c.R), of(c.G), of(c.B), of(c.A)}
}

// LeastShare is how much of a fitted view the scene must fill.
const LeastShare = 0.65
