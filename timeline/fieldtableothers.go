package timeline

import (
	"fmt"
	"strconv"
	"strings"
)

// JumpFields is the table of a jump's fields. It is not to be changed.
var JumpFields = prepared(Jump{}, []Field[Jump]{
	{Name: "name", Need: always[Jump]("a name"),
		About: "the jump's name; setups that use it take a new name too",
		at:    textAt(func(j *Jump) *string { return &j.Name })},
	{Name: "prejump", Unit: Frames, Need: always[Jump]("a number of frames"),
		About: "frames on the ground before it leaves it",
		at:    numberAt(func(j *Jump) *int { return &j.Prejump })},
	{Name: "airborne", Decides: true, Noun: "airborne time", Unit: Frames, Min: 1, Max: MaxFrames, Need: always[Jump]("a number of frames"),
		About: "frames in the air; the next one is the touchdown",
		at:    numberAt(func(j *Jump) *int { return &j.Airborne })},
	{Name: "landing", Unit: Frames, Need: always[Jump]("a number of frames"),
		About: "frames after touchdown with no action",
		at:    numberAt(func(j *Jump) *int { return &j.Landing })},
	{Name: "guard_after", Unit: Frames,
		About:  "frames after touchdown before a guard works, at most the landing's",
		at:     numberAt(func(j *Jump) *int { return &j.GuardAfter }),
		within: func(_ *checker, j *Jump) (int, int) { return 0, j.Landing }, outside: wantGuardAfter},
	{Name: "travel", Unit: Units, Card: "%d units",
		About: "units it moves its owner",
		at:    numberAt(func(j *Jump) *int { return &j.Travel })},
	{Name: "apex", Unit: Units, Min: 0, Max: MaxUnits, Card: "%d units",
		About: "units of height at its highest",
		at:    maybeAt(func(j *Jump) *Maybe { return &j.Apex })},
})

// RiseFields is the table of a rise's fields. It is not to be changed.
var RiseFields = prepared(Rise{}, []Field[Rise]{
	{Name: "name", Need: always[Rise]("a name"),
		About: "the rise's name; setups that claim it take a new name too",
		at:    textAt(func(r *Rise) *string { return &r.Name })},
	{Name: "extra", Noun: "extra frames", Unit: Frames, Need: always[Rise]("the frames after the quickest rise"),
		About: "frames it is slower than the quickest rise",
		at:    numberAt(func(r *Rise) *int { return &r.Extra })},
	{Name: "shift", Unit: Units, Card: "%d units",
		About: "units of distance that it adds; none at the wall",
		at:    numberAt(func(r *Rise) *int { return &r.Shift })},
})

// FighterFields is the table of a fighter's own fields, without the lists of
// what it has. It is not to be changed.
var FighterFields = prepared(Fighter{}, []Field[Fighter]{
	{Name: "name", Need: always[Fighter]("a name"),
		About: "the fighter's name; setups take a new name too",
		at:    textAt(func(f *Fighter) *string { return &f.Name })},
	{Name: "body", Unit: Units, Min: 0, Max: MaxUnits,
		About: "units of height, standing",
		at:    maybeAt(func(f *Fighter) *Maybe { return &f.Body })},
	{Name: "width", Unit: Units, Min: 0, Max: MaxUnits,
		About: "units that the body is wide, standing",
		at:    maybeAt(func(f *Fighter) *Maybe { return &f.Width })},
})

