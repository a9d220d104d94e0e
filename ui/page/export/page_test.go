package export

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/page"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/sheet"
)

func exportOf(_ *testing.T, w *pagetest.Host, kind string) *Page {
	e := New(w, Asks{
		Screen: func() *sheet.Drawing {
			scene := words.SceneAt(w.Model().Plan(), w.Model().Setup().Delay, 0, 0)
			return sheet.Draw(&scene, sheet.Options{W: 900, H: 400})
		},
		Title: func() string { return "All setups" }, Folder: func() string { return "" },
		Busy:        func() bool { return w.Dialogs().Count() > 0 },
		CopyPicture: func() {}, CopyText: func() {},
	})
	w.Show(e)
	e.Open(kind)
	return e
}

// writeTo writes what is chosen into a folder of the test.
func writeTo(t *testing.T, e *Page, dir string) string {
	t.Helper()
	e.path.SetText(filepath.Join(dir, filepath.Base(e.path.Text)))
	path := e.goal()
	e.ask()
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("%v; it says %q, %q", err, e.say.Text, e.host.(*pagetest.Host).DialogText())
	}
	return path
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

// TestTheFileIsThePreview: of each thing that has pixels, the file's are those
// that the preview has shown.
func TestTheFileIsThePreview(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, kind := range []string{Screen, Strip, Lesson, Matchup, Glossary} {
		for _, theme := range themes {
			e := exportOf(t, w, kind)
			e.format.SetSelected("png")
			e.theme.SetSelected(theme)
			e.width.SetSelected("640")
			e.scale.SetSelected("1")
			shown := e.preview.got
			if shown == nil {
				t.Fatalf("%s: the preview says %q", kind, e.preview.why.Text)
			}
			f, err := os.ReadFile(writeTo(t, e, t.TempDir()))
			if err != nil {
				t.Fatal(err)
			}
			got, err := png.Decode(bytes.NewReader(f))
			if err != nil {
				t.Fatal(err)
			}
			samePixels(t, got, shown)
		}
	}
}

func TestAGifIsItsPreview(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, kind := range []string{Sweep, Playback} {
		e := exportOf(t, w, kind)
		e.width.SetSelected("480 (a phone)")
		e.scale.SetSelected("1")
		b, err := os.ReadFile(writeTo(t, e, t.TempDir()))
		if err != nil {
			t.Fatal(err)
		}
		got, err := gif.DecodeAll(bytes.NewReader(b))
		if err != nil || len(got.Image) != len(e.preview.made.Sheets) || len(got.Image) < 3 {
			t.Fatalf("%s: %v, %d pictures, the preview has %d", kind, err, len(got.Image), len(e.preview.made.Sheets))
		}
		shown := image.NewRGBA(image.Rect(0, 0, got.Config.Width, got.Config.Height))
		for i, part := range got.Image[:3] {
			draw.Draw(shown, part.Rect, part, part.Rect.Min, draw.Over)
			e.preview.turnTo(i)
			samePixels(t, shown, e.preview.got)
		}
		if !strings.Contains(e.preview.caption.Text, "Picture 3 of ") {
			t.Errorf("the caption is %q", e.preview.caption.Text)
		}
	}
}

// TestAGifThatIsTooWide: it is said, and nothing can be written.
func TestAGifThatIsTooWide(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, kind := range []string{Sweep, Folder} {
		e := exportOf(t, w, kind)
		e.format.SetSelected("gif")
		e.width.SetSelected("1920")
		e.scale.SetSelected("2")
		if !strings.Contains(e.preview.why.Text, "at most 2560 pixels") || !e.write.Disabled() {
			t.Errorf("%s: it says %q", kind, e.preview.why.Text)
		}
		e.scale.SetSelected("1")
		if e.preview.made == nil || e.write.Disabled() {
			t.Errorf("%s: a smaller scale is no help: %q", kind, e.preview.why.Text)
		}
	}
}

func TestATextIsItsPreview(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, kind := range []string{Words, Replies, AllReplies, Captions} {
		e := exportOf(t, w, kind)
		b, err := os.ReadFile(writeTo(t, e, t.TempDir()))
		if err != nil || len(b) == 0 {
			t.Fatal(err)
		}
		if got, want := strings.TrimRight(e.preview.text.Text, "\n"), strings.TrimRight(strings.ReplaceAll(string(b), "\r", ""), "\n"); got != want {
			t.Errorf("%s: the preview shows\n%s\nthe file holds\n%s", kind, got, want)
		}
	}
	e := exportOf(t, w, Captions)
	e.times.SetText("setup,from,to\nno such,0,5\n")
	if !strings.Contains(e.preview.why.Text, "no such") || !e.write.Disabled() {
		t.Errorf("a name that nothing bears: %q", e.preview.why.Text)
	}
}

