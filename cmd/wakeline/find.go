package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/timeline/odds"
	"wakeline/timeline/words"
	"wakeline/ui/output"
)

const findMore = `
The setup gives the ender, the position, the rival, its rises and the replies
with their demands; its own fillers, delay, jump, attack and press are not
read. Every sequence of fillers is tried, then at most one counted wait, then
each jump with each attack, pressed by itself. The same fillers in another
order are one answer, whose orders are counted. The rank: no counted wait
first, then the chance that the wait lands, frames to spare, fewer fillers,
less gauge.
Of a fighter named by --rival the first rise is claimed, and it is asked what
the project's setups against it demand, the hardest demand on each reply; where
there is none, to survive its strikes and throws done on the ground.
The chances are for the hand of a project file's last drill, or the one that
--hand names, as its drills measured it; --spread and --bias set these numbers
each by itself.
Exit: 0 done, also where there is no answer; 2 invalid arguments or bad input.

--json prints one document; counts may pass what a double holds exactly:
  {"setup": "...", "advantage": 77, "fillers": 3, "wait": null, "gauge": 0,
   "spread_ms": 25, "bias_ms": 0, "assumed": true, "presses": 0, "hand": "",
   "count": 120, "exact": 4, "orders": 310, "passed": 0, "because": [], "limited": 0,
   "ways": [{"jump": "...", "attack": "...", "starts": [{"from": 31, "to": 33}], "count": 120, "because": ""}],
   "answers": [{"rank": 1, "fillers": ["..."], "delay": 0, "jump": "...", "attack": "...", "jump_on": 33,
     "chance": 1, "spare": 2, "gauge": 0, "travel": 110, "place": 110, "orders": 2, "why": "...",
     "verdicts": [{"rival": "...", "verdict": "safe", "because": "..."}]}]}
"presses" counts those of the drills that measured the spread, the bias or
both; it is 0 where neither was measured. "hand" is the name of that hand.
Where the distance is known, fillers that pass the rival are left out: "passed"
counts those that would do by their frames. "place" is where an answer's
fillers leave the attacker, null where the distance isn't known.
"because" says which constraint rules every answer out, where there is none,
and "limited" how many answers --limited would list then.
With --enders it holds "setup" and "enders", a list of {"ender", "position",
"advantage", "cells"}, each cell {"jump", "attack", "starts", "shortest",
"because", "limited"}; "shortest" is an answer or null, "limited" is true where
only --limited has one.
` + answerMore

// seeker is one use of find: the query, and what becomes of its answers.
type seeker struct {
	*call
	p      *source
	name   string   // of the setup
	rivals []string // further ones, by their names alone
	q      find.Query
	hand   odds.Person
	spread bool   // the hand's spread was given
	bias   bool   // and its bias
	whose  string // the hand's name
	asJSON bool
	file   *answerFile
}

