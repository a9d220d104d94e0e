package sheet

import "wakeline/timeline"

// Point is a place on the sheet, in units from its top left corner. One unit
// is one pixel at scale 1.
type Point struct{ X, Y float64 }

// Role says what an ink is for; a Theme gives it a colour. Colour is kept for
// judgement alone: everything else is ink.
type Role uint8

// The roles.
const (
	None    Role = iota // draws nothing
	Paper               // the ground
	Ink                 // outlines, active frames, text
	Soft                // secondary text and thin outlines, still to WCAG AA on paper
	Rule                // grid and ruler lines, not for text
	Safe                // indigo
	Limited             // indigo, always with Hatch
	Unsafe              // amber
	Even                // grey
	OnMark              // text and marks drawn on a box filled Solid with a judgement
)

// Texture is how a box is filled.
type Texture uint8

// The textures of words.md: phases are told by ink and texture.
const (
	Blank Texture = iota // no fill
	Hatch                // sparse diagonal hatch: startup
	Solid                // full: active
	Dots                 // fine dots: recovery
	Tint                 // a thin wash of the role's colour: regions behind blocks
)

// Shape is one thing to draw: a Box, a Line, a Path or a Text. Later shapes
// lie over earlier ones.
type Shape interface{ shape() }

// Box is an upright rectangle from Min to Max.
type Box struct {
	Min, Max Point
	Fill     Role    // None: not filled
	Texture  Texture // how Fill is laid on
	Stroke   Role    // None: no outline
	Width    float64 // of the outline
	Dashed   bool    // of the outline
}

// Line is a straight line.
type Line struct {
	From, To Point
	Stroke   Role
	Width    float64
	Dashed   bool
}

// Path is an open or closed run of straight pieces.
type Path struct {
	Points []Point
	Closed bool
	Fill   Role // of a closed path, laid on solid; None: not filled
	Stroke Role
	Width  float64
}

// Anchor says which point of a text its At is, along the line of writing.
type Anchor uint8

// The anchors.
const (
	AtStart Anchor = iota
	AtMiddle
	AtEnd
)

// Text is one line of text. At.Y is its baseline.
type Text struct {
	At     Point
	Str    string
	Size   float64 // in units
	Bold   bool
	Role   Role
	Anchor Anchor
}

// Start is where a line of that width, in units, begins for its text to stand at
// its anchor.
func (t *Text) Start(width float64) float64 {
	switch t.Anchor {
	case AtMiddle:
		return t.At.X - width/2
	case AtEnd:
		return t.At.X - width
	}
	return t.At.X
}

func (Box) shape()  {}
func (Line) shape() {}
func (Path) shape() {}
func (Text) shape() {}

// Hot is a place that a hand can take hold of: a block, or one edge of it.
type Hot struct {
	Part     timeline.Part
	Index    int // as the block's
	Min, Max Point
}

// Link is a place that leads to a page, counted from 1, where several drawings
// make a document.
type Link struct {
	Min, Max Point
	Page     int
}

// View is the stretch of frames that the sheet's width shows.
type View struct {
	From  float64 // the frame at the left edge of the tracks
	Scale float64 // units a frame, above 0
}

// Band is a stretch of heights on the sheet: From is above To.
type Band struct{ From, To float64 }

// Has reports whether y lies in the band.
func (b Band) Has(y float64) bool { return y >= b.From && y < b.To }

// Area is a stretch of the sheet.
type Area struct{ Min, Max Point }

// Over is the size of what a and b share, 0 where they lie apart.
func (a Area) Over(b Area) float64 {
	w := min(a.Max.X, b.Max.X) - max(a.Min.X, b.Min.X)
	h := min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
	return max(w, 0) * max(h, 0)
}

// Drawing is a sheet drawn.
type Drawing struct {
	W, H   float64
	Shapes []Shape
	Hots   []Hot // topmost last
	Links  []Link
	View   View    // as drawn: the one asked for, or the one that fits
	Left   float64 // where the tracks begin: X of View.From
	Right  float64 // where they end
	Em     float64 // the size of plain text
	Ruler  Band    // the line of frames
	Top    Band    // the attacker's track: its bars, and the air over them
	Bars   Band    // the attacker's bars alone
	Bottom Band    // the rival's bars
	Flag   Area    // the stamp of the meeting, empty where that is out of view
	Halo   float64 // how far the ground's colour goes around every ink, under all of them; 0: not at all
	Title  string  // of the picture, for readers who can't see it
	Desc   string
}

// X is where frame f begins on the sheet.
func (d *Drawing) X(f float64) float64 { return d.Left + (f-d.View.From)*d.View.Scale }

// Frame is the frame at x, with its fraction.
func (d *Drawing) Frame(x float64) float64 { return d.View.From + (x-d.Left)/d.View.Scale }

// HotAt returns the topmost hot place at p, nil where there is none.
func (d *Drawing) HotAt(p Point) *Hot {
	for i := len(d.Hots) - 1; i >= 0; i-- {
		h := &d.Hots[i]
		if p.X >= h.Min.X && p.X < h.Max.X && p.Y >= h.Min.Y && p.Y < h.Max.Y {
			return h
		}
	}
	return nil
}

// Options say how a sheet is drawn.
type Options struct {
	W, H     float64 // of the whole sheet, in units; at least MinW and MinH
	View     *View   // nil: fit all of the scene
	Sentence string  // the verdict's sentence, drawn beside its stamp; empty: none
	Position string  // where the ender knocks down, for the title; empty: left out
	MarkRows int     // rows kept for the rival's windows, where another sheet in its place has more
	Odds     *Odds   // of the counted wait; nil: none
	Em       float64 // the size of plain text, in units; 0: by the sheet's size
	Band     bool    // a low sheet, whose answer stands beside the tracks
	Column   float64 // the part of a band's width that its answer takes; 0: a good one
	Tight    bool    // lanes as close as a band's, under a short head

	also []string // what other sheets in its place say instead of the sentence: the header has room for each
}

// The smallest sheet that holds its text.
const (
	MinW = 320
	MinH = 300
)

// OnGround reports whether the drawing begins with a ground over all of it.
func (d *Drawing) OnGround() bool {
	if len(d.Shapes) == 0 {
		return false
	}
	b, ok := d.Shapes[0].(Box)
	return ok && b.Fill == Paper && b.Texture == Solid && b.Min.X <= 0 && b.Min.Y <= 0 && b.Max.X >= d.W && b.Max.Y >= d.H
}
