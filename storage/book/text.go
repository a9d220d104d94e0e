package book

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// readText reads cells that a separator parts. With commas it is as strict as
// RFC 4180; in other tables a quote inside a cell is a letter like others.
func readText(data []byte) (out Sheet, err error) {
	sep := separator(data)
	breaks, err := scan(data, sep)
	if err != nil {
		return Sheet{}, err
	}
	kept := keepBreaks(data, breaks)
	s := &reader{data: data, csv: csv.NewReader(bytes.NewReader(kept))}
	s.csv.FieldsPerRecord = -1 // a ragged row is one bad row, and the caller's to tell
	s.csv.Comma = rune(sep)
	s.csv.LazyQuotes = sep != ','
	out.Strict = sep == ','
	for {
		row, err := s.next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return Sheet{}, err
		}
		if len(row.Cells) > MaxFields {
			return Sheet{}, &SyntaxError{Line: row.Line, Character: 1, Want: fmt.Sprintf("at most %d fields in a row", MaxFields), Got: "more"}
		}
		if sep == '|' { // the spaces are there for the eye
			for i := range row.Cells {
				row.Cells[i] = strings.TrimSpace(row.Cells[i])
			}
		}
		out.Rows = append(out.Rows, row)
	}
}

type reader struct {
	data []byte
	csv  *csv.Reader
}

// next returns the next row, io.EOF after the last.
func (s *reader) next() (Row, error) {
	record, err := s.csv.Read()
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		return Row{}, s.broken(parse)
	}
	if err != nil {
		return Row{}, err
	}
	row := Row{Cells: record, End: s.csv.InputOffset()}
	row.Line, _ = s.csv.FieldPos(0)
	if last, _ := s.csv.FieldPos(len(record) - 1); last != row.Line {
		row.lines = make([]int32, len(record))
		for i := range record {
			line, _ := s.csv.FieldPos(i)
			row.lines[i] = int32(line)
		}
	}
	return row, nil
}

// broken says where and why the text is no table.
func (s *reader) broken(parse *csv.ParseError) error {
	character, ahead := s.character(parse.Line, parse.Column)
	e := &SyntaxError{Line: parse.Line, Character: character, Err: parse}
	switch {
	case errors.Is(parse, csv.ErrBareQuote):
		e.Want, e.Got = "quotes around a field that has quotes in it", "a bare quote"
	case ahead:
		e.Want, e.Got = "a comma or the row's end after a closing quote, and quotes inside a field doubled", "more text"
	default:
		e.Want, e.Got = fmt.Sprintf("a closing quote in the row that begins on line %d", parse.StartLine), "the end of the file"
	}
	return e
}

// character turns a column of the CSV reader, in bytes from 1, into the
// number of a character, and says whether a character stands there.
func (s *reader) character(line, column int) (n int, ahead bool) {
	rest := s.data
	for ; line > 1; line-- {
		rest = rest[bytes.IndexByte(rest, '\n')+1:]
	}
	if column > len(rest) {
		return utf8.RuneCount(bytes.TrimRight(rest, "\r\n")) + 1, false
	}
	return utf8.RuneCount(rest[:column-1]) + 1, true
}

// scan asks for UTF-8 without NUL and for rows within the limits. It returns
// the number of CRLF line breaks inside quoted fields.
func scan(data []byte, sep byte) (breaks int, err error) {
	line, start, fields, cells, quoted := 1, 0, 1, 0, false
	for i := 0; i < len(data); i++ {
		want, got := "", ""
		switch c := data[i]; {
		case c == 0:
			want, got = "text", "a NUL"
		case c >= utf8.RuneSelf:
			_, size := utf8.DecodeRune(data[i:])
			if size == 1 {
				want, got = "text in UTF-8", fmt.Sprintf("the byte %#x", c)
			}
			i += size - 1
		case c == '"' && sep == ',':
			quoted = !quoted // a doubled quote toggles twice
		case c == sep && !quoted:
			if fields++; fields > MaxFields {
				want, got = fmt.Sprintf("at most %d fields in a row", MaxFields), "more"
			} else if cells++; cells > MaxCells {
				want, got = fmt.Sprintf("at most %d cells", MaxCells), "more"
			}
		case c == '\n':
			line, start = line+1, i+1
			if cells++; !quoted {
				fields = 1
			} else if data[i-1] == '\r' { // a quote stands before it, so i > 0
				breaks++
			}
		}
		if want != "" {
			return 0, &SyntaxError{Line: line, Character: utf8.RuneCount(data[start:i]) + 1, Want: want, Got: got}
		}
	}
	return breaks, nil
}

// keepBreaks doubles the CR of the CRLFs inside quoted fields, of which there
// are breaks. To encoding/csv CRLF and LF are one, also inside a field; so it
// takes one CR away and leaves the field as the file has it.
func keepBreaks(data []byte, breaks int) []byte {
	if breaks == 0 {
		return data
	}
	out := make([]byte, 0, len(data)+breaks)
	quoted := false
	for i, c := range data {
		if c == '"' {
			quoted = !quoted
		}
		if c == '\n' && quoted && data[i-1] == '\r' {
			out = append(out, '\r')
		}
		out = append(out, c)
	}
	return out
}