// TestVectorsAndPages: what has no pixels is written, and its pages counted.
func TestVectorsAndPages(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, c := range []struct{ kind, format, start string }{
		{Screen, "svg", "<?xml"}, {Lesson, "svg", "<?xml"}, {Screen, "pdf", "%PDF"}, {Lesson, "pdf", "%PDF"}, {Booklet, "pdf", "%PDF"},
	} {
		e := exportOf(t, w, c.kind)
		e.format.SetSelected(c.format)
		b, err := os.ReadFile(writeTo(t, e, t.TempDir()))
		if err != nil || !bytes.HasPrefix(b, []byte(c.start)) {
			t.Errorf("%s as %s begins %q, %v", c.kind, c.format, b[:min(8, len(b))], err)
		}
		if c.kind == Booklet {
			if n := len(e.preview.made.Sheets); n != 4 {
				t.Errorf("a booklet of three setups has %d pages", n)
			}
			e.preview.next.OnTapped()
			if e.preview.at != 1 || !strings.Contains(e.preview.caption.Text, "Page 2 of 4") {
				t.Errorf("turned to %d: %q", e.preview.at, e.preview.caption.Text)
			}
		}
	}
}

// TestLessonPages: one setup, and all that are listed, as a page for a browser;
// as an exercise it is another.
func TestLessonPages(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, kind := range []string{LessonPage, Lessons} {
		e := exportOf(t, w, kind)
		var before string
		for _, exercise := range []bool{false, true} {
			e.exercise.SetChecked(exercise)
			b, err := os.ReadFile(writeTo(t, e, t.TempDir()))
			if err != nil || !bytes.HasPrefix(b, []byte("<!DOCTYPE html>")) || string(b) == before {
				t.Errorf("%s, exercise %v: %.20q, %v", kind, exercise, b, err)
			}
			if got := strings.Contains(string(b), ">Check</button>"); got != exercise {
				t.Errorf("%s: it asks: %v, want %v", kind, got, exercise)
			}
			before = string(b)
			if !strings.Contains(e.preview.caption.Text, "for a browser") || e.preview.got == nil || e.Text() != "" {
				t.Errorf("%s: the preview says %q", kind, e.preview.caption.Text)
			}
		}
		e.exercise.SetChecked(false)
	}
}

// TestAFileThatIsThereIsAskedAbout: it stays unless it is said.
func TestAFileThatIsThereIsAskedAbout(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, Words)
	path := filepath.Join(t.TempDir(), "mine.md")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	e.path.SetText(strings.TrimSuffix(path, ".md"))
	if e.goal() != path || !strings.Contains(e.say.Text, "already") {
		t.Errorf("%q says %q", e.goal(), e.say.Text)
	}
	e.ask()
	if b, _ := os.ReadFile(path); string(b) != "mine" || w.Canvas().Overlays().Top() == nil {
		t.Fatal("it was replaced unasked")
	}
	w.Tap(t, "Cancel")
	if b, _ := os.ReadFile(path); string(b) != "mine" {
		t.Fatal("it was replaced")
	}
	e.ask()
	w.Tap(t, "Replace")
	if b, _ := os.ReadFile(path); string(b) != e.preview.made.Text {
		t.Errorf("the file holds %q", b)
	}
	folder := filepath.Join(t.TempDir(), "a.md")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	e.path.SetText(folder)
	e.ask()
	if !strings.Contains(e.say.Text, "This is a folder") {
		t.Errorf("a folder in its place: %q", e.say.Text)
	}
}

