package data

import (
	"context"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// enders finds behind the window which setups begin with which ender, for the
// routes that end in it.
type enders struct {
	host   page.Host
	found  func() // they are known
	known  map[enderOf][]string
	cancel context.CancelFunc // while it looks
}

// enderOf is a move of a fighter.
type enderOf struct{ fighter, move string }

// forget has the setups looked for anew when they are next asked for.
func (e *enders) forget() {
	if e.cancel != nil {
		e.cancel()
		e.cancel = nil
	}
	e.known = nil
}

// of names the setups of an ender in the project's order; ok is false while
// they are looked for.
func (e *enders) of(fighter, move string) (setups []string, ok bool) {
	if e.known == nil && e.cancel == nil {
		e.look()
	}
	return e.known[enderOf{fighter, move}], e.known != nil
}

func (e *enders) look() {
	ctx, cancel := context.WithCancel(e.host.Context())
	e.cancel = cancel
	each := e.host.Model().Document().Each()
	e.host.Run(func() {
		known := map[enderOf][]string{}
		err := each(ctx, func(s *timeline.Setup) error {
			if s.Ender != "" {
				at := enderOf{s.Attacker, s.Ender}
				known[at] = append(known[at], s.Name)
			}
			return nil
		})
		e.host.Later(func() {
			if ctx.Err() != nil {
				return
			}
			e.cancel()
			e.cancel = nil
			if e.known = known; err == nil {
				e.found()
			}
		})
	})
}

// offered is what the foot tells of rows to add: a click adds them, as one step.
func (t *typing) offered(of []offer) (out footMore) {
	if len(of) == 0 {
		return out
	}
	out.lead = "Add:"
	for i := range of {
		out.setups = append(out.setups, of[i].words)
	}
	out.open = func(i int) {
		if !t.mayType() || !t.Leave() {
			return
		}
		if why := t.apply("add "+of[i].words, of[i].edits...); why != "" {
			t.refused(why)
			return
		}
		t.grid.Place(grid.Place{Row: len(t.order) - 1, Col: replyMove})
		t.refocus()
	}
	return out
}

// more is what the foot tells of the row of a place besides its cell.
func (t *typing) more(at grid.Place) (out footMore) {
	if o, ok := t.table.(offering); ok {
		return t.offered(o.offers())
	}
	told, ok := t.table.(telling)
	if !ok {
		return out
	}
	row := t.row(at.Row)
	if row >= t.table.len() || t.draft(row) != nil {
		return out
	}
	out.words = told.tells(row)
	move := told.ends(row)
	if move == "" {
		return out
	}
	setups, known := t.enders.of(t.owner(), move)
	switch {
	case !known:
		out.lead = "Finding the setups after " + move + "…"
	case len(setups) == 0:
		out.lead = "No setup begins after " + move + " yet."
	default:
		out.lead, out.setups = model.CountOf(len(setups), "setup")+" after "+move+":", setups
	}
	return out
}
