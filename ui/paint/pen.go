package paint

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"wakeline/ui/sheet"
)

// Pen turns the shapes of a sheet into canvas objects. It keeps the objects
// of the sheet before and only changes what differs, so that a sheet drawn
// again a frame later makes nothing new. Places are snapped to whole pixels.
type Pen struct {
	Palette *Palette
	scale   float32 // pixels a unit, above 0

	Boxes  pool[canvas.Rectangle]
	Texts  pool[canvas.Text]
	Stamps map[stampKey]*stamps
	Serial int // of the sheet

	dots    []dot               // of the path at hand
	corners []sheet.Point       // of the mark at hand
	Objects []fyne.CanvasObject // of the last sheet, in the order of its shapes
	ascents map[ascentKey]float32
}

type ascentKey struct {
	size float32
	bold bool
}

// pool keeps objects to be used again, in the order they were asked for.
type pool[T any] struct {
	All  []*T
	Used int
}

func (p *pool[T]) next() *T {
	if p.Used == len(p.All) {
		p.All = append(p.All, new(T))
	}
	p.Used++
	return p.All[p.Used-1]
}

// Begin starts a new sheet. It keeps the objects, unless the colours or the
// scale have changed.
func (p *Pen) Begin(scale float32) {
	if pal := Colours(); pal != p.Palette || scale != p.scale {
		*p = Pen{Palette: pal, scale: scale, ascents: map[ascentKey]float32{}, Stamps: map[stampKey]*stamps{}}
	}
	p.forget()
	p.Serial++
	p.Boxes.Used, p.Texts.Used = 0, 0
	p.Objects = p.Objects[:0]
}

// Draw adds shapes to the sheet.
func (p *Pen) Draw(shapes []sheet.Shape) {
	for _, s := range shapes {
		switch s := s.(type) {
		case sheet.Box:
			p.Box(&s)
		case sheet.Line:
			p.Line(&s)
		case sheet.Path:
			p.Path(&s)
		case sheet.Text:
			p.Text(&s)
		}
	}
}

// Px is the pixel nearest to v units.
func (p *Pen) Px(v float64) int { return int(math.Round(v * float64(p.scale))) }

// units is n pixels in units.
func (p *Pen) units(n int) float32 { return float32(n) / p.scale }

// Thick is a line's width in pixels, at least one.
func (p *Pen) Thick(width float64) int { return max(1, p.Px(width)) }

// Rect adds a plain rectangle from (x0, y0) to (x1, y1), in pixels.
func (p *Pen) Rect(x0, y0, x1, y1 int, fill, stroke color.Color, width int) {
	if x1 <= x0 || y1 <= y0 {
		return
	}
	r := p.Boxes.next()
	r.FillColor, r.StrokeColor, r.StrokeWidth = fill, stroke, p.units(width)
	r.Move(fyne.NewPos(p.units(x0), p.units(y0)))
	r.Resize(fyne.NewSize(p.units(x1-x0), p.units(y1-y0)))
	p.Objects = append(p.Objects, r)
}

func (p *Pen) Box(b *sheet.Box) {
	x0, y0, x1, y1 := p.Px(b.Min.X), p.Px(b.Min.Y), p.Px(b.Max.X), p.Px(b.Max.Y)
	var fill color.Color = color.Transparent
	if b.Fill != sheet.None {
		switch b.Texture {
		case sheet.Solid:
			fill = p.Palette.Ink[b.Fill]
		case sheet.Tint:
			fill = p.Palette.wash[b.Fill]
		case sheet.Hatch, sheet.Dots:
			p.stamp(stampKey{kind: textureKind(b.Texture), w: x1 - x0, h: y1 - y0, role: b.Fill}, nil, x0, y0)
		}
	}
	if b.Stroke == sheet.None {
		if fill != color.Transparent {
			p.Rect(x0, y0, x1, y1, fill, nil, 0)
		}
		return
	}
	// An outline lies half inside, half outside, as in the files.
	t := p.Thick(b.Width)
	in := t / 2
	x0, y0, x1, y1 = x0-in, y0-in, x1-in+t, y1-in+t
	if !b.Dashed {
		p.Rect(x0, y0, x1, y1, fill, p.Palette.Ink[b.Stroke], t)
		return
	}
	if fill != color.Transparent {
		p.Rect(x0, y0, x1, y1, fill, nil, 0)
	}
	p.dash(x0, y0, x1-x0, t, b.Stroke, b.Width)
	p.dash(x0, y1-t, x1-x0, t, b.Stroke, b.Width)
	p.dash(x0, y0, t, y1-y0, b.Stroke, b.Width)
	p.dash(x1-t, y0, t, y1-y0, b.Stroke, b.Width)
}

