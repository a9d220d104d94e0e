package sheet

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
)

const maxPixels = 1 << 28 // of one picture: four bytes each

// Picture draws d in pixels, scale pixels a unit.
func Picture(d *Drawing, t Theme, scale float64) (*image.RGBA, error) {
	w, h := math.Round(d.W*scale), math.Round(d.H*scale)
	if !(scale > 0) || !(w >= 1) || !(h >= 1) || w*h > maxPixels {
		return nil, fmt.Errorf("picture: expected a scale above 0 and at most %d pixels, got scale %v for %v by %v units", maxPixels, scale, d.W, d.H)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	ras := rasterizer.FromImage(img, canvas.DPMM(scale), canvas.LinearColorSpace{})
	PutOn(canvas.NewContext(ras), d, t)
	ras.Close()
	return img, nil
}

// RenderPNG writes d as a PNG of scale pixels a unit, with its title and
// description as text chunks. The same drawing gives the same bytes.
func RenderPNG(w io.Writer, d *Drawing, t Theme, scale float64) error {
	img, err := Picture(d, t, scale)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&b, img); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	const head = 8 + 25 // the signature, and IHDR, which must come first
	out := make([]byte, 0, b.Len()+len(d.Title)+len(d.Desc)+128)
	out = append(out, b.Bytes()[:head]...)
	out = textChunk(out, "Title", d.Title)
	out = textChunk(out, "Description", d.Desc)
	out = append(out, b.Bytes()[head:]...)
	if _, err := w.Write(out); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// textChunk appends an iTXt chunk (PNG, third edition, section 11.3.3.4):
// keyword, not compressed, no language, UTF-8 text.
func textChunk(out []byte, keyword, text string) []byte {
	if text == "" {
		return out
	}
	data := append([]byte("iTXt"+keyword), 0, 0, 0, 0, 0)
	data = append(data, text...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)-4))
	out = append(out, data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(data))
}
