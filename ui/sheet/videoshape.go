package sheet

import "math"

// VideoShape is the shape of a picture in a video: its size, and what of it is
// left free, as players lay their own over the edges.
type VideoShape struct {
	Name             string
	Wide, High       int     // in pixels
	Side, Top, Below float64 // what is left free, in pixels
	units            float64 // how wide the sheet in it is: few units make large type
	em               float64 // the size of plain text; 0: by the sheet
	band             bool    // low: the answer stands beside the tracks
	stage            float64 // how high a side view under it is, in units
}

// The shapes. Type is sized so that the smallest is read: of the upright and
// the square one on a phone that shows them 390 of its pixels wide, of the
// others on one that lies on its side, 844 wide. A band is the lowest third of a
// wide picture.
var VideoShapes = [...]VideoShape{
	{Name: "wide", Wide: 1920, High: 1080, Side: 96, Top: 54, Below: 54, units: 600},
	{Name: "tall", Wide: 1080, High: 1920, Side: 44, Top: 190, Below: 290, units: 320, em: 12.5},
	{Name: "square", Wide: 1080, High: 1080, Side: 44, Top: 44, Below: 44, units: 320, em: 11.6},
	{Name: "band", Wide: 1920, High: 360, Side: 96, Below: 54, units: 690, em: 10.3, band: true},
}

// VideoShapeNamed is the shape of that name, nil where there is none.
func VideoShapeNamed(name string) *VideoShape {
	for i := range VideoShapes {
		if VideoShapes[i].Name == name {
			v := VideoShapes[i]
			return &v
		}
	}
	return nil
}

// Scale is how many pixels a unit has.
func (v *VideoShape) Scale() float64 { return (float64(v.Wide) - 2*v.Side) / v.units }

// Fit gives a sheet's options the size that fills the shape.
func (v *VideoShape) Fit(o Options) Options {
	o.W, o.H = v.units, v.height()-v.stage
	o.Em, o.Band = v.em, v.band
	return o
}

// WithSide is the shape with room for a side view under the sheet; ok is false
// where there is none.
func (v VideoShape) WithSide() (out VideoShape, ok bool) {
	switch v.Name {
	case "wide":
		v.units, v.em, v.band, v.stage = 640, 11, true, 180
	case "tall":
		v.units, v.em, v.stage = 330, 11, 168
	default:
		return v, false
	}
	return v, true
}

// HasSide reports whether a side view has room under the sheet.
func (v *VideoShape) HasSide() bool {
	_, ok := v.WithSide()
	return ok
}

// FitSide gives a side view's options the size that fills its room.
func (v *VideoShape) FitSide(o SideOptions) SideOptions {
	o.W, o.H = v.units, v.stage
	return o
}

// height is how high the sheet in it is, in units.
func (v *VideoShape) height() float64 { return (float64(v.High) - v.Top - v.Below) / v.Scale() }

// Framed is d, which fills the shape, in the whole of its picture.
func (v *VideoShape) Framed(d *Drawing) *Drawing {
	out := *d
	x, y := v.corner()
	out.W, out.H = float64(v.Wide)/v.Scale(), float64(v.High)/v.Scale()
	out.Shapes = make([]Shape, 0, len(d.Shapes)+1)
	if d.OnGround() {
		out.Shapes = append(out.Shapes, Box{Max: Point{out.W, out.H}, Fill: Paper, Texture: Solid})
	}
	out.Shapes = append(out.Shapes, v.Moved(d.Shapes)...)
	out.Hots, out.Links = nil, nil
	out.Left, out.Right = d.Left+x, d.Right+x
	down := func(b Band) Band { return Band{b.From + y, b.To + y} }
	out.Ruler, out.Top, out.Bars, out.Bottom = down(d.Ruler), down(d.Top), down(d.Bars), down(d.Bottom)
	return &out
}

// corner is where the sheet begins.
func (v *VideoShape) corner() (x, y float64) { return v.Side / v.Scale(), v.Top / v.Scale() }

// Moved are shapes of the sheet where they stand in the whole picture.
func (v *VideoShape) Moved(shapes []Shape) []Shape {
	x, y := v.corner()
	out := make([]Shape, len(shapes))
	for i, s := range shapes {
		out[i] = moved(s, x, y)
	}
	return out
}

// The smallest band that holds its text.
const (
	minBandW = 480
	minBandH = 110
)

// bandColumn is the part of a band's width that its answer takes.
const bandColumn = 0.27

// layBand lays a low sheet out: the answer in a column, the tracks beside it,
// and no room for windows.
func (l *layout) layBand(o *Options) {
	em := l.em
	l.margin = 0.8 * em
	l.frame = math.Round(l.margin * 0.4)
	l.headTop, l.headEnd = l.margin, o.H-l.margin
	l.stampW, l.stampH = math.Min(bandColumn*o.W, 7.6*em), 2.3*em
	l.left, l.right = l.margin+bandColumn*o.W+1.2*em, o.W-l.margin

	const ruler, window, flag, dim, name = 1.5, 0.95, 1.5, 1.15, 1.8
	bar := 1.1 * em
	air := math.Max(0, o.H-0.9*l.margin-(ruler+window+flag+dim+name)*em-2*bar)
	if air > 5*em { // there is height to spare
		more := (air - 5*em) / 6
		bar, air = bar+more, air-2*more
	}
	l.rulerTop = 0.5 * l.margin
	l.rulerEnd = l.rulerTop + ruler*em
	l.airTop = l.rulerEnd + 0.3*em
	l.groundA = l.rulerEnd + air + bar
	l.barA = l.groundA - bar
	l.windowY = l.groundA + 0.75*em
	l.flagTop = l.groundA + window*em
	l.flagEnd = l.flagTop + flag*em
	l.dimY = l.flagEnd + 0.55*em
	l.barB = l.flagEnd + dim*em
	l.groundB = l.barB + bar
	l.nameB = l.groundB + 1.1*em
	l.markTop, l.markRow = l.groundB, em
	l.kY = l.groundB + 0.95*em
}

// column is the answer of a band: the stamp, the setup, and the sentence.
func (p *pen) column() {
	em := p.em
	x, y, room := p.margin, p.headTop, bandColumn*p.o.W
	p.stamp(p.s.Verdict.Judgement(), x, y, p.stampW, p.stampH)
	y += p.stampH + 0.2*em
	title := 1.25 * em
	p.write(Text{At: Point{x, y + title}, Str: fit(clean(p.s.Setup), title, true, room), Size: title, Bold: true, Role: Ink})
	y += title + 0.45*em
	p.sentence(x, y, room, p.headEnd)
	p.line(p.left-0.7*em, p.frame, p.left-0.7*em, p.o.H-p.frame, thin, Ink)
}
