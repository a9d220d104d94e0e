package data

import (
	"cmp"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

var (
	_ dataTable = (*routeTable)(nil)
	_ counting  = (*routeTable)(nil)
	_ telling   = (*routeTable)(nil)
)

// routeTable are the routes of a fighter: what a person types of each, and what
// it comes to.
type routeTable struct {
	rules timeline.Ruleset
	f     *timeline.Fighter
	of    []value.Route // as f has them
}

// The columns of the routes.
const (
	routeName = iota
	routeSteps
	routeLinks
	routeDamage
	routeCost
	routeGain
	routeNeeds
	routeEnds
	routeConfirmed
)

// routeFields are the fields of a route by their column, in the order of the
// table of fields.
var routeFields = func() map[int]*timeline.Field[timeline.Route] {
	out := map[int]*timeline.Field[timeline.Route]{}
	for i, col := range []int{routeName, routeDamage, routeCost, routeGain, routeConfirmed} {
		out[col] = &timeline.RouteFields[i]
	}
	return out
}()

var routeColumns = func() []column {
	out := make([]column, routeConfirmed+1)
	for col, f := range routeFields {
		out[col] = column{name: f.Column, about: f.About}
	}
	out[routeSteps] = column{name: "steps", wide: true, about: "moves done on the ground, such as jab, jab > sweep: a comma before a link, > before a cancel; right click, Add steps lists the moves"}
	out[routeLinks] = column{name: "links", wide: true, counted: true, about: "how each step follows the one before: the frames to spare of a link, or by how many it is too slow"}
	out[routeNeeds] = column{name: "needs", counted: true, about: "segments of gauge that the route can be begun with at the least"}
	out[routeEnds] = column{name: "ends in", counted: true, about: "the last move, and whether it knocks down"}
	return out
}()

func newRouteTable(rules timeline.Ruleset, f *timeline.Fighter) *routeTable {
	t := &routeTable{rules: rules, f: f}
	for i := range f.Routes {
		t.of = append(t.of, value.RouteOf(rules, f, &f.Routes[i]))
	}
	return t
}

func (r *routeTable) rowWord() string   { return "route" }
func (r *routeTable) columns() []column { return routeColumns }
func (r *routeTable) len() int          { return len(r.f.Routes) }
func (r *routeTable) grows() bool       { return true }
func (r *routeTable) turns(int) bool    { return false }

func (r *routeTable) cell(row, col int) string {
	of := &r.f.Routes[row]
	switch col {
	case routeSteps:
		return timeline.StepsText(of.Steps)
	case routeLinks:
		var out []string
		for i := range r.of[row].Margins {
			out = append(out, words.StepLinkShort(r.link(of, i, r.of[row].Margins[i])))
		}
		return strings.Join(out, "; ")
	case routeNeeds:
		if n := r.of[row].Needs(); n.Given {
			return strconv.Itoa(n.N)
		}
		return "more than there is"
	case routeEnds:
		return endWords(r.of[row].Ends())
	}
	return routeFields[col].Cell(of)
}

// endWords is the last move of a route, and where it knocks down.
func endWords(m *timeline.Move) string {
	switch k := m.Knockdown; {
	case k.Midscreen.Given && k.Wall.Given:
		return m.Name
	case k.Midscreen.Given:
		return m.Name + ", midscreen only"
	case k.Wall.Given:
		return m.Name + ", wall only"
	}
	return m.Name + ", no knockdown"
}

// link is what words need to tell how step i+1 of a route follows step i.
func (r *routeTable) link(of *timeline.Route, i int, margin timeline.Maybe) (throw, cancel bool, _ timeline.Maybe) {
	step := of.Steps[i+1]
	return r.f.Move(step.Move).Kind == timeline.Throw, step.By == timeline.Cancel, margin
}

// counts implements counting: what was not measured is counted from the steps.
func (r *routeTable) counts(row, col int) string {
	switch col {
	case routeDamage:
		return strconv.Itoa(r.of[row].Damage)
	case routeCost:
		return strconv.Itoa(r.of[row].Cost)
	case routeGain:
		return strconv.Itoa(r.of[row].Gain)
	}
	return ""
}

// doubts implements counting: the links of a route that isn't used for them.
func (r *routeTable) doubts(row, col int) bool { return col == routeLinks && !r.of[row].Counts }

// tells implements telling.
func (r *routeTable) tells(row int) string { return r.about(&r.f.Routes[row], &r.of[row]) }

// would implements telling.
func (r *routeTable) would(e timeline.Edit) string {
	to, ok := e.(timeline.RouteEdit)
	if !ok || to.To == nil {
		return ""
	}
	of := value.RouteOf(r.rules, r.f, to.To)
	return r.about(to.To, &of)
}

// about says what a route comes to.
func (r *routeTable) about(route *timeline.Route, of *value.Route) string {
	var links []string
	for i := range of.Margins {
		throw, cancel, margin := r.link(route, i, of.Margins[i])
		if cancel && !throw {
			continue // the steps say so
		}
		links = append(links, words.StepLink(route.Steps[i+1].Move, throw, cancel, margin))
	}
	return words.RouteWorth(links, of.Damage, of.Cost, of.Gain, of.Counts)
}

// ends implements telling.
func (r *routeTable) ends(row int) string {
	if m := r.of[row].Ends(); m.Knockdown.Midscreen.Given || m.Knockdown.Wall.Given {
		return m.Name
	}
	return ""
}

func (r *routeTable) read(row int, cells []string) (timeline.Edit, *fault) {
	var to timeline.Route
	before := ""
	if row < len(r.f.Routes) {
		before = r.f.Routes[row].Name
	}
	for col := range routeColumns {
		if f := r.readCell(&to, col, cells[col]); f != nil {
			return nil, f
		}
	}
	slim := timeline.Fighter{Name: r.f.Name, Rises: r.f.Rises[:1]}
	for _, s := range to.Steps {
		if slim.Move(s.Move) == nil {
			slim.Moves = append(slim.Moves, *r.f.Move(s.Move))
		}
	}
	if there := r.f.Route(to.Name); there != nil && to.Name != before {
		slim.Moves, slim.Routes = r.f.Moves, []timeline.Route{*there}
	}
	p := &timeline.Project{Ruleset: r.rules, Fighters: []timeline.Fighter{slim}}
	if f := tryIn(r, p, timeline.RouteEdit{Owner: r.f.Name, To: &to}); f != nil {
		return nil, f
	}
	return timeline.RouteEdit{Owner: r.f.Name, Before: before, To: &to}, nil
}

// readCell reads one cell into a route.
func (r *routeTable) readCell(to *timeline.Route, col int, cell string) *fault {
	if col == routeSteps {
		steps, want, got := timeline.ReadSteps(r.f, cell)
		if want != "" {
			return &fault{col: col, want: want, got: got}
		}
		to.Steps = steps
		return nil
	}
	f := routeFields[col]
	if f == nil { // it is counted
		return nil
	}
	if want := readField(f, to, cell); want != "" {
		return &fault{col: col, want: want, got: quoteCell(strings.TrimSpace(cell))}
	}
	return nil
}

// alone implements dataTable: an empty cell is a lack, and no fault yet.
func (r *routeTable) alone(_, col int, cells []string) *fault {
	if cells[col] == "" {
		return nil
	}
	return r.readCell(&timeline.Route{}, col, cells[col])
}

func (r *routeTable) remove(row int) timeline.Edit {
	return timeline.RouteEdit{Owner: r.f.Name, Before: r.f.Routes[row].Name}
}

// shownOr is the count where the cell is empty.
func shownOr(t dataTable, row, col int) string {
	cell := t.cell(row, col)
	if c, ok := t.(counting); ok {
		return cmp.Or(cell, c.counts(row, col))
	}
	return cell
}
