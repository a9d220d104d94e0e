package page

import (
	"wakeline/ui/output"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Copied is a page of which a picture or a text can be copied.
type Copied interface {
	Picture() *output.Made // nil: there is none
	Text() string          // empty: there is none
}

// copyScale is how many pixels a unit has in a picture that is copied.
const copyScale = 2

// Picture is a drawing as a picture, in the window's theme.
func Picture(d *sheet.Drawing) *output.Made {
	o := output.Standard()
	o.Theme, o.Scale = paint.Colours().Theme, copyScale
	m, err := o.Of(d, "png")
	if err != nil {
		return nil
	}
	return m
}
