package raster

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"io"
	"slices"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// gifLeast is the shortest time that a picture of a GIF is shown for, in
// hundredths of a second: readers make more of less.
const gifLeast = 2

// gifMost is how many pixels all pictures of a GIF have at most: a byte each,
// and all are in memory.
const gifMost = 1 << 29

// GIFTimes says how n frames of the game are shown in a GIF, played slow times
// slower than they are: which frames get a picture, counted from 0, and for
// how many hundredths of a second each is shown. A GIF counts hundredths, and
// shows nothing for less than two of them; a frame of 1/60 s is 1 2/3. So
// every frame gets a picture where it lasts that long, else every second one,
// or as few as must be; each picture ends on the hundredth nearest to its due
// time, so that no picture is ever off by more than half a hundredth, and the
// whole takes as long as it should. slow below 1 counts as 1.
func GIFTimes(n int, rate timeline.Rate, slow int) (frames, times []int) {
	slow = max(slow, 1)
	due := func(f int) int { return (200*f*rate.Den*slow + rate.Num) / (2 * rate.Num) } // nearest hundredth
	step := max(1, (gifLeast*rate.Num+100*rate.Den*slow-1)/(100*rate.Den*slow))
	for f := 0; f < n; f += step {
		frames = append(frames, f)
		times = append(times, max(gifLeast, due(min(f+step, n))-due(f)))
	}
	return frames, times
}

// GIF writes drawings of one size as an endless GIF, scale pixels a
// unit, each shown for so many hundredths of a second, at least 2. Its colours
// are the theme's and their mixtures; a picture holds only what differs from
// the one before it. Where about isn't empty it stands as a comment. step is
// called before each picture is drawn, with its place; its error ends it. The
// same drawings give the same bytes.
func GIF(w io.Writer, drawings []*sheet.Drawing, times []int, t sheet.Theme, scale float64, about string, step func(i int) error) error {
	if len(drawings) == 0 || len(drawings) != len(times) {
		return errors.New("gif: expected a time for each of at least one drawing")
	}
	if d := drawings[0]; d.W*d.H*scale*scale*float64(len(drawings)) > gifMost {
		return fmt.Errorf("gif: expected at most %d pixels in all pictures, got %d pictures of %.0f by %.0f", gifMost, len(drawings), d.W*scale, d.H*scale)
	}
	in := newInks(t)
	out := gif.GIF{}
	var before *image.Paletted
	for i, d := range drawings {
		if err := step(i); err != nil {
			return err
		}
		if times[i] < gifLeast {
			return fmt.Errorf("gif: expected at least %d hundredths of a second a picture, got %d", gifLeast, times[i])
		}
		whole, err := in.picture(d, t, scale)
		if err != nil {
			return err
		}
		if before != nil && whole.Rect != before.Rect {
			return fmt.Errorf("gif: expected pictures of one size, got %v", whole.Rect.Size())
		}
		out.Image = append(out.Image, changed(before, whole))
		out.Delay = append(out.Delay, times[i])
		out.Disposal = append(out.Disposal, gif.DisposalNone)
		before = whole
	}
	out.Config = image.Config{ColorModel: in.palette, Width: before.Rect.Dx(), Height: before.Rect.Dy()}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, &out); err != nil {
		return fmt.Errorf("gif: %w", err)
	}
	if _, err := w.Write(commented(b.Bytes(), about)); err != nil {
		return fmt.Errorf("gif: %w", err)
	}
	return nil
}

// commented is a GIF with about as a comment extension before its first
// picture. The format speaks of ASCII there; other letters stand as UTF-8,
// which is what readers show.
func commented(file []byte, about string) []byte {
	if about == "" {
		return file
	}
	const head, flags, colours = 13, 10, 0x80 // the screen's descriptor ends on head
	at := head
	if file[flags]&colours != 0 {
		at += 3 << (file[flags]&7 + 1)
	}
	out := append(bytes.Clone(file[:at]), 0x21, 0xfe)
	for part := range slices.Chunk([]byte(about), 255) {
		out = append(append(out, byte(len(part))), part...)
	}
	return append(append(out, 0), file[at:]...)
}

