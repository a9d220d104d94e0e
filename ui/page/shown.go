package page

import (
	"context"

	"wakeline/ui/output"
)

// Shown is what a page shows, as a file to take along is made of it.
type Shown struct {
	Kind output.Kind
	// Make makes it in one of the kind's formats. It is called behind the
	// window, and changes nothing that the page shows.
	Make func(ctx context.Context, o *output.Order, format string) (*output.Made, error)
}

// Exported is a page of which what it shows can be exported.
type Exported interface {
	Shown() *Shown // nil: it shows nothing
}

// ShownBy is what p shows, where that can be exported; else nil.
func ShownBy(p Page) *Shown {
	if e, ok := p.(Exported); ok {
		return e.Shown()
	}
	return nil
}
