package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// sweepOf draws the sweep of the demo's first setup.
func sweepOf(t testing.TB, w, h float64) []*Drawing {
	t.Helper()
	p := plans(t, demo())[0]
	var scenes []words.Scene
	var say []string
	for _, d := range p.Sweep(0, 2, 40) {
		rise, line := p.Deciding(d)
		scenes = append(scenes, words.SceneAt(p, d, rise, line))
		say = append(say, words.VerdictAt(p, d).Because)
	}
	return Sweep(scenes, say, Options{W: w, H: h})
}

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

// TestGIF: Go's own reader takes every picture back, laid over the one before
// it, near to the pixels that were drawn.
func TestGIF(t *testing.T) {
	ds := sweepOf(t, 640, 400)
	times := make([]int, len(ds))
	for i := range times {
		times[i] = 40 + i
	}
	for _, th := range themes {
		var b, again bytes.Buffer
		if err := RenderGIF(&b, ds, times, th, 1, "", noStep); err != nil {
			t.Fatal(err)
		}
		if err := RenderGIF(&again, ds, times, th, 1, "", noStep); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("%s: two GIFs of it differ: %v", th.Name, err)
		}
		got, err := gif.DecodeAll(&b)
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Image) != len(ds) || got.LoopCount != 0 {
			t.Fatalf("%s: %d pictures, loop %d, want %d, endless", th.Name, len(got.Image), got.LoopCount, len(ds))
		}
		seen := image.NewRGBA(image.Rect(0, 0, 640, 400))
		for i, part := range got.Image {
			draw.Draw(seen, part.Rect, part, part.Rect.Min, draw.Src)
			want, err := Picture(ds[i], th, 1)
			if err != nil {
				t.Fatal(err)
			}
			if mean, most, at := difference(seen, want); mean > 0.002 || most > 0.03 {
				t.Errorf("%s, picture %d: mean difference %.4f, %.3f around %v", th.Name, i, mean, most, at)
			}
			if got.Delay[i] != times[i] {
				t.Errorf("%s, picture %d: %d hundredths, want %d", th.Name, i, got.Delay[i], times[i])
			}
		}
	}
}

// TestGIFPalette: every colour of a theme is in it, to the last bit.
func TestGIFPalette(t *testing.T) {
	for _, th := range themes {
		in := newInks(th)
		if n := len(in.palette); n < 100 || n > 256 {
			t.Errorf("%s: %d colours", th.Name, n)
		}
		for r := Paper; r <= OnMark; r++ {
			for _, c := range []color.NRGBA{th.Colour(r), th.Wash(r)} {
				if got := in.palette[in.palette.Index(c)]; got != (color.RGBA{c.R, c.G, c.B, 255}) {
					t.Errorf("%s: role %d is %v, in the palette %v", th.Name, r, c, got)
				}
			}
		}
	}
}

