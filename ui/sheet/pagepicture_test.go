package sheet_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"wakeline/timeline/words"
	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/pdf"
)

// TestPagePictureIsThePage: a page drawn in pixels is what a reader of the PDF
// draws, but for smooth edges: hardly a pixel is far off.
func TestPagePictureIsThePage(t *testing.T) {
	tool(t, "pdftoppm")
	var drawings []*Drawing
	for _, plan := range Plans(t, Demo())[:2] {
		l := words.LessonAt(plan, plan.Setup.Delay, 1, 0, 3)
		s := words.SceneAt(plan, plan.Setup.Delay, 0, 3)
		drawings = append(drawings, DrawLesson(&l, 900), Draw(&s, Options{W: 1050, H: 700}))
	}
	const dpi = 127 // 5 pixels a millimetre
	for _, theme := range []Theme{PaperTheme, NightTheme} {
		var b bytes.Buffer
		if err := pdf.Render(&b, drawings, A4, theme, "title", "desc", noStep); err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "a.pdf"), b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("pdftoppm", "-png", "-r", "127", filepath.Join(dir, "a.pdf"), filepath.Join(dir, "p")).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		for i, d := range drawings {
			got, err := pdf.Picture(d, A4, theme, i+1, len(drawings), dpi/25.4)
			if err != nil {
				t.Fatal(err)
			}
			files, err := filepath.Glob(filepath.Join(dir, "p-*.png"))
			if err != nil || len(files) != len(drawings) {
				t.Fatalf("%v: %q", err, files)
			}
			f, err := os.ReadFile(files[i])
			if err != nil {
				t.Fatal(err)
			}
			want, err := png.Decode(bytes.NewReader(f))
			if err != nil {
				t.Fatal(err)
			}
			if a, b := got.Rect.Size(), want.Bounds().Size(); max(a.X-b.X, b.X-a.X, a.Y-b.Y, b.Y-a.Y) > 1 {
				t.Fatalf("page %d is %v, want %v", i+1, a, b)
			}
			if share := farOff(got, want); share > 0.02 {
				t.Errorf("%s, page %d: %.1f %% of the pixels are far off", theme.Name, i+1, 100*share)
			}
		}
	}
}

// farOff is the share of pixels whose brightness, over a square of five, is
// more than a quarter off.
func farOff(a, b image.Image) float64 {
	grey := func(img image.Image, x, y int) (sum int) {
		for dy := range 5 {
			for dx := range 5 {
				r, g, b, _ := img.At(x+dx, y+dy).RGBA()
				sum += int(r+g+b) / 3 >> 8
			}
		}
		return sum / 25
	}
	far, all := 0, 0
	for y := 0; y < a.Bounds().Dy()-6; y += 3 {
		for x := 0; x < a.Bounds().Dx()-6; x += 3 {
			all++
			if d := grey(a, x, y) - grey(b, x, y); max(d, -d) > 64 {
				far++
			}
		}
	}
	return float64(far) / float64(all)
}
