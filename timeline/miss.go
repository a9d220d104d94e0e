package timeline

import "fmt"

// How an attack misses the wake-up, and by how many frames.

// noMeeting says that no delay meets the wake-up, and by how many frames the
// nearest one misses.
func (p *Plan) noMeeting() string {
	best, at, rise := Width, 0, 0
	for d := 0; d <= p.last && best > 1; d++ {
		a := p.base.later(d)
		most, worst := 0, 0
		for r := range p.rises {
			if n, _, _ := p.miss(&a, r); n > most {
				most, worst = n, r
			}
		}
		if most < best {
			best, at, rise = most, d, worst
		}
	}
	if best == Width && p.airThrowsOnly() {
		return "No delay meets the wake-up: " + airThrowWords
	}
	if best == Width {
		return "No delay meets the wake-up: the plan never touches a rival that stands"
	}
	every := "the wake-up"
	if len(p.rises) > 1 {
		every = "every wake-up"
	}
	a := p.base.later(at)
	return fmt.Sprintf("No delay meets %s: the nearest, delay %d, misses it by %s (%s)", every, at, frames(best), p.missWords(&a, rise))
}

// miss returns by how many frames attacker track a misses rise r: frame is
// where it first touches a rival that does nothing, or is active last where
// that is too early, and due where it should. Where it never touches at
// all the count is Width.
func (p *Plan) miss(a *Track, r int) (n, frame, due int) {
	if t := p.firstTouch(a, r, lineNothing); t.frame >= 0 {
		due = p.due(r, t.blow)
		return t.frame - due, t.frame, due
	}
	last, due := a.lastActive(), p.wakes[r]
	if a.nblows > 0 {
		due = p.due(r, &a.blows[a.nblows-1])
	}
	if last < 0 || last >= due {
		return Width, last, due
	}
	return due - last, last, due
}

// missWords says how attacker track a misses rise r.
func (p *Plan) missWords(a *Track, r int) string {
	n, frame, due := p.miss(a, r)
	mark := fmt.Sprintf("the wake-up on %d", due)
	if due != p.wakes[r] {
		mark = fmt.Sprintf("the first frame on which it can be thrown, %d", due)
	}
	switch {
	case n == Width && p.airThrowsOnly():
		return airThrowWords
	case n == Width:
		return "the attack never touches a rival that does nothing"
	case frame >= due:
		return fmt.Sprintf("the attack touches on %d, %s after %s", frame, frames(n), mark)
	}
	return fmt.Sprintf("the attack's last active frame that can touch is %d, %s before %s", frame, frames(n), mark)
}

const airThrowWords = "an air throw can't touch a body on the ground"

// airThrowsOnly reports whether the plan has no strike or throw but air throws.
func (p *Plan) airThrowsOnly() bool {
	for i := range p.base.blows[:p.base.nblows] {
		if p.base.blows[i].class != classAirThrow {
			return false
		}
	}
	return p.base.nblows > 0
}

// lastActive is the last active frame in reach of a body on the ground, -1
// without one.
func (t *Track) lastActive() int {
	last := -1
	for i := range t.blows[:t.nblows] {
		if b := &t.blows[i]; b.class != classAirThrow {
			last = max(last, b.Active.Last())
		}
	}
	return last
}
