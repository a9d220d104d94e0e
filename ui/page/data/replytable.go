package data

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
)

var (
	_ dataTable = (*replyTable)(nil)
	_ keyed     = (*replyTable)(nil)
	_ counting  = (*replyTable)(nil)
	_ offering  = (*replyTable)(nil)
)

// replyTable are a fighter's standing replies: what every setup against it is
// asked that has no list of its own.
type replyTable struct {
	rules timeline.Ruleset
	f     *timeline.Fighter
}

// The columns of the replies.
const (
	replyMove = iota
	replyDemand
	replyLate
	replyCosts
)

var replyColumns = []column{
	replyMove:   {name: "reply", about: "a move or a jump of the fighter, done on the ground"},
	replyDemand: {name: "demand", about: "what a setup must do against it: survive, beat, or none, it is only shown; empty: survive"},
	replyLate:   {name: "late", about: "frames after the wake-up on which it begins; empty: 0"},
	replyCosts:  {name: "costs", about: "points that the attacker loses where it wins; empty: its move's damage"},
}

func (r *replyTable) rowWord() string   { return "reply" }
func (r *replyTable) columns() []column { return replyColumns }
func (r *replyTable) len() int          { return len(r.f.Replies) }
func (r *replyTable) grows() bool       { return true }
func (r *replyTable) turns(int) bool    { return false }

func (r *replyTable) cell(row, col int) string {
	switch of := &r.f.Replies[row]; col {
	case replyMove:
		return of.Move
	case replyDemand:
		return string(of.Demand)
	case replyLate:
		if of.Late != 0 {
			return strconv.Itoa(of.Late)
		}
	case replyCosts:
		if of.Costs.Given {
			return strconv.Itoa(of.Costs.N)
		}
	}
	return ""
}

// counts implements counting: a reply costs what its move takes off.
func (r *replyTable) counts(row, col int) string {
	if col != replyCosts {
		return ""
	}
	damage := 0
	if m := r.f.Move(r.f.Replies[row].Move); m != nil {
		damage = m.Damage
	}
	return strconv.Itoa(damage)
}

// doubts implements counting.
func (r *replyTable) doubts(int, int) bool { return false }

// key implements keyed: a reply may stand there at several latenesses.
func (r *replyTable) key(cells []string) string {
	late, _ := timeline.ParseWhole(strings.TrimSpace(cells[replyLate]))
	of := timeline.Reply{Move: r.doing(cells[replyMove]), Late: late}
	return of.Title()
}

// doing is the move or jump of that name, in any case of letters.
func (r *replyTable) doing(name string) string {
	name = strings.TrimSpace(name)
	if r.f.Move(name) != nil || r.f.Jump(name) != nil {
		return name
	}
	for i := range r.f.Moves {
		if strings.EqualFold(r.f.Moves[i].Name, name) {
			return r.f.Moves[i].Name
		}
	}
	for i := range r.f.Jumps {
		if strings.EqualFold(r.f.Jumps[i].Name, name) {
			return r.f.Jumps[i].Name
		}
	}
	return name
}

func (r *replyTable) read(row int, cells []string) (timeline.Edit, *fault) {
	to := timeline.Reply{}
	for col := range replyColumns {
		if f := r.readCell(&to, col, cells[col]); f != nil {
			return nil, f
		}
	}
	before := ""
	slim := timeline.Fighter{Name: r.f.Name, Rises: r.f.Rises[:1]}
	if row < len(r.f.Replies) {
		before = r.f.Replies[row].Title()
	}
	if m := r.f.Move(to.Move); m != nil {
		slim.Moves = []timeline.Move{*m}
	} else if j := r.f.Jump(to.Move); j != nil {
		slim.Jumps = []timeline.Jump{*j}
	}
	for _, there := range r.f.Replies {
		if there.Title() == to.Title() && before != to.Title() {
			return nil, &fault{col: replyMove, want: "each reply once at each lateness", got: strconv.Quote(to.Title()) + " again"}
		}
	}
	p := &timeline.Project{Ruleset: r.rules, Fighters: []timeline.Fighter{slim}}
	if f := tryIn(r, p, timeline.ReplyEdit{Owner: r.f.Name, To: &to}); f != nil {
		return nil, f
	}
	return timeline.ReplyEdit{Owner: r.f.Name, Before: before, To: &to}, nil
}

