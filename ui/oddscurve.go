package ui

import (
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// perFrame is how many points of the curve stand for one delay.
const perFrame = 6

// oddsCurve adds the odds of the chosen setup's wait to what its sheet is drawn
// with, where some delay is good: also where the jump follows at once, so that
// nothing jumps when a hand drags it on.
func (w *window) oddsCurve(o *sheet.Options) {
	wait, ok := w.timing.Wait(w.timing.Person())
	if !ok || !wait.Good {
		return
	}
	o.Odds = &sheet.Odds{Chances: wait.Curve(perFrame), Per: perFrame}
	if wait.Needed {
		o.Odds.Label = words.Percent(wait.Chance)
	}
}
