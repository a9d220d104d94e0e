package paint

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"wakeline/assets"
	"wakeline/ui/sheet"
)

// Palette is a sheet theme's colours as canvas objects want them, premultiplied.
type Palette struct {
	Name  string
	Theme sheet.Theme
	Ink   [Roles]color.RGBA
	wash  [Roles]color.RGBA
}

const Roles = int(sheet.OnMark) + 1

// The two palettes, and their names in the preferences.
const (
	PaperName = "paper"
	NightName = "night"
)

var Palettes = [...]*Palette{newPalette(PaperName, sheet.PaperTheme), newPalette(NightName, sheet.NightTheme)}

func newPalette(name string, t sheet.Theme) *Palette {
	p := &Palette{Name: name, Theme: t}
	for r := range Roles {
		p.Ink[r] = color.RGBAModel.Convert(t.Colour(sheet.Role(r))).(color.RGBA)
		p.wash[r] = color.RGBAModel.Convert(t.Wash(sheet.Role(r))).(color.RGBA)
	}
	return p
}

// PaletteNamed returns the palette of that name, paper for any other.
func PaletteNamed(name string) *Palette {
	for _, p := range Palettes {
		if p.Name == name {
			return p
		}
	}
	return Palettes[0]
}

// Colours are those of the theme that is shown.
func Colours() *Palette {
	if l, ok := fyne.CurrentApp().Settings().Theme().(Theme); ok {
		return l.Palette
	}
	return Palettes[0]
}

// Blend is the ground with a share of c laid over it.
func (p *Palette) Blend(c sheet.Role, share float64) color.RGBA {
	g, i := p.Ink[sheet.Paper], p.Ink[c]
	return color.RGBA{mix(g.R, i.R, share), mix(g.G, i.G, share), mix(g.B, i.B, share), 0xff}
}

func mix(a, b uint8, share float64) uint8 {
	return uint8(float64(a) + (float64(b)-float64(a))*share + 0.5)
}

// veil is the grey between ground and ink, seen through: it tells on either.
func (p *Palette) veil(share float64) color.Color {
	grey := p.Blend(sheet.Ink, 0.5)
	return color.NRGBA{grey.R, grey.G, grey.B, uint8(255*share + 0.5)}
}

// Theme is the window's theme: the sheet's ground and ink, its font, and
// compact measures.
type Theme struct{ *Palette }

var _ fyne.Theme = Theme{}

var (
	fontRegular = fyne.NewStaticResource("NotoSans-Regular.ttf", assets.NotoSans)
	fontBold    = fyne.NewStaticResource("NotoSans-Bold.ttf", assets.NotoSansBold)
)

func (l Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace, s.Symbol:
		return theme.DefaultTheme().Font(s)
	case s.Bold:
		return fontBold
	}
	return fontRegular
}

func (l Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

func (l Theme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) (c color.Color) {
	defer Survive("The theme")
	c = color.Black // where it fails
	switch n {
	case theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		if l.Name == NightName { // a shadow alone would not lift it off the dark
			return l.Blend(sheet.Ink, 0.07)
		}
		return l.Ink[sheet.Paper]
	case theme.ColorNameInputBackground:
		return l.Blend(sheet.Ink, 0.04)
	case theme.ColorNameBackground, theme.ColorNameHeaderBackground,
		theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return l.Ink[sheet.Paper]
	case theme.ColorNameForeground:
		return textInk{l.Ink[sheet.Ink], l.Ink[sheet.Soft]}
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return l.Ink[sheet.Soft]
	case theme.ColorNamePrimary, theme.ColorNameHyperlink: // colours are for judgement
		return l.Ink[sheet.Ink]
	case theme.ColorNameSuccess:
		return l.Ink[sheet.Safe]
	case theme.ColorNameError, theme.ColorNameWarning:
		return l.Ink[sheet.Unsafe]
	case theme.ColorNameSeparator:
		return l.Ink[sheet.Rule]
	case theme.ColorNameInputBorder: // it is all that shows an empty tick box
		return l.Blend(sheet.Ink, 0.55)
	case theme.ColorNameButton, theme.ColorNameDisabledButton:
		if l.Name == NightName { // on a dialog's ground, which is lifted already
			return l.Blend(sheet.Ink, 0.15)
		}
		return l.Blend(sheet.Ink, 0.08)
	case theme.ColorNameHover:
		return l.veil(0.12)
	case theme.ColorNamePressed:
		return l.veil(0.40)
	case theme.ColorNameFocus:
		return l.veil(0.36)
	case theme.ColorNameSelection:
		return l.Blend(sheet.Ink, 0.13)
	case theme.ColorNameScrollBar:
		return l.Blend(sheet.Ink, 0.40)
	case theme.ColorNameScrollBarBackground:
		return l.Blend(sheet.Ink, 0.04)
	case theme.ColorNameShadow:
		if l.Name == NightName {
			return color.NRGBA{A: 0x90}
		}
		return color.NRGBA{A: 0x26}
	}
	return theme.DefaultTheme().Color(n, theme.VariantLight)
}

func (l Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameText:
		return TextSize
	case theme.SizeNameCaptionText:
		return CaptionSize
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 0
	case theme.SizeNameScrollBar:
		return 10
	}
	return theme.DefaultTheme().Size(n)
}

// textInk is a colour that Fyne shows as ink, but a menu's shortcuts as soft:
// for these Fyne 2.7.1 takes the low bytes of the colour's 16 bits a channel,
// and of its alpha less a twentieth, which for a plain colour leaves them all
// but invisible.
type textInk struct{ ink, soft color.RGBA }

// RGBA implements color.Color.
func (t textInk) RGBA() (r, g, b, a uint32) {
	of := func(ink, soft uint8) uint32 { return uint32(ink)<<8 | uint32(soft) }
	return of(t.ink.R, t.soft.R), of(t.ink.G, t.soft.G), of(t.ink.B, t.soft.B), 0xffc9 // less a twentieth: 0xf2fe
}

// The sizes of the window's own texts, in units.
const (
	TextSize    = 13
	CaptionSize = 12
)
