package timeline

import (
	"cmp"
	"slices"
)

// Lane is one reply on the rise on which it is most dangerous.
type Lane struct {
	Line   int // the verdict's index of the reply
	Rise   int // the verdict's index of the rise
	Title  string
	Demand Demand
	Mark   Judgement
	Breaks bool // it breaks a demand, or it is the missed wake-up
	Covers bool // some timing meets its demand; so also where it has none
	Cell   Cell

	Survives bool // the attacker comes through unhurt on every rise asked for
}

// Danger lays the replies of delay d, 0 to Fits(), in the order of danger:
// a missed wake-up; what breaks the setup and some timing covers, by frame of
// meeting (none last); what breaks it and no timing covers, likewise; what is
// unsafe but not demanded, likewise; then the rest by spare, the smallest
// first and those without one last. Ties keep the verdict's order. On rise -1
// each reply stands on the claimed rise on which it is most dangerous. The lanes
// are written over those of into; where that has space for Lines() of them
// nothing is allocated.
func (p *Plan) Danger(d, rise int, into []Lane) []Lane {
	into = p.Lanes(d, rise, into)
	slices.SortStableFunc(into, func(x, y Lane) int { return x.compare(&y) })
	return into
}

// Lanes are those of Danger in the verdict's order.
func (p *Plan) Lanes(d, rise int, into []Lane) []Lane {
	a := p.base.later(d)
	into = into[:0]
	for i := range p.lines {
		into = append(into, worst(p, &a, rise, i))
	}
	return into
}

// worst is line i on that rise, -1 for the worst of those claimed.
func worst(p *Plan, a *Track, rise, i int) (worst Lane) {
	survives := true
	for r := range p.wakes {
		if rise >= 0 && r != rise {
			continue
		}
		c := p.exchange(a, r, i)
		survives = survives && c.Outcome.Survived()
		l := Lane{i, r, p.lines[i].title, p.lines[i].demand, p.Mark(i, &c), p.breaks(i, &c), !p.isUncovered(i), c, false}
		if worst.Title == "" || l.compare(&worst) < 0 {
			worst = l
		}
	}
	worst.Survives = survives
	return worst
}

// compare is below 0 where l is more dangerous than o.
func (l *Lane) compare(o *Lane) int {
	rank, number := l.danger()
	other, theirs := o.danger()
	return cmp.Or(cmp.Compare(rank, other), cmp.Compare(number, theirs))
}

// danger is the group that a lane stands in, and its number within.
func (l *Lane) danger() (rank, number int) {
	switch {
	case l.Breaks && l.Line == LineNothing:
		return 0, l.Cell.Meeting.Or(Width)
	case l.Breaks && l.Covers:
		return 1, l.Cell.Meeting.Or(Width)
	case l.Breaks:
		return 2, l.Cell.Meeting.Or(Width)
	case l.Mark == JudgedUnsafe:
		return 3, l.Cell.Meeting.Or(Width)
	}
	return 4, l.Cell.Spare.Or(Width)
}
