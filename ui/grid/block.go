package grid

import (
	"fmt"
	"strings"

	"wakeline/storage/table"
)

// ParseBlock takes apart text that a spreadsheet has copied: rows end with a
// line break, cells with a tab. A cell that begins with a quote runs to its
// closing one, a doubled quote in it is one; where none closes it before the
// cell's end, the quote is a letter like others. A line break at the end
// begins no row, and short rows are filled up with empty cells.
func ParseBlock(text string) ([][]string, error) {
	if len(text) > table.MaxSize {
		return nil, fmt.Errorf("expected at most %d MiB of cells, got more", table.MaxSize>>20)
	}
	var out [][]string
	wide := 0
	for rest := text; rest != ""; {
		var row []string
		for more := true; more; {
			var cell string
			cell, rest, more = cutCell(rest)
			row = append(row, cell)
		}
		out = append(out, row)
		wide = max(wide, len(row))
		if len(out) > table.MaxRows || wide > table.MaxFields {
			return nil, fmt.Errorf("expected at most %d rows of %d cells, got more", table.MaxRows, table.MaxFields)
		}
	}
	for i := range out {
		for len(out[i]) < wide {
			out[i] = append(out[i], "")
		}
	}
	return out, nil
}

// cutCell takes the first cell off text, with the break behind it; more says
// that another cell of its row comes.
func cutCell(text string) (cell, rest string, more bool) {
	if strings.HasPrefix(text, `"`) {
		var b strings.Builder
		for at := 1; at < len(text); {
			n := strings.IndexByte(text[at:], '"')
			if n < 0 {
				break // nothing closes it
			}
			b.WriteString(text[at : at+n])
			at += n + 1
			if strings.HasPrefix(text[at:], `"`) {
				b.WriteByte('"')
				at++
				continue
			}
			if rest, more, ok := cutBreak(text[at:]); ok {
				return b.String(), rest, more
			}
			break // text follows the quote
		}
	}
	n := strings.IndexAny(text, "\t\r\n")
	if n < 0 {
		return text, "", false
	}
	rest, more, _ = cutBreak(text[n:])
	return text[:n], rest, more
}

// cutBreak takes a tab, a line break or nothing off what follows a cell.
func cutBreak(text string) (rest string, more, ok bool) {
	switch {
	case text == "":
		return "", false, true
	case text[0] == '\t':
		return text[1:], true, true
	case strings.HasPrefix(text, "\r\n"):
		return text[2:], false, true
	case text[0] == '\n' || text[0] == '\r':
		return text[1:], false, true
	}
	return text, false, false
}

// FormatBlock writes cells as a spreadsheet takes them; ParseBlock reads them
// back equal.
func FormatBlock(rows [][]string) string {
	var b strings.Builder
	for _, row := range rows {
		for i, cell := range row {
			if i > 0 {
				b.WriteByte('\t')
			}
			if strings.ContainsAny(cell, "\t\r\n") || strings.HasPrefix(cell, `"`) {
				cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
			}
			b.WriteString(cell)
		}
		b.WriteByte('\n')
	}
	return b.String()
}
