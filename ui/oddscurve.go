package ui

import (
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// perFrame is how many points of the curve stand for one delay.
const perFrame = 6

// curve adds the odds of the chosen setup's wait to what its sheet is drawn
// with, where some delay is good: also where the jump follows at once, so that
// nothing jumps when a hand drags it on.
func (h *hands) curve(o *sheet.Options) {
	w, ok := h.wait(h.person())
	if !ok || !w.Good {
		return
	}
	o.Odds = &sheet.Odds{Chances: w.Curve(perFrame), Per: perFrame}
	if w.Needed {
		o.Odds.Label = words.Percent(w.Chance)
	}
}
