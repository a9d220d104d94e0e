package matchup

import (
	"fyne.io/fyne/v2"

	"wakeline/timeline/compare"
	"wakeline/ui/paint"
)

var _ fyne.Widget = (*matchupGrid)(nil)

// matchupGrid shows a match-up: a row a setup, a column a reply.
type matchupGrid struct {
	paint.NamedGrid

	wrapper paint.Wrapper
	grid    *compare.Grid
	rows    []int        // of the grid, in the order shown
	marked  map[int]bool // rows of the grid that stand out
	points  bool         // each cell says what it comes to, on a second line
}

// The measures of the grid, in units.
const (
	gridRow    = 26
	gridLine   = 17 // of a second line in a row
	gridHead   = 44
	gridCell   = 184
	gridName   = 150 // least width of the names' column
	gridNameTo = 300 // and the most
	gridPad    = paint.GridPad
)

func newGrid() *matchupGrid {
	g := &matchupGrid{wrapper: paint.Wrapper{Size: paint.TextSize}, grid: &compare.Grid{}}
	g.PaintHead, g.PaintNames, g.PaintCells = g.paintHead, g.paintNames, g.paintCells
	g.Begin(g, "The match-up", paint.GridMeasures{Row: gridRow, Head: gridHead, Cell: gridCell, Name: gridName, NameTo: gridNameTo, Corner: "Setup"})
	return g
}

// show shows other rows, and marks those of the grid that are in marked; points:
// with what each cell comes to.
func (g *matchupGrid) show(grid *compare.Grid, rows []int, marked map[int]bool, points bool) {
	g.grid, g.rows, g.marked, g.points = grid, rows, marked, points
	if g.Measures.Row = gridRow; points {
		g.Measures.Row += gridLine
	}
	g.Lay(len(rows), len(grid.Replies))
}
