package data

import (
	"slices"

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

// stepPicker lists the moves that a route may go on with, each with how it
// would follow by link.
type stepPicker struct {
	paint.Picker
	rules timeline.Ruleset
	f     *timeline.Fighter
	steps []timeline.RouteStep // so far
	route *widget.Label
	shown []*timeline.Move
}

func newStepPicker(host page.Host, rules timeline.Ruleset, f *timeline.Fighter, steps []timeline.RouteStep) *stepPicker {
	p := &stepPicker{rules: rules, f: f, steps: slices.Clone(steps), route: widget.NewLabel("")}
	p.route.Truncation = fyne.TextTruncateEllipsis
	p.Begin(p, host, "A few letters of a move", p.find, func(i int) (name, what string) { return p.shown[i].Name, p.says(p.shown[i]) })
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

// find lists the moves that fit, and tells the steps so far.
func (p *stepPicker) find(fits func(name string) bool) int {
	p.shown = nil
	for i := range p.f.Moves {
		if m := &p.f.Moves[i]; !m.Air && fits(m.Name) {
			p.shown = append(p.shown, m)
		}
	}
	if p.route.SetText("No step yet."); len(p.steps) > 0 {
		p.route.SetText(timeline.StepsText(p.steps))
	}
	return len(p.shown)
}

// add adds the marked move as the next step.
func (p *stepPicker) add(by timeline.By) {
	if p.At >= 0 && p.At < len(p.shown) {
		p.steps = append(p.steps, timeline.RouteStep{Move: p.shown[p.At].Name, By: by})
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
	p.Filter()
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
	a := p.host.Dialogs().New("Steps of the route", container.NewBorder(container.NewVBox(pick.route, pick), nil, nil, nil, pick.List))
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
	pick.List.ScrollToTop() // it has its size only now
}
