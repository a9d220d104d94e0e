package sheet

// VideoShape is the shape of a picture in a video: its size, and what of it is
// left free, as players lay their own over the edges.
type VideoShape struct {
	Name             string
	Wide, High       int     // in pixels
	Side, Top, Below float64 // what is left free, in pixels
	units            float64 // how wide the sheet in it is: few units make large type
	em               float64 // the size of plain text; 0: by the sheet
	band             bool    // low: the answer stands beside the tracks
	tight            bool    // low: under a short head
	column           float64 // the part of a band's width that its answer takes; 0: a good one
	stage            float64 // how high a side view under it is, in units
	beside           float64 // how wide a side view beside it is, in units
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
	o.W, o.H = v.units-v.beside, v.height()-v.stage
	o.Em, o.Band, o.Tight, o.Column = v.em, v.band, v.tight, v.column
	return o
}

// FitTitle gives the options of a title the size that fills the shape, with the
// room of a side view.
func (v *VideoShape) FitTitle(o Options) Options {
	o.W, o.H, o.Em = v.units, v.height(), v.em
	return o
}

// WithSide is the shape with room for a side view: under the sheet, of a band
// beside it.
func (v VideoShape) WithSide() VideoShape {
	switch v.Name {
	case "wide":
		v.units, v.em, v.band, v.stage = 640, 11, true, 180
	case "tall":
		v.units, v.em, v.stage = 330, 11, 168
	case "square":
		v.units, v.em, v.tight, v.stage = 330, 10.5, true, 122
	case "band":
		v.column, v.beside = 0.26, 222
	}
	return v
}

// FitSide gives a side view's options the size that fills its room.
func (v *VideoShape) FitSide(o SideOptions) SideOptions {
	o.W, o.H = v.units, v.stage
	if v.beside > 0 {
		o.W, o.H = v.beside, v.height()
	}
	if v.beside > 0 || v.tight {
		o.Em, o.Tight = v.em, true
	}
	return o
}

// Joined is a sheet of the shape with its side view.
func (v *VideoShape) Joined(d, side *Drawing) *Drawing {
	if v.beside > 0 {
		return Beside(d, side)
	}
	return Under(d, side)
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
