package book

import (
	"bytes"
	"fmt"
	"io"
	"strings"
)

// Read reads a file whole. The error is a *SyntaxError where the text is no
// table.
func Read(r io.Reader) (*Book, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("read table: %w", err)
	}
	if len(data) > MaxSize {
		return nil, fmt.Errorf("expected at most %d MiB of table, got more", MaxSize>>20)
	}
	switch {
	case isOld(data):
		return nil, errOld
	case isPacked(data):
		sheets, err := readPacked(data)
		if err != nil {
			return nil, err
		}
		return &Book{Sheets: sheets, Size: int64(len(data))}, nil
	}
	if data, err = inUTF8(data); err != nil {
		return nil, err
	}
	sheet, err := readText(data)
	if err != nil {
		return nil, err
	}
	return &Book{Sheets: []Sheet{sheet}, Size: int64(len(data))}, nil
}

// Filled counts the cells of the row that hold something.
func (r *Row) Filled() (n int) {
	for _, cell := range r.Cells {
		if strings.TrimSpace(cell) != "" {
			n++
		}
	}
	return n
}

// lineBreaks makes the line breaks of old programs, a CR alone, those of
// today's.
func lineBreaks(data []byte) []byte {
	if bytes.IndexByte(data, '\n') < 0 && bytes.IndexByte(data, '\r') >= 0 {
		return bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	return data
}
