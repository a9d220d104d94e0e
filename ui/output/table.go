package output

import (
	"strconv"
	"strings"

	"wakeline/storage/table"
	"wakeline/ui/sheet"
)

// TableFormats are the endings that a table of a page can be written in.
var TableFormats = []string{"png", "svg", "pdf", "csv"}

// MakeTable makes a table in one of TableFormats. In a csv each cell has its
// lines, apart by semicolons.
func (o *Order) MakeTable(t *sheet.Table, format string) (*Made, error) {
	if format != "csv" {
		return ofTable(o, t, format)
	}
	var head []string
	for i := range t.Columns {
		head = append(head, t.Columns[i].Head)
	}
	var rows []table.MatrixRow
	for i := range t.Rows {
		var cells []string
		for k := range t.Rows[i].Cells {
			text := strings.Join(t.Rows[i].Cells[k].Lines, "; ")
			if _, err := strconv.Atoi(text); err != nil && k > 0 {
				text = table.Guarded(text)
			}
			cells = append(cells, text)
		}
		rows = append(rows, table.MatrixRow{Name: cells[0], Cells: cells[1:]})
	}
	var b strings.Builder
	err := table.WriteMatrix(&b, head, rows)
	return written(format, b.String()), err
}
