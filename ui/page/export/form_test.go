package export

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/ui/page/pagetest"
)

// TestWhatDoesNotApplyIsGreyedOut: a choice that the format has no use for is
// greyed out with the reason; one that no format of the kind has a use for
// isn't there.
func TestWhatDoesNotApplyIsGreyedOut(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for _, c := range []struct {
		kind, format string
		set          func(e *Page)
		control      func(e *Page) fyne.CanvasObject
		shown        bool
		why          string
	}{
		{Strip, "svg", nil, func(e *Page) fyne.CanvasObject { return e.scale }, true, "Applies to PNG, GIF and films only."},
		{Strip, "png", nil, func(e *Page) fyne.CanvasObject { return e.scale }, true, ""},
		{Strip, "pdf", nil, func(e *Page) fyne.CanvasObject { return e.clear }, true, "Applies to PNG, SVG, APNG, WEBM and frames only."},
		{Strip, "pdf", nil, func(e *Page) fyne.CanvasObject { return e.width }, true, "Applies to PNG, SVG, GIF and films only."},
		{Strip, "png", nil, func(e *Page) fyne.CanvasObject { return e.paper }, true, "Applies to PDF only."},
		{Strip, "png", nil, func(e *Page) fyne.CanvasObject { return e.each }, false, ""},
		{Lesson, "png", nil, func(e *Page) fyne.CanvasObject { return e.each }, true, ""},
		{Screen, "png", nil, func(e *Page) fyne.CanvasObject { return e.width }, false, ""},
		{Folder, "png", func(e *Page) { e.draws.SetSelected(draws[0]) }, func(e *Page) fyne.CanvasObject { return e.each }, true, "Applies to lessons only."},
		{Folder, "png", func(e *Page) { e.draws.SetSelected(draws[1]) }, func(e *Page) fyne.CanvasObject { return e.each }, true, ""},
		{Folder, "csv", nil, func(e *Page) fyne.CanvasObject { return e.draws }, true, "Applies to PNG, SVG, PDF and HTML only."},
		{LessonPage, "", nil, func(e *Page) fyne.CanvasObject { return e.exercise }, true, ""},
		{LessonPage, "", nil, func(e *Page) fyne.CanvasObject { return e.each }, false, ""},
		{LessonPage, "", nil, func(e *Page) fyne.CanvasObject { return e.theme }, false, ""},
		{Lessons, "", nil, func(e *Page) fyne.CanvasObject { return e.draws }, false, ""},
		{Strip, "png", nil, func(e *Page) fyne.CanvasObject { return e.exercise }, false, ""},
		{Folder, "csv", nil, func(e *Page) fyne.CanvasObject { return e.theme }, true, "Applies to PNG, SVG, PDF and GIF only."},
		{Matchup, "csv", nil, func(e *Page) fyne.CanvasObject { return e.all }, true, ""},
		{Glossary, "png", nil, func(e *Page) fyne.CanvasObject { return e.all }, false, ""},
		{Captions, "", nil, func(e *Page) fyne.CanvasObject { return e.theme }, false, ""},
	} {
		e := exportOf(t, w, c.kind)
		if c.format != "" {
			e.format.SetSelected(c.format)
		}
		if c.set != nil {
			c.set(e)
		}
		r := e.rows[c.control(e)]
		why := ""
		if r.below.Visible() {
			why = r.why.Text
		}
		if r.box.Visible() != c.shown || r.control.Disabled() != (c.why != "") || why != c.why {
			t.Errorf("%s as %s: shown %v, greyed out %v, says %q; want %v, %q", c.kind, c.format, r.box.Visible(), r.control.Disabled(), why, c.shown, c.why)
		}
	}
}

// TestExportByKeys: Tab goes through the form, the preview and the path to the
// button that writes, and Enter there writes.
func TestExportByKeys(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, Words)
	c := w.Canvas()
	if c.Focused() != fyne.Focusable(e.kind) {
		t.Fatalf("the keys are with %T", c.Focused())
	}
	seen := 0
	for c.Focused() != fyne.Focusable(e.path) {
		c.(interface{ FocusNext() }).FocusNext()
		if seen++; seen > 12 {
			t.Fatal("Tab does not come to the path")
		}
	}
	path := filepath.Join(t.TempDir(), "a.md")
	e.path.SetText(path)
	e.path.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if b, err := os.ReadFile(path); err != nil || string(b) != e.preview.made.Text {
		t.Errorf("Enter in the path writes %q, %v", b, err)
	}
	e.path.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Page != nil {
		t.Error("Escape does not close the page")
	}
}
