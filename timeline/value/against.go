package value

import (
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Against is what the exchanges of s with those replies come to at its own
// delay, with full gauges: rise by rise, with its name, and reply by reply. A
// reply that s isn't asked is added to those that it is. It is empty where all of
// them together can't be laid out.
func (b *Book) Against(index *timeline.Index, s timeline.Setup, replies []timeline.Reply) (rises []string, worth [][]words.Worth) {
	own, err := index.Compile(s)
	if err != nil {
		return nil, nil
	}
	wide := s
	wide.Replies = append([]timeline.Reply{}, own.Asked()...)
	for _, r := range replies {
		if lineOf(own, r) < 0 {
			wide.Replies = append(wide.Replies, timeline.Reply{Move: r.Move, Late: r.Late, Demand: timeline.DemandNone})
		}
	}
	plan, err := index.Compile(wide)
	if err != nil {
		return nil, nil
	}
	met := plan.Meetings(s.Delay, nil)
	answer := b.Of(&met, Gauges{})
	for rise := range plan.Rises() {
		row := make([]words.Worth, len(replies))
		for k, r := range replies {
			if line := lineOf(plan, r); line >= 0 {
				row[k] = answer.Rises[rise][line]
			}
		}
		rises, worth = append(rises, plan.Rise(rise).Name), append(worth, row)
	}
	return rises, worth
}

// lineOf is the line of a plan that asks that reply, -1 where none does.
func lineOf(p *timeline.Plan, r timeline.Reply) int {
	for l := range p.Lines() {
		if got := p.Reply(l); got.Move == r.Move && got.Late == r.Late {
			return l
		}
	}
	return -1
}
