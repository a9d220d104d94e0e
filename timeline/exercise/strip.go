package exercise

import (
	"fmt"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// The numbers that are read off a strip.
const (
	advantageField = "knockdown advantage"
	meetingField   = "frame of the meeting"
	spareField     = "frames to spare"
)

// readStrip asks for the numbers of one exchange at the setup's delay, of a
// reply in which the two sides meet.
func readStrip(q Question, pick Pick) (Question, bool) {
	p := q.Plan
	m := p.Meetings(q.Delay, nil)
	var lines []int
	for i := timeline.FirstReply; i < p.Lines(); i++ {
		if m.Cell(timeline.Exchange{Line: i}).Meeting.Given {
			lines = append(lines, i)
		}
	}
	if len(lines) == 0 {
		return q, false
	}
	q.Line = lines[pick(len(lines))]
	c := m.Cell(timeline.Exchange{Line: q.Line})
	q.Fields, q.numbers = []string{advantageField, meetingField}, []int{p.Verdict(q.Delay).Advantage, c.Meeting.N}
	if c.Spare.Given && c.Spare.N >= 0 {
		q.Fields, q.numbers = append(q.Fields, spareField), append(q.numbers, c.Spare.N)
	}
	title := p.Reply(q.Line).Title()
	q.Ask = fmt.Sprintf("%s: read the %s off the strip.", title, words.List(q.Fields))
	q.Hints = []string{
		"The advantage ends where the rival's line on the ground goes up, on its quickest rise.",
		"The meeting is the first frame on which an active part of one side lies over the other side open, on guard or in a parry.",
		"To spare are the frames between the first on which the attacker guards and the meeting; where the attack hits, those by which it comes before the reply.",
	}
	q.Why = fmt.Sprintf("The knockdown advantage is %d; they meet on frame %d", q.numbers[0], q.numbers[1])
	if len(q.numbers) > 2 {
		q.Why += fmt.Sprintf(", with %s to spare", words.Frames(q.numbers[2]))
	}
	q.Why += ". " + words.ExchangeAt(p, q.Delay, q.Rise, q.Line)
	return q, true
}
