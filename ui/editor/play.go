package editor

import (
	"time"

	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
)

// speeds are how many times slower than the game a scene may be played, and
// what each is called.
var speeds = [...]struct {
	slow int
	name string
}{{1, "full"}, {2, "half"}, {10, "a tenth"}}

// Player moves a scrub line at the ruleset's rate, or slower, to the scene's
// end. It asks the clock which frame is due: where the window is late, frames
// are left out, and the scene keeps its time.
type Player struct {
	OnState func() // it plays, has stopped, or has another speed

	scrub *Scrub
	Now   func() time.Time // monotonic
	Slow  int

	from  int // the frame that it began on
	began time.Time
	beat  *fyne.Animation // nil: it does not play
}

func NewPlayer(s *Scrub) *Player { return &Player{scrub: s, Now: time.Now, Slow: speeds[0].slow} }

// Playing reports whether it plays.
func (p *Player) Playing() bool { return p.beat != nil }

// Toggle plays, or stops.
func (p *Player) Toggle() {
	if p.Playing() {
		p.Stop()
	} else {
		p.play()
	}
}

// play goes on from the line; from the start where there is none, or it is at
// the end.
func (p *Player) play() {
	t := p.scrub.sheet
	if t.Drawing() == nil {
		return
	}
	if f, on := p.scrub.Frame(); !on || f >= t.Scene.Span.To-1 {
		p.scrub.Start()
	}
	p.since()
	// The window's own beat: nothing runs behind it.
	beat := &fyne.Animation{Duration: time.Hour, RepeatCount: fyne.AnimationRepeatForever, Tick: func(float32) { p.Tick() }}
	p.beat = beat
	beat.Start()
	p.tell()
}

// since counts from now and the line's frame on.
func (p *Player) since() {
	p.from, _ = p.scrub.Frame()
	p.began = p.Now()
}

// Tick shows the frame that is due, and stops at the end.
func (p *Player) Tick() {
	defer paint.Survive("Playing")
	more := false
	defer func() {
		if !more { // also where it fails: it would on every beat
			p.Stop()
		}
	}()
	more = p.show()
}

// show shows the frame that is due. It reports whether there will be another.
func (p *Player) show() bool {
	at, on := p.scrub.Frame()
	if !p.Playing() || !on {
		return false
	}
	due := p.scrub.sheet.model.Data().Ruleset.Rate.Played(p.from, p.Now().Sub(p.began).Nanoseconds(), p.Slow)
	if due != at {
		p.scrub.Set(due)
	}
	return due < p.scrub.sheet.Scene.Span.To-1
}

// Stop leaves the line where it is.
func (p *Player) Stop() {
	if p.Playing() {
		p.beat.Stop()
		p.beat = nil
		p.tell()
	}
}

// SetSpeed plays so many times slower than the game; what is none of the
// speeds counts as full.
func (p *Player) SetSpeed(slow int) {
	if p.speed(slow) < 0 {
		slow = speeds[0].slow
	}
	p.Slow = slow
	if p.Playing() {
		p.since()
	}
	p.tell()
}

// NextSpeed takes the next slower speed, and full after the slowest.
func (p *Player) NextSpeed() { p.SetSpeed(speeds[(p.speed(p.Slow)+1)%len(speeds)].slow) }

// speed is the place of a speed, -1 for none.
func (p *Player) speed(slow int) int {
	for i, s := range speeds {
		if s.slow == slow {
			return i
		}
	}
	return -1
}

func (p *Player) tell() {
	if p.OnState != nil {
		p.OnState()
	}
}
