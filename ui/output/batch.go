package output

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"wakeline/storage"
	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
	"wakeline/ui/sheet/svg"
)

// Each calls do with setups, one after the other; it ends with do's first
// error, or when ctx does.
type Each func(ctx context.Context, do func(s *timeline.Setup) error) error

// Batch writes many setups into a folder, a file each, and contact sheets of
// them where the format is a picture.
type Batch struct {
	Order
	Folder string
	Names  Pattern
	Format string // one of Formats
	Title  string // of the contact sheets

	// Tell is told how many of all are written. It may be called on any
	// goroutine, but never by two at once. It may be nil.
	Tell func(done, of int)
}

// Written is what a batch has done.
type Written struct {
	Files   int     // setups written
	Pages   int     // contact sheets written
	Skipped []error // setups that couldn't be laid out, in their order
}

// item is a setup on its way to its file.
type item struct {
	at    int
	setup timeline.Setup
}

// page is a contact sheet that waits for its strips.
type page struct {
	strips []*sheet.Drawing
	names  []string
	left   int
}

// running is a batch at work.
type running struct {
	*Batch
	index *timeline.Index
	files []string // of the setups, then of the contact sheets
	n     int      // setups

	mu    sync.Mutex
	done  int
	out   Written
	bad   map[int]error
	pages map[int]*page
}

// Run writes every setup that each hands over. each is called twice and must
// hand over the same ones: first for the names, which must be safe and unique
// together. Setups are worked on by all cores, and only those being worked on,
// with the strips of unfinished contact sheets, are in memory. Each file is
// written beside its place and takes it when whole; files of the same names
// are replaced. When ctx ends, what is written stays, and its error is
// returned.
func (b *Batch) Run(ctx context.Context, index *timeline.Index, each Each) (Written, error) {
	if !slices.Contains(Formats, b.Format) {
		return Written{}, fmt.Errorf("expected one of %v, got %q", Formats, b.Format)
	}
	alone := *b
	alone.Mixes = nil // a mix is of several
	r := &running{Batch: &alone, index: index, bad: map[int]error{}, pages: map[int]*page{}}
	if err := r.name(ctx, each); err != nil || r.n == 0 {
		return Written{}, err
	}
	if err := os.MkdirAll(b.Folder, 0o755); err != nil {
		return Written{}, fmt.Errorf("expected a folder, or room for one: %w", err)
	}
	at := 0
	err := guard.Each(ctx, "The batch", func(ctx context.Context, hand func(item) error) error {
		return each(ctx, func(s *timeline.Setup) error {
			at++
			return hand(item{at - 1, *s})
		})
	}, func(_ context.Context, it item) error { return r.write(&it) })
	for i := range r.n {
		if bad := r.bad[i]; bad != nil {
			r.out.Skipped = append(r.out.Skipped, bad)
		}
	}
	return r.out, err
}

// Files are the names of the files that Run would write: of the setups, then of
// the contact sheets.
func (b *Batch) Files(ctx context.Context, each Each) ([]string, error) {
	r := &running{Batch: b}
	err := r.name(ctx, each)
	return r.files, err
}

// name makes the names of all files.
func (r *running) name(ctx context.Context, each Each) error {
	var setups []timeline.Setup // their names alone
	if err := each(ctx, func(s *timeline.Setup) error {
		setups = append(setups, timeline.Setup{Name: s.Name, Attacker: s.Attacker, Rival: s.Rival, Ender: s.Ender, Delay: s.Delay})
		return nil
	}); err != nil {
		return err
	}
	r.n = len(setups)
	names := make([]string, r.n)
	for i := range setups {
		var err error
		if names[i], err = r.Names.name(&setups[i], i+1, r.n); err != nil {
			return err
		}
	}
	pages := 0
	if r.pictures() {
		pages = r.pageCount()
	}
	r.files = fileNames(names, pages, r.Format)
	return nil
}

// pictures reports whether contact sheets are made.
func (b *Batch) pictures() bool { return b.Format == "png" || b.Format == "svg" }

func (r *running) pageCount() int { return (r.n + sheet.ContactPage - 1) / sheet.ContactPage }

// write writes one setup, and the contact sheet that it completes.
func (r *running) write(it *item) error {
	if it.at >= r.n {
		return errors.New("the setups changed while they were written")
	}
	plan, err := r.index.Compile(it.setup)
	if err == nil {
		err = r.Refuses(plan, r.Format)
	}
	if err != nil {
		return r.wrote(it.at, nil, err)
	}
	if err := r.put(r.files[it.at], func(w io.Writer) error { return r.Write(w, plan, r.Format) }); err != nil {
		return err
	}
	if !r.pictures() {
		return r.wrote(it.at, nil, nil)
	}
	small := r.Order
	small.Shape = nil
	small.W, small.H, small.Neighbours, small.Stage = sheet.ContactW, sheet.ContactH, Strip, false
	return r.wrote(it.at, small.Drawing(plan), nil)
}

// put writes one file of the folder, whole or not at all.
func (r *running) put(name string, fill func(w io.Writer) error) error {
	return storage.Replace(filepath.Join(r.Folder, name), fill)
}

// wrote notes that setup at is done: drawn small, or skipped.
func (r *running) wrote(at int, small *sheet.Drawing, skipped error) error {
	full, n := r.note(at, small, skipped)
	if full == nil || len(full.strips) == 0 {
		return nil
	}
	d := sheet.DrawContact(full.strips, full.names, r.Title, n+1, r.pageCount())
	err := r.put(r.files[r.n+n], func(w io.Writer) error {
		if r.Format == "svg" {
			return svg.Render(w, d, r.Theme)
		}
		return raster.PNG(w, d, r.Theme, 1)
	})
	if err == nil {
		r.mu.Lock()
		r.out.Pages++
		r.mu.Unlock()
	}
	return err
}

// note counts setup at and returns its contact sheet, where it completes it.
func (r *running) note(at int, small *sheet.Drawing, skipped error) (full *page, n int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.done++; skipped != nil {
		r.bad[at] = skipped
	} else {
		r.out.Files++
	}
	if r.Tell != nil {
		r.Tell(r.done, r.n)
	}
	if !r.pictures() {
		return nil, 0
	}
	n = at / sheet.ContactPage
	p := r.pages[n]
	if p == nil {
		in := min(sheet.ContactPage, r.n-n*sheet.ContactPage)
		p = &page{make([]*sheet.Drawing, in), make([]string, in), in}
		r.pages[n] = p
	}
	p.strips[at%sheet.ContactPage], p.names[at%sheet.ContactPage] = small, r.files[at]
	if p.left--; p.left > 0 {
		return nil, 0
	}
	delete(r.pages, n)
	for i := len(p.strips) - 1; i >= 0; i-- { // what was skipped leaves no gap
		if p.strips[i] == nil {
			p.strips, p.names = slices.Delete(p.strips, i, i+1), slices.Delete(p.names, i, i+1)
		}
	}
	return p, n
}
