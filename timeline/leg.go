package timeline

// never is past every frame, and beyond past every place.
const (
	never  = 1 << 30
	beyond = 1 << 40
)

// ground is where a plan takes place (space.md, "The axis"): the attacker
// stands at 0 on frame 0, the rival lies at d, and nobody stands beyond wall.
//
// Where free is set, it is lowered to how many units d may grow, the wall
// with it, without a change in what was asked of the ground: so that a range
// of distances is gone through in a few steps. It may be lower than need be.
type ground struct {
	known bool // the distance is known: else nothing here limits anything
	d     int
	wall  int // beyond where there is none
	free  *int
}

// groundAt is the ground where the rival lies at d, that far from the wall.
func groundAt(d int, room Maybe) ground {
	g := ground{known: true, d: d, wall: beyond}
	if room.Given {
		g.wall = d + room.N
	}
	return g
}

// holds says that nothing changes while d grows by n units.
func (g *ground) holds(n int) {
	if g.free != nil && n < *g.free {
		*g.free = n
	}
}

// leg is one action's way along the axis. From done on its owner stands at to;
// before, it has gone step*(f-zero)/parts by frame f, and nothing up to zero.
//
// A place rides where it moves with the rival's: the rival's own, and that of
// whoever the wall has held.
type leg struct {
	begin       int // the action's first frame
	zero, parts int
	from, step  int // step is signed
	done, to    int
	facing      int // 1: up the axis; -1: down
	rides       int // 1: from rides
	endRides    int // 1: to rides
}

// stretch is a place over some frames: at + step*(f-zero)/parts on frame f,
// before until.
type stretch struct {
	at, step, zero, parts int
	until, rides          int
}

// standing is a stretch at one place.
func standing(at, rides, until int) stretch {
	return stretch{at: at, parts: 1, rides: rides, until: until}
}

// on is the stretch of the leg that frame f lies in.
func (l *leg) on(f int) stretch {
	switch {
	case f >= l.done:
		return standing(l.to, l.endRides, never)
	case f < l.zero:
		return standing(l.from, l.rides, l.zero)
	}
	return stretch{l.from, l.step, l.zero, l.parts, l.done, l.rides}
}

// over is the place on frame f, over parts.
func (s *stretch) over(f int) int { return s.at*s.parts + s.step*(f-s.zero) }

// setOff makes the way of an action that goes step in parts from frame zero
// on, from a place, with that facing. What the wall takes is gone.
func (g *ground) setOff(begin, zero, parts, from, rides, step, facing int) leg {
	l := leg{begin, zero, parts, from, step, zero + parts, from + step, facing, rides, rides}
	if step == 0 {
		l.done = begin
	}
	if l.to > g.wall {
		gap := (g.wall - from) * parts
		n := ceilDiv(gap, step)
		l.done, l.to, l.endRides = zero+n, g.wall, 1
		if rides == 0 {
			g.holds((n*step - gap) / parts)
		}
	}
	return l
}

// side says where b is, seen from a, on frame f: 1 further up the axis, -1
// further down, 0 on the same spot.
func (g *ground) side(a, b *stretch, f int) int {
	n := b.over(f)*a.parts - a.over(f)*b.parts
	switch moves := b.rides - a.rides; {
	case n == 0 && moves != 0:
		g.holds(0)
	case n < 0 && moves > 0:
		g.holds(ceilDiv(-n, a.parts*b.parts) - 1)
	case n > 0 && moves < 0:
		g.holds(ceilDiv(n, a.parts*b.parts) - 1)
	}
	return min(max(n, -1), 1)
}

// ceilDiv is n/d rounded up, for d above 0.
func ceilDiv(n, d int) int { return -floorDiv(-n, d) }

// floorDiv is n/d rounded down, for d above 0.
func floorDiv(n, d int) int {
	q := n / d
	if n%d < 0 {
		q--
	}
	return q
}

// reached returns the frames [from, to) on which near <= toward*(b-a) <= far:
// two linear inequalities, solved in whole numbers. Both stretches hold there.
func (g *ground) reached(reach *Interval, toward, from, to int, a, b *stretch) Span {
	q := a.parts * b.parts
	gap := toward * (b.over(from)*a.parts - a.over(from)*b.parts)
	slope := toward * (b.step*a.parts - a.step*b.parts)
	moves := toward * (b.rides - a.rides) * q
	s := Span{0, to - from}
	g.atLeastZero(&s, gap-reach.Near*q, slope, moves, to-from)
	g.atLeastZero(&s, reach.Far*q-gap, -slope, -moves, to-from)
	return s.Later(from)
}

// atLeastZero cuts s down to the numbers n of 0 to count-1 with h + slope*n
// >= 0, where h grows by moves with each unit that d grows.
func (g *ground) atLeastZero(s *Span, h, slope, moves, count int) {
	from, to := 0, count
	switch {
	case slope > 0:
		if h < 0 {
			from = min(ceilDiv(-h, slope), count)
		}
	case h < 0:
		to = 0
	case slope < 0:
		to = min(h/-slope+1, count)
	}
	s.From, s.To = max(s.From, from), min(s.To, to)
	if g.free == nil || moves == 0 {
		return
	}
	// The next number to come in, or to go out.
	at := 0
	switch {
	case moves > 0 && slope > 0:
		at = from - 1
	case moves > 0:
		at = to
	case slope > 0:
		at = from
	default:
		at = to - 1
	}
	if at < 0 || at >= count {
		return
	}
	if h += slope * at; moves > 0 {
		g.holds(ceilDiv(-h, moves) - 1)
	} else {
		g.holds(floorDiv(h, -moves))
	}
}
