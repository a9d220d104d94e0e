package output

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"wakeline/timeline"
)

// same fails where two pictures differ in a pixel: in its alpha, or in what it
// adds to what lies under it.
func same(t *testing.T, what string, got, want image.Image) {
	t.Helper()
	if got.Bounds().Size() != want.Bounds().Size() {
		t.Fatalf("%s: %v, want %v", what, got.Bounds(), want.Bounds())
	}
	laid := func(c color.Color) color.RGBA {
		if n, ok := c.(color.NRGBA); ok {
			part := func(v uint8) uint8 { return uint8((int(v)*int(n.A) + 127) / 255) }
			return color.RGBA{part(n.R), part(n.G), part(n.B), n.A}
		}
		return color.RGBAModel.Convert(c).(color.RGBA)
	}
	for y := range want.Bounds().Dy() {
		for x := range want.Bounds().Dx() {
			if a, b := laid(got.At(x, y)), laid(want.At(x, y)); a != b {
				t.Fatalf("%s: pixel %d, %d is %v, want %v", what, x, y, a, b)
			}
		}
	}
}

// TestMadeIsWritten: what is looked at before is, pixel for pixel, what a
// reader of the file has after.
func TestMadeIsWritten(t *testing.T) {
	plan := planOf(t, "Low water")
	for _, clear := range []bool{false, true} {
		o := Standard()
		o.Clear, o.W, o.H, o.Scale = clear, 640, 400, 1.5
		m, err := o.Make(plan, "png")
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := m.Write(&b); err != nil {
			t.Fatal(err)
		}
		got, err := png.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		want, err := m.Picture(0)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "png", got, want)
	}
	o := Standard()
	o.W, o.H, o.Scale = 480, 320, 1
	m, err := o.Make(plan, "gif")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := m.Write(&b); err != nil {
		t.Fatal(err)
	}
	got, err := gif.DecodeAll(&b)
	if err != nil || len(got.Image) != len(m.Sheets) || len(m.Times) != len(m.Sheets) {
		t.Fatalf("%v: %d pictures, want %d", err, len(got.Image), len(m.Sheets))
	}
	shown := image.NewRGBA(image.Rect(0, 0, got.Config.Width, got.Config.Height))
	for i, part := range got.Image {
		draw.Draw(shown, part.Rect, part, part.Rect.Min, draw.Over)
		want, err := m.Picture(i)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "gif", shown, want)
		if got.Delay[i] != m.Times[i] {
			t.Errorf("picture %d is shown for %d, want %d", i, got.Delay[i], m.Times[i])
		}
	}
	if _, err := m.Picture(len(m.Sheets)); err == nil {
		t.Error("a picture past the last")
	}
	for _, format := range []string{"md", "csv"} {
		m, err := o.Make(plan, format)
		if err != nil {
			t.Fatal(err)
		}
		b.Reset()
		if err := o.Write(&b, plan, format); err != nil || b.String() != m.Text || m.Text == "" {
			t.Errorf("%s: %v, wrote %q, want %q", format, err, b.String(), m.Text)
		}
	}
}

// contactPages is how many contact sheets so many setups take, 24 on each.
func contactPages(setups int) int { return (setups + 23) / 24 }

// TestBatchSaysItsFiles: the names said before are those that are written.
func TestBatchSaysItsFiles(t *testing.T) {
	p := yard(t, 1)
	b := Batch{Order: Standard(), Folder: t.TempDir(), Names: DefaultPattern, Format: "svg", Title: "All"}
	want, err := b.Files(context.Background(), eachOf(p.Setups))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Run(context.Background(), timeline.NewIndex(p), eachOf(p.Setups)); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadDir(b.Folder)
	if err != nil || len(got) != len(want) || len(want) != len(p.Setups)+contactPages(len(p.Setups)) {
		t.Fatalf("%v: %d files, said %d of %d setups", err, len(got), len(want), len(p.Setups))
	}
	for _, name := range want {
		if _, err := os.Stat(filepath.Join(b.Folder, name)); err != nil {
			t.Error(err)
		}
	}
}