// findSetups searches fillers, jumps and attacks for a setup's ender and rival.
func findSetups(c *call) (int, error) {
	s := &seeker{call: c, hand: odds.Anyone(), file: answerFlags(c)}
	s.q.Most, s.q.List = 3, 10
	f := c.flags
	f.StringVar(&s.name, "setup", "", "search for the ender, position, rival, rises and replies of the setup `NAME`")
	f.IntVar(&s.q.List, "most", s.q.List, "how many answers to list")
	f.IntVar(&s.q.Most, "fillers", s.q.Most, "how many fillers a sequence may have")
	wait := f.Int("wait", 0, "the longest counted wait, in frames; 0 for none (default any)")
	f.IntVar(&s.q.Gauge, "gauge", 0, "how many segments fillers and attack may cost together (default 0)")
	names := func(to *[]string, name, usage string) {
		f.Func(name, usage, func(text string) error { *to = append(*to, text); return nil })
	}
	names(&s.q.Not, "not", "leave out the filler `NAME`; can be repeated")
	names(&s.q.Jumps, "jump", "only the jump `NAME`; can be repeated")
	names(&s.q.Attacks, "attack", "only the attack `NAME`; can be repeated")
	var also []string
	names(&also, "also", "answers must be good against the rival, rises and replies of the setup `NAME` too; can be repeated")
	names(&s.rivals, "rival", "answers must be good against the fighter `NAME` too; can be repeated")
	f.BoolVar(&s.q.Limited, "limited", false, "include limited answers: safe but for replies that no timing covers")
	f.BoolVar(&s.q.Ordered, "ordered", false, "count each order of the same fillers as an answer")
	f.Float64Var(&s.hand.Spread, "spread", s.hand.Spread, "standard deviation of your presses, in milliseconds; the default is an assumption")
	f.Float64Var(&s.hand.Bias, "bias", 0, "how late your presses come on average, in milliseconds (default 0)")
	f.StringVar(&s.whose, "hand", "", "the chances are for the hand `NAME`, as the drills of the project file measured it (default that of the last drill)")
	enders := f.Bool("enders", false, "search by ender: which of the fighter's enders give a safe jump, at both positions")
	f.BoolVar(&s.asJSON, "json", false, "print JSON")
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	if s.name == "" {
		return 0, usageError{"expected --setup NAME"}
	}
	if ms := s.hand.Spread; !(ms >= 0 && ms <= maxMilliseconds) {
		return 0, usageError{fmt.Sprintf("--spread: expected 0 to %d milliseconds, got %g", maxMilliseconds, ms)}
	}
	if ms := s.hand.Bias; !(ms >= -maxMilliseconds && ms <= maxMilliseconds) {
		return 0, usageError{fmt.Sprintf("--bias: expected -%d to %d milliseconds, got %g", maxMilliseconds, maxMilliseconds, ms)}
	}
	kind := output.Found
	if *enders {
		kind = output.Enders
	}
	if err := s.file.check(kind, s.asJSON); err != nil {
		return 0, err
	}
	s.spread, s.bias = given(f, "spread"), given(f, "bias")
	if given(f, "wait") {
		s.q.Wait = timeline.Some(*wait)
	}
	if s.p, err = openSource(path); err != nil {
		return 0, err
	}
	defer s.p.close()
	if err := s.take(also); err != nil {
		return 0, err
	}
	if *enders {
		return exitDone, s.enders()
	}
	return exitDone, s.search()
}

const maxMilliseconds = 10_000

// take reads the setups that were named into the query, and whose hand it is.
func (s *seeker) take(also []string) (err error) {
	if _, s.q.Setup, err = s.p.find("--setup", s.name); err != nil {
		return err
	}
	for i, name := range also {
		_, other, err := s.p.find("--also", name)
		switch {
		case err != nil:
			return err
		case name == s.name:
			return usageError{fmt.Sprintf("--also: expected another setup than %q", name)}
		case slices.Contains(also[:i], name):
			return usageError{fmt.Sprintf("--also: expected each setup once, got %q twice", name)}
		case other.Attacker != s.q.Setup.Attacker:
			return usageError{fmt.Sprintf("--also: expected a setup of %s, got %q, a setup of %s", s.q.Setup.Attacker, name, other.Attacker)}
		}
		s.q.Also = append(s.q.Also, find.Target{Rival: other.Rival, Rises: other.Rises, Replies: other.Replies})
	}
	if err := s.takeRivals(); err != nil {
		return err
	}
	if err := s.takeHand(); err != nil {
		return err
	}
	s.q.Hand = s.hand.Timing(s.p.data.Ruleset)
	return nil
}

// takeRivals adds the rivals that were named by themselves, and what is asked
// of them.
func (s *seeker) takeRivals() error {
	if len(s.rivals) == 0 {
		return nil
	}
	var of []find.Target
	for _, name := range s.rivals {
		switch {
		case s.p.data.Fighter(name) == nil:
			return usageError{fmt.Sprintf("--rival: expected the name of a fighter of the project, got %q", name)}
		case name == s.q.Setup.Rival:
			return usageError{fmt.Sprintf("--rival: expected another fighter than the setup's own rival, got %q", name)}
		}
		of = append(of, find.Target{Rival: name})
	}
	each := func(ctx context.Context, do func(*timeline.Setup) error) error {
		return s.p.each(ctx, func(_ int, setup *timeline.Setup) error { return do(setup) })
	}
	asked, err := find.DemandsOf(s.ctx, each, s.q.Setup.Attacker)
	if err != nil {
		return err
	}
	s.q.Also = append(s.q.Also, asked.Targets(s.p.data, &s.q.Setup, of)...)
	return nil
}

