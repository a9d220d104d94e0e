package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"wakeline/storage/guard"
)

// When a meter speaks: on a terminal soon and often, on one line; else from
// two seconds on, a line at a time.
const (
	soon     = 300 * time.Millisecond
	often    = 150 * time.Millisecond
	patience = 2 * time.Second
)

// meter tells how far a command is, on standard error.
type meter struct {
	mu          sync.Mutex
	out         io.Writer
	terminal    bool
	now         func() time.Time
	start, last time.Time
	wrote       bool // on the terminal's line
}

// meter begins to measure.
func (c *call) meter() *meter {
	return &meter{out: c.meters, terminal: isTerminal(c.meters), now: time.Now, start: time.Now()}
}

// tell says what text says, where it is time to.
func (m *meter) tell(text func() string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	now := m.now()
	wait, every := patience, patience
	if m.terminal {
		wait, every = soon, often
	}
	if now.Sub(m.start) < wait || now.Sub(m.last) < every {
		return
	}
	m.last = now
	if m.terminal {
		fmt.Fprintf(m.out, "\r\x1b[K%s", plain([]byte(text())))
		m.wrote = true
		return
	}
	fmt.Fprintf(m.out, "%s\n", plain([]byte(text())))
}

// beat tells now and then, until stop is called.
func (m *meter) beat(text func() string) (stop func()) {
	ticker, ended := time.NewTicker(often), make(chan struct{})
	wait := guard.Start("The progress", func() error {
		for {
			select {
			case <-ticker.C:
				m.tell(text)
			case <-ended:
				return nil
			}
		}
	})
	return func() {
		ticker.Stop()
		close(ended)
		wait()
	}
}

// end clears the terminal's line.
func (m *meter) end() {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.wrote {
		fmt.Fprint(m.out, "\r\x1b[K")
		m.wrote = false
	}
}

// isTerminal reports whether w is a device that shows characters.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
