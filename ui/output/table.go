package output

import (
	"io"
	"strconv"
	"strings"

	"wakeline/storage/table"
	"wakeline/ui/sheet"
)

// TableFormats are the endings that what is told in a table can be written in.
var TableFormats = []string{"png", "svg", "pdf", "csv", "json"}

// tabled makes a table in one of TableFormats; toJSON writes what it tells as
// json. In a csv each cell has its lines, apart by semicolons, and where rows
// have sections these stand in a column of their own.
func tabled(o *Order, t *sheet.Table, toJSON func(to io.Writer) error, format string) (*Made, error) {
	var b strings.Builder
	var err error
	switch format {
	case "csv":
		head, rows := matrix(t)
		err = table.WriteMatrix(&b, head, rows)
	case "json":
		err = toJSON(&b)
	default:
		return ofTable(o, t, format)
	}
	return written(format, b.String()), err
}

// matrix is a table as a csv holds it, guarded but for the names of its rows.
func matrix(t *sheet.Table) (head []string, rows []table.MatrixRow) {
	sections := false
	for i := range t.Rows {
		sections = sections || t.Rows[i].Section != ""
	}
	if sections {
		head = append(head, "Section")
	}
	for i := range t.Columns {
		head = append(head, t.Columns[i].Head)
	}
	for i := range t.Rows {
		var cells []string
		if sections {
			cells = append(cells, t.Rows[i].Section)
		}
		for k := range t.Rows[i].Cells {
			text := t.Rows[i].Cells[k].Told
			if text == "" {
				text = strings.Join(t.Rows[i].Cells[k].Lines, "; ")
			}
			if _, err := strconv.Atoi(text); err != nil && len(cells) > 0 {
				text = table.Guarded(text)
			}
			cells = append(cells, text)
		}
		rows = append(rows, table.MatrixRow{Name: cells[0], Cells: cells[1:]})
	}
	return head, rows
}
