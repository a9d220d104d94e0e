package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"io"
	"math"
	"strconv"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
	"github.com/tdewolff/canvas/renderers/rasterizer"
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
// title. Links lead to their pages. The document bears the title and desc;
// dates it bears none, so that the same drawings give the same bytes. step is
// called before each page is drawn, with its place; its error ends it.
func RenderPDF(w io.Writer, drawings []*Drawing, page Page, t Theme, title, desc string, step func(i int) error) error {
	if len(drawings) == 0 {
		return errors.New("pdf: expected a drawing, got none")
	}
	var b bytes.Buffer
	var doc *pdf.PDF
	var leaves []leaf
	for i, d := range drawings {
		if err := step(i); err != nil {
			return err
		}
		p, l := laid(d, page)
		if doc == nil {
			doc = pdf.New(&b, p.W, p.H, nil)
		} else {
			doc.NewPage(p.W, p.H)
		}
		l.draw(canvas.NewContext(doc), p, t, i+1, len(drawings))
		leaves = append(leaves, l)
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

// laid is d on its page: upright or on its side.
func laid(d *Drawing, page Page) (Page, leaf) {
	const largest = 0.5
	fit := func(p Page) float64 {
		return math.Min(largest, math.Min((p.W-2*pageMargin)/d.W, (p.H-2*pageMargin)/d.H))
	}
	p := page
	if fit(page.Across()) > fit(page) {
		p = page.Across()
	}
	s := fit(p)
	return p, leaf{d, s, (p.W - s*d.W) / 2, p.H - pageMargin}
}

// draw draws page n of so many, in millimetres.
func (l *leaf) draw(ctx *canvas.Context, p Page, t Theme, n, of int) {
	if t.Name != PaperTheme.Name { // a dark sheet goes to the edge
		ctx.SetFillColor(t.Colour(Paper))
		ctx.DrawPath(0, 0, canvas.Rectangle(p.W, p.H))
	}
	ctx.SetView(canvas.Identity.Translate(l.x, l.topY-l.scale*l.d.H).Scale(l.scale, l.scale))
	(&brush{ctx: ctx, t: t, h: l.d.H}).draw(l.d)
	if of > 1 {
		ctx.SetView(canvas.Identity)
		foot := Text{At: Point{p.W - pageMargin, p.H - 0.4*pageMargin}, Str: strconv.Itoa(n), Size: 3.2, Role: Soft, Anchor: AtEnd}
		(&brush{ctx: ctx, t: t, h: p.H}).text(&foot)
	}
}

// PagePicture is page n of so many of a PDF in pixels, scale pixels a
// millimetre, on white: laid out and drawn as RenderPDF does.
func PagePicture(d *Drawing, page Page, t Theme, n, of int, scale float64) (*image.RGBA, error) {
	p, l := laid(d, page)
	w, h := math.Round(p.W*scale), math.Round(p.H*scale)
	if !(scale > 0) || !(w >= 1) || w*h > maxPixels {
		return nil, fmt.Errorf("page: expected a scale above 0 and at most %d pixels, got scale %v", maxPixels, scale)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	ras := rasterizer.FromImage(img, canvas.DPMM(scale), canvas.LinearColorSpace{})
	l.draw(canvas.NewContext(ras), p, t, n, of)
	ras.Close()
	return img, nil
}
