package ui

import (
	"context"
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

var (
	_ dataCells  = (*importPreview)(nil)
	_ dataEvents = (*importPreview)(nil)
)

// importPreview shows the first rows of a move table as they will be taken,
// and the bad ones with their reason, before anything is.
type importPreview struct {
	w     *window
	rules timeline.Ruleset
	hide  func() // the dialog

	shown  model.Preview
	serial int
	cancel context.CancelFunc

	grid  *dataGrid
	count *widget.Label
	why   *widget.Label
	box   *fyne.Container
}

func newImportPreview(w *window, rules timeline.Ruleset) *importPreview {
	p := &importPreview{w: w, rules: rules, count: widget.NewLabel(""), why: widget.NewLabel("")}
	p.grid = newDataGrid(p, p)
	p.why.Truncation, p.why.Importance = fyne.TextTruncateEllipsis, widget.LowImportance
	clip := container.NewClip(p.grid)
	clip.ExtendBaseWidget(clip) // see newDataPage
	p.box = container.NewBorder(p.count, p.why, nil, nil, clip)
	return p
}

// show reads the table of in behind the window and shows what came of it. A
// reading that runs, or waits, is given up.
func (p *importPreview) show(in *model.Import) {
	p.stop()
	ctx, cancel := context.WithCancel(p.w.Context())
	p.cancel = cancel
	serial, mine := p.serial, in.Copy()
	p.count.SetText("Reading…")
	last := func() bool { return p.serial == serial && ctx.Err() == nil }
	read := func() {
		p.w.Run(func() {
			got := mine.Preview(ctx, p.rules)
			p.w.Later(func() {
				if last() {
					p.take(got)
				}
			})
		})
	}
	if in.Size < largeTable {
		read()
		return
	}
	guard.After(paint.TypingPause, "The import", func() {
		p.w.Later(func() {
			if last() {
				read()
			}
		})
	})
}

// largeTable is from how many bytes on a table is read when the typing pauses,
// and not at each key.
const largeTable = 256 << 10

// stop gives up a reading that runs.
func (p *importPreview) stop() {
	p.serial++
	if p.cancel != nil {
		p.cancel()
	}
}

func (p *importPreview) take(got model.Preview) {
	p.shown = got
	switch {
	case got.Err != nil:
		p.count.SetText(paint.Shortened("Nothing can be imported: "+got.Err.Error(), "\n", paint.ShownMost))
	case got.Bad == 0:
		p.count.SetText(model.CountOf(got.Good, "row") + " to import")
	default:
		p.count.SetText(fmt.Sprintf("%s to import, %d bad", model.CountOf(got.Good, "row"), got.Bad))
	}
	p.count.Wrapping = fyne.TextWrapOff
	if got.Err != nil {
		p.count.Wrapping = fyne.TextWrapWord
	}
	p.count.Refresh()
	p.grid.offset = fyne.Position{}
	p.grid.fit()
	at := dataPlace{}
	if i := slices.IndexFunc(got.Rows, func(r model.PreviewRow) bool { return r.Why != "" }); i >= 0 {
		at.row, at.col = i, max(got.Rows[i].At, 0)
	}
	p.grid.place(at)
}

// heads implements dataCells.
func (p *importPreview) heads() []string {
	out := make([]string, len(p.shown.Columns))
	for i, name := range p.shown.Columns {
		out[i] = model.Heading(name)
	}
	return out
}

// len implements dataCells.
func (p *importPreview) len() int { return len(p.shown.Rows) }

// text implements dataCells.
func (p *importPreview) text(row, col int) string { return p.shown.Rows[row].Cells[col] }

// label implements dataCells: the line of the file, and whether it is bad.
func (p *importPreview) label(row int) string {
	r := &p.shown.Rows[row]
	if r.Why != "" {
		return strconv.Itoa(r.Line) + " bad"
	}
	return strconv.Itoa(r.Line)
}

// look implements dataCells.
func (p *importPreview) look(row, col int) cellLook {
	r := &p.shown.Rows[row]
	switch {
	case r.Why != "" && r.At == col && r.Cells[col] == "":
		return needsCell
	case r.Why != "" && r.At == col:
		return wrongCell
	case r.Why != "":
		return softCell
	}
	return plainCell
}

// moved implements dataEvents: it says what is wrong with the row.
func (p *importPreview) moved() {
	why := ""
	if at := p.grid.cur.row; at < len(p.shown.Rows) {
		why = p.shown.Rows[at].Why
	}
	p.why.SetText(why)
}

func (p *importPreview) leave() bool { return true }
func (p *importPreview) edit(string) {}
func (p *importPreview) empty()      {}
func (p *importPreview) drop()       {}
func (p *importPreview) sort()       { p.grid.sorted = -1 }
func (p *importPreview) turn(int)    {}
func (p *importPreview) escape()     { p.hide() }
func (p *importPreview) help()       {}

// menu implements dataEvents: keys are enough for what can be done here.
func (p *importPreview) menu() []*fyne.MenuItem { return nil }

// paste implements dataEvents: there is nothing to paste into.
func (p *importPreview) paste(fyne.Clipboard) {}

// copy implements dataEvents.
func (p *importPreview) copy(c fyne.Clipboard) {
	a, b := p.grid.selection()
	var rows [][]string
	for row := a.row; row <= b.row && row < p.len(); row++ {
		rows = append(rows, p.shown.Rows[row].Cells[a.col:b.col+1])
	}
	c.SetContent(formatBlock(rows))
}
