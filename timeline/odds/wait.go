package odds

import (
	"fmt"
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Wait is what the time before a setup's jump asks of a hand. Its frames are
// delays: frame 0 is the first on which the jump can start.
type Wait struct {
	Window Window
	Delay  int  // as set
	Needed bool // the delay is counted; else the jump follows at once

	// Chance is that of the set delay, with all that comes before it; 0 where
	// nothing is good. Best is the most that any aim has, and Aim its moment.
	// Where the window is Exact there is nothing better than not to wait: Best
	// is 1, and Aim the beginning of frame 0.
	Chance, Best float64
	Aim          float64
	Good         bool // some delay is good

	hand  Hand
	links float64
}

// WaitOf asks for the wait of p at that delay, 0 to p.Fits(), by a hand t.
func WaitOf(p *timeline.Plan, delay int, t Timing) Wait {
	w := Wait{Window: Window{p.SafeDelays(), 0, t.Buffer}, Delay: delay, hand: t.Hand}
	w.Needed = delay > 0 || !w.Window.Good.Has(0)
	w.links = math.Pow(t.Link(), float64(len(p.Setup.Fillers)))
	if w.Aim, w.Best, w.Good = t.Hand.Best(w.Window); !w.Good {
		return w
	}
	if w.Window.Exact() {
		w.Aim, w.Best = 0, 1
	}
	w.Best *= w.links
	w.Chance = w.links * t.Wait(w.Window.Good, 0, delay)
	return w
}

// Curve is the chance of aiming at each of n moments a frame, from the middle
// of delay 0 to where, past the last good delay, it is under 1 in 200: n a
// delay, and one more. It is empty where no delay is good.
func (w *Wait) Curve(n int) (out []float64) {
	const little = 0.005
	last := w.Window.Good.Last()
	for i := 0; last >= 0 && i < n*timeline.Width; i++ {
		c := w.links * w.hand.Chance(w.Window, 0.5+float64(i)/float64(n))
		if i == 0 && w.Window.Exact() {
			c = 1 // no wait is aimed at
		}
		out = append(out, c)
		if i%n == 0 && i/n > last && c < little {
			break
		}
	}
	return out
}

// Words says the chance and the best aim: "A hand with 25 ms spread (assumed)
// lands this 68 % of the time; best aim: delay 1." It is empty where no delay is
// good.
func (w *Wait) Words(of Person) string {
	if !w.Good {
		return ""
	}
	if !w.Needed {
		if w.Window.Exact() {
			return "No counted wait: each input is held by the buffer until its frame, so the chain is exact."
		}
		return fmt.Sprintf("%s comes through this chain %s of the time: without a buffer every link must be timed.", of.Words(), words.Percent(w.Chance))
	}
	return fmt.Sprintf("%s lands this %s of the time; best aim: %s.", of.Words(), words.Percent(w.Chance), w.advice())
}

// Advice is the best aim by itself: "Best aim: delay 1, 68 %." It is empty
// where no wait is counted, or no delay is good.
func (w *Wait) Advice() string {
	if !w.Good || !w.Needed {
		return ""
	}
	return "Best aim: " + w.advice() + "."
}

// advice is where to aim, and what comes of it where that is more than the set
// delay has and another delay.
func (w *Wait) advice() string {
	if w.Window.Exact() {
		return "no wait, which the buffer makes exact"
	}
	out := aimWords(w.Aim)
	if better := words.Percent(w.Best); better != words.Percent(w.Chance) && out != aimWords(float64(w.Delay)+0.5) {
		out += ", " + better
	}
	return out
}

// Facts says the same in short, to read beside other numbers. There are none
// where no delay is good.
func (w *Wait) Facts(of Person) []words.Fact {
	switch {
	case !w.Good:
		return nil
	case !w.Needed && w.Window.Exact():
		return []words.Fact{{Name: "lands by hand", Value: "exact, no counted wait"}}
	case !w.Needed:
		return []words.Fact{{Name: "lands by hand", Value: words.Percent(w.Chance) + ", no buffer"}, {Name: "your spread", Value: of.short()}}
	}
	aim, best := aimWords(w.Aim), words.Percent(w.Best)
	if w.Window.Exact() {
		aim, best = "no wait", "exact, by the buffer"
	}
	return []words.Fact{{Name: "lands by hand", Value: words.Percent(w.Chance)}, {Name: "best aim", Value: aim},
		{Name: "lands at that aim", Value: best}, {Name: "your spread", Value: of.short()}}
}

// aimWords says where a moment lies among the delays. A hand that is late may
// have to aim before the first of them.
func aimWords(m float64) string {
	if m < 0 {
		return words.Frames(int(math.Ceil(-m))) + " before delay 0"
	}
	near := math.Round(m)
	if math.Abs(m-near) < 0.25 && near >= 1 {
		return fmt.Sprintf("between delay %d and %d", int(near)-1, int(near))
	}
	return fmt.Sprintf("delay %d", int(math.Floor(m)))
}
