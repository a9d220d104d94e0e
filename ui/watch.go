package ui

import (
	"time"

	"wakeline/ui/model"
)

// lookEvery is how often a project file is looked at for what others wrote.
const lookEvery = 2 * time.Second

// watch has the window look at its project file now and then, until it ends:
// another window may edit what is read-only here.
func (w *window) watch() {
	ticks := time.NewTicker(lookEvery)
	defer ticks.Stop()
	for {
		select {
		case <-w.Context().Done():
			return
		case <-ticks.C:
		}
		w.Later(func() {
			if d, ok := w.model.Document().OnDisk(); ok {
				path := d.Path()
				w.Run(func() {
					if s, ok := model.StampOf(path); ok && w.Context().Err() == nil {
						w.Later(func() { w.lookAgain(d, s) })
					}
				})
			}
		})
	}
}

// lookAgain reads d again where the file has been written since d read it.
func (w *window) lookAgain(d *model.Document, now model.Stamp) {
	if w.model.Document() != d || w.busy() || !now.Written.After(d.Seen.Written) {
		return
	}
	if _, running := w.model.Gesture(); running {
		return
	}
	if err := d.Reload(); err == nil {
		w.model.Reread()
	}
}
