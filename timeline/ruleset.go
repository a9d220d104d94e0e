package timeline

import (
	"math/bits"
	"reflect"
)

// Rate is a number of frames a second, Num/Den, both above 0.
type Rate struct{ Num, Den int }

// Ruleset holds the rules of the game that every setup of a project shares.
// frames.md, "Ruleset", is the source of the fields and of their defaults.
type Ruleset struct {
	Rate                     Rate
	StartupCountsFirstActive bool // startup S puts the first active offset on S-1, else on S
	ThrowGraceRise           int  // frames from the wake-up without a throw, 0 or more
	ThrowGraceLanding        int  // frames from a touchdown without a throw, 0 or more
	PrejumpThrowProof        bool // a throw misses prejump frames
	Buffer                   int  // frames an input may come early, 0 or more
	Trades                   bool // two strikes on one frame: both are hit, else the attacker's wins
	Health                   int  // points, 1 or more
	Gauge                    int  // segments, 0 or more

	// value.md
	Scaling        []int // percents of a combo's damaging moves in turn, at least one; the last repeats
	CounterDamage  int   // percent
	GaugeWorth     int   // points a segment
	ParryAdvantage Maybe // frames; absent: a parry is worth nothing by itself
	Reaction       int   // frames from a whiff to its punish
	Carry          Ratio // of the next round's value, below 1
}

// DefaultRuleset is what a project text means where it says nothing.
func DefaultRuleset() Ruleset {
	return Ruleset{
		Rate: Rate{60, 1}, StartupCountsFirstActive: true, PrejumpThrowProof: true,
		Buffer: 3, Trades: true, Health: 1000, Gauge: 4,
		Scaling: []int{100}, CounterDamage: 100, Reaction: 15, Carry: Ratio{0, 1},
	}
}

// Equal reports whether both hold the same.
func (r Ruleset) Equal(o Ruleset) bool { return reflect.DeepEqual(r, o) }

// Milliseconds is the length of n frames in thousandths of a second: for
// display and human timing only, never for judging.
func (r Rate) Milliseconds(n int) float64 {
	return float64(n) * 1000 * float64(r.Den) / float64(r.Num)
}

// Played is the frame that shows ns nanoseconds after frame from began, where
// each lasts slow times as long as it does in the game; at most Width.
func (r Rate) Played(from int, ns int64, slow int) int {
	hi, lo := bits.Mul64(uint64(max(ns, 0)), uint64(r.Num))
	per := uint64(r.Den) * uint64(slow) * 1e9
	if hi >= per {
		return Width
	}
	n, _ := bits.Div64(hi, lo, per)
	return from + int(min(n, uint64(max(Width-from, 0))))
}
