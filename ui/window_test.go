package ui

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/paint"
)

func TestEmptyProjectSaysWhatToDo(t *testing.T) {
	w := open(t, nil, laptop)
	if w.upDown.Visible() || !w.empty.Box.Visible() || !strings.Contains(w.empty.Text.Text, "open a project file") {
		t.Errorf("shows %q", w.empty.Text.Text)
	}
	if !w.empty.Has(w.Canvas().Focused()) {
		t.Errorf("%T has the keys, want the first button", w.Canvas().Focused())
	}
	key(w, fyne.KeyRight, 1) // nothing to move, nothing breaks
	w.sheet.TypedRune('+')
	w.sheet.TypedRune('[')
	w.sheet.TypedRune('d')
	w.undo()
	w.model.Open(inMemory(t, sample()))
	if !w.upDown.Visible() || w.empty.Box.Visible() {
		t.Error("a project with setups is not shown")
	}
	if w.Canvas().Focused() != fyne.Focusable(w.sheet) {
		t.Errorf("%T has the keys, want the sheet", w.Canvas().Focused())
	}
}

func TestSetupThatDoesNotFit(t *testing.T) {
	p := sample()
	p.Setups[1].Advantage = timeline.Some(timeline.Width - 1)
	w := open(t, p, laptop)
	w.setups.List.Select(1)
	if w.upDown.Visible() || !strings.Contains(w.empty.Text.Text, p.Setups[1].Name) {
		t.Errorf("shows %q", w.empty.Text.Text)
	}
	w.setups.List.Select(0)
	if !w.upDown.Visible() {
		t.Error("the next setup is not shown")
	}
}

// overlayText is all text of the dialog on top.
func overlayText(w *window) string {
	top := w.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	var b strings.Builder
	for _, o := range test.LaidOutObjects(top) {
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *widget.RichText:
			b.WriteString(o.String() + "\n")
		}
	}
	return b.String()
}

func TestWrongFileKeepsTheProject(t *testing.T) {
	w := open(t, sample(), laptop)
	path := filepath.Join(t.TempDir(), "wrong.json")
	text := bytes.Replace(timeline.WriteText(sample()), []byte(`"kind": "dash"`), []byte(`"kind": "dish"`), 1)
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	if got := overlayText(w); !strings.Contains(got, "wrong.json") || !strings.Contains(got, "fighter 1, move 2, kind: expected strike") {
		t.Errorf("the dialog says %q", got)
	}
	if w.model.Len() != 3 || w.model.Path() != "" {
		t.Error("the project is gone")
	}
	w.openPath(filepath.Join(t.TempDir(), "missing.json"))
	if got := overlayText(w); !strings.Contains(got, "missing.json") {
		t.Errorf("the dialog says %q", got)
	}
}

func TestStartWithAnError(t *testing.T) {
	a := test.NewTempApp(t)
	w := newWindow(a, Start{Err: errors.New("sample.json: line 3: expected a number")})
	defer w.win.Close()
	if got := overlayText(w); !strings.Contains(got, "line 3") {
		t.Errorf("the dialog says %q", got)
	}
}

