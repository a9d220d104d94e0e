package paint

import (
	"image"
	"image/color"
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"wakeline/assets"
)

// letters paints lines of text with the built-in fonts, letter after letter
// by the advances that the sheet measured with. Fyne spaces letters for the
// next whole size only, so a text of another size would not end where the
// sheet, and a file saved from it, has it end. It is used from one goroutine.
type letters struct {
	fonts  [2]*sfnt.Font // regular, bold
	glyphs map[glyphKey]*glyph
	buf    sfnt.Buffer
}

type glyphKey struct {
	bold bool
	r    rune
}

// glyph is a letter's outline and advance at outlineSize.
type glyph struct {
	segments sfnt.Segments
	advance  float32
	missing  bool
}

const outlineSize = 64 // pixels

var builtInLetters = sync.OnceValue(func() *letters {
	l := &letters{glyphs: map[glyphKey]*glyph{}}
	for i, ttf := range [...][]byte{assets.NotoSans, assets.NotoSansBold} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic("ui: the built-in font can't be read: " + err.Error())
		}
		l.fonts[i] = f
	}
	return l
})

func (l *letters) glyph(r rune, bold bool) *glyph {
	k := glyphKey{bold, r}
	if g := l.glyphs[k]; g != nil {
		return g
	}
	f := l.fonts[0]
	if bold {
		f = l.fonts[1]
	}
	g := &glyph{}
	l.glyphs[k] = g
	i, err := f.GlyphIndex(&l.buf, r)
	if err != nil || i == 0 {
		g.missing = true
		return g
	}
	if a, err := f.GlyphAdvance(&l.buf, i, fixed.I(outlineSize), font.HintingNone); err == nil {
		g.advance = float32(a) / 64
	}
	if s, err := f.LoadGlyph(&l.buf, i, fixed.I(outlineSize), nil); err == nil {
		g.segments = append(sfnt.Segments(nil), s...)
	}
	return g
}

// width is the width of s at a size in pixels. ok is false where the font
// lacks a letter of it.
func (l *letters) width(s string, size float32, bold bool) (w float32, ok bool) {
	for _, r := range s {
		g := l.glyph(r, bold)
		if g.missing {
			return 0, false
		}
		w += g.advance
	}
	return w * size / outlineSize, true
}

// What a line of text takes above and below its baseline, in sizes, with the
// tallest accents.
const (
	lettersUp   = 1.1
	lettersDown = 0.35
	lettersSide = 2 // pixels left free at both ends
)

// paint lays s on img, its baseline up pixels below the top.
func (l *letters) paint(img *image.RGBA, s string, size float32, bold bool, c color.RGBA) {
	z := vector.NewRasterizer(img.Rect.Dx(), img.Rect.Dy())
	k := size / outlineSize
	x, y := float32(lettersSide), float32(lettersRise(size))
	at := func(p fixed.Point26_6) (float32, float32) { return x + float32(p.X)/64*k, y + float32(p.Y)/64*k }
	for _, r := range s {
		g := l.glyph(r, bold)
		for i := range g.segments {
			seg := &g.segments[i]
			ax, ay := at(seg.Args[0])
			switch seg.Op {
			case sfnt.SegmentOpMoveTo:
				z.ClosePath()
				z.MoveTo(ax, ay)
			case sfnt.SegmentOpLineTo:
				z.LineTo(ax, ay)
			case sfnt.SegmentOpQuadTo:
				bx, by := at(seg.Args[1])
				z.QuadTo(ax, ay, bx, by)
			case sfnt.SegmentOpCubeTo:
				bx, by := at(seg.Args[1])
				cx, cy := at(seg.Args[2])
				z.CubeTo(ax, ay, bx, by, cx, cy)
			}
		}
		x += g.advance * k
	}
	z.ClosePath()
	z.Draw(img, img.Rect, image.NewUniform(c), image.Point{})
}

// lettersRise is how many pixels of a picture of text lie above its baseline.
func lettersRise(size float32) int { return int(math.Ceil(float64(size * lettersUp))) }
