package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
)

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

// pageMargin is what stays free around a drawing, in millimetres.
const pageMargin = 10

// Across is the page on its side.
func (p Page) Across() Page { return Page{p.Name, p.H, p.W} }

// Fit is a height for a drawing that is w units wide, so that it fills the
// page.
func (p Page) Fit(w float64) float64 { return w * (p.H - 2*pageMargin) / (p.W - 2*pageMargin) }

// RenderPDF writes the drawings as a PDF, a page each: vectors, texts as text,
// the fonts in it. Every drawing stands on the page upright or on its side,
// whichever makes it larger, at its top and at most one unit to half a
// millimetre; of several each bears its number, and has a bookmark with its
// title. Links lead to their pages. The document bears the title and desc; dates it bears none, so
// that the same drawings give the same bytes.
func RenderPDF(w io.Writer, drawings []*Drawing, page Page, t Theme, title, desc string) error {
	if len(drawings) == 0 {
		return errors.New("pdf: expected a drawing, got none")
	}
	var b bytes.Buffer
	var doc *pdf.PDF
	var leaves []leaf
	for i, d := range drawings {
		const largest = 0.5
		fit := func(p Page) float64 {
			return math.Min(largest, math.Min((p.W-2*pageMargin)/d.W, (p.H-2*pageMargin)/d.H))
		}
		p := page
		if fit(page.Across()) > fit(page) {
			p = page.Across()
		}
		if doc == nil {
			doc = pdf.New(&b, p.W, p.H, nil)
		} else {
			doc.NewPage(p.W, p.H)
		}
		ctx := canvas.NewContext(doc)
		if t.Name != PaperTheme.Name { // a dark sheet goes to the edge
			ctx.SetFillColor(t.Colour(Paper))
			ctx.DrawPath(0, 0, canvas.Rectangle(p.W, p.H))
		}
		s := fit(p)
		ctx.SetView(canvas.Identity.Translate((p.W-s*d.W)/2, p.H-pageMargin-s*d.H).Scale(s, s))
		(&brush{ctx: ctx, t: t, h: d.H}).draw(d)
		leaves = append(leaves, leaf{d, s, (p.W - s*d.W) / 2, p.H - pageMargin})
		if len(drawings) > 1 {
			ctx.SetView(canvas.Identity)
			foot := Text{At: Point{p.W - pageMargin, p.H - 0.4*pageMargin}, Str: strconv.Itoa(i + 1), Size: 3.2, Role: Soft, Anchor: AtEnd}
			(&brush{ctx: ctx, t: t, h: p.H}).text(&foot)
		}
	}
	doc.SetInfo(title, desc, "", "", "Wakeline")
	if err := doc.Close(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	out, err := finished(b.Bytes(), leaves)
	if err == nil {
		_, err = w.Write(out)
	}
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}
