package timeline

// class is a Level as a small number, so that a meeting doesn't compare texts.
type class uint8

const (
	classMid class = iota
	classLow
	classOverhead
	classThrow
	classAirThrow
)

var classes = map[Level]class{Mid: classMid, Low: classLow, Overhead: classOverhead, LevelThrow: classThrow, LevelAirThr: classAirThrow}

// hit is one strike or throw on a track: a move with its frames placed.
type hit struct {
	move   *Move
	class  class
	start  int    // the move's first frame
	spans  []Span // active spans as offsets from start, cut at touchdown
	Active Set    // the frames of spans that are in reach

	// The last span with a frame in reach, and that frame, as an offset.
	lastSpan, lastTouch int

	free int // first free frame of its owner after the move
}

func (b *hit) throws() bool { return b.class >= classThrow }

// span returns the frames of span k.
func (b *hit) span(k int) Set { return between(b.start+b.spans[k].From, b.start+b.spans[k].To) }

// spanAt returns the index of the span that frame f lies in; f is an active
// frame of b.
func (b *hit) spanAt(f int) int {
	for k, s := range b.spans {
		if s.Has(f - b.start) {
			return k
		}
	}
	return len(b.spans) - 1
}

// shield is an armour window on a track: offsets from the move's first frame.
type shield struct {
	Span
	hits int
}

// flight is the stretch of a jump in the air, so that heights can be asked.
type flight struct {
	jump *Jump
	from int // frame of air frame 0
}

// Track is one side's plan as sets of frames, one set a property. Frames that
// a side can't be touched on stand as sets of their own, so that a delay
// shifts every set alike.
type Track struct {
	hits  [2]hit
	nhits int

	NoStrike Set // strikes don't touch: not risen, or immune
	NoThrow  Set // throws don't touch: not risen, grace, immune, prejump
	Air      Set // the body is airborne
	High     Set // guards high
	Low      Set // guards low
	Parry    Set // turns a touched strike around
	Armour   Set // armour takes a strike's span

	// missed is for the rival's tracks: the frames on which each hit of the
	// attacker doesn't touch. It doesn't move with a delay.
	missed [2]Set

	shields     []shield
	shieldStart int // the armoured move's first frame
	flight      flight
	free        int // first free frame after the whole plan
	wait        int // frames by which all after the fillers has been moved
	ahead       int // frames by which the fillers have been, too
}

// later returns t moved by a delay of n frames. Its frames must fit; what passes
// the width is the endless part of a guard.
func (t Track) later(n int) Track {
	for i := range t.hits[:t.nhits] {
		b := &t.hits[i]
		b.Active = b.Active.later(n)
		b.start += n
		b.free += n
	}
	t.NoStrike = t.NoStrike.later(n)
	t.NoThrow = t.NoThrow.later(n)
	t.Air = t.Air.later(n)
	t.High = t.High.later(n)
	t.Low = t.Low.later(n)
	t.Parry = t.Parry.later(n)
	t.Armour = t.Armour.later(n)
	t.shieldStart += n
	t.flight.from += n
	t.free += n
	t.wait += n
	return t
}

// moved returns t with its fillers n frames later, or earlier where n is
// negative: then what would come before frame 0 is let go.
func (t Track) moved(n int) Track {
	if n >= 0 {
		t = t.later(n)
	} else {
		for i := range t.hits[:t.nhits] {
			b := &t.hits[i]
			b.Active = b.Active.sooner(-n)
			b.start += n
			b.free += n
		}
		t.NoStrike = t.NoStrike.sooner(-n)
		t.NoThrow = t.NoThrow.sooner(-n)
		t.Air = t.Air.sooner(-n)
		t.High = t.High.sooner(-n)
		t.Low = t.Low.sooner(-n)
		t.Parry = t.Parry.sooner(-n)
		t.Armour = t.Armour.sooner(-n)
		t.shieldStart += n
		t.flight.from += n
		t.free += n
		t.wait += n
	}
	t.ahead += n
	return t
}

// above returns the frames on which the body is known to be higher than h.
func (t *Track) above(h int) Set {
	if t.flight.jump == nil {
		return Set{}
	}
	s := t.flight.jump.above(h).Later(t.flight.from)
	return between(s.From, s.To)
}

