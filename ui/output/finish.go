package output

import (
	"fmt"
	"strings"

	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// FinishFormats are the endings that a finish can be written in.
var FinishFormats = []string{"png", "svg", "pdf", "json"}

// Finish is a finish that can be taken along: what was found and asked, and the
// scene of each round.
type Finish struct {
	report.Finish
	Scenes          []words.Scene
	Begin           string // the setup that it begins with
	Attacker, Rival string
	Health          int    // of the rival before the first round
	Costs           string // what all rounds do and spend
}

// Drawn is the finish as it is drawn; whole: with its heading and its answer.
func (f *Finish) Drawn(whole bool) *sheet.Rounds {
	c := &sheet.Rounds{Attacker: f.Attacker, Rival: f.Rival, Health: f.Health}
	if whole {
		c.Heading = fmt.Sprintf("%s vs %s: the finish from %s", f.Attacker, f.Rival, f.Begin)
		c.Answer = f.Answer() + " " + f.Costs
	}
	for i := range f.Finish.Rounds {
		r := &f.Finish.Rounds[i]
		what := f.What(i)
		c.Of = append(c.Of, sheet.Round{Setup: r.Setup, What: strings.ToUpper(what[:1]) + what[1:] + ".", Left: f.Left(i), Health: max(0, r.Health), Scene: f.Scenes[i]})
	}
	if !f.Ends {
		c.Stopped = f.Because
	}
	return c
}

// MakeFinish makes a finish in one of FinishFormats.
func (o *Order) MakeFinish(f *Finish, format string) (*Made, error) {
	if format == "json" {
		var b strings.Builder
		err := f.JSON(&b)
		return written(format, b.String()), err
	}
	if format != "pdf" {
		return o.Of(sheet.DrawRounds(f.Drawn(true), o.W), format)
	}
	const across = 1050
	return pages(o, sheet.DrawRoundsOn(f.Drawn(true), across, o.Page.Across().Fit(across))), nil
}
