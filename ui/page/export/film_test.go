package export

import (
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/ui/model"
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

// TestListedSetupsAsAFilm: all setups of the list in one film, whose moving
// picture can be chosen; a GIF has no lesson. What is written is what is shown.
func TestListedSetupsAsAFilm(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, Films)
	e.format.SetSelected("gif")
	e.width.SetSelected(widths[0])
	e.scale.SetSelected(scales[0])
	if e.rows[e.motion].box.Hidden || !e.rows[e.slow].control.Disabled() || e.rows[e.hold].control.Disabled() {
		t.Error("of delay sweeps the speed can be chosen, or not the time per delay")
	}
	listed, _ := w.Listed()
	if got, want := e.preview.caption.Text, model.CountOf(len(listed), "setup")+", each after a title."; !strings.HasSuffix(got, want) {
		t.Errorf("the caption is %q, want %q at its end", got, want)
	}
	path := writeTo(t, e, t.TempDir())
	f, err := os.Open(path)
	if err != nil {
		t.Fatalf("%v; it says %q", err, e.say.Text)
	}
	defer f.Close()
	got, err := gif.DecodeAll(f)
	if err != nil || len(got.Image) != len(e.preview.made.Sheets) || got.Config.Width != 480 {
		t.Fatalf("%v: %d pictures, want %d", err, len(got.Image), len(e.preview.made.Sheets))
	}
	e.motion.SetSelected(LessonFilm)
	if slices.Contains(e.format.Options, "gif") || e.rows[e.each].box.Hidden || e.rows[e.each].control.Disabled() {
		t.Errorf("of lessons the formats are %v", e.format.Options)
	}
	e.format.SetSelected("txt")
	if text := e.preview.made.Text; strings.Count(text, "\n## ") != len(listed) || strings.Count(text, "\n### ") < 2*len(listed) {
		t.Errorf("the script has no heading for each of %d setups:\n%s", len(listed), text)
	}
	e.motion.SetSelected(Playback)
	if e.rows[e.slow].control.Disabled() {
		t.Error("the speed of playbacks can't be chosen")
	}
}
