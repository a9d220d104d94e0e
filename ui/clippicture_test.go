package ui

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/ui/output"
	"wakeline/ui/page"
)

// TestAPictureIsCopiedByAHelper: the helper is given the picture's bytes; where
// there is none, it is said, and a file offered.
func TestAPictureIsCopiedByAHelper(t *testing.T) {
	w := open(t, sample(), laptop)
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	t.Setenv("WAYLAND_DISPLAY", "")
	t.Setenv("DISPLAY", ":1")
	w.copyPicture()
	if got := overlayText(w); !strings.Contains(got, "None of them was found") || !strings.Contains(got, "xclip") {
		t.Errorf("without a helper it says %q", got)
	}
	tap(t, w, "Close")
	got := filepath.Join(dir, "got.png")
	script := "#!/bin/sh\n[ \"$4\" = image/png ] && exec /bin/cat > " + got + "\n"
	if err := os.WriteFile(filepath.Join(dir, "xclip"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	w.copyPicture()
	if !strings.Contains(w.status.Hinted, "on the clipboard") {
		t.Errorf("it says %q, %q", w.status.Hinted, overlayText(w))
	}
	f, err := os.ReadFile(got)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(f))
	if err != nil {
		t.Fatal(err)
	}
	want, err := page.Picture(w.sheet.Drawing()).Picture(0)
	if err != nil {
		t.Fatal(err)
	}
	samePixels(t, img, want)
	if err := os.WriteFile(filepath.Join(dir, "xclip"), []byte("#!/bin/sh\nexit 3\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	w.copyPicture()
	if got := overlayText(w); !strings.Contains(got, "failed") {
		t.Errorf("a helper that fails: %q", got)
	}
}

func TestCopyAsText(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.SetDelay(5)
	w.copyText()
	o := output.Standard()
	m, err := o.Make(w.ownPlan(), "md")
	if err != nil {
		t.Fatal(err)
	}
	if got := w.app.Clipboard().Content(); got != m.Text || !strings.Contains(got, "| Delay | 5 |") {
		t.Errorf("the clipboard holds %q", got)
	}
	l := lessonOf(t, w)
	w.copyText()
	if got := w.app.Clipboard().Content(); !strings.Contains(got, "As it is, delay 5, against ") || got != l.Text() {
		t.Errorf("the clipboard holds %q", got)
	}
}

func samePixels(t *testing.T, got, want image.Image) {
	t.Helper()
	if got.Bounds().Size() != want.Bounds().Size() {
		t.Fatalf("%v, want %v", got.Bounds().Size(), want.Bounds().Size())
	}
	for y := range want.Bounds().Dy() {
		for x := range want.Bounds().Dx() {
			a, b := color.RGBAModel.Convert(got.At(x, y)), color.RGBAModel.Convert(want.At(x, y))
			if a != b {
				t.Fatalf("pixel %d, %d is %v, want %v", x, y, a, b)
			}
		}
	}
}
