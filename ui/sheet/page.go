package sheet

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
