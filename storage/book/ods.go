package book

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// document is an .ods while it is read.
type document struct {
	sheets []Sheet
	cells  int

	line, column int      // of what comes next, from 0
	row          []string // as far as it is read
	times        int      // that the row stands there
	cell         struct {
		kind, value, date string
		times             int
		text              strings.Builder
		paragraphs        int
	}
	inCell, inText bool
	aside          int // depth of a comment
}

// readDocument reads the sheets of an .ods.
func (p parts) readDocument() ([]Sheet, error) {
	d := &document{}
	err := p.walk("content.xml", d.begin, func(s string) {
		if d.inText && d.aside == 0 {
			d.cell.text.WriteString(s)
		}
	}, d.end)
	return d.sheets, err
}

// repeated is how many times a cell or row stands there.
func repeated(e xml.StartElement, name string) int {
	n, err := strconv.Atoi(attr(e, name))
	if err != nil || n < 1 {
		return 1
	}
	return min(n, 1<<24)
}

func (d *document) begin(e xml.StartElement) error {
	switch e.Name.Local {
	case "table":
		if len(d.sheets) == maxSheets {
			return fmt.Errorf("expected at most %d sheets, got more", maxSheets)
		}
		d.sheets = append(d.sheets, Sheet{Name: attr(e, "name")})
		d.line = 0
	case "table-row":
		d.row, d.column, d.times = nil, 0, repeated(e, "number-rows-repeated")
	case "table-cell", "covered-table-cell":
		d.inCell = true
		c := &d.cell
		c.kind, c.value, c.date, c.paragraphs = attr(e, "value-type"), attr(e, "value"), attr(e, "date-value"), 0
		if c.kind == "boolean" {
			c.value = attr(e, "boolean-value")
		}
		c.times = repeated(e, "number-columns-repeated")
		c.text.Reset()
	case "annotation":
		d.aside++
	case "p":
		if d.inCell && d.aside == 0 {
			if d.cell.paragraphs++; d.cell.paragraphs > 1 {
				d.cell.text.WriteByte('\n')
			}
			d.inText = true
		}
	case "s":
		if d.inText && d.aside == 0 {
			d.cell.text.WriteString(strings.Repeat(" ", min(repeated(e, "c"), 100)))
		}
	case "tab":
		if d.inText && d.aside == 0 {
			d.cell.text.WriteByte(' ')
		}
	}
	return nil
}

func (d *document) end(name string) error {
	switch name {
	case "annotation":
		d.aside = max(d.aside-1, 0)
	case "p":
		d.inText = d.inText && d.aside > 0
	case "table-cell", "covered-table-cell":
		d.inCell = false
		return d.endCell()
	case "table-row":
		return d.endRow()
	}
	return nil
}

// endCell puts the cell into the row; cells without a text alone count.
func (d *document) endCell() error {
	text := d.cell.text.String()
	switch d.cell.kind {
	case "float", "currency":
		text = plain(d.cell.value, false)
	case "percentage":
		text = plain(d.cell.value, true)
	case "date":
		text = d.cell.date
	case "boolean":
		text = map[string]string{"true": "yes", "false": "no"}[d.cell.value]
	}
	if text == "" {
		d.column = min(d.column+d.cell.times, 1<<24)
		return nil
	}
	if d.column+d.cell.times > MaxFields {
		return fmt.Errorf("row %d: expected at most %d cells in a row, got more", d.line+1, MaxFields)
	}
	for range d.cell.times {
		for len(d.row) < d.column {
			d.row = append(d.row, "")
		}
		d.row = append(d.row, text)
		d.column++
	}
	return nil
}

// endRow puts the row into the sheet, as often as it stands there.
func (d *document) endRow() error {
	if len(d.sheets) == 0 {
		return fmt.Errorf("expected rows in a sheet")
	}
	if len(d.row) == 0 {
		d.line += d.times
		return nil
	}
	to := filling{&d.sheets[len(d.sheets)-1], &d.cells}
	for range d.times {
		d.line++
		if err := to.row(d.line); err != nil {
			return err
		}
		for i, text := range d.row {
			if err := to.put(i, text); err != nil {
				return err
			}
		}
	}
	return nil
}
