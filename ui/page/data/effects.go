package data

import (
	"context"
	"reflect"
	"slices"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// effects finds behind the window which setups an edit of the move data
// changes: those it would change while it is typed, and those it has changed.
type effects struct {
	host page.Host
	show func(effect)

	serial int // of the edit that is weighed
	cancel context.CancelFunc
	last   effect
	edits  []timeline.Edit // that last is of
}

// effect is what an edit does to setups.
type effect struct {
	weighed bool // there is an edit
	done    bool // the edit is done, and not only typed
	looking bool // it is not known yet
	failed  bool // and won't be
	renames bool // setups follow a new name
	changes []model.Changed
}

// manyToWeigh is from how many setups on an edit is weighed when the typing
// pauses, and not at each key.
const manyToWeigh = 1000

// clear forgets the edit that is weighed.
func (e *effects) clear() {
	e.stop()
	e.last, e.edits = effect{}, nil
	e.show(e.last)
}

func (e *effects) stop() {
	e.serial++
	if e.cancel != nil {
		e.cancel()
		e.cancel = nil
	}
}

// typed weighs edits that are not done yet; soon lets a pause of the typing
// pass before.
func (e *effects) typed(edits []timeline.Edit, soon bool) {
	e.edits = edits
	e.weigh(e.bare(), edits, false, soon && e.host.Model().Len() >= manyToWeigh)
}

// commit has then do the edits, and says what they have changed. Where they
// can't be done it says nothing.
func (e *effects) commit(edits []timeline.Edit, then func() error) error {
	data := e.bare()
	known := !e.last.looking && !e.last.failed && reflect.DeepEqual(edits, e.edits)
	last := e.last
	if err := then(); err != nil {
		return err
	}
	if known {
		e.clear()
		last.done = true
		e.last = last
		e.show(last)
		return nil
	}
	e.weigh(data, edits, true, false)
	return nil
}

// bare is the move data as they stand, without setups.
func (e *effects) bare() *timeline.Project {
	return e.host.Model().Data().Bare()
}

// weigh compares all setups behind the window under the data as they were and
// as the edits make them.
func (e *effects) weigh(data *timeline.Project, edits []timeline.Edit, done, soon bool) {
	e.stop()
	ctx, cancel := context.WithCancel(e.host.Context())
	e.cancel = cancel
	serial := e.serial
	of := effect{weighed: true, looking: true, done: done, renames: slices.ContainsFunc(edits, renames)}
	if !of.renames && !slices.ContainsFunc(edits, func(e timeline.Edit) bool { return !ofRoute(e) }) {
		of.weighed = false // no verdict hangs on a route
	}
	if !slices.ContainsFunc(edits, func(e timeline.Edit) bool { return !adds(e) }) {
		of.looking = false
		e.last = of
		e.show(of)
		return
	}
	e.last = of
	e.show(of)
	run := func() {
		each := e.host.Model().Document().Each()
		e.host.Run(func() {
			changes, err := weighed(ctx, each, data, edits, done)
			e.host.Later(func() {
				if e.serial != serial || ctx.Err() != nil {
					return
				}
				of.looking, of.failed, of.changes = false, err != nil, changes
				e.last = of
				e.show(of)
			})
		})
	}
	if !soon {
		run()
		return
	}
	guard.After(paint.TypingPause, "What an edit changes", func() {
		e.host.Later(func() {
			if e.serial == serial && ctx.Err() == nil {
				run()
			}
		})
	})
}

// adds reports whether an edit only adds what no setup can use yet. A rise
// more is claimed where all are.
func adds(e timeline.Edit) bool {
	before, _ := editNames(e)
	switch e.(type) {
	case timeline.FighterEdit, timeline.MoveEdit, timeline.JumpEdit:
		return before == ""
	}
	return ofRoute(e)
}

// ofRoute reports whether an edit is of a route.
func ofRoute(e timeline.Edit) bool {
	_, ok := e.(timeline.RouteEdit)
	return ok
}

// weighed compares all setups before and after edits of data.
func weighed(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error,
	data *timeline.Project, edits []timeline.Edit, done bool) ([]model.Changed, error) {
	before, after, err := statesOf(data, edits, done)
	if err != nil {
		return nil, err
	}
	n := 0
	return model.CompareAll(ctx, func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		return each(ctx, func(s *timeline.Setup) error {
			n++
			return do(n-1, s)
		})
	}, before, after, func(int) {})
}

// statesOf are the move data before and after edits of it, which have no
// setups, under the names that setups use: those before the edits, or after
// them.
func statesOf(bare *timeline.Project, edits []timeline.Edit, after bool) (was, is *timeline.Project, err error) {
	if is, err = bare.With(edits...); err != nil {
		return nil, nil, err
	}
	var there, new []timeline.Edit
	for _, e := range edits {
		before, name := editNames(e)
		if !renames(e) {
			there = append(there, e)
			continue
		}
		renaming := e.(timeline.NameEdit)
		there = append(there, renaming.Named(before))
		new = append(new, renaming.There(bare).(timeline.NameEdit).Named(name))
	}
	switch {
	case len(new) == 0:
		return bare, is, nil
	case after:
		was, err = bare.With(new...)
		return was, is, err
	}
	is, err = bare.With(there...)
	return bare, is, err
}

// editNames are the names of an edit's thing, empty where setups have none.
func editNames(e timeline.Edit) (before, after string) {
	if e, ok := e.(timeline.NameEdit); ok {
		return e.Names()
	}
	return "", ""
}

// renames reports whether an edit gives another name to what is there.
func renames(e timeline.Edit) bool {
	before, after := editNames(e)
	return before != "" && after != "" && before != after
}
