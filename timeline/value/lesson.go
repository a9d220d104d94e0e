package value

import (
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TellLesson has each step of a plan's lesson say what its exchange comes to,
// with full gauges; where moves have no damage, none does.
func TellLesson(l *words.Lesson, p *timeline.Plan) {
	if !words.Tells(OfPlan(p).Rises) {
		return
	}
	attacker, rival := p.Fighters()
	b := NewBook(&timeline.Project{Ruleset: p.Rules(), Fighters: []timeline.Fighter{*attacker, *rival}})
	at := map[int]Answer{}
	l.TellWorth(func(delay int, e timeline.Exchange) words.Worth {
		got, ok := at[delay]
		if !ok {
			m := p.Meetings(delay, nil)
			got = b.Of(&m, Gauges{})
			at[delay] = got
		}
		return got.Rises[e.Rise][e.Line]
	})
}