// takeHand sets what wasn't given of the hand: as the drills measured it, else
// as is assumed.
func (s *seeker) takeHand() error {
	set := s.hand
	s.hand.Assumed = !s.spread
	var drills []storage.Drill
	if s.p.file != nil {
		var err error
		if drills, err = s.p.file.Drills(); err != nil {
			return err
		}
	}
	hands := storage.Hands(drills)
	switch named := given(s.flags, "hand"); {
	case named && !slices.Contains(hands, s.whose):
		if len(hands) == 0 {
			return usageError{fmt.Sprintf("--hand: expected a hand that was drilled in this project, got %q; there is no drill", s.whose)}
		}
		return usageError{fmt.Sprintf("--hand: expected a hand that was drilled in this project, got %q; there are: %s", s.whose, some(hands))}
	case !named && len(hands) > 0:
		s.whose = hands[0]
	}
	measured, ok := odds.Measured(storage.Late(drills, s.whose))
	if !ok || s.spread && s.bias {
		return nil
	}
	s.hand, s.hand.Name = measured, s.whose
	if s.spread {
		s.hand.Spread = set.Spread
	}
	if s.bias {
		s.hand.Bias = set.Bias
	}
	return nil
}

func (s *seeker) search() error {
	r, err := find.Search(s.ctx, s.p.data, s.q)
	if err != nil {
		return s.wrong(err)
	}
	h := &s.hand
	told := &find.Told{Setup: s.name, Query: s.q, Hand: find.HandTold{Spread: h.Spread, Bias: h.Bias, Assumed: h.Assumed, Presses: h.Presses, Name: h.Name}, Project: s.p.data, Result: r}
	switch {
	case s.file.out != "":
		return s.file.write(s.file.order.MakeFound(told, s.file.format()))
	case s.asJSON:
		return told.JSON(s.out)
	}
	return s.say(r)
}

func (s *seeker) enders() error {
	m := s.meter()
	defer m.end()
	rows, err := find.Enders(s.ctx, s.p.data, s.q, []timeline.Position{timeline.Midscreen, timeline.Wall}, func(done, of int) {
		m.tell(func() string { return fmt.Sprintf("tried %d of %d enders", done, of) })
	})
	if err != nil {
		if s.ctx.Err() != nil {
			return fmt.Errorf("stopped after %d enders were tried: %w", len(rows), context.Canceled)
		}
		return s.wrong(err)
	}
	told := &find.ToldEnders{Setup: s.name, Query: s.q, Project: s.p.data, Rows: rows}
	switch {
	case s.file.out != "":
		m.end()
		return s.file.write(s.file.order.MakeEnders(told, s.file.format()))
	case s.asJSON:
		return told.JSON(s.out)
	}
	return s.sayRows(rows)
}

// wrong puts what a query's error says into the words of the command line.
func (s *seeker) wrong(err error) error {
	flags := map[string]string{"most": "fillers", "list": "most", "jumps": "jump", "attacks": "attack", "fillers": "fillers", "not": "not", "wait": "wait", "gauge": "gauge"}
	if wrong := (*find.QueryError)(nil); errors.As(err, &wrong) {
		return usageError{fmt.Sprintf("--%s: expected %s, got %s", flags[wrong.Field], wrong.Want, wrong.Got)}
	}
	return err
}

