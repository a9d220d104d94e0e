package data

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/grid"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// stepPicker is a field and, under it, the moves that a route may go on with
// that have the words typed in it, each with how it would follow by link. The
// arrow keys go through them while the field is typed in.
type stepPicker struct {
	paint.PageEntry
	rules timeline.Ruleset
	f     *timeline.Fighter
	steps []timeline.RouteStep // so far
	route *widget.Label
	list  *paint.PageList
	shown []*timeline.Move
	at    int
}

func newStepPicker(host page.Host, rules timeline.Ruleset, f *timeline.Fighter, steps []timeline.RouteStep) *stepPicker {
	p := &stepPicker{PageEntry: paint.PageEntry{W: host}, rules: rules, f: f, steps: slices.Clone(steps), route: widget.NewLabel("")}
	p.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	p.ExtendBaseWidget(p)
	p.SetPlaceHolder("A few letters of a move")
	p.route.Truncation = fyne.TextTruncateEllipsis
	p.list = paint.NewPageList(host, func() int { return len(p.shown) },
		func() fyne.CanvasObject {
			name, what := widget.NewLabel(""), widget.NewLabel("")
			name.Truncation = fyne.TextTruncateEllipsis
			what.Importance = widget.LowImportance
			return container.NewBorder(nil, nil, nil, what, name)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			c := o.(*fyne.Container)
			c.Objects[0].(*widget.Label).SetText(p.shown[i].Name)
			c.Objects[1].(*widget.Label).SetText(p.says(p.shown[i]))
		})
	p.list.OnSelected = func(i widget.ListItemID) { p.at = i }
	p.OnChanged = paint.GuardedOf("The moves", func(string) { p.filter() })
	p.filter()
	return p
}

// says tells how a move would follow the last step by link, or what it is where
// it would be the first.
func (p *stepPicker) says(m *timeline.Move) string {
	if len(p.steps) == 0 {
		return words.MovePhases(m, p.rules)
	}
	if m.Kind == timeline.Throw {
		return "a throw doesn't take a body in stun"
	}
	last := p.f.Move(p.steps[len(p.steps)-1].Move)
	if says := words.Link(value.LinkMargin(p.rules, last, m)); says != "" {
		return says
	}
	return "not known whether it links"
}

// filter shows the moves that have every typed word, in any case, and marks the
// first.
func (p *stepPicker) filter() {
	typed := strings.Fields(strings.ToLower(p.Text))
	p.shown = nil
	for i := range p.f.Moves {
		m := &p.f.Moves[i]
		name := strings.ToLower(m.Name)
		if !m.Air && !slices.ContainsFunc(typed, func(w string) bool { return !strings.Contains(name, w) }) {
			p.shown = append(p.shown, m)
		}
	}
	if p.route.SetText("No step yet."); len(p.steps) > 0 {
		p.route.SetText(timeline.StepsText(p.steps))
	}
	p.list.UnselectAll()
	p.list.Refresh()
	p.mark(0)
}

func (p *stepPicker) mark(i int) {
	if p.at = min(max(i, 0), len(p.shown)-1); p.at >= 0 {
		p.list.Select(p.at)
	}
}

// add adds the marked move as the next step.
func (p *stepPicker) add(by timeline.By) {
	if p.at >= 0 && p.at < len(p.shown) {
		p.steps = append(p.steps, timeline.RouteStep{Move: p.shown[p.at].Name, By: by})
		p.again()
	}
}

// back takes the last step away.
func (p *stepPicker) back() {
	if len(p.steps) > 0 {
		p.steps = p.steps[:len(p.steps)-1]
		p.again()
	}
}

// again shows all moves, for the next step.
func (p *stepPicker) again() {
	p.SetText("")
	p.filter()
}

// TypedKey goes through the list, and leaves the rest to the field.
func (p *stepPicker) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The moves")
	switch ev.Name {
	case fyne.KeyUp:
		p.mark(p.at - 1)
	case fyne.KeyDown:
		p.mark(p.at + 1)
	default:
		p.PageEntry.TypedKey(ev)
	}
}

// askSteps asks for the steps of the route under the cursor, move by move.
func (p *Page) askSteps() {
	routes, ok := p.table.(*routeTable)
	if !ok || !p.mayType() || !p.Leave() {
		return
	}
	at := p.grid.At()
	steps, want, _ := timeline.ReadSteps(routes.f, p.plain(at.Row, routeSteps))
	if want != "" { // none yet, or none that can be read
		steps = nil
	}
	pick := newStepPicker(p.host, routes.rules, routes.f, steps)
	a := p.host.Dialogs().New("Steps of the route", container.NewBorder(container.NewVBox(pick.route, pick), nil, nil, nil, pick.list))
	a.Button("Cancel", a.Hide)
	a.Button("Remove last", pick.back)
	a.Button("Done", func() {
		a.Hide()
		if len(pick.steps) > 0 {
			p.grid.Place(grid.Place{Row: at.Row, Col: routeSteps})
			p.Edit(timeline.StepsText(pick.steps))
			p.commit()
		}
	})
	a.Button("Add by cancel", func() { pick.add(timeline.Cancel) })
	a.Main("Add by link", func() { pick.add(timeline.Link) })
	a.Show(fyne.NewSize(620, 460), pick)
	pick.list.ScrollToTop() // it has its size only now
}
