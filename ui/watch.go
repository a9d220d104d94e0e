package ui

import "time"

// lookEvery is how often a project file is looked at for what others wrote.
const lookEvery = 2 * time.Second

// watch has the window look at its project file now and then, until it ends:
// another window may edit what is read-only here.
func (w *window) watch() {
	ticks := time.NewTicker(lookEvery)
	defer ticks.Stop()
	for {
		select {
		case <-w.ctx.Done():
			return
		case <-ticks.C:
		}
		w.later(func() {
			if d, ok := w.model.Document().(*FileDocument); ok {
				path := d.Path()
				w.spawn(func() {
					if s, ok := stampOf(path); ok && w.ctx.Err() == nil {
						w.later(func() { w.lookAgain(d, s) })
					}
				})
			}
		})
	}
}

// lookAgain reads d again where the file has been written since d read it.
func (w *window) lookAgain(d *FileDocument, now stamp) {
	if w.model.Document() != Document(d) || w.busy() || !now.written.After(d.seen.written) {
		return
	}
	if _, running := w.model.Gesture(); running {
		return
	}
	if err := d.Reload(); err == nil {
		w.model.Reread()
	}
}
