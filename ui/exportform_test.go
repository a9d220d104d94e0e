package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
)

// TestWhatDoesNotApplyIsGreyedOut: a choice that the format has no use for is
// greyed out with the reason; one that no format of the kind has a use for
// isn't there.
func TestWhatDoesNotApplyIsGreyedOut(t *testing.T) {
	w := open(t, sample(), laptop)
	for _, c := range []struct {
		kind, format string
		set          func(e *exportPage)
		control      func(e *exportPage) fyne.CanvasObject
		shown        bool
		why          string
	}{
		{exportStrip, "svg", nil, func(e *exportPage) fyne.CanvasObject { return e.scale }, true, "Applies to PNG and GIF only."},
		{exportStrip, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.scale }, true, ""},
		{exportStrip, "pdf", nil, func(e *exportPage) fyne.CanvasObject { return e.clear }, true, "Applies to PNG and SVG only."},
		{exportStrip, "pdf", nil, func(e *exportPage) fyne.CanvasObject { return e.width }, true, "Applies to PNG, SVG and GIF only."},
		{exportStrip, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.paper }, true, "Applies to PDF only."},
		{exportStrip, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.each }, false, ""},
		{exportLesson, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.each }, true, ""},
		{exportScreen, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.width }, false, ""},
		{exportFolder, "png", func(e *exportPage) { e.draws.SetSelected(exportDraws[0]) }, func(e *exportPage) fyne.CanvasObject { return e.each }, true, "Applies to lessons only."},
		{exportFolder, "png", func(e *exportPage) { e.draws.SetSelected(exportDraws[1]) }, func(e *exportPage) fyne.CanvasObject { return e.each }, true, ""},
		{exportFolder, "csv", nil, func(e *exportPage) fyne.CanvasObject { return e.draws }, true, "Applies to PNG, SVG and PDF only."},
		{exportFolder, "csv", nil, func(e *exportPage) fyne.CanvasObject { return e.theme }, true, "Applies to PNG, SVG, PDF and GIF only."},
		{exportMatchup, "csv", nil, func(e *exportPage) fyne.CanvasObject { return e.all }, true, ""},
		{exportGlossary, "png", nil, func(e *exportPage) fyne.CanvasObject { return e.all }, false, ""},
		{exportCues, "", nil, func(e *exportPage) fyne.CanvasObject { return e.theme }, false, ""},
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
	w := open(t, sample(), laptop)
	e := exportOf(t, w, exportWords)
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
	if w.page != nil {
		t.Error("Escape does not close the page")
	}
}
