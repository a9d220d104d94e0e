package paint

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

// contrast is WCAG's ratio of two colours that hide what is under them.
func contrast(a, b color.Color) float64 {
	luminance := func(c color.Color) float64 {
		r, g, b, _ := c.RGBA()
		linear := func(v uint32) float64 {
			s := float64(v) / 0xffff
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestButtonsAreReadInEveryState reads the text of a button on its ground,
// with the keys and under the pointer, and tells it from one without.
func TestButtonsAreReadInEveryState(t *testing.T) {
	for _, p := range Palettes {
		for _, importance := range []widget.Importance{widget.MediumImportance, widget.HighImportance} {
			a := test.NewTempApp(t)
			a.Settings().SetTheme(Theme{p})
			b := widget.NewButton("Take it in", nil)
			b.Importance = importance
			w := a.NewWindow("")
			w.SetContent(container.NewVBox(b))
			w.Show()
			ground := func(state string) color.Color {
				t.Helper()
				var under, text color.Color
				for _, o := range test.LaidOutObjects(b) {
					switch o := o.(type) {
					case *canvas.Rectangle:
						if under == nil {
							under = o.FillColor
						}
					case *canvas.Text:
						text = o.Color
					}
				}
				if got := contrast(under, text); got < 4.5 {
					t.Errorf("%s, importance %d: %s, the text stands %.1f to 1 on its ground", p.Name, importance, state, got)
				}
				return under
			}
			plain := ground("plain")
			b.MouseIn(&desktop.MouseEvent{})
			ground("under the pointer")
			b.MouseOut()
			w.Canvas().Focus(fyne.Focusable(b))
			if got := contrast(plain, ground("with the keys")); got < 1.25 {
				t.Errorf("%s, importance %d: %.2f to 1 from one without the keys", p.Name, importance, got)
			}
			w.Close()
		}
	}
}

// TestFieldsAreSeen tells the outline of a field or an empty tick box from what
// is on both its sides, on a page and in a dialog.
func TestFieldsAreSeen(t *testing.T) {
	for _, p := range Palettes {
		l := Theme{p}
		line := l.Color(theme.ColorNameInputBorder, theme.VariantLight)
		for _, beside := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameOverlayBackground, theme.ColorNameInputBackground} {
			if got := contrast(line, l.Color(beside, theme.VariantLight)); got < 3 {
				t.Errorf("%s: the outline stands %.1f to 1 from %s", p.Name, got, beside)
			}
		}
	}
}

func TestShortcutsOfMenusAreReadable(t *testing.T) {
	for _, p := range Palettes {
		r, g, b, a := Theme{p}.Color(theme.ColorNameForeground, theme.VariantLight).RGBA()
		soft := p.Ink[sheet.Soft]
		if uint8(r) != soft.R || uint8(g) != soft.G || uint8(b) != soft.B || uint8(uint32(float32(a)*0.95)) < 0xf0 {
			t.Errorf("%s: a shortcut is drawn in %#x %#x %#x %#x", p.Name, uint8(r), uint8(g), uint8(b), uint8(uint32(float32(a)*0.95)))
		}
		if c := color.NRGBAModel.Convert(textInk{p.Ink[sheet.Ink], soft}); c != color.NRGBA(p.Ink[sheet.Ink]) {
			t.Errorf("%s: text is drawn in %v, want %v", p.Name, c, p.Ink[sheet.Ink])
		}
	}
}
