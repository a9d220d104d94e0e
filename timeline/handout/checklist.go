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

// Check is what to do and to read in the training room for one setup.
type Check struct {
	Setup, Attacker, Rival string
	Position               timeline.Position
	Called                 string   // the verdict
	SetUp                  []string // what the attacker does, in order
	Advantage              int      // that the game must show
	Holds                  []string // sentences on what else may be read there
	Record                 []Record
}

// Record is a reply to record, and what comes of it.
type Record struct {
	Reply, Rise string
	Expected    string // the outcome, and on which frame
}

// CheckOf works out what to test of a setup: the replies of which something is
// demanded.
func CheckOf(p *timeline.Plan) Check {
	s := &p.Setup
	v := words.VerdictAt(p, s.Delay)
	out := Check{Setup: s.Name, Attacker: s.Attacker, Rival: s.Rival, Position: s.Position, Called: fmt.Sprint(v.Called),
		SetUp: steps(s), Advantage: v.Advantage, Holds: words.Holds(&v.Verdict)}
	for i := range v.Rises {
		r := &v.Rises[i]
		for k := range r.Replies {
			c := &r.Replies[k]
			if c.Demand == timeline.DemandNone {
				continue
			}
			expected := c.Outcome.String()
			if c.Meeting.Given {
				expected += fmt.Sprintf(" on frame %d", c.Meeting.N)
			}
			out.Record = append(out.Record, Record{c.Title(), r.Rise, expected})
		}
	}
	return out
}

// Sentences say what to set up, what to read in the game, and which replies to
// record.
func (c *Check) Sentences() (read, record []string) {
	read = append([]string{"Set up: " + strings.Join(c.SetUp, ", "), fmt.Sprintf("Read the knockdown advantage in the game: %d expected", c.Advantage)}, c.Holds...)
	for _, r := range c.Record {
		record = append(record, fmt.Sprintf("Record %s, %s rise: expected %s", r.Reply, r.Rise, r.Expected))
	}
	return read, record
}

// CheckList writes what to do and to read in the training room for one setup,
// as an item of a Markdown list of tasks (GitHub Flavored Markdown): what to set
// up, which advantage and distance the game must show, which replies to record,
// and what is expected of each.
func CheckList(p *timeline.Plan) string {
	c := CheckOf(p)
	var b strings.Builder
	fmt.Fprintf(&b, "- [ ] **%s** (%s vs %s, %s): %s\n", escape(c.Setup), escape(c.Attacker), escape(c.Rival), c.Position, c.Called)
	read, record := c.Sentences()
	for _, line := range read {
		fmt.Fprintf(&b, "  - %s\n", escape(line))
	}
	for _, line := range record {
		fmt.Fprintf(&b, "  - [ ] %s\n", escape(line))
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
