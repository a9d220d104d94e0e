package book

import (
	"encoding/xml"
	"fmt"
	"path"
	"strconv"
	"strings"
)

// format is how a cell's number is shown, as far as it changes what it says.
type format uint8

const (
	general format = iota
	percentFormat
	dateFormat
)

// workbook is an .xlsx while it is read.
type workbook struct {
	parts
	texts   []string // that cells share
	formats []format // by a cell's style
	cells   int
}

// readWorkbook reads the sheets of an .xlsx: the values that its cells had when
// it was saved.
func (p parts) readWorkbook() (out []Sheet, err error) {
	w := &workbook{parts: p}
	var names, ids []string
	targets := map[string]string{}
	none := func(string) {}
	ends := func(string) error { return nil }
	err = p.walk("xl/workbook.xml", func(e xml.StartElement) error {
		if e.Name.Local == "sheet" {
			names, ids = append(names, attr(e, "name")), append(ids, attr(e, "id"))
		}
		if len(names) > maxSheets {
			return fmt.Errorf("expected at most %d sheets, got more", maxSheets)
		}
		return nil
	}, none, ends)
	if err != nil {
		return nil, err
	}
	err = p.walk("xl/_rels/workbook.xml.rels", func(e xml.StartElement) error {
		if e.Name.Local == "Relationship" {
			target := attr(e, "Target")
			if !strings.HasPrefix(target, "/") {
				target = path.Join("xl", target)
			}
			targets[attr(e, "Id")] = strings.TrimPrefix(target, "/")
		}
		return nil
	}, none, ends)
	if err != nil {
		return nil, err
	}
	if p["xl/sharedstrings.xml"] != nil {
		if err := w.readTexts(); err != nil {
			return nil, err
		}
	}
	if p["xl/styles.xml"] != nil {
		if err := w.readFormats(); err != nil {
			return nil, err
		}
	}
	for i, name := range names {
		part := targets[ids[i]]
		if strings.Contains(part, "chartsheet") || strings.Contains(part, "dialogsheet") {
			continue
		}
		sheet, err := w.readSheet(part, name)
		if err != nil {
			return nil, err
		}
		out = append(out, sheet)
	}
	return out, nil
}

// readTexts reads the texts that cells share, without how they are said aloud.
func (w *workbook) readTexts() error {
	var text strings.Builder
	within, aloud := false, false
	return w.walk("xl/sharedStrings.xml", func(e xml.StartElement) error {
		switch e.Name.Local {
		case "t":
			within = true
		case "rPh":
			aloud = true
		}
		return nil
	}, func(s string) {
		if within && !aloud {
			text.WriteString(s)
		}
	}, func(name string) error {
		switch name {
		case "t":
			within = false
		case "rPh":
			aloud = false
		case "si":
			if w.texts = append(w.texts, text.String()); len(w.texts) > MaxCells {
				return fmt.Errorf("expected at most %d texts, got more", MaxCells)
			}
			text.Reset()
		}
		return nil
	})
}

// readFormats reads which styles of cells show a percent or a date.
func (w *workbook) readFormats() error {
	own := map[string]format{}
	inCells := false
	return w.walk("xl/styles.xml", func(e xml.StartElement) error {
		switch e.Name.Local {
		case "numFmt":
			own[attr(e, "numFmtId")] = formatOf(attr(e, "formatCode"))
		case "cellXfs":
			inCells = true
		case "xf":
			if inCells {
				id := attr(e, "numFmtId")
				f, ok := own[id]
				if n, _ := strconv.Atoi(id); !ok {
					switch {
					case n == 9 || n == 10:
						f = percentFormat
					case n >= 14 && n <= 22 || n >= 45 && n <= 47:
						f = dateFormat
					}
				}
				if w.formats = append(w.formats, f); len(w.formats) > 1<<20 {
					return fmt.Errorf("expected fewer styles")
				}
			}
		}
		return nil
	}, func(string) {}, func(name string) error {
		inCells = inCells && name != "cellXfs"
		return nil
	})
}

// formatOf reads a format's code, without what stands in it between quotes or
// brackets.
func formatOf(code string) format {
	quoted, bracket := false, false
	for _, r := range strings.ToLower(code) {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case r == '[' || r == ']':
			bracket = r == '['
		case bracket:
		case r == '%':
			return percentFormat
		case strings.ContainsRune("dmyhs", r):
			return dateFormat
		}
	}
	return general
}

// readSheet reads the cells of one sheet.
func (w *workbook) readSheet(part, name string) (out Sheet, err error) {
	out.Name = name
	to := filling{&out, &w.cells}
	var text strings.Builder
	var kind, style string
	within, aloud := false, false
	line, column := 0, 0
	err = w.walk(part, func(e xml.StartElement) (err error) {
		switch e.Name.Local {
		case "row":
			line++
			if at := attr(e, "r"); at != "" {
				if line, err = strconv.Atoi(at); err != nil || line < 1 || line > 1<<24 {
					return fmt.Errorf("expected the number of a row, got %q", at)
				}
			}
			column = 0
			return to.row(line)
		case "c":
			kind, style = attr(e, "t"), attr(e, "s")
			if at := attr(e, "r"); at != "" {
				column = columnOf(at)
			}
			text.Reset()
		case "v", "t":
			within = true
		case "rPh":
			aloud = true
		}
		return nil
	}, func(s string) {
		if within && !aloud {
			text.WriteString(s)
		}
	}, func(name string) error {
		switch name {
		case "v", "t":
			within = false
		case "rPh":
			aloud = false
		case "c":
			if len(out.Rows) == 0 {
				return fmt.Errorf("expected cells in rows")
			}
			value, err := w.value(kind, style, text.String())
			if err != nil {
				return err
			}
			column++
			return to.put(column-1, value)
		}
		return nil
	})
	return out, err
}

// value is what a cell shows.
func (w *workbook) value(kind, style, text string) (string, error) {
	switch kind {
	case "s":
		n, err := strconv.Atoi(text)
		if text == "" {
			return "", nil
		}
		if err != nil || n < 0 || n >= len(w.texts) {
			return "", fmt.Errorf("expected the number of a text up to %d, got %q", len(w.texts), text)
		}
		return w.texts[n], nil
	case "b":
		return map[string]string{"1": "yes", "0": "no"}[text], nil
	case "", "n":
		f := general
		if n, err := strconv.Atoi(style); err == nil && n >= 0 && n < len(w.formats) {
			f = w.formats[n]
		}
		if f == dateFormat && text != "" {
			return day(text), nil
		}
		return plain(text, f == percentFormat && text != ""), nil
	}
	return text, nil
}

// columnOf is the column of a cell's name, counted from 0: AB12 is 27. One past
// all limits is MaxFields.
func columnOf(cell string) int {
	n := 0
	for _, r := range cell {
		if r >= 'a' && r <= 'z' {
			r -= 'a' - 'A'
		}
		if r < 'A' || r > 'Z' {
			break
		}
		if n = 26*n + int(r-'A') + 1; n > MaxFields {
			return MaxFields
		}
	}
	return max(n-1, 0)
}