// RulesetFields is the table of the ruleset's fields. It is not to be changed.
var RulesetFields = prepared(DefaultRuleset(), []Field[Ruleset]{
	{Name: "rate", Label: "Frames per second", at: rate{}, rule: rateRule,
		About: "such as 60, or 60/1",
		Parts: []Field[Ruleset]{
			{Name: "frames", Min: 1, Max: maxRate, at: numberAt(func(r *Ruleset) *int { return &r.Rate.Num })},
			{Name: "seconds", Min: 1, Max: maxRate, at: numberAt(func(r *Ruleset) *int { return &r.Rate.Den })},
		}},
	{Name: "startup_counts_first_active", Label: "Startup includes first active frame", Noun: "counting of startup",
		About: "yes: with a startup of 5 the fifth frame is the first active one; no: the sixth",
		at:    flagAt(func(r *Ruleset) *bool { return &r.StartupCountsFirstActive })},
	{Name: "throw_grace_rise", Label: "Throw immunity after wake-up", Unit: Frames,
		About: "frames after the wake-up on which no throw connects",
		at:    numberAt(func(r *Ruleset) *int { return &r.ThrowGraceRise })},
	{Name: "throw_grace_landing", Label: "Throw immunity on landing", Unit: Frames,
		About: "frames after a touchdown on which no throw connects",
		at:    numberAt(func(r *Ruleset) *int { return &r.ThrowGraceLanding })},
	{Name: "prejump_throw_proof", Label: "Prejump immune to throws",
		About: "yes: a throw misses prejump frames",
		at:    flagAt(func(r *Ruleset) *bool { return &r.PrejumpThrowProof })},
	{Name: "buffer", Label: "Buffer", Unit: Frames,
		About: "frames an input may come early and still act on the first possible frame",
		at:    numberAt(func(r *Ruleset) *int { return &r.Buffer })},
	{Name: "trades", Label: "Strikes trade",
		About: "yes: two strikes on one frame hit both sides; no: the attacker's wins",
		at:    flagAt(func(r *Ruleset) *bool { return &r.Trades })},
	{Name: "health", Label: "Health", Unit: Points, Min: 1, Max: MaxPoints,
		About: "points of full health",
		at:    numberAt(func(r *Ruleset) *int { return &r.Health })},
	{Name: "gauge", Label: "Gauge", Unit: Segments,
		About: "segments of a full gauge",
		at:    numberAt(func(r *Ruleset) *int { return &r.Gauge })},
	{Name: "scaling", Label: "Damage scaling", Max: maxPercent, at: percents[Ruleset]{func(r *Ruleset) *[]int { return &r.Scaling }}, rule: scalingRule,
		About: "percents of the first, second, third ... damaging move of a combo, such as 100 90 80; the last one repeats"},
	{Name: "counter_damage", Label: "Counter hit damage", Noun: "damage of a counter hit", Min: 0, Max: maxPercent, Card: "%d percent",
		About: "percent of a hit's damage where it stops a move that had begun",
		at:    numberAt(func(r *Ruleset) *int { return &r.CounterDamage })},
	{Name: "gauge_worth", Label: "Worth of a segment", Noun: "worth of a segment", Unit: Points, Card: "%d points",
		About: "points that a segment of the gauge is counted as",
		at:    numberAt(func(r *Ruleset) *int { return &r.GaugeWorth })},
	{Name: "parry_advantage", Label: "Advantage after a parry", Noun: "advantage after a parry", Unit: Frames, Min: -MaxFrames, Max: MaxFrames,
		About: "frames that the one who parried is free before the other; empty: a parry is worth nothing by itself",
		at:    maybeAt(func(r *Ruleset) *Maybe { return &r.ParryAdvantage })},
	{Name: "reaction", Label: "Reaction", Unit: Frames,
		About: "frames that a rival needs to see a missed attack and punish it",
		at:    numberAt(func(r *Ruleset) *int { return &r.Reaction })},
	{Name: "carry", Label: "Carry over a round", Noun: "carry", at: carry{}, rule: carryRule,
		About: "the part of the next round's worth that a knockdown is worth now, such as 1/2; 0: rounds aren't counted"},
})

// rate is the frames of a number of seconds, "60/1".
type rate struct{}

func (rate) kind() FieldKind        { return TextField }
func (rate) get(r *Ruleset) Content { return Content{Text: r.Rate.String()} }
func (rate) copy(to, from *Ruleset) { to.Rate = from.Rate }

func (rate) set(r *Ruleset, c Content) (want string) {
	num, den, given := strings.Cut(c.Text, "/")
	if !given {
		den = "1"
	}
	var ok1, ok2 bool
	r.Rate.Num, ok1 = ParseWhole(num)
	r.Rate.Den, ok2 = ParseWhole(den)
	return unless(ok1 && ok2, "a number such as 60, or 60/1")
}

func (rate) read(f *fields, name string, r *Ruleset) {
	text := f.text(name, r.Rate.String())
	num, den, _ := strings.Cut(text, "/")
	var err1, err2 error
	r.Rate.Num, err1 = strconv.Atoi(num)
	r.Rate.Den, err2 = strconv.Atoi(den)
	if err1 != nil || err2 != nil || text != r.Rate.String() {
		f.fail(name, "a text such as \"60/1\"", strconv.Quote(text))
	}
}

func (rate) write(w *writer, r *Ruleset) { w.quote(r.Rate.String()) }

// String writes the rate as the project text does, "60/1".
func (r Rate) String() string { return fmt.Sprintf("%d/%d", r.Num, r.Den) }

func rateRule(c *checker, path *Path, r *Ruleset) {
	if r.Rate.Num < 1 || r.Rate.Den < 1 || r.Rate.Num > maxRate || r.Rate.Den > maxRate {
		c.fail(path, "a text such as \"60/1\", both numbers from 1 to 1000000", strconv.Quote(r.Rate.String()))
	}
}