// GIFPicture is one drawing as a GIF of theme t shows it, scale pixels a unit.
func GIFPicture(d *sheet.Drawing, t sheet.Theme, scale float64) (*image.Paletted, error) {
	return newInks(t).picture(d, t, scale)
}

// picture is d in the palette's colours.
func (in *inks) picture(d *sheet.Drawing, t sheet.Theme, scale float64) (*image.Paletted, error) {
	img, err := Picture(d, t, scale)
	if err != nil {
		return nil, fmt.Errorf("gif: %w", err)
	}
	if img.Rect.Dx() > 65535 || img.Rect.Dy() > 65535 {
		return nil, fmt.Errorf("gif: expected at most 65535 pixels a side, got %v", img.Rect.Size())
	}
	return in.index(img), nil
}

// changed is the least part of now that differs from before; at least a pixel.
func changed(before, now *image.Paletted) *image.Paletted {
	if before == nil {
		return now
	}
	w, h := now.Rect.Dx(), now.Rect.Dy()
	box := image.Rectangle{}
	for y := range h {
		a, b := before.Pix[y*w:(y+1)*w], now.Pix[y*w:(y+1)*w]
		from, to := 0, w
		for from < w && a[from] == b[from] {
			from++
		}
		if from == w {
			continue
		}
		for a[to-1] == b[to-1] {
			to--
		}
		box = box.Union(image.Rect(from, y, to, y+1))
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	part := image.NewPaletted(box, now.Palette)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		copy(part.Pix[(y-box.Min.Y)*part.Stride:], now.Pix[y*w+box.Min.X:y*w+box.Max.X])
	}
	return part
}

// inks is a theme's palette of 256, and which of it is nearest to a colour.
type inks struct {
	palette color.Palette
	near    map[color.RGBA]uint8
}

// newInks mixes the palette: every colour of the theme, and between those that
// lie on one another the steps that smooth edges take, most of them where most
// text is.
func newInks(t sheet.Theme) *inks {
	in := &inks{near: map[color.RGBA]uint8{}}
	add := func(c color.RGBA) {
		if _, ok := in.near[c]; !ok && len(in.palette) < 256 {
			in.near[c] = uint8(len(in.palette))
			in.palette = append(in.palette, c)
		}
	}
	solid := func(c color.NRGBA) color.RGBA { return color.RGBA(c) }
	mix := func(a, b color.NRGBA, n int) {
		at := func(x, y uint8, i int) uint8 { return uint8((int(x)*(n-i) + int(y)*i + n/2) / n) }
		for i := range n + 1 {
			add(color.RGBA{at(a.R, b.R, i), at(a.G, b.G, i), at(a.B, b.B, i), 255})
		}
	}
	paper := t.Colour(sheet.Paper)
	judged := []sheet.Role{sheet.Safe, sheet.Unsafe, sheet.Even}
	for r := sheet.Paper; r <= sheet.OnMark; r++ {
		add(solid(t.Colour(r)))
		add(solid(t.Wash(r)))
	}
	mix(paper, t.Colour(sheet.Ink), 24)
	mix(paper, t.Colour(sheet.Soft), 14)
	mix(paper, t.Colour(sheet.Rule), 4)
	for _, r := range judged {
		mix(paper, t.Colour(r), 12)
		mix(t.Colour(r), t.Colour(sheet.OnMark), 14)
		mix(t.Wash(r), t.Colour(sheet.Ink), 14)
		mix(t.Wash(r), t.Colour(r), 10)
		mix(t.Wash(r), t.Colour(sheet.Soft), 6)
	}
	return in
}

// index is img in the palette's colours. Pixels must be opaque.
func (in *inks) index(img *image.RGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, in.palette)
	var last color.RGBA
	var at uint8
	for i := range out.Pix {
		c := color.RGBA{img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2], 255}
		if i == 0 || c != last {
			n, ok := in.near[c]
			if !ok {
				n = uint8(in.palette.Index(c))
				in.near[c] = n
			}
			last, at = c, n
		}
		out.Pix[i] = at
	}
	return out
}
