package paint

import (
	"fyne.io/fyne/v2"
	"github.com/rymdport/portal/settings"
	"github.com/rymdport/portal/settings/appearance"
)

// SystemDark reports whether the desktop asks for dark windows, as its portal
// says; known is false where it has none. A desktop that asks for nothing is
// light, as the wish for dark is taken back so. It may wait for the desktop, so
// it is for what runs behind the window.
func SystemDark(fyne.ThemeVariant) (dark, known bool) {
	scheme, err := appearance.GetColorScheme()
	return err == nil && scheme == appearance.Dark, err == nil
}

// WatchSystem calls changed each time that the desktop's portal says that it
// asks for other colours. It returns where there is no portal, and else never.
// The toolkit doesn't watch where a theme was set before its loop runs.
func WatchSystem(changed func()) {
	settings.OnSignalSettingChanged(func(c settings.Changed) {
		if c.Namespace == appearance.Namespace && c.Key == "color-scheme" {
			changed()
		}
	})
}
