package ui

import (
	"time"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
)

// speeds are how many times slower than the game a scene may be played, and
// what each is called.
var speeds = [...]struct {
	slow int
	name string
}{{1, "full"}, {2, "half"}, {10, "a tenth"}}

// player moves a scrub line at the ruleset's rate, or slower, to the scene's
// end. It asks the clock which frame is due: where the window is late, frames
// are left out, and the scene keeps its time.
type player struct {
	OnState func() // it plays, has stopped, or has another speed

	scrub *Scrub
	now   func() time.Time // monotonic
	slow  int

	from  int // the frame that it began on
	began time.Time
	beat  *fyne.Animation // nil: it does not play
}

func newPlayer(s *Scrub) *player { return &player{scrub: s, now: time.Now, slow: speeds[0].slow} }

// playing reports whether it plays.
func (p *player) playing() bool { return p.beat != nil }

// toggle plays, or stops.
func (p *player) toggle() {
	if p.playing() {
		p.stop()
	} else {
		p.play()
	}
}

// play goes on from the line; from the start where there is none, or it is at
// the end.
func (p *player) play() {
	t := p.scrub.sheet
	if t.Drawing() == nil {
		return
	}
	if f, on := p.scrub.Frame(); !on || f >= t.scene.Span.To-1 {
		p.scrub.Start()
	}
	p.since()
	// The window's own beat: nothing runs behind it.
	beat := &fyne.Animation{Duration: time.Hour, RepeatCount: fyne.AnimationRepeatForever, Tick: func(float32) { p.tick() }}
	p.beat = beat
	beat.Start()
	p.tell()
}

// since counts from now and the line's frame on.
func (p *player) since() {
	p.from, _ = p.scrub.Frame()
	p.began = p.now()
}

// tick shows the frame that is due, and stops at the end.
func (p *player) tick() {
	defer paint.Survive("Playing")
	more := false
	defer func() {
		if !more { // also where it fails: it would on every beat
			p.stop()
		}
	}()
	more = p.show()
}

// show shows the frame that is due. It reports whether there will be another.
func (p *player) show() bool {
	at, on := p.scrub.Frame()
	if !p.playing() || !on {
		return false
	}
	due := p.scrub.sheet.model.Data().Ruleset.Rate.Played(p.from, p.now().Sub(p.began).Nanoseconds(), p.slow)
	if due != at {
		p.scrub.Set(due)
	}
	return due < p.scrub.sheet.scene.Span.To-1
}

// stop leaves the line where it is.
func (p *player) stop() {
	if p.playing() {
		p.beat.Stop()
		p.beat = nil
		p.tell()
	}
}

// setSpeed plays so many times slower than the game; what is none of the
// speeds counts as full.
func (p *player) setSpeed(slow int) {
	if p.speed(slow) < 0 {
		slow = speeds[0].slow
	}
	p.slow = slow
	if p.playing() {
		p.since()
	}
	p.tell()
}

// nextSpeed takes the next slower speed, and full after the slowest.
func (p *player) nextSpeed() { p.setSpeed(speeds[(p.speed(p.slow)+1)%len(speeds)].slow) }

// speed is the place of a speed, -1 for none.
func (p *player) speed(slow int) int {
	for i, s := range speeds {
		if s.slow == slow {
			return i
		}
	}
	return -1
}

func (p *player) tell() {
	if p.OnState != nil {
		p.OnState()
	}
}
