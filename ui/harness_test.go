package ui

import (
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/sheet"
)

// failures are what views and commands left when they failed.
var (
	failures   []*guard.Crash
	failuresMu sync.Mutex
)

func init() {
	guard.Note = func(c *guard.Crash) {
		failuresMu.Lock()
		failures = append(failures, c)
		failuresMu.Unlock()
	}
}

// noFailures fails a test in which a view or a command failed.
func noFailures(t testing.TB) {
	failuresMu.Lock()
	defer failuresMu.Unlock()
	for _, c := range failures {
		t.Error(c.Report())
	}
	failures = nil
}

// open shows p in a window of the tests' driver.
func open(t testing.TB, p *timeline.Project, size fyne.Size) *window {
	t.Helper()
	a := test.NewTempApp(t)
	w := newWindow(a, Start{Project: p, inline: true})
	w.win.Resize(size)
	t.Cleanup(func() {
		w.win.SetCloseIntercept(nil)
		w.win.Close()
		noFailures(t)
	})
	if p != nil && len(p.Setups) > 0 && w.sheet.Drawing() == nil {
		t.Fatal("the window shows no sheet")
	}
	return w
}

var laptop = fyne.NewSize(1280, 800)

// grip is the middle of the first hot place of a part.
func grip(t testing.TB, w *window, part timeline.Part, index int) sheet.Point {
	t.Helper()
	for _, h := range w.sheet.Drawing().Hots {
		if h.Part == part && h.Index == index {
			p := sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: (h.Min.Y + h.Max.Y) / 2}
			if got := w.sheet.Drawing().HotAt(p); got == nil || got.Part != part || got.Index != index {
				t.Fatalf("part %d lies under %+v at %v", part, got, p)
			}
			return p
		}
	}
	t.Fatalf("part %d, %d can't be taken hold of", part, index)
	return sheet.Point{}
}

func position(p sheet.Point) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

// press holds the left button down at p.
func press(w *window, p sheet.Point) {
	ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	ev.Position = position(p)
	w.sheet.MouseDown(ev)
}

// move moves the held button from p by whole frames and units, in steps.
func move(w *window, p sheet.Point, frames, down float64, steps int) {
	scale := w.sheet.Drawing().View.Scale
	last := p
	for i := 1; i <= steps; i++ {
		at := sheet.Point{X: p.X + frames*scale*float64(i)/float64(steps), Y: p.Y + down*float64(i)/float64(steps)}
		ev := &fyne.DragEvent{Dragged: fyne.NewDelta(float32(at.X-last.X), float32(at.Y-last.Y))}
		ev.Position = position(at)
		w.sheet.Dragged(ev)
		last = at
	}
}

// release lets the button go, as the driver does after a drag.
func release(w *window) {
	w.sheet.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	w.sheet.DragEnd()
}

func key(w *window, name fyne.KeyName, n int) {
	for range n {
		w.sheet.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (w *window) delay() int { return w.model.Setup().Delay }

// edits is how many steps of the document are done.
func edits(m *model.Model) (n int) {
	past, err := m.Past(model.MostHistory)
	if err != nil {
		panic(err)
	}
	for i := range past {
		if !past[i].Undone {
			n++
		}
	}
	return n
}

// inMemory is a document of p.
func inMemory(t testing.TB, p *timeline.Project) *model.Document {
	t.Helper()
	doc, err := model.InMemory(p, "")
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
