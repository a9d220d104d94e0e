package ui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/paint"
)

// kept is a project file that holds p.
func kept(t testing.TB, p *timeline.Project) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tides"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// start shows a window of the tests' driver, in which nothing runs behind it.
func start(t testing.TB, s Start) *window {
	t.Helper()
	s.inline = true
	w := newWindow(test.NewTempApp(t), s)
	w.win.Resize(laptop)
	t.Cleanup(func() {
		w.win.SetCloseIntercept(nil)
		w.win.Close()
		w.end()
		noFailures(t)
	})
	return w
}

// openFile shows a project file that holds p.
func openFile(t testing.TB, p *timeline.Project) *window {
	t.Helper()
	w := start(t, Start{Path: kept(t, p)})
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	return w
}

// onDisk reads the project that the file on screen holds, as another window
// would.
func onDisk(t testing.TB, w *window) (*timeline.Project, []storage.StepNote) {
	t.Helper()
	f, err := storage.Open(w.model.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	steps, err := f.Steps(100)
	if err != nil {
		t.Fatal(err)
	}
	return p, steps
}

// dragDelay drags the delay by so many frames and lets go.
func dragDelay(t testing.TB, w *window, frames float64) {
	t.Helper()
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, frames, 0, 5)
	release(w)
}

// buttonOf is the button that o is, or nil.
func buttonOf(o fyne.CanvasObject) *widget.Button {
	switch o := o.(type) {
	case *widget.Button:
		return o
	case *paint.PushButton:
		return &o.Button
	}
	return nil
}

// tap taps the button of that text in the dialog on top.
func tap(t testing.TB, w *window, text string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if b := buttonOf(o); b != nil && b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button %q in the dialog: %s", text, overlayText(w))
}

// item is the menu's item of that label.
func item(t testing.TB, w *window, label string) *fyne.MenuItem {
	t.Helper()
	for _, m := range w.menu.main.Items {
		for _, i := range m.Items {
			if i.Label == label {
				return i
			}
		}
	}
	t.Fatalf("no item %q in the menu", label)
	return nil
}
