package timeline

// pace is how an action moves its owner: units along its facing, from frame
// zero of it on, in that many parts.
type pace struct{ travel, zero, parts int }

// pace of a move of that total.
func (m *Move) pace(total int) pace {
	if total == 0 {
		return pace{parts: 1}
	}
	return pace{m.Travel, 0, total}
}

// pace of a jump: on air frame i it has gone i+1 of N+1 parts.
func (j *Jump) pace() pace { return pace{j.Travel, j.Prejump - 1, j.Airborne + 1} }

// act is an action of the attacker, by its first frame at delay 0.
type act struct {
	begin int
	pace
}

// walk is where both stand in one exchange, from the wake-up on.
type walk struct {
	g     *ground
	wake  int
	start leg    // where the attacker stands before its first leg
	lead  []leg  // of its fillers: the one under way on the wake-up, or done last, and later ones
	own   [2]leg // its jump, its landing move
	nown  int
	spare []leg // to lay a lead in
	whole bool  // its lead are all fillers: for drawing

	rises  int  // R: where the rival stands before its reply
	begins int  // the reply's first frame
	pace   pace // the reply's
	asks   bool // the reply's leg is to be laid yet
	goes   bool // the reply moves
	reply  leg
}

// legs is how many legs the attacker has.
func (w *walk) legs() int { return len(w.lead) + w.nown }

func (w *walk) leg(k int) *leg {
	if k < len(w.lead) {
		return &w.lead[k]
	}
	return &w.own[k-len(w.lead)]
}

// under is the leg under way on frame f, or the one that was done last, and
// the first frame of the next.
func (w *walk) under(f int) (l *leg, next int) {
	l, next = &w.start, never
	for k := w.legs() - 1; k >= 0; k-- {
		o := w.leg(k)
		if o.begin <= f {
			return o, next
		}
		next = o.begin
	}
	return l, next
}

// attacker is the attacker's place on frame f.
func (w *walk) attacker(f int) stretch {
	l, next := w.under(f)
	s := l.on(f)
	s.until = min(s.until, next)
	return s
}

// rival is the rival's place on frame f, from the wake-up on.
func (w *walk) rival(f int) stretch {
	if !w.goes {
		return standing(w.rises, 1, never)
	}
	if f < w.begins {
		return standing(w.rises, 1, w.begins)
	}
	return w.reply.on(f)
}

// before are both places on frame f, from the wake-up on for the rival's, where
// what begins on that frame hasn't moved yet.
func (w *walk) before(f int) (attacker, rival stretch) {
	attacker, rival = w.attacker(f), w.rival(f)
	if l, _ := w.under(f); l.begin == f && l != &w.start {
		attacker = standing(l.from, l.rides, never)
	}
	if f == w.begins {
		rival = standing(w.rises, 1, never)
	}
	return attacker, rival
}

// next is the attacker's next leg: an action that begins on that frame. It
// turns towards the rival's place: where that lies, before the wake-up.
func (w *walk) next(begin int, p pace) leg {
	if w.asks && begin > w.begins {
		w.answer()
	}
	last := &w.start
	if n := w.legs(); n > 0 {
		last = w.leg(n - 1)
	}
	other := standing(w.g.d, 1, never)
	switch {
	case begin < w.wake:
	case begin <= w.begins || !w.goes:
		other = standing(w.rises, 1, never)
	default:
		other = w.reply.on(begin)
	}
	here := standing(last.to, last.endRides, never)
	facing := w.g.side(&here, &other, begin)
	if facing == 0 {
		facing = last.facing
	}
	return w.g.setOff(begin, begin+p.zero, p.parts, last.to, last.endRides, facing*p.travel, facing)
}

// answer lays the reply's leg: it turns towards the attacker's place on its
// first frame. What begins on that frame too hasn't moved yet.
func (w *walk) answer() {
	here := standing(w.rises, 1, never)
	l := &w.start
	for k := w.legs() - 1; k >= 0; k-- {
		if o := w.leg(k); o.begin < w.begins {
			l = o
			break
		}
	}
	other := l.on(w.begins)
	facing := w.g.side(&here, &other, w.begins)
	if facing == 0 {
		facing = -1
	}
	p := w.pace
	w.reply = w.g.setOff(w.begins, w.begins+p.zero, p.parts, w.rises, 1, facing*p.travel, facing)
	w.asks, w.goes = false, p.travel != 0
}

// outside adds to out the frames [from, to) on which the rival lies outside of
// the reach of the attacker's action l, which is under way on them.
func (w *walk) outside(out *Set, reach *Interval, l *leg, from, to int) {
	for f := from; f < to; {
		a, b := l.on(f), w.rival(f)
		end := min(to, a.until, b.until)
		w.g.outside(out, reach, l.facing, f, end, &a, &b)
		f = end
	}
}

// beyond adds to out the frames [from, to) on which the attacker lies outside
// of the reach of the reply.
func (w *walk) beyond(out *Set, reach *Interval, from, to int) {
	for f := from; f < to; {
		a, b := w.attacker(f), w.rival(f)
		end := min(to, a.until, b.until)
		w.g.outside(out, reach, -w.reply.facing, f, end, &a, &b)
		f = end
	}
}

// outside adds to out the frames [from, to) that are not reached.
func (g *ground) outside(out *Set, reach *Interval, toward, from, to int, a, b *stretch) {
	in := g.reached(reach, toward, from, to, a, b)
	if in.Len() == 0 {
		out.add(from, to)
		return
	}
	out.add(from, in.From)
	out.add(in.To, to)
}