// readCell reads one cell into a reply.
func (r *replyTable) readCell(to *timeline.Reply, col int, cell string) *fault {
	cell = strings.TrimSpace(cell)
	wrong := func(want string) *fault { return &fault{col: col, want: want, got: quoteCell(cell)} }
	switch col {
	case replyMove:
		to.Move = r.doing(cell)
		m := r.f.Move(to.Move)
		switch {
		case to.Move == timeline.GuardHigh || to.Move == timeline.GuardLow || to.Move == timeline.Nothing:
			return wrong("a move or a jump: " + to.Move + " is always judged")
		case m == nil && r.f.Jump(to.Move) == nil:
			return wrong("a move or a jump of " + r.f.Name)
		case m != nil && m.Air:
			return &fault{col: col, want: "a move or a jump done on the ground", got: quoteCell(cell) + ", an air move"}
		}
	case replyDemand:
		if to.Demand = timeline.Demand(strings.ToLower(cell)); cell == "" {
			to.Demand = timeline.Survive
		}
		if to.Demand != timeline.Survive && to.Demand != timeline.Beat && to.Demand != timeline.DemandNone {
			return wrong("survive, beat or none")
		}
	case replyLate, replyCosts:
		if cell == "" {
			return nil
		}
		most := timeline.MaxFrames
		if col == replyCosts {
			most = timeline.MaxPoints
		}
		n, ok := timeline.ParseWhole(cell)
		if !ok || n < 0 || n > most {
			return wrong("a whole number from 0 to " + strconv.Itoa(most))
		}
		if col == replyLate {
			to.Late = n
		} else {
			to.Costs = timeline.Some(n)
		}
	}
	return nil
}

// alone implements dataTable: an empty cell is a lack, and no fault yet.
func (r *replyTable) alone(_, col int, cells []string) *fault {
	if cells[col] == "" {
		return nil
	}
	return r.readCell(&timeline.Reply{}, col, cells[col])
}

func (r *replyTable) remove(row int) timeline.Edit {
	return timeline.ReplyEdit{Owner: r.f.Name, Before: r.f.Replies[row].Title()}
}

// offers implements offering: what a rival is often asked, of all that is not
// there yet.
func (r *replyTable) offers() (out []offer) {
	for _, g := range r.groups() {
		var edits []timeline.Edit
		for _, name := range g.names {
			if !slices.ContainsFunc(r.f.Replies, func(there timeline.Reply) bool { return there.Move == name }) {
				edits = append(edits, timeline.ReplyEdit{Owner: r.f.Name, To: &timeline.Reply{Move: name, Demand: timeline.Survive}})
			}
		}
		if len(edits) > 0 {
			out = append(out, offer{fmt.Sprintf("%s (%d)", g.what, len(edits)), edits})
		}
	}
	return out
}

// replyGroup is moves or jumps of one sort.
type replyGroup struct {
	what  string
	names []string
}

// groups are the fighter's moves and jumps, sort by sort.
func (r *replyTable) groups() []replyGroup {
	moves := func(what string, is func(m *timeline.Move) bool) replyGroup {
		g := replyGroup{what: what}
		for i := range r.f.Moves {
			if m := &r.f.Moves[i]; !m.Air && is(m) {
				g.names = append(g.names, m.Name)
			}
		}
		return g
	}
	of := func(kind timeline.Kind) func(m *timeline.Move) bool {
		return func(m *timeline.Move) bool { return m.Kind == kind }
	}
	back := func(m *timeline.Move) bool { return m.Kind == timeline.Dash && m.Travel < 0 }
	dashes := moves("back dashes", back)
	if len(dashes.names) == 0 { // how far they go may not be known
		dashes = moves("dashes", of(timeline.Dash))
	}
	jumps := replyGroup{what: "jumps"}
	for i := range r.f.Jumps {
		jumps.names = append(jumps.names, r.f.Jumps[i].Name)
	}
	return []replyGroup{
		moves("strikes with immunity", func(m *timeline.Move) bool { return m.Kind == timeline.Strike && len(m.Immune) > 0 }),
		moves("quickest strikes", r.quickest()),
		moves("throws", of(timeline.Throw)), moves("parries", of(timeline.Parry)), moves("evades", of(timeline.Evade)), dashes, jumps,
	}
}

// quickest asks whether a move is a strike without immunity of the least
// startup.
func (r *replyTable) quickest() func(m *timeline.Move) bool {
	plain := func(m *timeline.Move) bool { return m.Kind == timeline.Strike && !m.Air && len(m.Immune) == 0 }
	least := timeline.MaxFrames + 1
	for i := range r.f.Moves {
		if m := &r.f.Moves[i]; plain(m) {
			least = min(least, m.Startup)
		}
	}
	return func(m *timeline.Move) bool { return plain(m) && m.Startup == least }
}
