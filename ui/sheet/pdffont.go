package sheet

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
)

// swap puts text in place of the bytes from from to to of a document.
type swap struct {
	from, to int
	text     []byte
}

// undatedFont is the font of that object's stream as it would be had it been
// made when its design was, and not now.
func undatedFont(b []byte, offsets []int, number int) (swap, error) {
	if number < 1 || number > len(offsets) {
		return swap{}, fmt.Errorf("expected one of %d objects", len(offsets))
	}
	text := find(b, offsets, number)
	from := offsets[number-1] + bytes.Index(b[offsets[number-1]:], []byte("obj\n")) + len("obj\n")
	dict, _, ok := bytes.Cut(text, []byte("stream\n"))
	length := regexp.MustCompile(`/Length \d+`)
	if !ok || !length.Match(dict) {
		return swap{}, errors.New("expected a stream with its length, got none")
	}
	r, err := zlib.NewReader(bytes.NewReader(text[len(dict)+len("stream\n"):]))
	if err != nil {
		return swap{}, err
	}
	font, err := io.ReadAll(r)
	if err == nil {
		err = setModified(font)
	}
	if err != nil {
		return swap{}, err
	}
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	if _, err = w.Write(font); err == nil {
		err = w.Close()
	}
	out := length.ReplaceAll(dict, fmt.Appendf(nil, "/Length %d", packed.Len()))
	out = append(append(append(slices.Clone(out), "stream\n"...), packed.Bytes()...), "\nendstream"...)
	return swap{from, from + len(text), out}, err
}

// setModified sets the day on which an OpenType font was changed to the day on
// which it was made, and its checksums to what they are then (OpenType
// specification 1.9, "head" and "Calculating checksums").
func setModified(font []byte) error {
	const entry, created, modified, adjustment, dates = 16, 20, 28, 8, 36
	u32 := binary.BigEndian
	if len(font) < 12 {
		return errors.New("expected a font, got less than its head")
	}
	for at := 12; at+entry <= 12+entry*int(u32.Uint16(font[4:])) && at+entry <= len(font); at += entry {
		if string(font[at:at+4]) != "head" {
			continue
		}
		from, n := int(u32.Uint32(font[at+8:])), int(u32.Uint32(font[at+12:]))
		to := from + (n+3)&^3
		if n < dates || to > len(font) {
			return errors.New("expected a head table in the font, got a part of one")
		}
		head := font[from:to]
		copy(head[modified:dates], head[created:modified])
		u32.PutUint32(head[adjustment:], 0)
		u32.PutUint32(font[at+4:], checksum(head))
		u32.PutUint32(head[adjustment:], 0xB1B0AFBA-checksum(font))
		return nil
	}
	return errors.New("expected a head table in the font, got none")
}

// checksum is the sum of b's words; what lacks of the last counts as 0.
func checksum(b []byte) (sum uint32) {
	for ; len(b) >= 4; b = b[4:] {
		sum += binary.BigEndian.Uint32(b)
	}
	var last [4]byte
	copy(last[:], b)
	return sum + binary.BigEndian.Uint32(last[:])
}
