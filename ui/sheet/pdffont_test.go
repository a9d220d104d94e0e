package sheet

import (
	"bytes"
	"encoding/binary"
	"testing"
	"time"

	"wakeline/assets"
)

// TestPDFOfAnotherSecond: a font bears the second in which it is written; a
// document must not.
func TestPDFOfAnotherSecond(t *testing.T) {
	ds := booklet(t)[:1]
	a := pdfOf(t, ds, A4, PaperTheme)
	for begun := time.Now().Unix(); time.Now().Unix() == begun; {
		time.Sleep(20 * time.Millisecond)
	}
	if b := pdfOf(t, ds, A4, PaperTheme); !bytes.Equal(a, b) {
		t.Error("a second later the same drawing is another document")
	}
}

// TestSetModified: a font sums up to the specification's number, as its makers
// left it and with another day.
func TestSetModified(t *testing.T) {
	const whole = 0xB1B0AFBA
	for _, made := range [][]byte{assets.NotoSans, assets.NotoSansBold} {
		font := bytes.Clone(made)
		head := headOf(t, font)
		if got := checksum(font); got != whole {
			t.Fatalf("the shipped font sums up to %#x, want %#x", got, whole)
		}
		copy(head[28:36], "a day...")
		if err := setModified(font); err != nil {
			t.Fatal(err)
		}
		if got := checksum(font); got != whole {
			t.Errorf("the font sums up to %#x, want %#x", got, whole)
		}
		if !bytes.Equal(head[20:28], head[28:36]) {
			t.Error("the font was changed on another day than it was made")
		}
	}
	for _, bad := range [][]byte{nil, make([]byte, 12), []byte("\x00\x01\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00head\x00\x00\x00\x00\xff\xff\xff\xff\xff\xff\xff\xff")} {
		if setModified(bad) == nil {
			t.Errorf("%q is taken for a font", bad)
		}
	}
}

// headOf is the head table of a font.
func headOf(t *testing.T, font []byte) []byte {
	t.Helper()
	for at := 12; at+16 < len(font); at += 16 {
		if string(font[at:at+4]) == "head" {
			from := binary.BigEndian.Uint32(font[at+8:])
			return font[from : from+54]
		}
	}
	t.Fatal("no head table")
	return nil
}