func TestSaveAndOpen(t *testing.T) {
	w := open(t, sample(), laptop)
	path := filepath.Join(t.TempDir(), "mine.json")
	key(w, fyne.KeyRight, 2)
	if !w.saveTo(path) {
		t.Fatal(overlayText(w))
	}
	if got := w.title(); got != "mine.json — Wakeline" {
		t.Errorf("title %q", got)
	}
	p, err := storage.ReadText(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.Setups[0].Delay; got != 5 {
		t.Errorf("saved delay %d, want 5", got)
	}
	if whole, err := w.model.Document().Whole(); err != nil || !reflect.DeepEqual(p, whole) {
		t.Error("the file holds another project")
	}
	w.undo()
	if !w.model.Edited() {
		t.Error("an undo past the save is no edit")
	}
	w.redo()
	if w.model.Edited() {
		t.Error("back at the save it is edited")
	}
	w.undo()
	key(w, fyne.KeyLeft, 1)
	if !w.model.Edited() {
		t.Error("the same number of other edits is no edit")
	}
	w.save()
	again := open(t, nil, laptop)
	again.openPath(path)
	if got := again.delay(); got != 3 {
		t.Errorf("opened delay %d, want 3", got)
	}
}

func TestFilter(t *testing.T) {
	w := open(t, sample(), laptop)
	test.Type(w.setups.Field, "Palm STEP")
	if got := w.setups.Shown; len(got) != 1 || got[0] != 2 {
		t.Errorf("passes %v, want [2]", got)
	}
	if got := w.setups.Count.Text; got != "1 of 3 setups" {
		t.Errorf("count %q", got)
	}
	if got := w.model.Chosen(); got != 0 {
		t.Errorf("the filter chose %d", got)
	}
	w.setups.List.Select(0)
	if got := w.model.Chosen(); got != 2 {
		t.Errorf("the row chose %d, want 2", got)
	}
	w.setups.Field.SetText("")
	if got := len(w.setups.Shown); got != 3 {
		t.Errorf("%d setups, want 3", got)
	}
	w.setups.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := w.model.Chosen(); got != 1 {
		t.Errorf("Up chose %d, want 1", got)
	}
}

func TestThousandsOfSetups(t *testing.T) {
	w := open(t, many(5000), laptop)
	if known := len(w.model.Rows); known > 100 {
		t.Errorf("%d setups judged for one page of rows", known)
	}
	if got := len(w.setups.List.Rows); got > 100 {
		t.Errorf("%d rows made for one page", got)
	}
	w.setups.Field.SetText("no. 4999")
	if got := w.setups.Shown; len(got) != 1 || got[0] != 4999 {
		t.Errorf("passes %v", got)
	}
	w.setups.List.Select(0)
}

func TestUndoGoesToItsSetup(t *testing.T) {
	w := open(t, sample(), laptop)
	key(w, fyne.KeyRight, 1)
	w.setups.List.Select(2)
	key(w, fyne.KeyRight, 1)
	w.undo()
	w.undo()
	if w.model.Chosen() != 0 || w.delay() != 3 {
		t.Errorf("shows setup %d at delay %d", w.model.Chosen(), w.delay())
	}
}

func TestThemes(t *testing.T) {
	w := open(t, sample(), laptop)
	w.setPalette(paint.PaletteNamed(paint.NightName))
	if got := w.Preferences().String(prefTheme); got != paint.NightName {
		t.Errorf("remembers %q", got)
	}
	if !w.menu.night.Checked || w.menu.paper.Checked {
		t.Error("the menu ticks the other theme")
	}
	for _, part := range []fyne.Widget{w.explain, w.status, w.replies.Body, w.strip} {
		r := test.WidgetRenderer(part).(*paint.PenRenderer)
		if r.Objects(); r.Pen.Palette.Name != paint.NightName {
			t.Errorf("%T keeps its colours", part)
		}
	}
}

// TestThemeOfTheSystem follows it until a theme is chosen, and again when that
// is given up.
func TestThemeOfTheSystem(t *testing.T) {
	w := open(t, sample(), laptop)
	looks := func(dark, known bool, want string) {
		t.Helper()
		w.lookAtSystem(func(fyne.ThemeVariant) (bool, bool) { return dark, known })
		if got := paint.Colours().Name; got != want {
			t.Errorf("dark %v, known %v: shows %s, want %s", dark, known, got, want)
		}
	}
	if !w.menu.system.Checked {
		t.Error("the menu doesn't tick the system's theme")
	}
	looks(false, false, paint.PaperName)
	looks(true, true, paint.NightName)
	looks(false, false, paint.NightName)
	looks(false, true, paint.PaperName)
	w.setPalette(paint.PaletteNamed(paint.NightName))
	looks(false, true, paint.NightName)
	if w.menu.system.Checked {
		t.Error("the menu ticks the system's theme beside the chosen one")
	}
	w.menu.system.Action()
	if !w.menu.system.Checked || w.menu.night.Checked || w.Preferences().String(prefTheme) != "" {
		t.Error("the chosen theme isn't given up")
	}
	looks(false, true, paint.PaperName)
}

func TestSizes(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1024, Height: 640}, {Width: 1600, Height: 1000}, {Width: 2560, Height: 1440}} {
		w := open(t, sample(), size)
		if got := w.Canvas().Content().MinSize(); got.Width > 1024 || got.Height > 610 {
			t.Errorf("asks for at least %v", got)
		}
		for _, o := range []fyne.CanvasObject{w.setups, w.sheet, w.explain, w.replies, w.status} {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
			min := o.MinSize()
			if s := o.Size(); s.Width < min.Width || s.Height < min.Height || at.X+s.Width > size.Width+0.5 || at.Y+s.Height > size.Height+0.5 {
				t.Errorf("at %v: %T lies at %v, %v, needs %v", size, o, at, s, min)
			}
		}
	}
}