// guards reports whether the body guards that class of touch on frame f.
func (t *Track) guards(c class, f int) bool {
	switch c {
	case classMid:
		return t.High.Has(f) || t.Low.Has(f)
	case classLow:
		return t.Low.Has(f)
	case classOverhead:
		return t.High.Has(f)
	}
	return false
}

// stops returns the frames on which a guard, a parry or armour takes a strike of
// that class.
func (t *Track) stops(c class) Set {
	s := t.Parry.Or(t.Armour)
	if c != classOverhead {
		s = s.Or(t.Low)
	}
	if c != classLow {
		s = s.Or(t.High)
	}
	return s
}

// touches returns the frames on which b touches a body open to its level: its
// active frames in reach, less those on which it misses, guarded or not.
func (b *hit) touches(body *Track) Set { return b.Active.Minus(b.misses(body)) }

// misses returns the frames on which a body is not open to b: not risen,
// immune, too high or too low.
func (b *hit) misses(body *Track) Set {
	switch b.class {
	case classThrow:
		return body.NoThrow.Or(body.Air)
	case classAirThrow:
		return body.NoThrow.Or(since(0).Minus(body.Air))
	}
	s := body.NoStrike
	if b.class == classLow || b.move.MissesAir {
		s = s.Or(body.Air)
	}
	if b.move.Top.Given {
		s = s.Or(body.above(b.move.Top.N))
	}
	return s
}

// addMove lays move m on the track from frame start on: its active frames, its
// windows, its airborne stretch. It guards on none of its frames; the caller
// says what the body does before and after.
func (t *Track) addMove(m *Move, start int, r Ruleset) {
	total := m.Total(r)
	end := start + total
	for _, w := range m.Immune {
		s := w.offsets().Later(start)
		if w.Strikes {
			t.NoStrike = t.NoStrike.Or(between(s.From, s.To))
		}
		if w.Throws {
			t.NoThrow = t.NoThrow.Or(between(s.From, s.To))
		}
	}
	for _, w := range m.Armour {
		s := w.offsets()
		t.shields = append(t.shields, shield{s, w.Hits})
		t.shieldStart = start
		t.Armour = t.Armour.Or(between(start+s.From, start+s.To))
	}
	for _, w := range m.Parry {
		s := w.offsets().Later(start)
		t.Parry = t.Parry.Or(between(s.From, s.To))
	}
	air := m.airborne(total).Later(start)
	t.Air = t.Air.Or(between(air.From, air.To))
	if m.Hits() {
		t.addHit(m, start, Span{start, end}, since(0), end, r)
	}
	t.free = end
}

// addHit adds m's active frames: cut to the frames of cut, touching only on
// those of reach, its owner free again on frame free.
func (t *Track) addHit(m *Move, start int, cut Span, reach Set, free int, r Ruleset) {
	b := hit{move: m, class: classes[m.Level], start: start, free: free, lastSpan: -1}
	spans := m.Spans(r)
	for k, s := range spans {
		s = Span{s.From, min(s.To, cut.To-start)}
		if s.Len() == 0 {
			break
		}
		spans[k] = s
		b.spans = spans[:k+1]
		hit := b.span(k).And(reach)
		if f := hit.First(); f >= 0 {
			b.lastSpan, b.lastTouch = k, f-start
		}
		b.Active = b.Active.Or(hit)
	}
	t.hits[t.nhits] = b
	t.nhits++
}

// addJump lays jump j on the track from frame start on: prejump, air, and the
// grace after touchdown. It returns the touchdown.
func (t *Track) addJump(j *Jump, start int, r Ruleset) int {
	air := start + j.Prejump
	down := air + j.Airborne
	if r.PrejumpThrowProof {
		t.NoThrow = t.NoThrow.Or(between(start, air))
	}
	t.Air = t.Air.Or(between(air, down))
	t.NoThrow = t.NoThrow.Or(between(down, down+r.ThrowGraceLanding))
	t.flight = flight{j, air}
	return down
}

// guard makes the body guard every level on the frames of s.
func (t *Track) guard(s Set) {
	t.High = t.High.Or(s)
	t.Low = t.Low.Or(s)
}
