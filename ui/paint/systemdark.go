//go:build !linux

package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// SystemDark reports whether the system asks for dark windows, which the
// toolkit has read as variant.
func SystemDark(variant fyne.ThemeVariant) (dark, known bool) {
	return variant == theme.VariantDark, true
}

// WatchSystem does nothing: the toolkit tells no change where a theme was set
// before its loop runs.
func WatchSystem(func()) {}