func (p *Pen) dash(x, y, w, h int, role sheet.Role, width float64) {
	p.stamp(stampKey{kind: dashKind, w: w, h: h, role: role, width: float32(width) * p.scale}, nil, x, y)
}

func (p *Pen) Line(l *sheet.Line) {
	if l.Stroke == sheet.None {
		return
	}
	if l.From.X != l.To.X && l.From.Y != l.To.Y {
		ends := [2]sheet.Point{l.From, l.To}
		p.Path(&sheet.Path{Points: ends[:], Stroke: l.Stroke, Width: l.Width})
		return
	}
	t := p.Thick(l.Width)
	x0, y0 := p.Px(min(l.From.X, l.To.X)), p.Px(min(l.From.Y, l.To.Y))
	x1, y1 := p.Px(max(l.From.X, l.To.X)), p.Px(max(l.From.Y, l.To.Y))
	if l.From.X == l.To.X {
		x0 -= t / 2
		x1 = x0 + t
	} else {
		y0 -= t / 2
		y1 = y0 + t
	}
	if l.Dashed {
		p.dash(x0, y0, x1-x0, y1-y0, l.Stroke, l.Width)
		return
	}
	p.Rect(x0, y0, x1, y1, p.Palette.Ink[l.Stroke], nil, 0)
}

// Text puts a text so that its baseline lies where the sheet says.
func (p *Pen) Text(s *sheet.Text) {
	if s.Str == "" || s.Role == sheet.None {
		return
	}
	if s.Size != math.Trunc(s.Size) && p.letters(s) {
		return
	}
	t := p.Texts.next()
	size := float32(math.Floor(s.Size))
	t.Text, t.TextSize, t.TextStyle.Bold, t.Color = s.Str, size, s.Bold, p.Palette.Ink[s.Role]
	switch s.Anchor { // a text without a size spreads from its place
	case sheet.AtStart:
		t.Alignment = fyne.TextAlignLeading
	case sheet.AtMiddle:
		t.Alignment = fyne.TextAlignCenter
	case sheet.AtEnd:
		t.Alignment = fyne.TextAlignTrailing
	}
	t.Move(fyne.NewPos(float32(s.At.X), p.units(p.Px(s.At.Y))-p.ascent(size, s.Bold)))
	p.Objects = append(p.Objects, t)
}

// letters puts a text as a stamp. It reports whether the built-in font has
// all of its letters.
func (p *Pen) letters(s *sheet.Text) bool {
	size := float32(s.Size) * p.scale
	w, ok := builtInLetters().width(s.Str, size, s.Bold)
	if !ok {
		return false
	}
	x := float32(s.At.X) * p.scale
	switch s.Anchor {
	case sheet.AtMiddle:
		x -= w / 2
	case sheet.AtEnd:
		x -= w
	}
	up := lettersRise(size)
	k := stampKey{kind: textKind, w: int(w) + 1 + 2*lettersSide, h: up + int(size*lettersDown) + 1, role: s.Role, width: size, bold: s.Bold, text: s.Str}
	p.stamp(k, nil, int(math.Round(float64(x)))-lettersSide, p.Px(s.At.Y)-up)
	return true
}

// ascent is how far a text's top lies above its baseline, in whole pixels, as
// Fyne draws it.
func (p *Pen) ascent(size float32, bold bool) float32 {
	k := ascentKey{size, bold}
	a, ok := p.ascents[k]
	if !ok {
		_, base := fyne.CurrentApp().Driver().RenderedTextSize("x", size, fyne.TextStyle{Bold: bold}, nil)
		a = float32(math.Ceil(float64(base*p.scale))) / p.scale
		p.ascents[k] = a
	}
	return a
}
