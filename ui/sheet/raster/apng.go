package raster

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"io"

	"wakeline/timeline"
)

// APNG writes an animated PNG (PNG, third edition, section 11.3.4), picture by
// picture: of each what differs from the one before. It plays for ever. Readers
// that know no animation show the first.
type APNG struct {
	w        io.Writer
	pictures int // that are still to come
	channels int
	next     uint32 // number of the next fcTL or fdAT chunk
	before   *image.RGBA
	head     func(size image.Point) []byte
}

// NewAPNG begins one of so many pictures; with clear they may be transparent.
func NewAPNG(w io.Writer, pictures int, clear bool, title, desc string) *APNG {
	a := &APNG{w: w, pictures: pictures, channels: 3}
	colour := byte(2)
	if clear {
		a.channels, colour = 4, 6
	}
	a.head = func(size image.Point) []byte {
		out := []byte("\x89PNG\r\n\x1a\n")
		head := binary.BigEndian.AppendUint32(nil, uint32(size.X))
		head = binary.BigEndian.AppendUint32(head, uint32(size.Y))
		out = chunk(out, "IHDR", append(head, 8, colour, 0, 0, 0))
		control := binary.BigEndian.AppendUint32(nil, uint32(pictures))
		out = chunk(out, "acTL", binary.BigEndian.AppendUint32(control, 0))
		out = textChunk(out, "Title", title)
		return textChunk(out, "Description", desc)
	}
	return a
}

// Delay is how long n pictures of a film last, as an APNG says it: a fraction
// of two numbers of 16 bits; exact where one is, else the nearest of a
// thousandth of a second.
func Delay(n int, rate timeline.Rate) (num, den uint16) {
	a, b := n*rate.Den, rate.Num
	for x, y := a, b; ; x, y = y, x%y {
		if y == 0 {
			a, b = a/x, b/x
			break
		}
	}
	const most = 1<<16 - 1
	if a <= most && b <= most {
		return uint16(a), uint16(b)
	}
	return uint16(min((2000*a+b)/(2*b), most)), 1000
}

// Add writes the next picture, all of one size, which is shown for num/den
// seconds.
func (a *APNG) Add(img *image.RGBA, num, den uint16) error {
	if a.pictures--; a.pictures < 0 {
		return fmt.Errorf("apng: a picture too many")
	}
	part := img.Rect
	var out []byte
	if a.before == nil {
		out = a.head(img.Rect.Size())
	} else if part = changedPart(a.before, img); img.Rect != a.before.Rect {
		return fmt.Errorf("apng: expected pictures of one size, got %v", img.Rect.Size())
	}
	data, err := zipped(img.SubImage(part).(*image.RGBA), a.channels)
	if err != nil {
		return err
	}
	control := a.number()
	for _, n := range [...]int{part.Dx(), part.Dy(), part.Min.X, part.Min.Y} {
		control = binary.BigEndian.AppendUint32(control, uint32(n))
	}
	control = binary.BigEndian.AppendUint16(control, num)
	control = binary.BigEndian.AppendUint16(control, den)
	out = chunk(out, "fcTL", append(control, 0, 0)) // what is there stays, and the part takes its place
	if a.before == nil {
		out = chunk(out, "IDAT", data)
	} else {
		out = chunk(out, "fdAT", append(a.number(), data...))
	}
	a.before = img
	_, err = a.w.Write(out)
	return err
}

// number is the next chunk's.
func (a *APNG) number() []byte {
	a.next++
	return binary.BigEndian.AppendUint32(nil, a.next-1)
}

// Close ends it, when all pictures are there.
func (a *APNG) Close() error {
	if a.pictures != 0 {
		return fmt.Errorf("apng: %d pictures are missing", a.pictures)
	}
	_, err := a.w.Write(chunk(nil, "IEND", nil))
	return err
}

// changedPart is the least part in which two pictures of one size differ; at
// least a pixel.
func changedPart(before, now *image.RGBA) image.Rectangle {
	w, box := 4*now.Rect.Dx(), image.Rectangle{}
	for y := range min(now.Rect.Dy(), before.Rect.Dy()) {
		a, b := before.Pix[y*before.Stride:][:w], now.Pix[y*now.Stride:][:w]
		if bytes.Equal(a, b) {
			continue
		}
		from, to := 0, w
		for a[from] == b[from] {
			from++
		}
		for a[to-1] == b[to-1] {
			to--
		}
		box = box.Union(image.Rect(from/4, y, (to+3)/4, y+1))
	}
	if box.Empty() {
		return image.Rect(0, 0, 1, 1)
	}
	return box
}
