package find

import (
	"context"

	"wakeline/ui/output"
	"wakeline/ui/page"
)

var _ page.Exported = (*Page)(nil)

// Shown is what was found, as the page shows it: the answers, or the table of
// enders.
func (f *Page) Shown() *page.Shown {
	answers, enders := f.told, f.toldEnders
	switch {
	case f.tabs.At == 0 && answers != nil:
		return &page.Shown{Kind: output.Found, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
			return o.MakeFound(answers, format)
		}}
	case f.tabs.At == 1 && enders != nil:
		return &page.Shown{Kind: output.Enders, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
			return o.MakeEnders(enders, format)
		}}
	}
	return nil
}
