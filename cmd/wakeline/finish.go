package main

import (
	"context"
	"fmt"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
)

const finishMore = `
The rival does the same reply in every round, on its first free frame; with the
reply "nothing" the attack hits. A round is a setup at its own delay, safe or
limited, that does damage and is not hurt. The next round's setups are those of
the same fighters and position after the ender that the round leads to.
Exit: 0 it ends; 1 nothing ends it; 2 invalid arguments or bad input.

--json prints one document:
  {"rounds": [
    {"setup": "...", "reply": "...", "outcome": "reply blocked", "route": "...",
     "damage": 300, "gauge": 2, "health": 700}],
   "ends": true, "because": "..."}
Gauge and health are what is left after that round; health below 0 is damage
over. Where nothing ends it, the rounds are those that do the most damage.
`

// finish prints the fewest rounds that bring the rival's health to 0.
func finish(c *call) (int, error) {
	setup := c.flags.String("setup", "", "begin with the setup `NAME`")
	reply := c.flags.String("reply", "", "the move or jump `NAME` that the rival does in every round, or nothing")
	var health, gauge timeline.Maybe
	c.flags.Var(maybe{&health}, "health", "`N` points of health that the rival has, instead of full health")
	c.flags.Var(maybe{&gauge}, "gauge", "`N` segments of gauge that the attacker has, instead of a full gauge")
	asJSON := c.flags.Bool("json", false, "print JSON")
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	p, err := openSource(path)
	if err != nil {
		return 0, err
	}
	defer p.close()
	at, begin, err := p.find("--setup", *setup)
	if err != nil {
		return 0, err
	}
	if err := checkFinish(p.data, &begin, *reply, health, gauge); err != nil {
		return 0, err
	}
	q := value.FinishQuery{Begin: begin, Reply: *reply, Health: health, Gauge: gauge}
	err = p.each(c.ctx, func(_ int, s *timeline.Setup) error {
		if s.Attacker == begin.Attacker && s.Rival == begin.Rival && s.Position == begin.Position && s.Ender != "" {
			q.Setups = append(q.Setups, *s)
		}
		return nil
	})
	if err != nil {
		return 0, ended(c.ctx, err)
	}
	f, err := value.NewBook(p.data).Finish(c.ctx, p.index, q)
	if err != nil {
		return 0, ended(c.ctx, p.where(at, timeline.Maybe{}, err))
	}
	if *asJSON {
		err = report.Finish{Finish: &f}.JSON(&plainWriter{to: c.raw})
	} else {
		err = report.Finish{Finish: &f}.Text(c.out)
	}
	if !f.Ends {
		return exitUnsafe, err
	}
	return exitDone, err
}

// ended is context.Canceled where that is why the work ended.
func ended(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return context.Canceled
	}
	return err
}

func checkFinish(p *timeline.Project, s *timeline.Setup, reply string, health, gauge timeline.Maybe) error {
	rival := p.Fighter(s.Rival)
	if names := value.FinishReplies(rival); !slices.Contains(names, reply) {
		return usageError{fmt.Sprintf("--reply: expected nothing, or a jump or a move on the ground of %s, got %q; there are: %s", rival.Name, reply, some(names))}
	}
	if health.Given && (health.N < 1 || health.N > timeline.MaxPoints) {
		return usageError{fmt.Sprintf("--health: expected 1 to %d points, got %d", timeline.MaxPoints, health.N)}
	}
	if gauge.Given && (gauge.N < 0 || gauge.N > p.Ruleset.Gauge) {
		return usageError{fmt.Sprintf("--gauge: expected 0 to %d segments, a full gauge, got %d", p.Ruleset.Gauge, gauge.N)}
	}
	return nil
}
