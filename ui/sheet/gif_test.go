package sheet_test

import (
	"bytes"
	"fmt"
	"image"
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
	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
)

// TestGIF: Go's own reader takes every picture back, laid over the one before
// it, near to the pixels that were drawn.
func TestGIF(t *testing.T) {
	ds := SweepOf(t, 640, 400)
	times := make([]int, len(ds))
	for i := range times {
		times[i] = 40 + i
	}
	for _, th := range Themes {
		var b, again bytes.Buffer
		if err := raster.GIF(&b, ds, times, th, 1, "", noStep); err != nil {
			t.Fatal(err)
		}
		if err := raster.GIF(&again, ds, times, th, 1, "", noStep); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
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
			want, err := raster.Picture(ds[i], th, 1)
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

func TestGIFErrors(t *testing.T) {
	ds := SweepOf(t, 400, 300)
	other := SweepOf(t, 500, 300)[0]
	for name, err := range map[string]error{
		"no drawing":    raster.GIF(io.Discard, nil, nil, PaperTheme, 1, "", noStep),
		"a time short":  raster.GIF(io.Discard, ds[:2], []int{5}, PaperTheme, 1, "", noStep),
		"too quick":     raster.GIF(io.Discard, ds[:2], []int{5, 1}, PaperTheme, 1, "", noStep),
		"another size":  raster.GIF(io.Discard, []*Drawing{ds[0], other}, []int{5, 5}, PaperTheme, 1, "", noStep),
		"too large":     raster.GIF(io.Discard, slices.Repeat(ds[:1], 5000), slices.Repeat([]int{5}, 5000), PaperTheme, 1, "", noStep),
		"no scale":      raster.GIF(io.Discard, ds[:1], []int{5}, PaperTheme, 0, "", noStep),
		"broken writer": raster.GIF(broken{}, ds[:1], []int{5}, PaperTheme, 1, "", noStep),
	} {
		if err == nil || !strings.Contains(err.Error(), "gif") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestGIFByImageMagick: as many pictures as were drawn, each as long.
func TestGIFByImageMagick(t *testing.T) {
	tool(t, "identify")
	line := SweepOf(t, 640, 400)[1]
	frames, times := raster.GIFTimes(30, timeline.Rate{Num: 60, Den: 1}, 1)
	var ds []*Drawing
	for _, f := range frames {
		ds = append(ds, Scrubbed(line, 30+f))
	}
	var b bytes.Buffer
	if err := raster.GIF(&b, ds, times, PaperTheme, 1, "", noStep); err != nil {
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
	ds := SweepOf(t, 400, 300)[:2]
	about := "Ναυτίλος: delay 0 to 1\n" + strings.Repeat("Meets the wake-up on 42. ", 30)
	var plain, with bytes.Buffer
	if err := raster.GIF(&plain, ds, []int{5, 5}, PaperTheme, 1, "", noStep); err != nil {
		t.Fatal(err)
	}
	if err := raster.GIF(&with, ds, []int{5, 5}, PaperTheme, 1, about, noStep); err != nil {
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
	ds := SweepOf(t, 480, 320)
	var b bytes.Buffer
	if err := raster.GIF(&b, ds, slices.Repeat([]int{50}, len(ds)), NightTheme, 1, "", noStep); err != nil {
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
		ours, err := raster.Picture(d, NightTheme, 1)
		if err != nil {
			t.Fatal(err)
		}
		if mean, most, at := difference(ours, theirs); mean > 0.002 || most > 0.03 {
			t.Errorf("picture %d: mean difference %.4f, %.3f around %v", i, mean, most, at)
		}
	}
}

func BenchmarkGIF(b *testing.B) { // 40 pictures, 960 pixels wide
	ds := SweepOf(b, 960, 430)
	frames, times := raster.GIFTimes(40, timeline.Rate{Num: 60, Den: 1}, 2)
	var out []*Drawing
	for i := range frames {
		out = append(out, ds[i%len(ds)])
	}
	for b.Loop() {
		if err := raster.GIF(io.Discard, out, times, PaperTheme, 1, "", noStep); err != nil {
			b.Fatal(err)
		}
	}
}

// noStep goes on.
func noStep(int) error { return nil }
