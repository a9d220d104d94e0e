package main

import (
	"fmt"
	"io"
	"unicode/utf8"
)

// plainWriter writes text with its control characters as escapes, \u001b, so
// that no name or path can steer a terminal; line feeds stay. Inside a JSON
// text the escape is JSON's own.
type plainWriter struct {
	to   io.Writer
	half []byte // the first byte of what may be a control character
}

// Write writes text.
func (w *plainWriter) Write(text []byte) (int, error) {
	whole := text
	if len(w.half) > 0 {
		whole, w.half = append(w.half, text...), nil
	}
	if last := len(whole) - 1; last >= 0 && whole[last] == firstOfTwo {
		whole, w.half = whole[:last], []byte{firstOfTwo}
	}
	if _, err := w.to.Write(plain(whole)); err != nil {
		return 0, err
	}
	return len(text), nil
}

// firstOfTwo begins each control character of two bytes in UTF-8, U+0080 to
// U+009F.
const firstOfTwo = 0xc2

// plain is text as plainWriter writes it. It returns text itself where nothing
// is to be escaped.
func plain(text []byte) []byte {
	var out []byte
	done := 0
	for i := nextSpecial(text, 0); i < len(text); i = nextSpecial(text, i) {
		r, size := utf8.DecodeRune(text[i:])
		if r < ' ' && r != '\n' || r >= 0x7f && r <= 0x9f {
			out = fmt.Appendf(append(out, text[done:i]...), `\u%04x`, r)
			done = i + size
		}
		i += size
	}
	if done == 0 {
		return text
	}
	return append(out, text[done:]...)
}

// nextSpecial is the place, from at on, of the next byte that may begin a
// control character, or the text's length.
func nextSpecial(text []byte, at int) int {
	for i, c := range text[at:] {
		if c < ' ' || c == 0x7f || c == firstOfTwo {
			return at + i
		}
	}
	return len(text)
}
