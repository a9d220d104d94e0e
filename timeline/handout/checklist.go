package handout

import (
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// CheckListHead heads a check list of several setups.
func CheckListHead(title string) string {
	return "# " + escape(title) + ": in-game tests\n\n"
}

// CheckList writes what to do and to read in the training room for one setup,
// as an item of a Markdown list of tasks (GitHub Flavored Markdown): what to set
// up, which advantage and distance the game must show, which replies to record,
// and what is expected of each.
func CheckList(p *timeline.Plan) string {
	s := &p.Setup
	v := words.VerdictAt(p, s.Delay)
	var b strings.Builder
	fmt.Fprintf(&b, "- [ ] **%s** (%s vs %s, %s): %s\n", escape(s.Name), escape(s.Attacker), escape(s.Rival), s.Position, v.Called)
	line := func(form string, args ...any) { fmt.Fprintf(&b, "  - "+form+"\n", args...) }
	line("Set up: %s", escape(strings.Join(steps(s), ", ")))
	line("Read the knockdown advantage in the game: %d expected", v.Advantage)
	for _, sentence := range words.Holds(&v.Verdict) {
		line("%s", escape(sentence))
	}
	for i := range v.Rises {
		r := &v.Rises[i]
		for k := range r.Replies {
			c := &r.Replies[k]
			if c.Demand == timeline.DemandNone {
				continue
			}
			expected := string(c.Outcome.String())
			if c.Meeting.Given {
				expected += fmt.Sprintf(" on frame %d", c.Meeting.N)
			}
			line("[ ] Record %s, %s rise: expected %s", escape(c.Title()), escape(r.Rise), expected)
		}
	}
	return b.String()
}

// steps are what the attacker does, in order.
func steps(s *timeline.Setup) (out []string) {
	if s.Ender != "" {
		out = append(out, s.Ender)
	}
	out = append(out, s.Fillers...)
	if s.Delay > 0 {
		out = append(out, "wait "+words.Frames(s.Delay))
	}
	if s.Jump != "" {
		out = append(out, s.Jump)
	}
	if s.Attack != "" {
		press := s.Attack
		if s.Press.Given {
			press += fmt.Sprintf(" on air frame %d", s.Press.N)
		}
		out = append(out, press)
	}
	return append(out, "then "+s.Landing)
}
