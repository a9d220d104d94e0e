package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"
)

// source gives the records of a table one by one.
type source struct {
	data []byte
	csv  *csv.Reader
	size int64 // of what csv reads, in bytes
}

// open reads all of r and asks that it is text within the limits. A byte
// order mark is skipped.
func open(r io.Reader) (*source, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("read table: %w", err)
	}
	if len(data) > MaxSize {
		return nil, fmt.Errorf("expected at most %d MiB of table, got more", MaxSize>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	breaks, err := scan(data)
	if err != nil {
		return nil, err
	}
	kept := keepBreaks(data, breaks)
	s := &source{data: data, csv: csv.NewReader(bytes.NewReader(kept)), size: int64(len(kept))}
	s.csv.FieldsPerRecord = -1 // a ragged row is one bad row, and Read's to tell
	s.csv.ReuseRecord = true
	return s, nil
}

// scan asks for UTF-8 without NUL and for rows within MaxFields. It returns
// the number of CRLF line breaks inside quoted fields.
func scan(data []byte) (breaks int, err error) {
	line, start, fields, quoted := 1, 0, 1, false
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
		case c == '"':
			quoted = !quoted // a doubled quote toggles twice
		case c == ',' && !quoted:
			if fields++; fields > MaxFields {
				want, got = fmt.Sprintf("at most %d fields in a row", MaxFields), "more"
			}
		case c == '\n':
			line, start = line+1, i+1
			if !quoted {
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

// next returns the next record, io.EOF after the last. The record is good
// until the next call. Empty lines are none.
func (s *source) next() ([]string, error) {
	record, err := s.csv.Read()
	var parse *csv.ParseError
	if !errors.As(err, &parse) {
		return record, err
	}
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
	return nil, e
}

// character turns a column of the CSV reader, in bytes from 1, into the
// number of a character, and says whether a character stands there.
func (s *source) character(line, column int) (n int, ahead bool) {
	rest := s.data
	for ; line > 1; line-- {
		rest = rest[bytes.IndexByte(rest, '\n')+1:]
	}
	if column > len(rest) {
		return utf8.RuneCount(bytes.TrimRight(rest, "\r\n")) + 1, false
	}
	return utf8.RuneCount(rest[:column-1]) + 1, true
}

// at returns the line on which the field begins.
func (s *source) at(field int) int {
	line, _ := s.csv.FieldPos(field)
	return line
}
