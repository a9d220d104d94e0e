package output

import (
	"strings"
	"testing"

	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// TestGlossaryPages: as a PDF the glossary stands on upright pages, every term
// on one of them, and no page could take the first row of the next.
func TestGlossaryPages(t *testing.T) {
	for _, page := range []sheet.Page{sheet.A4, sheet.Letter} {
		o := Standard()
		o.Page = page
		m, err := o.MakeGlossary("pdf")
		if err != nil {
			t.Fatal(err)
		}
		all := ""
		for i, d := range m.Sheets {
			if d.H < page.Fit(d.W) || d.H > page.Fit(d.W)+0.01 {
				t.Errorf("%s, page %d: %.0f by %.0f units, want %.0f high", page.Name, i+1, d.W, d.H, page.Fit(d.W))
			}
			all += d.Desc
		}
		for _, g := range words.Glossary() {
			if strings.Count(all, g.Word+": "+g.Means) != 1 {
				t.Errorf("%s: %q is not on one page", page.Name, g.Word)
			}
		}
		if n := len(m.Sheets); n < 4 || n > 10 {
			t.Errorf("%s: %d pages", page.Name, n)
		}
	}
}
