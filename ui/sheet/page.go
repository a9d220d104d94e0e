package sheet

import "math"

// Page is a size of paper, upright, in millimetres.
type Page struct {
	Name string
	W, H float64
}

// The sizes of ISO 216 and of ANSI Y14.1.
var (
	A4     = Page{"a4", 210, 297}
	Letter = Page{"letter", 215.9, 279.4}
)

// Phone is a page in the shape of a phone's screen, large enough that its margin
// is a small part of it.
var Phone = Page{"phone", 180, 390}

// PageMargin is what stays free around a drawing on a page, in millimetres.
const PageMargin = 10

// Across is the page on its side.
func (p Page) Across() Page { return Page{p.Name, p.H, p.W} }

// Fit is a height for a drawing that is w units wide, so that it fills the
// page.
func (p Page) Fit(w float64) float64 { return w * (p.H - 2*PageMargin) / (p.W - 2*PageMargin) }

// pager draws a table from page to page, down from y.
type pager struct {
	w, em float64
	high  float64 // of a page; 0: as high as it must be
	p     *pen    // of the page at hand; nil: none is begun
	y     float64
	out   []*Drawing
}

// page begins a page.
func (p *pager) page() {
	p.done()
	d := &Drawing{W: p.w, Em: p.em}
	p.p = &pen{d: d}
	p.p.em, p.p.left, p.p.right = p.em, p.em, p.w-p.em
	p.p.box(Box{})
	p.y = p.em
	p.out = append(p.out, d)
}

// done ends the page at hand.
func (p *pager) done() {
	if p.p == nil {
		return
	}
	d := p.p.d
	d.H = math.Max(math.Ceil(p.y+0.6*p.em), p.high)
	d.Shapes[0] = Box{Max: Point{p.w, d.H}, Fill: Paper, Texture: Solid}
	d.Shapes = append(d.Shapes, p.p.texts...)
	p.p = nil
}
