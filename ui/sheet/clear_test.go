package sheet_test

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"math/rand/v2"
	"testing"

	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
)

// footage are grounds that a transparent picture may be laid over: plain ones,
// and noise, fine and coarse.
func footage(size image.Point) map[string]*image.RGBA {
	out := map[string]*image.RGBA{}
	for name, c := range map[string]uint8{"black": 0, "white": 255, "grey": 119} {
		img := image.NewRGBA(image.Rectangle{Max: size})
		draw.Draw(img, img.Rect, image.NewUniform(color.Gray{c}), image.Point{}, draw.Src)
		out[name] = img
	}
	for name, side := range map[string]int{"fine noise": 1, "coarse noise": 9} {
		random := rand.New(rand.NewPCG(5, 8))
		img := image.NewRGBA(image.Rectangle{Max: size})
		for y := 0; y < size.Y; y += side {
			for x := 0; x < size.X; x += side {
				c := color.RGBA{uint8(random.IntN(256)), uint8(random.IntN(256)), uint8(random.IntN(256)), 255}
				draw.Draw(img, image.Rect(x, y, x+side, y+side), image.NewUniform(c), image.Point{}, draw.Src)
			}
		}
		out[name] = img
	}
	return out
}

// mask is where a shape inks, alone: its coverage in pixels around it, from at
// on.
func mask(t *testing.T, s Shape, scale, margin float64) (out *image.RGBA, at image.Point) {
	t.Helper()
	q := PointsOf(s)
	a, b := q[0], q[0]
	for _, p := range q {
		a, b = Point{math.Min(a.X, p.X), math.Min(a.Y, p.Y)}, Point{math.Max(b.X, p.X), math.Max(b.Y, p.Y)}
	}
	x, y := math.Floor(a.X-margin), math.Floor(a.Y-margin)
	d := &Drawing{W: math.Ceil(b.X+margin) - x, H: math.Ceil(b.Y+margin) - y, Shapes: []Shape{Moved(s, -x, -y)}}
	img, err := raster.Picture(d, PaperTheme, scale)
	if err != nil {
		t.Fatal(err)
	}
	return img, image.Pt(int(x*scale), int(y*scale))
}

func luminance(c color.RGBA) float64 {
	return 0.2126*Linear(c.R) + 0.7152*Linear(c.G) + 0.0722*Linear(c.B)
}

// readAt is WCAG's contrast between what a shape inks and what lies right
// around it and is no ink, on average; ok is false where it inks next to
// nothing.
func readAt(laid, inked, m *image.RGBA, at image.Point, from, to int) (ratio float64, ok bool) {
	size := m.Rect.Size()
	covers := func(x, y int) uint8 {
		if x < 0 || y < 0 || x >= size.X || y >= size.Y {
			return 0
		}
		return m.Pix[m.PixOffset(x, y)+3]
	}
	near := func(x, y, reach int) bool {
		for dy := -reach; dy <= reach; dy++ {
			for dx := -reach; dx <= reach; dx++ {
				if dx*dx+dy*dy <= reach*reach && covers(x+dx, y+dy) > 24 {
					return true
				}
			}
		}
		return false
	}
	var ink, ring, inks, rings float64
	for y := range size.Y {
		for x := range size.X {
			p := image.Pt(at.X+x, at.Y+y)
			if !p.In(laid.Rect) {
				continue
			}
			switch {
			case covers(x, y) > 230:
				ink, inks = ink+luminance(laid.RGBAAt(p.X, p.Y)), inks+1
			case inked.RGBAAt(p.X, p.Y).A == 0 && near(x, y, to) && !near(x, y, from):
				ring, rings = ring+luminance(laid.RGBAAt(p.X, p.Y)), rings+1
			}
		}
	}
	if inks < 4 || rings < 4 {
		return 0, false
	}
	ink, ring = ink/inks, ring/rings
	return (math.Max(ink, ring) + 0.05) / (math.Min(ink, ring) + 0.05), true
}

// parted are shapes with the fill and the outline of a box each for itself.
func parted(shapes []Shape) (out []Shape) {
	for _, s := range shapes {
		b, ok := s.(Box)
		if !ok {
			out = append(out, s)
			continue
		}
		fill, outline := b, b
		fill.Stroke, outline.Fill, outline.Texture = None, None, Blank
		out = append(out, fill, outline)
	}
	return out
}

