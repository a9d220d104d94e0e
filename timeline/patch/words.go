package patch

import (
	"fmt"
	"math/big"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
)

// Title names the route: "Ishka's Long ladder".
func (r *Route) Title() string { return r.Fighter + "'s " + r.Name }

// Became says what became of the route: "Sweep 2 too slow, it was 1 to spare;
// damage from 120 to 90; not used until it is confirmed".
func (r *Route) Became() string {
	switch r.Kind {
	case RouteIsNew:
		return "new: " + r.After.Words()
	case RouteIsGone:
		return "gone; it was " + r.Before.Words()
	}
	var out []string
	if timeline.StepsText(r.Before.Steps) != timeline.StepsText(r.After.Steps) {
		out = append(out, fmt.Sprintf("steps from %s to %s", timeline.StepsText(r.Before.Steps), timeline.StepsText(r.After.Steps)))
	} else {
		out = append(out, r.links()...)
	}
	number := func(noun string, was, is int) {
		if was != is {
			out = append(out, fmt.Sprintf("%s from %d to %d", noun, was, is))
		}
	}
	number("damage", r.Before.Damage, r.After.Damage)
	number("gauge cost", r.Before.Cost, r.After.Cost)
	number("gauge gain", r.Before.Gain, r.After.Gain)
	if was, is := r.Before.Needs(), r.After.Needs(); was != is {
		out = append(out, fmt.Sprintf("gauge needed from %s to %s", was, is))
	}
	switch {
	case !r.After.Links && r.After.Counts && r.Kind == Broke:
		out = append(out, "still used, as it is confirmed: try it again in the game")
	case r.Before.Counts && !r.After.Counts:
		out = append(out, "not used until it is confirmed")
	case !r.Before.Counts && r.After.Counts:
		out = append(out, "used now")
	}
	return strings.Join(out, "; ")
}

// links says which of the route's links changed.
func (r *Route) links() (out []string) {
	for i, now := range r.After.Margins {
		if was := r.Before.Margins[i]; was != now {
			out = append(out, fmt.Sprintf("%s %s, it was %s", r.After.Steps[i+1].Move, words.StepLinkShort(false, false, now), words.StepLinkShort(false, false, was)))
		}
	}
	return out
}

// Words says what the route is and comes to under this state.
func (s *RouteState) Words() string {
	links := []string{timeline.StepsText(s.Steps)}
	for i, m := range s.Margins {
		links = append(links, words.StepLink(s.Steps[i+1].Move, s.throws[i+1], s.Steps[i+1].By == timeline.Cancel, m))
	}
	return words.RouteWorth(links, s.Damage, s.Cost, s.Gain, s.Counts)
}

// Title names the mix: "Ishka vs Dovra after Hookfall (midscreen)".
func (m *Mix) Title() string {
	return fmt.Sprintf("%s vs %s after %s (%s)", m.Attacker, m.Rival, report.Ender(m.Ender), m.Position)
}

// Became says what became of the mix: "12 points a round, it was 2.28 (57/25)".
func (m *Mix) Became() string {
	unit := ""
	if m.After.Mix != nil {
		unit = " points a round"
	}
	return m.After.Worth() + unit + ", it was " + m.Before.Worth()
}

// Worth says how many points a round is worth under this state, or why that
// isn't known.
func (s *MixState) Worth() string {
	if s.Mix == nil {
		return "not weighed (" + s.Because + ")"
	}
	told := report.Mix{Mix: s.Mix}
	return told.Points(s.Mix.Value)
}

// Share says how often a setup is played under this state.
func (s *MixState) Share(setup string) string {
	return s.share(setup, func(told *report.Mix, r *big.Rat) string { return told.Share(r) })
}

// Percent is Share without its fraction.
func (s *MixState) Percent(setup string) string {
	return s.share(setup, func(_ *report.Mix, r *big.Rat) string { return report.Percent(r) })
}

func (s *MixState) share(setup string, say func(told *report.Mix, r *big.Rat) string) string {
	if s.Mix == nil {
		return "not weighed"
	}
	for i := range s.Mix.Rows {
		if r := &s.Mix.Rows[i]; r.Setup == setup {
			return say(&report.Mix{Mix: s.Mix}, r.Share)
		}
	}
	for _, out := range s.Mix.LeftOut {
		if out.Setup == setup {
			return "left out: " + out.Because
		}
	}
	return "left out"
}
