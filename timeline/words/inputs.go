package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Inputs are what the attacker does at delay d, step by step, with the frames on
// which it presses: "Keel Scrape", "Prod", "wait 2 frames", "jump forward on
// frame 6", "press Leeboard on air frame 33 (frame 43)", "guard from frame 49".
func Inputs(p *timeline.Plan, d int) (out []string) {
	s, at := &p.Setup, p.Times(d)
	if s.Ender != "" {
		out = append(out, s.Ender)
	}
	out = append(out, s.Fillers...)
	if d > 0 {
		out = append(out, "wait "+Frames(d))
	}
	if s.Jump != "" {
		out = append(out, fmt.Sprintf("jump %s on frame %d", s.Jump, at.JumpOn))
	}
	attacker, _ := p.Fighters()
	if j := attacker.Jump(s.Jump); s.Attack != "" && j != nil {
		out = append(out, fmt.Sprintf("press %s on air frame %d (frame %d)", s.Attack, p.Press(), at.JumpOn+j.Prejump+p.Press()))
	}
	switch s.Landing {
	case timeline.DoGuard, timeline.DoParry:
		out = append(out, fmt.Sprintf("%s from frame %d", s.Landing, at.GuardsFrom))
	default:
		out = append(out, fmt.Sprintf("%s on frame %d", s.Landing, at.ActsFrom))
	}
	return out
}

// InputsSentence is Inputs in a sentence.
func InputsSentence(p *timeline.Plan, d int) string {
	return "Inputs: " + strings.Join(Inputs(p, d), ", ") + "."
}

// AnswerAt says where a setup is safe, and why, in a sentence.
func AnswerAt(p *timeline.Plan, d int) string { return answer(p, d) }
