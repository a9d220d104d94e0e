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
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

var (
	_ grid.Cells  = (*importPreview)(nil)
	_ grid.Events = (*importPreview)(nil)
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

	grid  *grid.Grid
	count *widget.Label
	why   *widget.Label
	box   *fyne.Container
}

func newImportPreview(w *window, rules timeline.Ruleset) *importPreview {
	p := &importPreview{w: w, rules: rules, count: widget.NewLabel(""), why: widget.NewLabel("")}
	p.grid = grid.New(p, p)
	p.why.Truncation, p.why.Importance = fyne.TextTruncateEllipsis, widget.LowImportance
	clip := container.NewClip(p.grid)
	clip.ExtendBaseWidget(clip) // without which Fyne 2.7.1 lays nothing out before it paints
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
	p.grid.Fit()
	at := grid.Place{}
	if i := slices.IndexFunc(got.Rows, func(r model.PreviewRow) bool { return r.Why != "" }); i >= 0 {
		at.Row, at.Col = i, max(got.Rows[i].At, 0)
	}
	p.grid.Begin(at)
}

// Heads implements grid.Cells.
func (p *importPreview) Heads() []string {
	out := make([]string, len(p.shown.Columns))
	for i, name := range p.shown.Columns {
		out[i] = model.Heading(name)
	}
	return out
}

// Len implements grid.Cells.
func (p *importPreview) Len() int { return len(p.shown.Rows) }

// Text implements grid.Cells.
func (p *importPreview) Text(row, col int) string { return p.shown.Rows[row].Cells[col] }

// Label implements grid.Cells: the line of the file, and whether it is bad.
func (p *importPreview) Label(row int) string {
	r := &p.shown.Rows[row]
	if r.Why != "" {
		return strconv.Itoa(r.Line) + " bad"
	}
	return strconv.Itoa(r.Line)
}

// Look implements grid.Cells.
func (p *importPreview) Look(row, col int) grid.Look {
	r := &p.shown.Rows[row]
	switch {
	case r.Why != "" && r.At == col && r.Cells[col] == "":
		return grid.Needs
	case r.Why != "" && r.At == col:
		return grid.Wrong
	case r.Why != "":
		return grid.Soft
	}
	return grid.Plain
}

// Moved implements grid.Events: it says what is wrong with the row.
func (p *importPreview) Moved() {
	why := ""
	if at := p.grid.At().Row; at < len(p.shown.Rows) {
		why = p.shown.Rows[at].Why
	}
	p.why.SetText(why)
}

// Escape implements grid.Events.
func (p *importPreview) Escape() { p.hide() }

// Copy implements grid.Events.
func (p *importPreview) Copy(c fyne.Clipboard) {
	a, b := p.grid.Selection()
	var rows [][]string
	for row := a.Row; row <= b.Row && row < p.Len(); row++ {
		rows = append(rows, p.shown.Rows[row].Cells[a.Col:b.Col+1])
	}
	c.SetContent(grid.FormatBlock(rows))
}
