package main

import (
	"fmt"
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/odds"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/ui/output"
)

const mixMore = `
The attacker picks one of the setups, the rival a rise and a reply, and neither
sees what the other takes: the answer is how often each should be picked, and
the points that a round is then worth. The setups share attacker, rival, ender
and position; with one name, all setups of its ender are weighed. A setup that
can't be judged, or whose own moves the gauge doesn't pay, is left out, and
standard error names it.
With --hand, a setup with a counted wait is weighed by where a press lands: for
the hand of the project file's last drill, else for an assumed one; --spread
gives it in milliseconds.
With --carry, or a ruleset's carry, an exchange that leads to an ender with
setups adds that part of what the round after it is worth.
Exit: 0 done; 2 invalid arguments or bad input.

--json prints one document:
  {"attacker": "...", "rival": "...", "ender": "...", "position": "midscreen", "gauge": 4,
   "rows": [{"setup": "...", "share": "1/3", "against": "57/25", "worst": "-200"}],
   "columns": [{"rise": "...", "reply": "...", "late": 0, "share": "1/2", "against": "57/25"}],
   "payoff": [["120", "-200"]], "value": "57/25", "unique": true, "exact": true,
   "carry": "1/2", "bound": 0.000001, "rounds": [{"ender": "...", "position": "midscreen", "value": 12.5}]}
"against" is what a setup or reply makes against the other side's shares,
"worst" a setup's least. Exact numbers are texts; with a hand, or where
something is carried, they are numbers and "exact" is false. Without a carry
"bound" and "rounds" are null.
` + answerMore

// mixSetups weighs setups against all that the rival may do.
func mixSetups(c *call) (int, error) {
	var names []string
	c.flags.Func("setup", "weigh the setup `NAME`; can be repeated; alone: all setups of its ender", func(text string) error { names = append(names, text); return nil })
	var o value.MixOptions
	c.flags.Var(maybe{&o.Gauges.Attacker}, "gauge", "the attacker has `N` segments (default a full gauge)")
	c.flags.Var(maybe{&o.Gauges.Rival}, "rival-gauge", "the rival has `N` segments (default a full gauge)")
	byHand := c.flags.Bool("hand", false, "weigh counted waits by where a press lands")
	spread := c.flags.Float64("spread", odds.DefaultSpread, "standard deviation of the presses, in milliseconds; with it --hand is not needed")
	carry := c.flags.String("carry", "", "the part `C` of the next round's value that is added, 0 or more and less than 1, as 1/2 or 0.5 (default the ruleset's)")
	asJSON := c.flags.Bool("json", false, "print JSON")
	file := answerFlags(c)
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	if len(names) == 0 {
		return 0, usageError{"expected --setup NAME"}
	}
	if err := file.check(output.Mix, *asJSON); err != nil {
		return 0, err
	}
	if !(*spread >= 0 && *spread <= maxMilliseconds) {
		return 0, usageError{fmt.Sprintf("--spread: expected 0 to %d milliseconds, got %g", maxMilliseconds, *spread)}
	}
	p, err := openSource(path)
	if err != nil {
		return 0, err
	}
	defer p.close()
	rules := p.data.Ruleset
	for _, g := range []struct {
		name string
		of   timeline.Maybe
	}{{"gauge", o.Gauges.Attacker}, {"rival-gauge", o.Gauges.Rival}} {
		if g.of.Given && (g.of.N < 0 || g.of.N > rules.Gauge) {
			return 0, usageError{fmt.Sprintf("--%s: expected 0 to %d segments, got %d", g.name, rules.Gauge, g.of.N)}
		}
	}
	o.Carry = rules.Carry
	if given(c.flags, "carry") {
		part, ok := timeline.ParseCarry(*carry)
		if !ok {
			return 0, usageError{fmt.Sprintf("--carry: expected 0 or more and less than 1, as 1/2 or 0.5, got %q", *carry)}
		}
		o.Carry = part
	}
	person := odds.Anyone()
	if *byHand || given(c.flags, "spread") {
		if person, err = lastHand(p, given(c.flags, "spread"), *spread); err != nil {
			return 0, err
		}
		hand := person.Timing(rules).Hand
		o.Hand = &hand
	}
	setups, err := c.ofOneMix(p, names, &o)
	if err != nil {
		return 0, err
	}
	m, err := value.NewBook(p.data).Mix(c.ctx, p.index, setups, o)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", path, err)
	}
	for _, out := range m.LeftOut {
		fmt.Fprintf(c.progress, "left out: %q: %s\n", out.Setup, out.Because)
	}
	told := report.Mix{Mix: m, Gauge: o.Gauges.Attacker.Or(rules.Gauge)}
	if o.Hand != nil {
		told.Hand = person.Words()
	}
	switch {
	case file.out != "":
		return exitDone, file.write(file.order.MakeMix(&told, file.format()))
	case *asJSON:
		return exitDone, told.JSON(c.raw)
	}
	return exitDone, told.Text(c.out)
}

// lastHand is the hand of the last drill, else an assumed one, or that of a
// spread that was given.
func lastHand(p *source, given bool, spread float64) (odds.Person, error) {
	if given {
		return odds.Person{Spread: spread}, nil
	}
	if p.file == nil {
		return odds.Anyone(), nil
	}
	drills, err := p.file.Drills()
	if err != nil {
		return odds.Anyone(), err
	}
	if hands := storage.Hands(drills); len(hands) > 0 {
		if measured, ok := odds.Measured(storage.Late(drills, hands[0])); ok {
			measured.Name = hands[0]
			return measured, nil
		}
	}
	return odds.Anyone(), nil
}

// ofOneMix are the setups to weigh; it writes the pair's own into the options.
func (c *call) ofOneMix(p *source, names []string, o *value.MixOptions) (setups []timeline.Setup, err error) {
	for i, name := range names {
		_, s, err := p.find("--setup", name)
		if err != nil {
			return nil, err
		}
		if slices.Contains(names[:i], name) {
			return nil, usageError{fmt.Sprintf("--setup: expected each setup once, got %q twice", name)}
		}
		if first := append(setups, s)[0]; s.Attacker != first.Attacker || s.Rival != first.Rival || s.Ender != first.Ender || s.Position != first.Position {
			return nil, usageError{fmt.Sprintf("--setup: expected a setup of %s against %s, after %s (%s), as %q is, got %q, after %s (%s) against %s",
				first.Attacker, first.Rival, report.Ender(first.Ender), first.Position, first.Name, name, report.Ender(s.Ender), s.Position, s.Rival)}
		}
		setups = append(setups, s)
	}
	first := setups[0]
	err = p.each(c.ctx, func(_ int, s *timeline.Setup) error {
		if s.Attacker == first.Attacker && s.Rival == first.Rival && s.Position == first.Position {
			o.Pair = append(o.Pair, *s)
		}
		return nil
	})
	if err != nil || len(names) > 1 || first.Ender == "" {
		return setups, err
	}
	setups = nil
	for _, s := range o.Pair {
		if s.Ender == first.Ender {
			setups = append(setups, s)
		}
	}
	return setups, nil
}
