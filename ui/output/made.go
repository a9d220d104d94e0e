package output

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/handout"
	"wakeline/timeline/value"
	"wakeline/ui/sheet"
	"wakeline/ui/sheet/pdf"
	"wakeline/ui/sheet/raster"
	"wakeline/ui/sheet/svg"
)

// Made is a file that is not written yet: what it will show, or say. Its
// pictures and its text are looked at before they are written.
type Made struct {
	Format string
	Text   string           // of md, csv and vtt
	Sheets []*sheet.Drawing // the picture; the pages of pdf; the pictures of gif
	Times  []int            // of gif: how long each is shown, in hundredths of a second

	Skipped []error // of many: the setups that are left out, as they can't be judged

	order       Order
	title, desc string // of pdf and moving pictures

	film *film // of a moving picture but a gif
	reel *raster.Reel
}

// drawn is a file of pictures.
func (o *Order) drawn(format string, sheets ...*sheet.Drawing) *Made {
	return &Made{Format: format, Sheets: sheets, order: *o}
}

// written is a file of text.
func written(format, text string) *Made { return &Made{Format: format, Text: text} }

// Of makes a file of one drawing that is there already: as png, svg or pdf.
func (o *Order) Of(d *sheet.Drawing, format string) (*Made, error) {
	m := o.drawn(format, d)
	switch format {
	case "png", "svg":
		if o.Clear {
			m.Sheets[0] = d.Clear()
		}
	case "pdf":
		m.title, m.desc = d.Title, d.Desc
	default:
		return nil, fmt.Errorf("expected png, svg or pdf, got %q", format)
	}
	return m, nil
}

// MakeGrid makes a match-up, as png, svg or pdf, or as a table: csv.
func (o *Order) MakeGrid(g *compare.Grid, attacker, rival, format string) (*Made, error) {
	switch format {
	case "csv":
		var b strings.Builder
		err := table.WriteGrid(&b, g)
		return written(format, b.String()), err
	case "pdf":
		width, high := pageFor(o, sheet.GridWidth(g, tableUpright))
		sheets, err := sheet.DrawGridOn(g, attacker, rival, width, high)
		if err != nil {
			return nil, err
		}
		return pages(o, sheets), nil
	}
	d, err := sheet.DrawGrid(g, attacker, rival, o.W)
	if err != nil {
		return nil, err
	}
	return o.Of(d, format)
}

// pagePixels is how many pixels a millimetre of a page has that is looked at.
const pagePixels = 6

// Picture is picture i of the file, from 0, in pixels. Those of png and gif
// are the file's own; svg and pdf have none, and are shown by the same shapes.
func (m *Made) Picture(i int) (image.Image, error) {
	if i < 0 || i >= len(m.Sheets) {
		return nil, errors.New("expected the place of a picture")
	}
	if m.film != nil {
		return m.picture(i)
	}
	switch m.Format {
	case "gif":
		return raster.GIFPicture(m.Sheets[i], m.order.Theme, m.order.Scale)
	case "pdf":
		return pdf.Picture(m.Sheets[i], m.order.Page, m.order.Theme, i+1, len(m.Sheets), pagePixels)
	}
	return raster.Picture(m.Sheets[i], m.order.Theme, m.order.Scale)
}

// Write writes the file.
func (m *Made) Write(w io.Writer) error { return m.WriteBy(w, func(int) error { return nil }) }

// WriteBy is Write, and calls step before each page or picture of several,
// with its place; step's error ends it.
func (m *Made) WriteBy(w io.Writer, step func(i int) error) error {
	o := &m.order
	switch m.Format {
	case "png":
		return raster.PNG(w, m.Sheets[0], o.Theme, o.Scale)
	case "svg":
		return svg.Render(w, m.Sheets[0], o.Theme)
	case "pdf":
		return pdf.Render(w, m.Sheets, o.Page, o.Theme, m.title, m.desc, step)
	case "apng":
		return m.apng(w, step)
	case "mp4", "webm":
		return m.video(w, step)
	case "gif":
		return raster.GIF(w, m.Sheets, m.Times, o.Theme, o.Scale, strings.TrimSpace(m.title+"\n"+m.desc), step)
	}
	_, err := io.WriteString(w, m.Text)
	return err
}

// MakeCheckList makes a list of what to test in the game, of all setups that each
// hands over; those that can't be judged are left out.
func MakeCheckList(ctx context.Context, index *timeline.Index, each Each, title string) (*Made, error) {
	var b strings.Builder
	skipped, err := WriteCheckList(ctx, &b, index, each, title)
	m := written("md", b.String())
	m.Skipped = skipped
	return m, err
}

// WriteCheckList is MakeCheckList written at once, one setup at a time; it
// returns why those left out are.
func WriteCheckList(ctx context.Context, w io.Writer, index *timeline.Index, each Each, title string) (skipped []error, err error) {
	if _, err := io.WriteString(w, handout.CheckListHead(title)); err != nil {
		return nil, err
	}
	err = each(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		if err != nil {
			skipped = append(skipped, err)
			return nil
		}
		_, err = io.WriteString(w, handout.CheckList(plan))
		return err
	})
	return skipped, err
}

// MakeReplies makes the table of the replies of all setups that each hands
// over; those that can't be judged are left out.
func MakeReplies(ctx context.Context, index *timeline.Index, each Each) (*Made, error) {
	var b strings.Builder
	skipped, err := WriteReplies(ctx, &b, index, each)
	m := written("csv", b.String())
	m.Skipped = skipped
	return m, err
}

// WriteReplies is MakeReplies written at once, one setup at a time; it returns
// why those left out are.
func WriteReplies(ctx context.Context, w io.Writer, index *timeline.Index, each Each) (skipped []error, err error) {
	t, err := table.NewReplies(w)
	if err != nil {
		return nil, err
	}
	err = each(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		if err != nil {
			skipped = append(skipped, err)
			return nil
		}
		m := plan.Meetings(s.Delay, nil)
		v := m.Verdict()
		return t.Add(&v, value.OfPlan(plan).Rises)
	})
	return skipped, err
}
