// Package pdf writes drawings as the pages of a PDF, and makes pictures of such
// pages.
package pdf

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"wakeline/assets"
	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
	"wakeline/ui/sheet/raster"
)

// made is the date that every document bears, as the format's writer wants one:
// the same drawings give the same bytes.
var made = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// family names the fonts in a document.
const family = "NotoSans"

// Render writes the drawings as a PDF, a page each: vectors, texts as text, the
// fonts in it. Every drawing stands on the page upright or on its side,
// whichever makes it larger, at its top and at most one unit to half a
// millimetre; of several each bears its number, and has a bookmark with its
// title. Links lead to their pages. The document bears the title and desc. The
// same drawings give the same bytes. step is called before each page is drawn,
// with its place; its error ends it.
func Render(w io.Writer, drawings []*sheet.Drawing, page sheet.Page, t sheet.Theme, title, desc string, step func(i int) error) error {
	if len(drawings) == 0 {
		return errors.New("pdf: expected a drawing, got none")
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: page.W, Ht: page.H}})
	doc.SetCatalogSort(true)
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetLang("en")
	doc.SetTitle(surrogates(title), true)
	doc.SetSubject(surrogates(desc), true)
	doc.SetCreator("Wakeline", true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(family, "", assets.NotoSans)
	doc.AddUTF8FontFromBytes(family, "B", assets.NotoSansBold)
	doc.SetFont(family, "", 10)
	var highs []float64 // of the pages
	for i, d := range drawings {
		if err := step(i); err != nil {
			return err
		}
		l := laid(d, page)
		doc.AddPageFormat("P", fpdf.SizeType{Wd: l.page.W, Ht: l.page.H})
		highs = append(highs, l.page.H)
		s := &surface{doc: doc}
		l.draw(t, i+1, len(drawings), func(x, y, scale float64) brush.Surface {
			s.x, s.y, s.scale = x, y, scale
			return s
		})
		l.links(doc, len(drawings))
	}
	if n := len(drawings); n > 1 {
		for i, d := range drawings {
			doc.SetPage(i + 1)
			doc.Bookmark(surrogates(d.Title), 0, highs[n-1]-highs[i]) // to the page's top: it is counted from the last page's
		}
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// leaf is a page of a document: its drawing, how many millimetres a unit has,
// and where the drawing's top left corner stands.
type leaf struct {
	d           *sheet.Drawing
	page        sheet.Page // as it lies: upright, or on its side
	scale, x, y float64
}

// laid is d on its page.
func laid(d *sheet.Drawing, page sheet.Page) leaf {
	const largest, free = 0.5, 2 * sheet.PageMargin
	fit := func(p sheet.Page) float64 {
		return math.Min(largest, math.Min((p.W-free)/d.W, (p.H-free)/d.H))
	}
	p := page
	if fit(page.Across()) > fit(page) {
		p = page.Across()
	}
	s := fit(p)
	return leaf{d, p, s, (p.W - s*d.W) / 2, sheet.PageMargin}
}

// draw draws page n of so many. at is the surface with 0, 0 at that place, and so
// many millimetres to a unit.
func (l *leaf) draw(t sheet.Theme, n, of int, at func(x, y, scale float64) brush.Surface) {
	if t.Name != sheet.PaperTheme.Name { // a dark sheet goes to the edge
		at(0, 0, 1).Rects([]brush.Rect{{Max: sheet.Point{X: l.page.W, Y: l.page.H}}}, t.Colour(sheet.Paper))
	}
	brush.Draw(l.d, t, at(l.x, l.y, l.scale))
	if of > 1 {
		foot := sheet.Text{At: sheet.Point{X: l.page.W - sheet.PageMargin, Y: l.page.H - 0.4*sheet.PageMargin}, Str: strconv.Itoa(n), Size: 3.2, Role: sheet.Soft, Anchor: sheet.AtEnd}
		brush.Shapes([]sheet.Shape{foot}, t, at(0, 0, 1), 0)
	}
}

// links makes the drawing's links lead to their pages, of so many.
func (l *leaf) links(doc *fpdf.Fpdf, of int) {
	for _, k := range l.d.Links {
		if k.Page >= 1 && k.Page <= of {
			to := doc.AddLink()
			doc.SetLink(to, 0, k.Page)
			doc.Link(l.x+k.Min.X*l.scale, l.y+k.Min.Y*l.scale, (k.Max.X-k.Min.X)*l.scale, (k.Max.Y-k.Min.Y)*l.scale, to)
		}
	}
}

// Picture is page n of so many of a document in pixels, scale pixels a
// millimetre, on white: laid out and drawn as Render does.
func Picture(d *sheet.Drawing, page sheet.Page, t sheet.Theme, n, of int, scale float64) (*image.RGBA, error) {
	l := laid(d, page)
	c, err := raster.NewCanvas(l.page.W, l.page.H, scale, color.NRGBA{255, 255, 255, 255})
	if err != nil {
		return nil, fmt.Errorf("page: %w", err)
	}
	l.draw(t, n, of, func(x, y, scale float64) brush.Surface { return c.Part(x, y, scale) })
	return c.Image, nil
}
