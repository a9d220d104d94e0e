package pagetest

import (
	"context"
	"path/filepath"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var _ page.Host = (*Host)(nil)

// Host is a window of the tests' driver.
type Host struct {
	Window fyne.Window
	Page   page.Page                    // that is shown; nil: none
	Notes  []string                     // that were said in passing
	Hold   func(do func())              // takes what is to run behind the window; nil: it runs where it is asked for
	Filter func(s *timeline.Setup) bool // of the list; nil: it shows all setups
	Tasks  *page.Tasks

	model   *model.Model
	timing  *model.Timing
	dialogs *page.Dialogs
	ctx     context.Context
}

// Laptop is the size of the window.
var Laptop = fyne.NewSize(1280, 800)

// Open returns a host of a project in memory.
func Open(t testing.TB, p *timeline.Project) *Host {
	t.Helper()
	doc, err := model.InMemory(p, "")
	if err != nil {
		t.Fatal(err)
	}
	return Of(t, model.NewModel(doc))
}

// OpenFile returns a host of a project file.
func OpenFile(t testing.TB, p *timeline.Project) *Host {
	t.Helper()
	f, err := storage.Create(filepath.Join(t.TempDir(), "tides"+storage.Ext), p)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := model.NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := doc.Close(); err != nil {
			t.Error(err)
		}
	})
	return Of(t, model.NewModel(doc))
}

// Of returns a host of a model.
func Of(t testing.TB, m *model.Model) *Host {
	failed := failures(t)
	a := test.NewTempApp(t)
	a.Settings().SetTheme(paint.Theme{Palette: paint.PaletteNamed(paint.PaperName)})
	ctx, end := context.WithCancel(context.Background())
	h := &Host{Window: a.NewWindow("Page"), model: m, ctx: ctx}
	h.Window.SetPadded(false)
	h.Window.Resize(Laptop)
	h.dialogs = page.NewDialogs(h.Window, h.refocus)
	h.Tasks = page.NewTasks(ctx, m, h.dialogs)
	h.Tasks.Spawn, h.Tasks.Later = func(do func()) { do() }, func(do func()) { do() }
	h.timing = model.NewTiming(m, a.Preferences())
	h.timing.OnFail = h.Note
	h.timing.OnChange = func() {
		if p, ok := h.Page.(page.Timed); ok {
			p.TimingChanged()
		}
	}
	m.Observe(func(c model.Change) {
		if h.Page != nil {
			h.Page.Changed(c)
		}
	})
	t.Cleanup(func() {
		end()
		h.Window.Close()
		failed()
	})
	return h
}

// failures returns what fails the test where a handler has failed since.
func failures(t testing.TB) func() {
	var mu sync.Mutex
	before := guard.Note
	guard.Note = func(c *guard.Crash) {
		mu.Lock()
		defer mu.Unlock()
		t.Error(c.Report())
	}
	return func() { guard.Note = before }
}
