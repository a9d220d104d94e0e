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

// Follows reports whether a setup says itself what follows its meeting.
func Follows(s *timeline.Setup) bool {
	return s.OnHit != "" || len(s.Punish) > 0 || len(s.Follow) > 0
}

// FollowLesson has each step of a plan's lesson draw what follows its meeting,
// with full gauges, where the setup says itself what does.
func FollowLesson(l *words.Lesson, p *timeline.Plan) {
	if !Follows(&p.Setup) {
		return
	}
	b := bookOf(p)
	l.Follow(func(delay int, e timeline.Exchange) *timeline.Sequel {
		m := p.Meetings(delay, nil)
		return b.Sequel(&m, Gauges{}, e)
	})
}
