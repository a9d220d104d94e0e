// Package intake shows a table before it is imported: its first rows as they
// will be taken, what of it was not understood, and what was taken for something
// else than its letters say, cell by cell. Asking for the file, and taking it in,
// are left to the window.
package intake

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
	_ grid.Cells  = (*Preview)(nil)
	_ grid.Events = (*Preview)(nil)
)

// Host is the window, as far as a preview knows it.
type Host interface {
	paint.KeyTaker
	Context() context.Context
	Run(do func())
	Later(do func())
}

// The tabs of a preview.
const (
	rowsTab = iota
	unreadTab
	notesTab
)

// Preview shows the first rows of a table as they will be taken, the bad ones
// with their reason, and two lists: the cells that were not understood, and the
// notes.
type Preview struct {
	Hide  func() // the dialog
	Box   *fyne.Container
	Grid  *grid.Grid
	Count *widget.Label // how much there is to import, or why nothing
	Why   *widget.Label // what is to be said of the row under the cursor
	Tabs  *paint.Tabs
	Shown model.Preview

	host   Host
	data   *timeline.Project
	lists  [2]*findings
	serial int
	cancel context.CancelFunc
}

// New returns a preview of what would be imported into a project with those data.
func New(host Host, data *timeline.Project) *Preview {
	p := &Preview{host: host, data: data, Count: widget.NewLabel(""), Why: widget.NewLabel(""), Tabs: paint.NewTabs()}
	p.Tabs.OnKey = func(ev *fyne.KeyEvent) { host.PageKey(ev) }
	p.Grid = grid.New(p, p)
	p.Why.Truncation, p.Why.Importance = fyne.TextTruncateEllipsis, widget.LowImportance
	p.Tabs.Add("Rows", clipped(p.Grid))
	for i, last := range []string{"Expected", "Taken as"} {
		p.lists[i] = newFindings(p, last, i == 1)
		p.Tabs.Add("", clipped(p.lists[i].grid))
	}
	p.Tabs.OnShow = func(int) { p.Moved() }
	p.name()
	p.Box = container.NewBorder(p.Count, p.Why, nil, nil, p.Tabs.Box)
	return p
}

// clipped keeps a grid's painting inside its room.
func clipped(g *grid.Grid) fyne.CanvasObject {
	clip := container.NewClip(g)
	clip.ExtendBaseWidget(clip) // without which Fyne 2.7.1 lays nothing out before it paints
	return clip
}

// Show reads the table of in behind the window and shows what came of it. A
// reading that runs, or waits, is given up.
func (p *Preview) Show(in *model.Import) {
	p.Stop()
	ctx, cancel := context.WithCancel(p.host.Context())
	p.cancel = cancel
	serial, mine := p.serial, in.Copy()
	p.Count.SetText("Reading…")
	last := func() bool { return p.serial == serial && ctx.Err() == nil }
	read := func() {
		p.host.Run(func() {
			got := mine.Preview(ctx, p.data)
			p.host.Later(func() {
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
		p.host.Later(func() {
			if last() {
				read()
			}
		})
	})
}

// largeTable is from how many bytes on a table is read when the typing pauses,
// and not at each key.
const largeTable = 256 << 10

// Stop gives up a reading that runs.
func (p *Preview) Stop() {
	p.serial++
	if p.cancel != nil {
		p.cancel()
	}
}

func (p *Preview) take(got model.Preview) {
	p.Shown = got
	switch {
	case got.Err != nil:
		p.Count.SetText(paint.Shortened("Nothing can be imported: "+got.Err.Error(), "\n", paint.ShownMost))
	case got.Bad == 0:
		p.Count.SetText(model.CountOf(got.Good, "row") + " to import")
	default:
		p.Count.SetText(fmt.Sprintf("%s to import, %d bad", model.CountOf(got.Good, "row"), got.Bad))
	}
	p.Count.Wrapping = fyne.TextWrapOff
	if got.Err != nil {
		p.Count.Wrapping = fyne.TextWrapWord
	}
	p.Count.Refresh()
	p.lists[0].show(got.Unread)
	p.lists[1].show(got.Notes)
	p.name()
	p.Grid.Fit()
	at := grid.Place{}
	if i := slices.IndexFunc(got.Rows, func(r model.PreviewRow) bool { return r.Bad }); i >= 0 {
		at.Row, at.Col = i, max(got.Rows[i].At, 0)
	}
	p.Grid.Begin(at)
}

// name writes on the tabs how much is on them.
func (p *Preview) name() {
	p.Tabs.Row.Names = []string{"Rows", "Not understood: " + strconv.Itoa(len(p.Shown.Unread)), "Notes: " + strconv.Itoa(len(p.Shown.Notes))}
	p.Tabs.Row.Refresh()
}

// Heads implements grid.Cells.
func (p *Preview) Heads() []string {
	out := make([]string, len(p.Shown.Columns))
	for i, name := range p.Shown.Columns {
		out[i] = model.Heading(name)
	}
	return out
}

// Len implements grid.Cells.
func (p *Preview) Len() int { return len(p.Shown.Rows) }

// Text implements grid.Cells.
func (p *Preview) Text(row, col int) string { return p.Shown.Rows[row].Cells[col] }

// Label implements grid.Cells: the line of the file, and whether it is bad.
func (p *Preview) Label(row int) string {
	r := &p.Shown.Rows[row]
	if r.Bad {
		return strconv.Itoa(r.Line) + " bad"
	}
	return strconv.Itoa(r.Line)
}

// Look implements grid.Cells.
func (p *Preview) Look(row, col int) grid.Look {
	r := &p.Shown.Rows[row]
	switch {
	case r.Wrong[col] && r.Cells[col] == "":
		return grid.Needs
	case r.Wrong[col]:
		return grid.Wrong
	case r.Bad:
		return grid.Soft
	case r.Noted[col]:
		return grid.Found
	}
	return grid.Plain
}

// Moved implements grid.Events: it says what is wrong with the row, or what a
// note says of it.
func (p *Preview) Moved() {
	why := ""
	switch at := p.Grid.At(); {
	case p.Tabs.At > rowsTab:
		why = p.lists[p.Tabs.At-unreadTab].why()
	case at.Row < len(p.Shown.Rows):
		why = p.Shown.Rows[at.Row].Why
	}
	p.Why.SetText(why)
}

// Escape implements grid.Events.
func (p *Preview) Escape() { p.Hide() }

// Copy implements grid.Events.
func (p *Preview) Copy(c fyne.Clipboard) { copyFrom(p, p.Grid, c) }

// copyFrom copies the selected cells.
func copyFrom(cells grid.Cells, g *grid.Grid, c fyne.Clipboard) {
	a, b := g.Selection()
	var rows [][]string
	for row := a.Row; row <= b.Row && row < cells.Len(); row++ {
		var texts []string
		for col := max(a.Col, 0); col <= b.Col; col++ {
			texts = append(texts, cells.Text(row, col))
		}
		rows = append(rows, texts)
	}
	c.SetContent(grid.FormatBlock(rows))
}
