package page

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// Work is what something that runs behind the window is given: when to end,
// and whom to tell how far it is.
type Work struct {
	Context context.Context
	Tell    func(done, of int)
}

// Tasks runs what takes long behind a window.
type Tasks struct {
	Spawn func(do func()) // runs it behind the window
	Later func(do func()) // runs it on the window's goroutine

	ctx     context.Context // ends with the window
	model   *model.Model
	dialogs *Dialogs
	running int
}

// NewTasks returns the tasks of a window that ends with ctx.
func NewTasks(ctx context.Context, m *model.Model, d *Dialogs) *Tasks {
	return &Tasks{ctx: ctx, model: m, dialogs: d}
}

// Patience is how long something may run before the window speaks of it.
const Patience = 200 * time.Millisecond

// Task runs do behind the window, and then on the window's goroutine with
// what came of it. What takes a while is shown with its progress, where count
// says it in words, and can be cancelled there. Nothing else can be done in
// the window meanwhile.
func (t *Tasks) Task(title string, count func(done, of int) string, do func(Work) error, then func(err error)) {
	ctx, cancel := context.WithCancel(t.ctx)
	t.model.Commit()
	t.running++
	t.model.Held = true
	var ended bool // on the window's goroutine
	var shown *Progress
	var last atomic.Int64 // when it was told last, in milliseconds
	begun := time.Now()
	tell := func(done, of int) {
		now := time.Since(begun).Milliseconds()
		if before := last.Load(); now-before < 50 && done < of || !last.CompareAndSwap(before, now) {
			return
		}
		t.Later(func() {
			if shown != nil && !ended {
				shown.tell(done, of)
			}
		})
	}
	t.Spawn(func() {
		err := guard.Try(title, func() error { return do(Work{ctx, tell}) })
		t.Later(func() {
			ended = true
			t.running--
			t.model.Held = t.running > 0
			cancel()
			if shown != nil {
				shown.Dialog.Hide()
			}
			if t.ctx.Err() == nil {
				then(err)
			}
		})
	})
	if ended {
		return
	}
	guard.After(Patience, "The progress", func() {
		t.Later(func() {
			if !ended && t.ctx.Err() == nil {
				shown = t.dialogs.NewProgress(title, count, cancel)
			}
		})
	})
}

// Progress is the dialog of a task.
type Progress struct {
	Dialog *Dialog
	bar    *widget.ProgressBar
	words  *widget.Label
	count  func(done, of int) string
}

// NewProgress shows a progress. What can't count can't be cancelled.
func (d *Dialogs) NewProgress(title string, count func(done, of int) string, cancel func()) *Progress {
	p := &Progress{count: count, words: widget.NewLabel(""), bar: widget.NewProgressBar()}
	var body fyne.CanvasObject = container.NewVBox(p.bar, p.words)
	if count == nil {
		body = container.NewVBox(widget.NewProgressBarInfinite())
	}
	p.Dialog = d.New(title, body)
	p.Dialog.Cancel = func() {}
	if count != nil { // what can't count can't stop either
		var stop *paint.PushButton
		stop = p.Dialog.Button("Cancel", func() {
			stop.Disable()
			cancel()
		})
		p.Dialog.Cancel = stop.Press
	}
	p.Dialog.Show(fyne.NewSize(420, 130), nil)
	return p
}

func (p *Progress) tell(done, of int) {
	if of > 0 {
		p.bar.SetValue(float64(done) / float64(of))
	}
	if p.count != nil {
		p.words.SetText(p.count(done, of))
	}
}

// Counting writes progress as "2,000 of 100,000 setups" would be.
func Counting(thing string) func(done, of int) string {
	return func(done, of int) string { return fmt.Sprintf("%d of %s", done, model.CountOf(of, thing)) }
}
