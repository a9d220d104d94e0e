package book

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// Limits of a spreadsheet, whose parts are packed: a small file may unpack to a
// very large one.
const (
	maxParts    = 5000      // in a file
	maxUnpacked = 256 << 20 // bytes of a part
	maxSheets   = 500
)

// isPacked and isOld report whether data begin as a spreadsheet does: as a packed
// one, or as one of old programs, or locked with a password.
func isPacked(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }
func isOld(data []byte) bool    { return bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")) }

var errOld = errors.New("expected text, .xlsx or .ods, got a spreadsheet of an old kind, or with a password: save it as CSV")

// parts are the files in a spreadsheet.
type parts map[string]*zip.File

// readPacked reads a spreadsheet, .xlsx or .ods.
func readPacked(data []byte) ([]Sheet, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("expected a whole spreadsheet: %w", err)
	}
	if len(z.File) > maxParts {
		return nil, fmt.Errorf("expected at most %d parts in a spreadsheet, got %d", maxParts, len(z.File))
	}
	p := parts{}
	for _, f := range z.File {
		p[strings.ToLower(path.Clean(f.Name))] = f
	}
	var sheets []Sheet
	switch {
	case p["xl/workbook.xml"] != nil:
		sheets, err = p.readWorkbook()
	case p["content.xml"] != nil:
		sheets, err = p.readDocument()
	default:
		return nil, errors.New("expected a spreadsheet, .xlsx or .ods, got another packed file: save the table as CSV")
	}
	if err != nil {
		return nil, err
	}
	if len(sheets) == 1 {
		sheets[0].Name = ""
	}
	return sheets, nil
}

// walk goes through the elements of a part. begin and text are told of them; end
// too. Any of them may be nil.
func (p parts) walk(name string, begin func(e xml.StartElement) error, text func(s string), end func(name string) error) error {
	f := p[strings.ToLower(path.Clean(name))]
	if f == nil {
		return fmt.Errorf("expected the part %s in the spreadsheet, got none", name)
	}
	r, err := f.Open()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	defer r.Close()
	limited := &io.LimitedReader{R: r, N: maxUnpacked + 1}
	d := xml.NewDecoder(limited)
	d.CharsetReader = func(string, io.Reader) (io.Reader, error) { return nil, errors.New("expected UTF-8") }
	for {
		token, err := d.Token()
		if limited.N <= 0 {
			return fmt.Errorf("%s: expected at most %d MiB, got more", name, maxUnpacked>>20)
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		switch t := token.(type) {
		case xml.StartElement:
			err = begin(t)
		case xml.EndElement:
			err = end(t.Name.Local)
		case xml.CharData:
			text(string(t))
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
}

// attr is an attribute of an element by its name, empty where it has none.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// filling puts cells into a sheet, within the limits.
type filling struct {
	*Sheet
	cells *int // of the whole file
}

// row begins a row on that line.
func (f filling) row(line int) error {
	if n := len(f.Rows); n > 0 && f.Rows[n-1].Line >= line {
		return fmt.Errorf("expected rows in their order, got row %d after row %d", line, f.Rows[n-1].Line)
	}
	if len(f.Rows) > MaxRows+1000 {
		return fmt.Errorf("expected at most %d rows, got more", MaxRows)
	}
	f.Rows = append(f.Rows, Row{Line: line})
	return nil
}

// put puts a cell into the last row.
func (f filling) put(column int, text string) error {
	if text == "" {
		return nil
	}
	if column >= MaxFields {
		return fmt.Errorf("row %d: expected at most %d cells in a row, got more", f.Rows[len(f.Rows)-1].Line, MaxFields)
	}
	row := &f.Rows[len(f.Rows)-1]
	for len(row.Cells) <= column {
		if *f.cells++; *f.cells > MaxCells {
			return fmt.Errorf("expected at most %d cells, got more", MaxCells)
		}
		row.Cells = append(row.Cells, "")
	}
	row.Cells[column] = text
	return nil
}
