package ui

import (
	"context"
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// breakable is a view whose painter fails while it is told to.
type breakable struct {
	widget.BaseWidget
	broken bool
}

func (b *breakable) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: b, Min: func() fyne.Size { return fyne.NewSize(10, 10) },
		Paint: func(p *paint.Pen, size fyne.Size) {
			p.Rect(0, 0, 5, 5, nil, nil, 0)
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
	if len(failures) != 1 || !w.crashes.Visible() || !strings.Contains(w.crashes.Text.Text, "The sheet failed: no such key") {
		t.Fatalf("%d failures; the bar says %q", len(failures), w.crashes.Text.Text)
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
	b := paint.NewWordButton("break", func() { panic("no such word") })
	b.Tapped(nil)
	if len(failures) != 1 || !w.crashes.Visible() || !strings.Contains(w.crashes.Text.Text, "The button break failed: no such word") {
		t.Fatalf("%d failures; the bar says %q", len(failures), w.crashes.Text.Text)
	}
	failures = nil
	w.Task("Work", nil, func(page.Work) error { panic("no work") }, func(err error) {
		if c := new(guard.Crash); !errors.As(err, &c) {
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

// TestAFailingWorkerIsAnError has what works behind the window fail on a
// goroutine of its own.
func TestAFailingWorkerIsAnError(t *testing.T) {
	p := many(200)
	each := func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		for i := range p.Setups {
			if err := do(i, &p.Setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
	broken := func(context.Context, func(at int, s *timeline.Setup) error) error { panic("no such page") }
	crashed := func(name string, err error) {
		t.Helper()
		if c := new(guard.Crash); !errors.As(err, &c) {
			t.Errorf("%s: %v, want a failure", name, err)
		}
		failures = nil
	}
	_, err := model.CompareAll(t.Context(), each, p, patched(), func(int) { panic("no such number") })
	crashed("a comparison", err)
	_, err = model.CompareAll(t.Context(), broken, p, patched(), func(int) {})
	crashed("a comparison's reading", err)
	err = model.JudgeAll(t.Context(), func(ctx context.Context, do func(*timeline.Setup) error) error {
		return broken(ctx, nil)
	}, timeline.NewIndex(p), func(map[string]model.Judged) {})
	crashed("the judging", err)
	if out, err := model.CompareAll(t.Context(), each, p, patched(), func(int) {}); err != nil || len(out) == 0 {
		t.Errorf("a sound comparison: %d changes, %v", len(out), err)
	}
}

// TestAFailingMeasureIsToldOnce has a view fail that is measured at each frame.
func TestAFailingMeasureIsToldOnce(t *testing.T) {
	b := &breakable{}
	b.ExtendBaseWidget(b)
	r := &paint.PenRenderer{Owner: b, Min: func() fyne.Size {
		if b.broken {
			panic("no such word")
		}
		return fyne.NewSize(7, 7)
	}}
	for _, broken := range []bool{true, true, false, true} {
		b.broken = broken
		want := fyne.NewSize(7, 7)
		if broken {
			want = fyne.Size{}
		}
		if got := r.MinSize(); got != want {
			t.Errorf("broken %v: measures %v, want %v", broken, got, want)
		}
	}
	if len(failures) != 2 {
		t.Errorf("noted %d times, want 2: at each time that it begins", len(failures))
	}
	failures = nil
}
