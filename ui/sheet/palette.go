package sheet

import "image/color"

// Theme gives every role its colour. It is a value; two themes of one name
// are the same.
type Theme struct {
	Name    string
	colours [OnMark + 1]color.NRGBA
	washed  float64 // the part of a role's colour in its wash
}

// PaperTheme is ink on a warm drafting paper.
var PaperTheme = Theme{
	Name: "paper",
	colours: [...]color.NRGBA{
		Paper:   hex(0xfaf7ef),
		Ink:     hex(0x20242b),
		Soft:    hex(0x545a64),
		Rule:    hex(0xdcd8cc),
		Safe:    hex(0x2c1cc0),
		Limited: hex(0x2c1cc0),
		Unsafe:  hex(0xa04a00),
		Even:    hex(0x62605b),
		OnMark:  hex(0xfffdf8),
	},
	washed: 0.12,
}

// NightTheme is chalk on a dark board.
var NightTheme = Theme{
	Name: "night",
	colours: [...]color.NRGBA{
		Paper:   hex(0x14181f),
		Ink:     hex(0xe9e6dd),
		Soft:    hex(0xa9aeb8),
		Rule:    hex(0x2c323c),
		Safe:    hex(0x8f95ff),
		Limited: hex(0x8f95ff),
		Unsafe:  hex(0xf29a24),
		Even:    hex(0xbab6ac),
		OnMark:  hex(0x12151b),
	},
	washed: 0.18,
}

func hex(c uint32) color.NRGBA {
	return color.NRGBA{uint8(c >> 16), uint8(c >> 8), uint8(c), 0xff}
}

// Colour is the colour of role r: opaque, but for None, which is invisible.
func (t Theme) Colour(r Role) color.NRGBA {
	if int(r) >= len(t.colours) {
		return color.NRGBA{}
	}
	return t.colours[r]
}

// Wash is the colour of r laid thinly on paper, for Tint: opaque too.
func (t Theme) Wash(r Role) color.NRGBA {
	if r == None {
		return color.NRGBA{}
	}
	p, c := t.Colour(Paper), t.Colour(r)
	mix := func(a, b uint8) uint8 { return uint8(float64(a)*(1-t.washed) + float64(b)*t.washed + 0.5) }
	return color.NRGBA{mix(p.R, c.R), mix(p.G, c.G), mix(p.B, c.B), 0xff}
}
