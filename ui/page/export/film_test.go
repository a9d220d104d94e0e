package export

import (
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/ui/output"
	"wakeline/ui/page/pagetest"
)

// TestFramesGoIntoAFolder: the pictures of the preview, after it was asked about
// files of the same names; the shape gives their size.
func TestFramesGoIntoAFolder(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, LessonFilm)
	e.format.SetSelected(output.Frames)
	e.shape.SetSelected(shapes[4])
	if !e.rows[e.width].control.Disabled() || e.rows[e.stage].control.Disabled() {
		t.Error("a shape leaves the width to be chosen, or takes the side view away")
	}
	if !strings.Contains(e.preview.caption.Text, "1920 × 360 pixels, shown for ") {
		t.Errorf("the caption is %q", e.preview.caption.Text)
	}
	folder := filepath.Join(t.TempDir(), "frames")
	e.path.SetText(folder)
	e.ask()
	f, err := os.Open(filepath.Join(folder, "0001.png"))
	if err != nil {
		t.Fatalf("%v; it says %q, %q", err, e.say.Text, w.DialogText())
	}
	defer f.Close()
	got, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	e.preview.turnTo(0)
	samePixels(t, got, e.preview.got)
	e.ask()
	if text := w.DialogText(); !strings.Contains(text, "files already exist in frames") {
		t.Errorf("before it replaces files it asks %q", text)
	}
}

// TestNoFfmpegIsTold in place of the preview.
func TestNoFfmpegIsTold(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	e := exportOf(t, pagetest.Open(t, pagetest.Sample()), Playback)
	e.format.SetSelected("mp4")
	if !strings.Contains(e.preview.why.Text, "ffmpeg, which isn't installed") || !e.write.Disabled() {
		t.Errorf("it says %q", e.preview.why.Text)
	}
}