func TestGIFErrors(t *testing.T) {
	ds := sweepOf(t, 400, 300)
	other := sweepOf(t, 500, 300)[0]
	for name, err := range map[string]error{
		"no drawing":    RenderGIF(io.Discard, nil, nil, PaperTheme, 1, "", noStep),
		"a time short":  RenderGIF(io.Discard, ds[:2], []int{5}, PaperTheme, 1, "", noStep),
		"too quick":     RenderGIF(io.Discard, ds[:2], []int{5, 1}, PaperTheme, 1, "", noStep),
		"another size":  RenderGIF(io.Discard, []*Drawing{ds[0], other}, []int{5, 5}, PaperTheme, 1, "", noStep),
		"too large":     RenderGIF(io.Discard, slices.Repeat(ds[:1], 5000), slices.Repeat([]int{5}, 5000), PaperTheme, 1, "", noStep),
		"no scale":      RenderGIF(io.Discard, ds[:1], []int{5}, PaperTheme, 0, "", noStep),
		"broken writer": RenderGIF(broken{}, ds[:1], []int{5}, PaperTheme, 1, "", noStep),
	} {
		if err == nil || !strings.Contains(err.Error(), "gif") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestGIFByImageMagick: as many pictures as were drawn, each as long.
func TestGIFByImageMagick(t *testing.T) {
	tool(t, "identify")
	line := sweepOf(t, 640, 400)[1]
	frames, times := GIFTimes(30, timeline.Rate{Num: 60, Den: 1}, 1)
	var ds []*Drawing
	for _, f := range frames {
		ds = append(ds, Scrubbed(line, 30+f))
	}
	var b bytes.Buffer
	if err := RenderGIF(&b, ds, times, PaperTheme, 1, "", noStep); err != nil {
		t.Fatal(err)
	}
	want := strings.Trim(fmt.Sprint(times), "[]")
	path := written(t, "scrub.gif", b.Bytes())
	if got := strings.TrimSpace(said(t, "identify", "-format", "%T ", path)); got != want {
		t.Errorf("identify: delays %s, want %s", got, want)
	}
	if got := said(t, "identify", "-format", "%W %H\n", path+"[0]"); got != "640 400\n" {
		t.Errorf("identify: %q, want 640 by 400", got)
	}
}

// TestGIFSaysWhatItShows: its comment is read by ImageMagick and by the
// rules of GIF89a, section 24: blocks of 1 to 255 bytes, ended by an empty one;
// the pictures are as without it.
func TestGIFSaysWhatItShows(t *testing.T) {
	ds := sweepOf(t, 400, 300)[:2]
	about := "Ναυτίλος: delay 0 to 1\n" + strings.Repeat("Meets the wake-up on 42. ", 30)
	var plain, with bytes.Buffer
	if err := RenderGIF(&plain, ds, []int{5, 5}, PaperTheme, 1, "", noStep); err != nil {
		t.Fatal(err)
	}
	if err := RenderGIF(&with, ds, []int{5, 5}, PaperTheme, 1, about, noStep); err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(with.Bytes(), []byte{0x21, 0xfe})
	rest := with.Bytes()[at+2:]
	var got []byte
	for rest[0] != 0 {
		got = append(got, rest[1:1+int(rest[0])]...)
		rest = rest[1+int(rest[0]):]
	}
	if string(got) != about {
		t.Errorf("the comment is %q, want %q", got, about)
	}
	if without := append(bytes.Clone(with.Bytes()[:at]), rest[1:]...); !bytes.Equal(without, plain.Bytes()) {
		t.Error("the rest of the file is another one")
	}
	if all, err := gif.DecodeAll(bytes.NewReader(with.Bytes())); err != nil || len(all.Image) != 2 {
		t.Errorf("%v", err)
	}
	tool(t, "identify")
	if said := said(t, "identify", "-format", "%c", written(t, "about.gif", with.Bytes())+"[0]"); said != about {
		t.Errorf("identify reads %q", said)
	}
}

// TestGIFPicturesByImageMagick lets it lay the parts over one another, and
// compares what it shows with our own pictures.
func TestGIFPicturesByImageMagick(t *testing.T) {
	tool(t, "convert")
	ds := sweepOf(t, 480, 320)
	var b bytes.Buffer
	if err := RenderGIF(&b, ds, slices.Repeat([]int{50}, len(ds)), NightTheme, 1, "", noStep); err != nil {
		t.Fatal(err)
	}
	path := written(t, "sweep.gif", b.Bytes())
	whole := filepath.Join(filepath.Dir(path), "whole%d.png")
	said(t, "convert", path, "-coalesce", whole)
	for i, d := range ds {
		f, err := os.Open(fmt.Sprintf(whole, i))
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		ours, err := Picture(d, NightTheme, 1)
		if err != nil {
			t.Fatal(err)
		}
		if mean, most, at := difference(ours, theirs); mean > 0.002 || most > 0.03 {
			t.Errorf("picture %d: mean difference %.4f, %.3f around %v", i, mean, most, at)
		}
	}
}

// TestSweepStandsStill: rulers and lanes of all pictures are in one place.
func TestSweepStandsStill(t *testing.T) {
	ds := sweepOf(t, 960, 430)
	for i, d := range ds {
		if a := ds[0]; d.View != a.View || d.Top != a.Top || d.Bars != a.Bars || d.Bottom != a.Bottom || d.Left != a.Left || d.W != a.W || d.H != a.H {
			t.Errorf("picture %d: view %v, lanes %v, %v; the first has %v, %v, %v", i, d.View, d.Bars, d.Bottom, a.View, a.Bars, a.Bottom)
		}
		if f := faults(d); len(f) > 0 {
			t.Errorf("picture %d: %s", i, f[0])
		}
	}
	for word, at := range map[string]int{"SAFE": 2, "UNSAFE": 3} {
		if !hasText(ds[at], word) {
			t.Errorf("picture %d doesn't say %s", at, word)
		}
	}
}

// TestScrubbed: the line stands where its frame begins, and the sheet is left
// as it was.
func TestScrubbed(t *testing.T) {
	d := sweepOf(t, 960, 430)[0]
	n := len(d.Shapes)
	for _, f := range []int{-8, 0, 42, 90} {
		s := Scrubbed(d, f)
		if l, ok := s.Shapes[n].(Line); !ok || l.From.X != d.X(float64(f)) || l.To.X != l.From.X || len(d.Shapes) != n {
			t.Errorf("frame %d: %+v, want a line on %v", f, s.Shapes[n], d.X(float64(f)))
		}
		if !hasText(s, fmt.Sprint(f)) {
			t.Errorf("frame %d isn't written", f)
		}
	}
}

func BenchmarkGIF(b *testing.B) { // 40 pictures, 960 pixels wide
	ds := sweepOf(b, 960, 430)
	frames, times := GIFTimes(40, timeline.Rate{Num: 60, Den: 1}, 2)
	var out []*Drawing
	for i := range frames {
		out = append(out, ds[i%len(ds)])
	}
	for b.Loop() {
		if err := RenderGIF(io.Discard, out, times, PaperTheme, 1, "", noStep); err != nil {
			b.Fatal(err)
		}
	}
}

// noStep goes on.
func noStep(int) error { return nil }
