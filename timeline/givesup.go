package timeline

import "fmt"

// mostGivenUp is how many replies are named that a plan gives up.
const mostGivenUp = 3

// GivesUp tells, in a sentence, the replies that win at delay d, 0 to Fits(),
// though nothing is demanded of them, and how; empty where there are none.
func (p *Plan) GivesUp(d int) string {
	a := p.base.later(d)
	return p.givesUp(&a, true)
}

// givesUp tells, in a sentence, the replies that win against attacker track a
// though nothing is demanded of them; empty where there are none. At length it
// says how each wins, on the first rise on which it does.
func (p *Plan) givesUp(a *Track, atLength bool) string {
	var lost []string
	for i := len(builtIn); i < len(p.lines); i++ {
		if p.lines[i].demand != DemandNone {
			continue
		}
		for r := range p.wakes {
			c := p.exchange(a, r, i)
			if c.Outcome.Survived() {
				continue
			}
			who := p.lines[i].title
			switch {
			case atLength && len(p.rises) > 1:
				who += fmt.Sprintf(" (%s rise, %s on %d)", p.rises[r].Name, c.Outcome, c.Meeting.N)
			case atLength:
				who += fmt.Sprintf(" (%s on %d)", c.Outcome, c.Meeting.N)
			}
			lost = append(lost, who)
			break
		}
	}
	of := "them"
	switch n := len(lost); {
	case n == 0:
		return ""
	case n == 1:
		of = "it"
	case n > mostGivenUp:
		lost = append(lost[:mostGivenUp], fmt.Sprintf("%d more", n-mostGivenUp))
	}
	return fmt.Sprintf("Loses to %s: nothing is demanded of %s.", list(lost), of)
}
