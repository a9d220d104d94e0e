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
	whole := append(w.half, text...)
	w.half = nil
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
	for i := 0; i < len(text); {
		r, size := rune(text[i]), 1
		if text[i] == firstOfTwo {
			r, size = utf8.DecodeRune(text[i:])
		}
		if r < ' ' && r != '\n' || r == 0x7f || size == 2 && r <= 0x9f {
			out = fmt.Appendf(append(out, text[done:i]...), `\u%04x`, r)
			done = i + size
		}
		i += size
	}
	if out == nil {
		return text
	}
	return append(out, text[done:]...)
}
