package book

import (
	"bytes"
	"encoding/binary"
	"unicode/utf16"
	"unicode/utf8"
)

// inUTF8 takes a byte order mark off, and makes UTF-8 of UTF-16, with a mark
// or without.
func inUTF8(data []byte) ([]byte, error) {
	if rest, ok := bytes.CutPrefix(data, []byte("\ufeff")); ok {
		return lineBreaks(rest), nil
	}
	order, marked := orderOf(data)
	if order == nil {
		return lineBreaks(data), nil
	}
	if marked {
		data = data[2:]
	}
	out := make([]byte, 0, len(data))
	line, character := 1, 1
	for i := 0; i < len(data); i += 2 {
		fail := &SyntaxError{Line: line, Character: character, Want: "text in UTF-8 or UTF-16", Got: "half a letter"}
		if i+1 == len(data) {
			return nil, fail
		}
		letter := rune(order.Uint16(data[i:]))
		if utf16.IsSurrogate(letter) {
			if i+3 >= len(data) {
				return nil, fail
			}
			letter = utf16.DecodeRune(letter, rune(order.Uint16(data[i+2:])))
			if letter == utf8.RuneError {
				return nil, fail
			}
			i += 2
		}
		if character++; letter == '\n' {
			line, character = line+1, 1
		}
		out = utf8.AppendRune(out, letter)
	}
	return lineBreaks(out), nil
}

// orderOf is the order of the bytes of UTF-16, nil for another text. Without a
// mark it is told by the zeros that plain letters have in every other place.
func orderOf(data []byte) (order binary.ByteOrder, marked bool) {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		return binary.LittleEndian, true
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return binary.BigEndian, true
	}
	const enough = 200
	var zeros [2]int
	head := data[:min(len(data), enough)]
	for i, b := range head {
		if b == 0 {
			zeros[i%2]++
		}
	}
	switch most := len(head) / 4; {
	case zeros[1] > most && zeros[1] > 4*zeros[0]:
		return binary.LittleEndian, false
	case zeros[0] > most && zeros[0] > 4*zeros[1]:
		return binary.BigEndian, false
	}
	return nil, false
}
