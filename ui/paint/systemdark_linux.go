package paint

import (
	"fyne.io/fyne/v2"
	"github.com/rymdport/portal/settings/appearance"
)

// SystemDark reports whether the desktop asks for dark windows, as its portal
// says; known is false where it has none, or asks for nothing. It may wait for
// the desktop, so it is for what runs behind the window.
func SystemDark(fyne.ThemeVariant) (dark, known bool) {
	scheme, err := appearance.GetColorScheme()
	if err != nil {
		return false, false
	}
	return scheme == appearance.Dark, scheme == appearance.Dark || scheme == appearance.Light
}
