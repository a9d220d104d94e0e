package intake

import (
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/ui/grid"
	"wakeline/ui/model"
)

var (
	_ grid.Cells  = (*findings)(nil)
	_ grid.Events = (*findings)(nil)
	_ grid.Opens  = (*findings)(nil)
	_ grid.Wide   = (*findings)(nil)
)

// findings is a list of cells of the table: what each says, and what was
// expected or taken.
type findings struct {
	p     *Preview
	heads []string
	list  []model.Finding
	grid  *grid.Grid
}

func newFindings(p *Preview, last string, why bool) *findings {
	f := &findings{p: p, heads: []string{"Column", "Says", last}}
	if why {
		f.heads = append(f.heads, "Why")
	}
	f.grid = grid.New(f, f)
	return f
}

func (f *findings) show(list []model.Finding) {
	f.list = list
	f.grid.Fit()
	f.grid.Begin(grid.Place{})
}

// Heads implements grid.Cells.
func (f *findings) Heads() []string { return f.heads }

// Len implements grid.Cells.
func (f *findings) Len() int { return len(f.list) }

// Text implements grid.Cells.
func (f *findings) Text(row, col int) string {
	l := &f.list[row]
	switch col {
	case 0:
		return l.Heading
	case 1:
		return l.Says
	case 2:
		return strings.TrimPrefix(l.Means, "expected ")
	}
	return l.Why
}

// Label implements grid.Cells: the line of the file.
func (f *findings) Label(row int) string { return f.list[row].Line }

// Look implements grid.Cells.
func (f *findings) Look(row, col int) grid.Look {
	if len(f.heads) == 3 && col == 1 {
		return grid.Wrong
	}
	return grid.Plain
}

// Wide implements grid.Wide.
func (f *findings) Wide(col int) bool { return col >= 2 }

// why is the finding under the cursor, whole.
func (f *findings) why() string {
	at := f.grid.At().Row
	if at >= len(f.list) {
		return ""
	}
	l := &f.list[at]
	out := "Line " + l.Line
	if l.Heading != "" {
		out += ", " + l.Heading
	}
	if l.Says != "" {
		out += ": " + l.Says
	}
	if l.Why == "" {
		return out + ": " + l.Means
	}
	return out + ": taken as " + l.Means + ": " + l.Why
}

// Moved implements grid.Events.
func (f *findings) Moved() { f.p.Moved() }

// Escape implements grid.Events.
func (f *findings) Escape() { f.p.Hide() }

// Copy implements grid.Events.
func (f *findings) Copy(c fyne.Clipboard) { copyFrom(f, f.grid, c) }

// Open implements grid.Opens: it shows the cell in its row.
func (f *findings) Open() {
	at := f.grid.At().Row
	if at >= len(f.list) || f.list[at].Row < 0 {
		return
	}
	f.p.Tabs.Show(rowsTab)
	f.p.Grid.Place(grid.Place{Row: f.list[at].Row, Col: max(f.list[at].Col, 0)})
}