// TestTransparentPicturesAreRead: over any footage every text keeps WCAG 2.2's
// 4.5 to 1 to what lies right around it (1.4.3), and every line and texture 3
// to 1 (1.4.11).
func TestTransparentPicturesAreRead(t *testing.T) {
	const scale = 2
	s, o := SheetOf(t, 3, 640, 420)
	g, attacker, rival := PlainGrid(t)
	grid, err := DrawGrid(&g, attacker, rival, 640)
	if err != nil {
		t.Fatal(err)
	}
	for i, d := range []*Drawing{Draw(&s, o), grid} {
		th := Themes[i%2]
		clear := d.Clear()
		img, err := raster.Picture(clear, th, scale)
		if err != nil {
			t.Fatal(err)
		}
		bare := *clear
		bare.Halo = 0
		inked, err := raster.Picture(&bare, th, scale)
		if err != nil {
			t.Fatal(err)
		}
		grounds := footage(img.Rect.Size())
		for _, ground := range grounds {
			draw.Draw(ground, ground.Rect, img, image.Point{}, draw.Over)
		}
		texts, least := 0, map[string]float64{}
		for _, shape := range parted(clear.Shapes) {
			want, kind, from, to := 3.0, "line", 1, int(clear.Halo*scale)-1
			switch v := shape.(type) {
			case Text:
				if v.Role == OnMark || v.Role == Paper || v.Str == "" {
					continue // it lies on an ink
				}
				texts++
				want, kind = 4.5, "text"
			case Box:
				if v.Texture == Hatch || v.Texture == Dots {
					kind, to = "texture", 2
				}
			case Path:
				if v.Stroke == Paper || v.Fill == OnMark || v.Stroke == OnMark {
					continue
				}
			case Line:
				if v.Stroke == OnMark {
					continue
				}
			}
			m, at := mask(t, shape, scale, 4)
			for name, laid := range grounds {
				ratio, ok := readAt(laid, inked, m, at, from, to)
				if !ok {
					continue
				}
				if kept, ok := least[kind]; !ok || ratio < kept {
					least[kind] = ratio
				}
				if ratio < want {
					t.Errorf("picture %d over %s: %.2f to 1, want %v, of %+v", i, name, ratio, want, shape)
				}
			}
		}
		if texts < 10 || len(least) < 2 {
			t.Errorf("picture %d: %d texts and %v were looked at", i, texts, least)
		}
		t.Logf("picture %d: least contrast %v", i, least)
	}
}

// TestTransparentPicturesHaveNoSlab: about half of a transparent picture and
// more lets the footage through, and so does each place of a wash.
func TestTransparentPicturesHaveNoSlab(t *testing.T) {
	for i, d := range Pages(t)[:5] {
		clear := d.Clear()
		for _, s := range clear.Shapes {
			if b, ok := s.(Box); ok && (b.Fill == Paper && b.Texture != Blank || b.Texture == Tint && b.Fill != None) {
				t.Errorf("page %d: a slab: %+v", i, b)
			}
		}
		img, err := raster.Picture(clear, PaperTheme, 0.4)
		if err != nil {
			t.Fatal(err)
		}
		through := 0
		for k := 3; k < len(img.Pix); k += 4 {
			through += 255 - int(img.Pix[k])
		}
		if share := float64(through) / float64(255*len(img.Pix)/4); share < 0.45 { // a lesson is mostly text, and each letter has its halo
			t.Errorf("page %d: %.2f of it lets footage through, want at least 0.45", i, share)
		}
	}
}

// TestClear: without its ground a picture is open where nothing is drawn, and
// as it was where ink is.
func TestClear(t *testing.T) {
	s, o := SheetOf(t, 0, 640, 400)
	d := Draw(&s, o)
	bare := *d.Clear()
	bare.Halo = 0
	var got [3]*image.RGBA
	for i, d := range []*Drawing{d, d.Clear(), &bare} {
		var err error
		if got[i], err = raster.Picture(d, PaperTheme, 1); err != nil {
			t.Fatal(err)
		}
	}
	whole, open, inks := got[0], got[1], got[2]
	clear, full := 0, 0
	for i := 3; i < len(open.Pix); i += 4 {
		if open.Pix[i] == 0 {
			clear++
		}
		if inks.Pix[i] < 255 {
			continue
		}
		full++
		for k := i - 3; k <= i; k++ {
			if d := int(open.Pix[k]) - int(whole.Pix[k]); d > 2 || d < -2 { // many thin layers round
				t.Fatalf("pixel %d = %v, on paper %v", i/4, open.Pix[i-3:i+1], whole.Pix[i-3:i+1])
			}
		}
	}
	if clear < len(open.Pix)/8 || full < 1000 {
		t.Errorf("%d pixels are open and %d full, of %d", clear, full, len(open.Pix)/4)
	}
	if !whole.Opaque() {
		t.Error("a picture on paper isn't opaque")
	}
}
