package page

import (
	"context"

	"wakeline/storage/guard"
)

// Newest runs work behind the window, of which the last that was begun counts
// alone: what is begun anew ends what runs.
type Newest struct {
	Host Host
	What string     // the work's name, for what is said where it fails
	Busy func(bool) // it takes a while, or no longer runs; may be nil

	turn   int
	cancel context.CancelFunc // of what runs; nil: nothing does
}

// Run ends what runs, and begins do; then is called on the window's goroutine,
// unless something else was begun meanwhile.
func (n *Newest) Run(do func(ctx context.Context) error, then func(err error)) {
	n.Stop()
	ctx, cancel := context.WithCancel(n.Host.Context())
	turn := n.turn
	n.cancel = cancel
	n.Host.Run(func() {
		err := guard.Try(n.What, func() error { return do(ctx) })
		n.Host.Later(func() {
			cancel()
			if turn == n.turn && n.Host.Context().Err() == nil {
				n.cancel = nil
				n.tell(false)
				then(err)
			}
		})
	})
	if n.cancel == nil || n.Busy == nil {
		return
	}
	guard.After(Patience, n.What, func() {
		n.Host.Later(func() {
			if turn == n.turn && n.cancel != nil {
				n.tell(true)
			}
		})
	})
}

// Stop ends what runs. It reports whether anything did.
func (n *Newest) Stop() bool {
	n.turn++
	if n.cancel == nil {
		return false
	}
	n.cancel()
	n.cancel = nil
	n.tell(false)
	return true
}

func (n *Newest) tell(busy bool) {
	if n.Busy != nil {
		n.Busy(busy)
	}
}
