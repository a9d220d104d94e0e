package model

import (
	"context"

	"wakeline/timeline"
)

// Holding knows for what else the chosen setup is good, as it stands. It takes
// longer than a verdict, so it is worked out behind the window, after the
// window has drawn the setup; another setup, or the same with another number,
// ends that at once. It is used from the window's goroutine.
type Holding struct {
	OnChange func() // Now and Last say something else

	model *Model
	run   func(do func()) // behind the window
	later func(do func()) // on the window's goroutine, after what it does now is drawn
	ctx   context.Context // ends with the window
	end   context.CancelFunc

	asked   planAt // what was asked for last
	turn    int    // of what was asked for
	holds   timeline.Holds
	holdsOf planAt // what that is of; its plan is nil before the first
}

// planAt is a plan at one delay: a plan never changes, so what holds of it once
// always does.
type planAt struct {
	plan  *timeline.Plan
	delay int
}

// NewHolding returns what knows this of m's chosen setup, until ctx ends.
func NewHolding(ctx context.Context, m *Model, run, later func(do func())) *Holding {
	return &Holding{OnChange: func() {}, model: m, run: run, later: later, ctx: ctx, end: func() {}}
}

func (h *Holding) here() planAt { return planAt{h.model.plan, h.model.setup.Delay} }

// Now is for what else the chosen setup is good; ok is false while that isn't
// known.
func (h *Holding) Now() (holds timeline.Holds, ok bool) {
	if at := h.here(); at.plan == nil || at != h.holdsOf {
		return timeline.Holds{}, false
	}
	return h.holds, true
}

// Last is what Now was last for the chosen setup, with whatever numbers it then
// had; ok is false where it has said nothing of it yet.
func (h *Holding) Last() (holds timeline.Holds, ok bool) {
	if was, is := h.holdsOf.plan, h.model.plan; was == nil || is == nil || was.Setup.Name != is.Setup.Name {
		return timeline.Holds{}, false
	}
	return h.holds, true
}

// Ask has it worked out, where it isn't known or asked for already. It is to be
// called after each change of the model.
func (h *Holding) Ask() {
	at := h.here()
	if at == h.asked {
		return
	}
	h.end()
	h.asked, h.end = at, func() {}
	h.turn++
	turn := h.turn
	if at.plan == nil || at.plan.Blank() || at == h.holdsOf {
		return
	}
	ctx, end := context.WithCancel(h.ctx)
	h.end = end
	h.later(func() {
		if turn != h.turn {
			return
		}
		h.run(func() {
			holds, ok := timeline.HoldsUntil(at.plan, at.delay, func() bool { return ctx.Err() != nil })
			if !ok {
				return
			}
			h.later(func() {
				if turn != h.turn {
					return
				}
				end()
				h.holds, h.holdsOf = holds, at
				h.OnChange()
			})
		})
	})
}