// say writes a search for people.
func (s *seeker) say(r *find.Result) error {
	out := newLines(s.out)
	if r.Count.Sign() == 0 {
		out.put("%s: no answer", s.name)
		for _, why := range r.Because {
			out.put("  %s", why)
		}
		if r.Limited.Sign() > 0 {
			out.put("  With --limited there would be %s, safe but for replies that no timing covers.", find.Answers(r.Limited))
		}
		return out.err
	}
	out.put("%s: %s, %v without a counted wait; %v with every order of their fillers", s.name, find.Answers(r.Count), r.Exact, r.Orders)
	for _, w := range r.Ways {
		if len(w.Starts) == 0 {
			out.put("  %s %s: %s", w.Jump, w.Attack, w.Because)
		} else {
			out.put("  %s %s may start on %s: %s", w.Jump, w.Attack, words.Bounds(w.Starts), find.Answers(w.Count))
		}
	}
	if r.Passed.Sign() > 0 {
		out.put("  %v more would do by their frames, but their fillers pass the rival: left out", r.Passed)
	}
	of, measured := "", fmt.Sprintf("the drills of this project measured in %d presses", s.hand.Presses)
	if s.hand.Name != "" {
		measured += " of " + s.hand.Name
	}
	switch {
	case s.hand.Presses > 0 && s.spread:
		of = " (the bias is what " + measured + ")"
	case s.hand.Presses > 0 && s.bias:
		of = " (the spread is what " + measured + ")"
	case s.hand.Presses > 0:
		of = ", as " + measured + " (--spread and --bias set others)"
	case s.hand.Assumed:
		of = " (the spread is an assumption: --spread sets yours)"
	}
	out.put("  Chances are for a spread of %g ms and a bias of %g ms%s", tenths(s.hand.Spread), tenths(s.hand.Bias), of)
	for i := range r.Answers {
		if err := s.sayAnswer(out, &r.Answers[i]); err != nil {
			return err
		}
	}
	return out.err
}

// tenths rounds milliseconds to what is worth reading.
func tenths(ms float64) float64 { return math.Round(10*ms) / 10 }

func (s *seeker) sayAnswer(out *lines, a *find.Answer) error {
	orders := ""
	if a.Orders.BitLen() > 1 {
		orders = fmt.Sprintf(", in any of %v orders", a.Orders)
	}
	out.put("\n%d. %s", a.Rank, a.Setups[0].Name)
	out.put("   jumps on %d%s", a.JumpOn, orders)
	out.put("   %s", strings.TrimSpace(a.Why+" "+s.advice(a)))
	for _, setup := range a.Setups {
		v, err := words.Judge(s.p.index, setup)
		if err != nil {
			return err
		}
		out.put("   %s, %s: %s", setup.Rival, v.Word, v.Because)
	}
	return nil
}

// advice is the best aim of an answer's wait; of several rivals' windows a plan
// knows one, so then there is none.
func (s *seeker) advice(a *find.Answer) string {
	if len(a.Setups) > 1 {
		return ""
	}
	plan, err := s.p.index.Compile(a.Setups[0])
	if err != nil {
		return ""
	}
	w := odds.WaitOf(plan, a.Wait(), s.hand.Timing(s.p.data.Ruleset))
	return w.Advice()
}

func (s *seeker) sayRows(rows []find.Row) error {
	out := newLines(s.out)
	if len(rows) == 0 {
		out.put("%s has no ender: no move with a knockdown", s.q.Setup.Attacker)
	}
	for _, r := range rows {
		out.put("%s, %s, knockdown advantage %d", r.Ender, r.Position, r.Advantage)
		for _, c := range r.Cells {
			switch {
			case c.Limited:
				out.put("  %s %s: none. %s With --limited there is one.", c.Jump, c.Attack, c.Because)
			case c.Shortest == nil:
				out.put("  %s %s: none. %s", c.Jump, c.Attack, c.Because)
			default:
				out.put("  %s %s: %s", c.Jump, c.Attack, c.Shortest.Setups[0].Name)
			}
		}
	}
	return out.err
}

// lines writes a line at a time and keeps the first error.
type lines struct {
	out io.Writer
	err error
}

func newLines(out io.Writer) *lines { return &lines{out: out} }

func (l *lines) put(format string, args ...any) {
	if l.err == nil {
		_, l.err = fmt.Fprintf(l.out, format+"\n", args...)
	}
}
