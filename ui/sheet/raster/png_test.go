package raster

import (
	"bytes"
	"hash/adler32"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"testing"
)

// TestEncodePNG: Go's own reader takes every picture back, pixel by pixel,
// across bands, with and without alpha.
func TestEncodePNG(t *testing.T) {
	g := rand.New(rand.NewPCG(1, 2))
	for _, size := range []image.Point{{1, 1}, {7, 127}, {5, 128}, {9, 129}, {300, 400}} {
		for _, alpha := range []bool{false, true} {
			img := image.NewRGBA(image.Rectangle{Max: size})
			for y := range size.Y {
				for x := range size.X {
					c := color.RGBA{uint8(g.Uint32()), uint8(x), uint8(y), 255}
					if alpha && (x+y)%3 == 0 {
						c = color.RGBA{uint8(g.UintN(100)), 20, 100, 100}
					}
					if alpha && y%5 == 1 {
						c = color.RGBA{}
					}
					img.SetRGBA(x, y, c)
				}
			}
			var b bytes.Buffer
			if err := EncodePNG(&b, img, "title", ""); err != nil {
				t.Fatal(err)
			}
			got, err := png.Decode(bytes.NewReader(b.Bytes()))
			if err != nil {
				t.Fatalf("%v, alpha %v: %v", size, alpha, err)
			}
			for y := range size.Y {
				for x := range size.X {
					want := img.RGBAAt(x, y)
					have := color.RGBAModel.Convert(got.At(x, y)).(color.RGBA)
					for _, d := range []int{int(want.R) - int(have.R), int(want.G) - int(have.G), int(want.B) - int(have.B), int(want.A) - int(have.A)} {
						if d > 1 || d < -1 || d != 0 && want.A == 255 { // a step is lost where alpha divides
							t.Fatalf("%v, alpha %v: pixel %d, %d = %v, want %v", size, alpha, x, y, have, want)
						}
					}
				}
			}
		}
	}
}

func TestJoinSums(t *testing.T) {
	g := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		a, b := make([]byte, g.IntN(100000)), make([]byte, g.IntN(100000))
		for i := range a {
			a[i] = byte(g.Uint32())
		}
		for i := range b {
			b[i] = byte(255 - i%3)
		}
		if got, want := joinSums(adler32.Checksum(a), adler32.Checksum(b), len(b)), adler32.Checksum(append(a, b...)); got != want {
			t.Fatalf("%d and %d bytes: %08x, want %08x", len(a), len(b), got, want)
		}
	}
}
