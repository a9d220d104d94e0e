package raster

import (
	"fmt"
	"image/color"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// TestGIFTimes: no picture is off by more than half a hundredth, none is
// shorter than two, and the whole lasts as long as it should.
func TestGIFTimes(t *testing.T) {
	for _, c := range []struct {
		rate  timeline.Rate
		slow  int
		step  int
		times string // of the first pictures
	}{
		{timeline.Rate{Num: 60, Den: 1}, 1, 2, "3 4 3 3 4 3"},
		{timeline.Rate{Num: 60, Den: 1}, 2, 1, "3 4 3 3 4 3"},
		{timeline.Rate{Num: 60, Den: 1}, 10, 1, "17 16 17 17 16 17"},
		{timeline.Rate{Num: 50, Den: 1}, 1, 1, "2 2 2 2 2 2"},
		{timeline.Rate{Num: 60000, Den: 1001}, 1, 2, "3 4 3 3 4 3"},
		{timeline.Rate{Num: 144, Den: 1}, 1, 3, "2 2 2 2 2 3"},
		{timeline.Rate{Num: 1, Den: 1}, 0, 1, "100 100 100 100 100 100"},
	} {
		const n = 600
		frames, times := GIFTimes(n, c.rate, c.slow)
		slow := max(c.slow, 1)
		sum := 0
		for i, f := range frames {
			if f != i*c.step {
				t.Fatalf("%v, %d times slower: picture %d shows frame %d, want %d", c.rate, slow, i, f, i*c.step)
			}
			// |sum - 100 f den slow / num| <= 1/2, in whole numbers
			if off := 2*sum*c.rate.Num - 200*f*c.rate.Den*slow; off > c.rate.Num || off < -c.rate.Num {
				t.Fatalf("%v, %d times slower: frame %d comes after %d hundredths", c.rate, slow, f, sum)
			}
			if times[i] < 2 {
				t.Fatalf("%v, %d times slower: picture %d lasts %d", c.rate, slow, i, times[i])
			}
			sum += times[i]
		}
		if got := strings.Trim(fmt.Sprint(times[:6]), "[]"); got != c.times {
			t.Errorf("%v, %d times slower: %s, want %s", c.rate, slow, got, c.times)
		}
		if off := 2*sum*c.rate.Num - 200*n*c.rate.Den*slow; off > 4*c.rate.Num || off < -c.rate.Num {
			t.Errorf("%v, %d times slower: %d frames take %d hundredths", c.rate, slow, n, sum)
		}
	}
}

// TestGIFPalette: every colour of a theme is in it, to the last bit.
func TestGIFPalette(t *testing.T) {
	for _, th := range []sheet.Theme{sheet.PaperTheme, sheet.NightTheme} {
		in := newInks(th)
		if n := len(in.palette); n < 100 || n > 256 {
			t.Errorf("%s: %d colours", th.Name, n)
		}
		for r := sheet.Paper; r <= sheet.OnMark; r++ {
			for _, c := range []color.NRGBA{th.Colour(r), th.Wash(r)} {
				if got := in.palette[in.palette.Index(c)]; got != (color.RGBA{c.R, c.G, c.B, 255}) {
					t.Errorf("%s: role %d is %v, in the palette %v", th.Name, r, c, got)
				}
			}
		}
	}
}
