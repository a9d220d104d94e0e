package ui

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

// work is what something that runs behind the window is given: when to end,
// and whom to tell how far it is.
type work struct {
	ctx  context.Context
	tell func(done, of int)
}

// patience is how long something may run before the window speaks of it.
const patience = 200 * time.Millisecond

// task runs do behind the window, and then on the window's goroutine with
// what came of it. What takes a while is shown with its progress, where count
// says it in words, and can be cancelled there. Nothing else can be done in
// the window meanwhile.
func (w *window) task(title string, count func(done, of int) string, do func(work) error, then func(err error)) {
	ctx, cancel := context.WithCancel(w.ctx)
	w.model.Commit()
	w.tasks++
	w.model.Held = true
	var ended bool // on the window's goroutine
	var shown *progress
	var last atomic.Int64 // when it was told last, in milliseconds
	begun := time.Now()
	tell := func(done, of int) {
		now := time.Since(begun).Milliseconds()
		if before := last.Load(); now-before < 50 && done < of || !last.CompareAndSwap(before, now) {
			return
		}
		w.later(func() {
			if shown != nil && !ended {
				shown.tell(done, of)
			}
		})
	}
	w.spawn(func() {
		err := guard.Try(title, func() error { return do(work{ctx, tell}) })
		w.later(func() {
			ended = true
			w.tasks--
			w.model.Held = w.tasks > 0
			cancel()
			if shown != nil {
				shown.ask.hide()
			}
			if w.ctx.Err() == nil {
				then(err)
			}
		})
	})
	if ended {
		return
	}
	guard.After(patience, "The progress", func() {
		w.later(func() {
			if !ended && w.ctx.Err() == nil {
				shown = w.newProgress(title, count, cancel)
			}
		})
	})
}

// progress is the dialog of a task.
type progress struct {
	ask   *ask
	bar   *widget.ProgressBar
	words *widget.Label
	count func(done, of int) string
}

func (w *window) newProgress(title string, count func(done, of int) string, cancel func()) *progress {
	p := &progress{count: count, words: widget.NewLabel(""), bar: widget.NewProgressBar()}
	var body fyne.CanvasObject = container.NewVBox(p.bar, p.words)
	if count == nil {
		body = container.NewVBox(widget.NewProgressBarInfinite())
	}
	p.ask = w.newAsk(title, body)
	p.ask.cancel = func() {}
	if count != nil { // what can't count can't stop either
		var stop *paint.PushButton
		stop = p.ask.button("Cancel", func() {
			stop.Disable()
			cancel()
		})
		p.ask.cancel = stop.Press
	}
	p.ask.show(fyne.NewSize(420, 130), nil)
	return p
}

func (p *progress) tell(done, of int) {
	if of > 0 {
		p.bar.SetValue(float64(done) / float64(of))
	}
	if p.count != nil {
		p.words.SetText(p.count(done, of))
	}
}

// counting writes progress as "2,000 of 100,000 setups" would be.
func counting(thing string) func(done, of int) string {
	return func(done, of int) string { return fmt.Sprintf("%d of %s", done, model.CountOf(of, thing)) }
}
