package compare

import (
	"context"
	"sync"

	"wakeline/storage"
	"wakeline/timeline/patch"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
)

// Shown is what changed, where revisions were compared.
func (c *Page) Shown() *page.Shown {
	if c.patch == nil {
		return nil
	}
	w := &weighed{of: c.patch, file: c.doc.File(), day: c.patch.Day}
	return &page.Shown{Kind: output.Compared, Make: func(ctx context.Context, o *output.Order, format string) (*output.Made, error) {
		d, err := w.get(ctx)
		if err != nil {
			return nil, err
		}
		return o.MakeCompared(d, w.of.From, w.of.To, format)
	}}
}

// weighed is what changed with its mixes, which are weighed when they are first
// asked for: the page may have been left before it had weighed them.
type weighed struct {
	of   *model.Patch
	file *storage.File

	mu  sync.Mutex
	day patch.Day
}

func (w *weighed) get(ctx context.Context) (*patch.Day, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.day.Weighed {
		return &w.day, nil
	}
	mixes, err := w.of.Weigh(ctx, w.file, func(int) {})
	if err != nil {
		return nil, err
	}
	w.day.Mixes, w.day.Weighed = mixes, true
	return &w.day, nil
}
