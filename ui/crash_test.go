package ui

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// breakable is a view whose painter fails while it is told to.
type breakable struct {
	widget.BaseWidget
	broken bool
}

func (b *breakable) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: b, palette: func() *palette { return palettes[0] }, min: func() fyne.Size { return fyne.NewSize(10, 10) },
		paint: func(p *pen, size fyne.Size) {
			p.rect(0, 0, 5, 5, nil, nil, 0)
			if b.broken {
				var none []int
				none[1]++
			}
		}}
}

func TestFailingPainter(t *testing.T) {
	a := test.NewTempApp(t)
	b := &breakable{broken: true}
	b.ExtendBaseWidget(b)
	win := test.NewWindow(b)
	defer win.Close()
	win.Resize(fyne.NewSize(400, 200))
	if len(failures) == 0 {
		t.Fatal("nothing was noted")
	}
	var button *widget.Button
	for _, o := range test.LaidOutObjects(b) {
		if o, ok := o.(*widget.Button); ok {
			button = o
		}
	}
	words := textOf(b)
	if !strings.Contains(words, "This view failed") || !strings.Contains(words, "index out of range") {
		t.Errorf("the view says %q", words)
	}
	if button == nil {
		t.Fatal("there is no button to copy the report with")
	}
	test.Tap(button)
	if got := a.Clipboard().Content(); !strings.Contains(got, "crash_test.go") {
		t.Errorf("the report doesn't say where it failed: %q", got)
	}
	b.broken = false
	b.Refresh()
	if words := textOf(b); words != "" {
		t.Errorf("painted again, the view says %q", words)
	}
	failures = nil
}

func TestFailingCommand(t *testing.T) {
	w := open(t, sample(), laptop)
	w.sheet.OnKey = func(*fyne.KeyEvent) { panic("no such key") }
	key(w, fyne.KeyF7, 1)
	if len(failures) != 1 || !w.crashes.Visible() || !strings.Contains(w.crashes.text.Text, "The sheet failed: no such key") {
		t.Fatalf("%d failures; the bar says %q", len(failures), w.crashes.text.Text)
	}
	failures = nil
	key(w, fyne.KeyRight, 1)
	if w.delay() != 4 {
		t.Error("the sheet does nothing any more")
	}
	if top := w.app.Driver().AbsolutePositionForObject(w.pages).Y; top < w.crashes.MinSize().Height {
		t.Errorf("the window begins at %g, under the bar", top)
	}
	w.crashes.Hide()
	b := newWordButton("break", func() *palette { return w.palette }, func() { panic("no such word") })
	b.Tapped(nil)
	if len(failures) != 1 || !w.crashes.Visible() || !strings.Contains(w.crashes.text.Text, "The button break failed: no such word") {
		t.Fatalf("%d failures; the bar says %q", len(failures), w.crashes.text.Text)
	}
	failures = nil
	w.task("Work", nil, func(work) error { panic("no work") }, func(err error) {
		if c := new(crash); !errors.As(err, &c) {
			t.Errorf("the task ends with %v", err)
		}
	})
	if w.model.Held || len(failures) != 1 {
		t.Errorf("held %v after a task that failed, %d failures", w.model.Held, len(failures))
	}
	failures = nil
}

// textOf is what a widget has painted in letters.
func textOf(o fyne.CanvasObject) string {
	var lines []string
	for _, o := range test.LaidOutObjects(o) {
		if o, ok := o.(*canvas.Text); ok {
			lines = append(lines, o.Text)
		}
	}
	return strings.Join(lines, "\n")
}
