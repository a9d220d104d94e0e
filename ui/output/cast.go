package output

import (
	"slices"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/sheet"
)

// CastFormats are the endings that a cast can be written in.
var CastFormats = []string{"png", "svg", "pdf", "csv", "json"}

// MakeCast makes the setups of a fighter against every rival, in one of
// CastFormats. For json each cell has its sentence.
func (o *Order) MakeCast(c *compare.CastTable, format string) (*Made, error) {
	switch format {
	case "json":
		var b strings.Builder
		err := c.JSON(&b)
		return written(format, b.String()), err
	case "csv":
		head := append([]string{"setup", "rival", "holds_against"}, c.Rivals...)
		var rows []table.MatrixRow
		for i := range c.Rows {
			r := &c.Rows[i]
			cells := []string{table.Guarded(r.Rival), r.Covered()}
			for k := range r.Cells {
				cells = append(cells, r.Cells[k].Labelled())
			}
			rows = append(rows, table.MatrixRow{Name: r.Setup, Cells: cells})
		}
		var b strings.Builder
		err := table.WriteMatrix(&b, head, rows)
		return written(format, b.String()), err
	}
	return ofTable(o, castDrawing(c), format)
}

// ofTable makes a table as png, svg or pdf: on pages upright where its columns
// have room there, else on their sides.
func ofTable(o *Order, t *sheet.Table, format string) (*Made, error) {
	if format != "pdf" {
		sheets, err := sheet.DrawTable(t, o.W, 0)
		if err != nil {
			return nil, err
		}
		return o.Of(sheets[0], format)
	}
	width, high := pageFor(o, sheet.TableWidth(t, tableUpright))
	sheets, err := sheet.DrawTable(t, width, high)
	if err != nil {
		return nil, err
	}
	return pages(o, sheets), nil
}

// tableUpright and tableAcross are how many units a table has on a page, upright
// and on its side.
const tableUpright, tableAcross = 900, 1050

// pageFor is the size in units of the pages of a table that needs that width on
// one upright.
func pageFor(o *Order, need float64) (width, high float64) {
	if need <= tableUpright {
		return tableUpright, o.Page.Fit(tableUpright)
	}
	return tableAcross, o.Page.Across().Fit(tableAcross)
}

// pages is a PDF of one thing on several pages.
func pages(o *Order, sheets []*sheet.Drawing) *Made {
	m := o.drawn("pdf", sheets...)
	m.title, m.desc = strings.TrimSuffix(sheets[0].Title, ", page 1"), sheets[0].Desc
	return m
}

// castDrawing is a cast as it is drawn.
func castDrawing(c *compare.CastTable) *sheet.Table {
	t := &sheet.Table{Heading: c.Heading(), Answer: c.Answer(), Notes: c.About(), Fixed: 2,
		Columns: []sheet.TableColumn{{Head: "Setup", Least: 9, Most: 22}, {Head: "Holds against", Least: 4, Most: 5, AtEnd: true}},
		Key: append(sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited, timeline.JudgedUnsafe),
			sheet.TableKey{Sample: "no replies", Look: sheet.SoftCell, Means: "this rival has none, so nothing is known"},
			sheet.TableKey{Sample: "0 to 2", Means: "the delays that are good"},
			sheet.TableKey{Sample: "4 frames or slower", Means: "the startup of reversals that are met safely"},
			sheet.TableKey{Sample: "Setup", Look: sheet.UnderCell, Means: "in the minimum set"}),
	}
	for _, r := range c.Rivals {
		t.Columns = append(t.Columns, sheet.TableColumn{Head: r, Least: 5, Most: 11})
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		name := sheet.TableCell{Lines: []string{r.Setup}, Look: sheet.BoldCell}
		if slices.Contains(c.Fewest.Sets, i) {
			name.Look = sheet.UnderCell
		}
		row := sheet.TableRow{Cells: []sheet.TableCell{name, {Lines: []string{r.Covered()}}}}
		for k := range r.Cells {
			cell := &r.Cells[k]
			drawn := sheet.TableCell{Lines: strings.Split(cell.Short(), "; "), Marked: cell.Word != "" && !cell.Unknown()}
			if drawn.Mark = cell.Word.Judgement(); !drawn.Marked {
				drawn.Look = sheet.SoftCell
			}
			row.Cells = append(row.Cells, drawn)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
