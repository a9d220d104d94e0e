package raster

import (
	"bytes"
	"compress/flate"
	"context"
	"encoding/binary"
	"fmt"
	"hash/adler32"
	"hash/crc32"
	"image"
	"io"
	"sync"

	"wakeline/storage/guard"
	"wakeline/ui/sheet"
)

// PNG writes d as a PNG of scale pixels a unit, with its title and description
// as text chunks; what d leaves open, as a Clear drawing does, is transparent.
// The same drawing gives the same bytes.
func PNG(w io.Writer, d *sheet.Drawing, t sheet.Theme, scale float64) error {
	img, err := Picture(d, t, scale)
	if err != nil {
		return err
	}
	if err := EncodePNG(w, img, d.Title, d.Desc); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// band is how many rows are packed at a time. It is fixed, so that the bytes
// don't depend on the machine's cores.
const band = 128

// EncodePNG writes img as a PNG with title and desc as text chunks, where they
// aren't empty: 8 bits a channel, with alpha where a pixel isn't opaque. Each
// row is told by the one above it, which suits drawings, and bands of rows are
// packed side by side.
func EncodePNG(w io.Writer, img *image.RGBA, title, desc string) error {
	size := img.Bounds().Size()
	channels, colour := 3, byte(2)
	if !img.Opaque() {
		channels, colour = 4, 6
	}
	data, err := zipped(img, channels)
	if err != nil {
		return err
	}
	out := []byte("\x89PNG\r\n\x1a\n")
	head := binary.BigEndian.AppendUint32(nil, uint32(size.X))
	head = binary.BigEndian.AppendUint32(head, uint32(size.Y))
	out = chunk(out, "IHDR", append(head, 8, colour, 0, 0, 0))
	out = textChunk(out, "Title", title)
	out = textChunk(out, "Description", desc)
	out = chunk(out, "IDAT", data)
	_, err = w.Write(chunk(out, "IEND", nil))
	return err
}

// zipped is a picture's rows as a zlib stream.
func zipped(img *image.RGBA, channels int) ([]byte, error) {
	size := img.Bounds().Size()
	n := (size.Y + band - 1) / band
	packed := make([]packedBand, n)
	err := guard.Each(context.Background(), "Packing the picture", func(_ context.Context, hand func(int) error) error {
		for i := range n {
			if err := hand(i); err != nil {
				return err
			}
		}
		return nil
	}, func(_ context.Context, i int) error {
		packed[i].pack(img, i*band, min(size.Y, (i+1)*band), channels, i == n-1)
		return nil
	})
	if err != nil {
		return nil, err
	}
	data := []byte{0x78, 0x01} // zlib's head: deflate, window of 32 KiB, packed for speed
	sum := uint32(1)
	for i := range packed {
		data = append(data, packed[i].data.Bytes()...)
		sum = joinSums(sum, packed[i].sum, packed[i].length)
	}
	return binary.BigEndian.AppendUint32(data, sum), nil
}

// Straight are a picture's pixels as red, green, blue and alpha, not
// premultiplied.
func Straight(img *image.RGBA) []byte {
	if img.Opaque() {
		return img.Pix
	}
	out := make([]byte, len(img.Pix))
	for y := range img.Bounds().Dy() {
		flatten(out[y*img.Stride:], img, y, 4)
	}
	return out
}

// packers are kept, as a new one clears a good deal of memory.
var packers = sync.Pool{New: func() any {
	z, err := flate.NewWriter(nil, flate.BestSpeed)
	if err != nil {
		panic("raster: " + err.Error()) // of a level that there isn't
	}
	return z
}}

// packedBand is some rows as a piece of one deflate stream.
type packedBand struct {
	data   bytes.Buffer
	sum    uint32 // adler-32 of what was packed
	length int
}

// pack packs rows [from, to), each as its difference to the one above (PNG,
// third edition, 9.2: filter type 2).
func (p *packedBand) pack(img *image.RGBA, from, to, channels int, last bool) {
	width := img.Bounds().Dx()
	rows := make([]byte, 0, (to-from)*(1+width*channels))
	above, row := make([]byte, width*channels), make([]byte, width*channels)
	if from > 0 {
		flatten(above, img, from-1, channels)
	}
	for y := from; y < to; y++ {
		flatten(row, img, y, channels)
		rows = append(rows, 2)
		for i, v := range row {
			rows = append(rows, v-above[i])
		}
		above, row = row, above
	}
	p.sum, p.length = adler32.Checksum(rows), len(rows)
	z := packers.Get().(*flate.Writer)
	defer packers.Put(z)
	z.Reset(&p.data)
	z.Write(rows)
	if last {
		z.Close()
	} else {
		z.Flush() // to a whole byte, so that the next band goes on
	}
}

// flatten writes a row's channels, not premultiplied.
func flatten(row []byte, img *image.RGBA, y, channels int) {
	pix := img.Pix[y*img.Stride : y*img.Stride+4*img.Bounds().Dx()]
	if channels == 3 {
		for i, k := 0, 0; i < len(pix); i, k = i+4, k+3 {
			row[k], row[k+1], row[k+2] = pix[i], pix[i+1], pix[i+2]
		}
		return
	}
	for i := 0; i < len(pix); i += 4 {
		a := uint32(pix[i+3])
		if a == 0 {
			copy(row[i:i+4], []byte{0, 0, 0, 0})
			continue
		}
		for c := range 3 {
			row[i+c] = byte(min((uint32(pix[i+c])*255+a/2)/a, 255))
		}
		row[i+3] = byte(a)
	}
}

// joinSums is the adler-32 (RFC 1950) of two pieces in a row, from their own,
// the second of that length.
func joinSums(one, two uint32, length int) uint32 {
	const base = 65521
	n := uint32(length % base)
	a1, b1, a2, b2 := one&0xffff, one>>16, two&0xffff, two>>16
	a := (a1 + a2 + base - 1) % base
	b := (b1 + b2 + n*((a1+base-1)%base)%base) % base
	return b<<16 | a
}

// chunk appends a PNG chunk.
func chunk(out []byte, kind string, data []byte) []byte {
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
	at := len(out)
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[at:]))
}

// textChunk appends an iTXt chunk (PNG, third edition, section 11.3.3.4):
// keyword, not compressed, no language, UTF-8 text.
func textChunk(out []byte, keyword, text string) []byte {
	if text == "" {
		return out
	}
	return chunk(out, "iTXt", append(append([]byte(keyword), 0, 0, 0, 0, 0), text...))
}