// TestAllSetupsListedGoIntoAFolder: those that the filter shows, each in a
// file, and a contact sheet; files of the same names are asked about.
func TestAllSetupsListedGoIntoAFolder(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	w.Filter = func(s *timeline.Setup) bool { return strings.Contains(s.Name, "both") }
	e := exportOf(t, w, Folder)
	e.format.SetSelected("svg")
	e.names.SetText("{n} {ender}")
	dir := filepath.Join(t.TempDir(), "out")
	e.path.SetText(dir)
	e.ask()
	names := filesIn(t, dir)
	if want := "1 tide sweep.svg|contact sheet 1.svg"; strings.Join(names, "|") != want {
		t.Errorf("files %q, want %q; it says %q", names, want, e.say.Text)
	}
	if err := os.WriteFile(filepath.Join(dir, names[0]), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	e.ask()
	if !strings.Contains(w.DialogText(), "2 files already exist") {
		t.Errorf("it asks %q", w.DialogText())
	}
	w.Tap(t, "Cancel")
	if b, _ := os.ReadFile(filepath.Join(dir, names[0])); string(b) != "mine" {
		t.Error("replaced all the same")
	}
	e.names.SetText("{who}")
	e.ask()
	if !strings.Contains(e.say.Text, "{who}") {
		t.Errorf("a pattern that means nothing: %q", e.say.Text)
	}
}

func filesIn(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range entries {
		names = append(names, f.Name())
	}
	return names
}

// TestACancelledBatchLeavesWholeFiles: what stands in the folder when it is
// cancelled under way can be read to its end, and nothing else stands there.
func TestACancelledBatchLeavesWholeFiles(t *testing.T) {
	w := pagetest.Open(t, pagetest.Many(60))
	e := exportOf(t, w, Folder)
	e.format.SetSelected("png")
	e.width.SetSelected("480 (a phone)")
	e.scale.SetSelected("1")
	a := e.last
	dir := filepath.Join(t.TempDir(), "out")
	ctx, cancel := context.WithCancel(context.Background())
	did, err := a.batch(dir, func(done, of int) {
		if done == 7 {
			cancel()
		}
	}).Run(ctx, a.index(), a.every())
	if !errors.Is(err, context.Canceled) || did.Files < 7 || did.Files > 59 {
		t.Fatalf("%v, %+v", err, did)
	}
	names := filesIn(t, dir)
	if len(names) != did.Files+did.Pages {
		t.Errorf("%d files, %+v were written", len(names), did)
	}
	for _, name := range names {
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := png.Decode(f); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		f.Close()
	}
}

// TestACancelledFileIsNotThere: one file is whole or not there.
func TestACancelledFileIsNotThere(t *testing.T) {
	w := pagetest.Open(t, pagetest.Many(60))
	for _, kind := range []string{Strip, AllReplies, Booklet} {
		e := exportOf(t, w, kind)
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		path := filepath.Join(t.TempDir(), "a")
		if _, err := writeFile(page.Work{Context: ctx, Tell: func(int, int) {}}, path, e.last, e.preview.made); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", kind, err)
		}
		if names := filesIn(t, filepath.Dir(path)); len(names) != 0 {
			t.Errorf("%s left %q", kind, names)
		}
	}
}

// TestAllRepliesAreMoreThanThePreview: the file holds every setup listed.
func TestAllRepliesAreMoreThanThePreview(t *testing.T) {
	w := pagetest.Open(t, pagetest.Many(60))
	e := exportOf(t, w, AllReplies)
	if !strings.Contains(e.preview.caption.Text, "The first 20 of 60 setups") {
		t.Errorf("the caption is %q", e.preview.caption.Text)
	}
	f, err := os.Open(writeTo(t, e, t.TempDir()))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	setups := map[string]bool{}
	for _, r := range rows[1:] {
		setups[r[0]] = true
	}
	if len(setups) != 60 {
		t.Errorf("%d setups, want 60", len(setups))
	}
}

// TestWhatIsLeftOutIsNamed: of many setups in one file, those that can't be
// judged are told by their names.
func TestWhatIsLeftOutIsNamed(t *testing.T) {
	p := pagetest.Many(5)
	p.Setups[4].Name, p.Setups[4].Delay = "far too late", 500
	w := pagetest.Open(t, p)
	e := exportOf(t, w, Booklet)
	if got := e.preview.caption.Text; !strings.Contains(got, "4 setups on 5 pages") || !strings.Contains(got, "1 can't be judged and is left out") {
		t.Errorf("the caption is %q", got)
	}
	for _, kind := range []string{Booklet, AllReplies} {
		e = exportOf(t, w, kind)
		writeTo(t, e, t.TempDir())
		if got := w.DialogText(); !strings.Contains(got, "far too late") {
			t.Errorf("%s: it says %q", kind, got)
		}
		w.Dialogs().Top().Hide()
	}
}

// TestTheLastChoicesAreKept: kind, format and folder are those of last time.
func TestTheLastChoicesAreKept(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, Lesson)
	e.format.SetSelected("svg")
	e.each.SetSelected("2")
	e.paper.SetSelected("Letter")
	dir := t.TempDir()
	writeTo(t, e, dir)
	w.Close()
	again := exportOf(t, w, "")
	if again.kind.Selected != Lesson || again.format.Selected != "svg" || again.each.Selected != "2" || again.paper.Selected != "Letter" || filepath.Dir(again.path.Text) != dir {
		t.Errorf("%q as %q, %q each way, on %q, to %q", again.kind.Selected, again.format.Selected, again.each.Selected, again.paper.Selected, again.path.Text)
	}
	if got := filepath.Base(again.path.Text); got != "tide-sweep-two-steps-heel-lesson.svg" {
		t.Errorf("offers %q", got)
	}
}
