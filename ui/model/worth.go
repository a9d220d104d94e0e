package model

import (
	"reflect"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// Worth is what the chosen setup is worth at its set delay, with both gauges
// full. It is worked out behind the window: a hand that drags doesn't wait for
// it, and what was worked out for a value that is gone is dropped. Who shows it
// listens for WorthChanged.
type Worth struct {
	model        *Model
	spawn, later func(do func())

	book    *value.Book // of the present move data; nil: not made yet
	data    int         // how often the move data have changed
	changes int         // how often anything has, of what it is worked out from
	running bool
	known   bool
	answer  value.Answer // the last known

	of     timeline.Exchange // that sequel is of
	sequel *timeline.Sequel  // what follows that; nil: nothing, or not known yet
}

// Start has it worked out from now on, through spawn, which runs something
// behind the window, and later, which hops back.
func (w *Worth) Start(spawn, later func(do func())) {
	w.spawn, w.later = spawn, later
	w.begin()
}

// Answer is what the chosen setup is worth, the last that was known of it; known
// says whether that is of its present value. It must not be changed.
func (w *Worth) Answer() (last *value.Answer, known bool) { return &w.answer, w.known }

// Of is the worth of the exchange of that rise and line, as far as the last that
// was known tells.
func (w *Worth) Of(rise, line int) value.Worth {
	if rise >= len(w.answer.Rises) || line >= len(w.answer.Rises[rise]) {
		return value.Worth{}
	}
	return w.answer.Rises[rise][line]
}

// Tells reports whether the last that was known has points to show: where moves
// have no damage, it has none.
func (w *Worth) Tells() bool { return words.Tells(w.answer.Rises) }

// Sequel is what follows the exchange that is shown; nil where nothing does, or
// where it isn't known yet. While a hand drags it is that of the last step, where
// the exchange still ends in the same way, moved with its meeting: what follows
// doesn't flicker.
func (w *Worth) Sequel() *timeline.Sequel {
	m, q := w.model, w.sequel
	if q == nil || w.of != m.exchange() {
		return nil
	}
	if w.known {
		return q
	}
	if c := m.met.Cell(w.of); q.Setup == m.setup.Name && q.Outcome == c.Outcome {
		return q.At(c.Meeting)
	}
	return nil
}

// forget knows no more what a change of the model makes other.
func (w *Worth) forget(c Change) {
	if c&(ProjectChanged|DataChanged) != 0 {
		w.book = nil
		w.data++
	}
	if c&(ProjectChanged|DataChanged|ListChanged|ChoiceChanged|SetupChanged|ShownChanged) == 0 {
		return
	}
	w.changes++
	w.known = false
	if c&(ProjectChanged|ChoiceChanged) != 0 || w.model.plan == nil {
		w.answer, w.sequel = value.Answer{}, nil
	}
}

// begin works out what the setup is worth as it stands, unless that is known;
// where it is being worked out already, it begins again at the end.
func (w *Worth) begin() {
	if w.running || w.known || w.spawn == nil || w.model.plan == nil {
		return
	}
	w.running = true
	data, changes := w.data, w.changes
	book, project, met, e := w.book, *w.model.data, w.model.met, w.model.exchange()
	last, before := w.answer, w.sequel
	if w.of != e {
		before = nil
	}
	w.spawn(func() {
		var answer value.Answer
		var sequel *timeline.Sequel
		same := false
		err := guard.Try("What the setup is worth", func() error {
			if book == nil {
				book = value.NewBook(&project)
			}
			answer = book.Of(&met, value.Gauges{})
			sequel = book.Sequel(&met, value.Gauges{}, e)
			same = reflect.DeepEqual(answer, last) && reflect.DeepEqual(sequel, before)
			return nil
		})
		w.later(func() {
			w.running = false
			if data == w.data {
				w.book = book
			}
			if changes != w.changes {
				w.begin()
				return
			}
			w.known, w.answer, w.of, w.sequel = true, answer, e, sequel // of a failure: nothing, until the next change
			if !same || err != nil {
				w.model.Tell(WorthChanged)
			}
		})
	})
}
