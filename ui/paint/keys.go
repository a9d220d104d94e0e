package paint

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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
