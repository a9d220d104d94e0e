package output

import (
	"sync"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// after knows what follows the meetings of a project's setups. Its book is made
// when it is first asked for, which is behind the window.
type after struct {
	once    sync.Once
	project *timeline.Project
	book    *value.Book
}

// Weigh has what follows the meeting drawn and told: the routes and strings of
// that project, whose setups the order is for. The project must not change.
func (o *Order) Weigh(p *timeline.Project) { o.after = &after{project: p} }

// sequel is what follows one of the exchanges that have met; nil where nothing
// does.
func (o *Order) sequel(m *timeline.Meetings, e timeline.Exchange) *timeline.Sequel {
	a := o.after
	if a == nil {
		return nil
	}
	a.once.Do(func() { a.book = value.NewBook(a.project) })
	return a.book.Sequel(m, value.Gauges{}, e)
}

// scene lays an exchange out, with what follows it.
func (o *Order) scene(p *timeline.Plan, d, rise, line int) words.Scene {
	m := p.Meetings(d, nil)
	v := words.VerdictOf(&m)
	e := timeline.Exchange{Rise: rise, Line: line}
	s := words.SceneOf(&m, &v, e)
	s.Follow(o.sequel(&m, e))
	return s
}
