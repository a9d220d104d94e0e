package timeline

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// Limits of a project text: what is larger or deeper is refused before it is
// taken apart.
const (
	MaxText  = 32 << 20 // bytes
	maxDepth = 32
)

// SyntaxError is a project text that is not JSON at all. Line and Column
// count from 1; columns are bytes.
type SyntaxError struct {
	Line, Column int
	What         string
}

// Error says where the text breaks off and why.
func (e *SyntaxError) Error() string {
	return fmt.Sprintf("line %d, column %d: expected JSON: %s", e.Line, e.Column, e.What)
}

// value is one JSON value: nil, bool, string, json.Number, []value or
// *object.
type value any

// object is a JSON object with its fields in order.
type object struct {
	names  []string
	values map[string]value
}

// parse takes a JSON document apart. Names given twice, too much depth or
// size, and text after the document are errors.
func parse(data []byte) (value, error) {
	if len(data) > MaxText {
		return nil, &FieldError{Want: fmt.Sprintf("a project text of at most %d MiB", MaxText>>20), Got: fmt.Sprintf("%d bytes", len(data))}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		at := 0
		for r, n := utf8.DecodeRune(data); r != utf8.RuneError || n > 1; r, n = utf8.DecodeRune(data[at:]) {
			at += n
		}
		return nil, syntaxAt(data, at, "the text is not UTF-8")
	}
	var whole json.RawMessage
	if err := json.Unmarshal(data, &whole); err != nil {
		at := len(data)
		if syntax := (*json.SyntaxError)(nil); errors.As(err, &syntax) {
			at = max(0, int(syntax.Offset)-1)
		}
		return nil, syntaxAt(data, at, err.Error())
	}
	if at := halfCharacter(data); at >= 0 {
		return nil, syntaxAt(data, at, fmt.Sprintf("half a character, %s: the other half is missing", data[at:at+6]))
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	return read(dec, nil, 0)
}

func syntaxAt(data []byte, at int, what string) error {
	at = min(at, len(data))
	before := data[:at]
	return &SyntaxError{
		Line:   1 + bytes.Count(before, []byte("\n")),
		Column: at - (bytes.LastIndexByte(before, '\n') + 1) + 1,
		What:   what,
	}
}

// halfCharacter finds an escape \\u of half a character (RFC 8259, 8.2) in
// valid JSON that its other half doesn't stand beside; -1 where there is none.
func halfCharacter(data []byte) int {
	escaped := func(at int) rune {
		if at+6 > len(data) || data[at] != '\\' || data[at+1] != 'u' {
			return -1
		}
		n, _ := strconv.ParseUint(string(data[at+2:at+6]), 16, 32) // valid JSON has four digits there
		return rune(n)
	}
	for at := bytes.IndexByte(data, '\\'); at >= 0; {
		next := at + 2
		if r := escaped(at); utf16.IsSurrogate(r) {
			if next = at + 12; utf16.DecodeRune(r, escaped(at+6)) == utf8.RuneError {
				return at
			}
		}
		if at = bytes.IndexByte(data[next:], '\\'); at >= 0 {
			at += next
		}
	}
	return -1
}

// read takes the next value off dec, which holds a whole, valid document.
func read(dec *json.Decoder, at *Path, depth int) (value, error) {
	token, err := dec.Token()
	if err != nil {
		if errors.Is(err, io.EOF) {
			err = io.ErrUnexpectedEOF
		}
		return nil, &FieldError{Path: at, Want: "JSON", Got: err.Error()}
	}
	open, ok := token.(json.Delim)
	if !ok {
		return token, nil
	}
	if depth == maxDepth {
		return nil, &FieldError{Path: at, Want: fmt.Sprintf("values nested at most %d deep", maxDepth), Got: "more"}
	}
	if open == '[' {
		list := []value{}
		for dec.More() {
			item, err := read(dec, at.Item(len(list)), depth+1)
			if err != nil {
				return nil, err
			}
			list = append(list, item)
		}
		_, err = dec.Token()
		return list, err
	}
	obj := &object{values: map[string]value{}}
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return nil, err
		}
		name := key.(string)
		here := at.At(name)
		if _, twice := obj.values[name]; twice {
			return nil, &FieldError{Path: here, Want: "each field once", Got: "it again"}
		}
		obj.names = append(obj.names, name)
		if obj.values[name], err = read(dec, here, depth+1); err != nil {
			return nil, err
		}
	}
	_, err = dec.Token()
	return obj, err
}

// describe names a value for an error.
func describe(v value) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case bool:
		return strconv.FormatBool(v)
	case string:
		if len(v) > 60 {
			v = v[:60] + "..."
		}
		return strconv.Quote(v)
	case json.Number:
		return string(v)
	case []value:
		return "a list"
	}
	return "an object"
}

// whole returns n as a whole number; 5, 5.0 and 5e0 are the same number.
func whole(n json.Number) (int, bool) {
	if i, err := strconv.ParseInt(string(n), 10, 64); err == nil {
		return int(i), true
	}
	f, err := strconv.ParseFloat(string(n), 64)
	if err != nil || f != math.Trunc(f) || math.Abs(f) > 1<<53 {
		return 0, false
	}
	return int(f), true
}
