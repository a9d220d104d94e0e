package ui

import (
	"strconv"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
)

var _ subject = (*moveRows)(nil)

// moveRows are the moves of a fighter, in the cells of a move table.
type moveRows struct {
	rules timeline.Ruleset
	f     *timeline.Fighter
}

// moveAbout says what may stand in a move's column.
var moveAbout = map[string]string{
	"name":                "the move's name; setups that use it take a new name too",
	"kind":                "strike, throw, parry, evade or dash",
	"air":                 "yes for an attack of a jump; empty for a grounded move",
	"level":               "mid, low or overhead for a strike; throw or air throw for a throw; empty for others",
	"startup":             "frames, for strikes and throws; the ruleset says whether they count the first active one",
	"active":              "active frames, written like 3, or 2(5)1 with gaps in brackets",
	"recovery":            "frames after the last active one",
	"total":               "frames of a move without active frames: a parry, an evade or a dash",
	"on_hit":              "advantage in frames when the first active frame hits; or give hitstun",
	"on_guard":            "advantage in frames when the first active frame is blocked; or give guardstun",
	"hitstun":             "frames of stun after the touch, in place of on hit",
	"guardstun":           "frames of stun after the touch, in place of on guard",
	"airborne_from":       "the move's frame, counted from 1, from which its body is in the air",
	"misses_air":          "yes where its strikes pass under an airborne body",
	"deep":                "for a jump attack: the last air frames on which it reaches a grounded rival",
	"drop":                "for a jump attack: units it reaches below the jump's height",
	"top":                 "units of height up to which a strike reaches",
	"reach_near":          "units, the nearest it reaches; with reach far",
	"reach_far":           "units, the farthest it reaches; with reach near",
	"landing_recovery":    "for a jump attack: frames after touchdown, in place of the jump's; with landing guard after",
	"landing_guard_after": "for a jump attack: frames after touchdown before a guard works; with landing recovery",
	"immune":              "frames counted from 1, written like 1-8 strike throw, with ; between windows",
	"armour":              "frames counted from 1, written like 1-8 2 hits, with ; between windows",
	"parry":               "frames counted from 1 that parry a strike, written like 1-10",
	"damage":              "points",
	"gauge_cost":          "segments it costs",
	"gauge_gain":          "segments it brings",
	"travel":              "units it moves its owner",
	"knockdown_midscreen": "for an ender: its knockdown advantage in frames, away from the wall",
	"knockdown_wall":      "for an ender: its knockdown advantage in frames, at the wall",
	"distance_midscreen":  "for an ender: units between the two after it, away from the wall",
	"distance_wall":       "for an ender: units between the two after it, at the wall",
}

var moveColumns = func() (out []column) {
	for _, name := range table.MoveColumns() {
		out = append(out, column{name: name, about: moveAbout[name]})
	}
	return out
}()

// headings writes the columns that a text names as they are read.
var headings = func() *strings.Replacer {
	var pairs []string
	for _, c := range moveColumns {
		pairs = append(pairs, c.name, c.heading())
	}
	return strings.NewReplacer(pairs...)
}()

func (r *moveRows) thing() string            { return "move" }
func (r *moveRows) columns() []column        { return moveColumns }
func (r *moveRows) len() int                 { return len(r.f.Moves) }
func (r *moveRows) grows() bool              { return true }
func (r *moveRows) cell(row, col int) string { return table.Cell(&r.f.Moves[row], col) }

// turns: another kind wants other cells.
func (r *moveRows) turns(col int) bool { return moveColumns[col].name == "kind" }

func (r *moveRows) before(row int) string {
	if row < len(r.f.Moves) {
		return r.f.Moves[row].Name
	}
	return ""
}

func (r *moveRows) read(row int, cells []string) (timeline.Edit, *fault) {
	m, err := table.ReadCells(cells, r.rules)
	if err != nil {
		return nil, r.fault(err)
	}
	before := r.before(row)
	slim := &timeline.Project{Ruleset: r.rules, Fighters: []timeline.Fighter{namesakes(r.f, before, m.Name)}}
	slim.Fighters[0].Rises = r.f.Rises[:1]
	if f := tryIn(r, slim, timeline.MoveEdit{Owner: r.f.Name, Move: &m}); f != nil {
		return nil, f
	}
	return timeline.MoveEdit{Owner: r.f.Name, Before: before, Move: &m}, nil
}

func (r *moveRows) fault(err error) *fault {
	if broken, ok := err.(*table.CellError); ok {
		return &fault{col: columnAt(r, broken.Column), want: broken.Want, got: broken.Got}
	}
	return faultOf(r, err)
}

// The widest numbers of a cell, which say nothing against another one.
var (
	mostFrames = strconv.Itoa(timeline.MaxFrames)
	nearest    = strconv.Itoa(-timeline.MaxUnits)
	farthest   = strconv.Itoa(timeline.MaxUnits)
)

// partners are cells that are given both or neither, and what an empty one is
// taken for while only its partner is looked at.
var partners = []struct{ one, two, standsForOne, standsForTwo string }{
	{"reach_near", "reach_far", nearest, farthest},
	{"landing_recovery", "landing_guard_after", mostFrames, "0"},
}

// alone reads the cell among stand-ins for what its row still lacks.
func (r *moveRows) alone(row, col int, cells []string) *fault {
	if err := table.CheckCell(col, cells[col]); err != nil {
		return r.fault(err)
	}
	if cells[col] == "" {
		return nil
	}
	full := append([]string(nil), cells...)
	fill := func(name, cell string) {
		if at := columnAt(r, name); strings.TrimSpace(full[at]) == "" {
			full[at] = cell
		}
	}
	fill("name", "-")
	fill("kind", "strike")
	for _, p := range partners {
		if full[columnAt(r, p.one)] != full[columnAt(r, p.two)] { // one of them is given
			fill(p.one, p.standsForOne)
			fill(p.two, p.standsForTwo)
		}
	}
	switch kind := strings.ToLower(strings.TrimSpace(full[columnAt(r, "kind")])); kind {
	case "strike":
		fill("level", "mid")
		fallthrough
	case "throw":
		fill("startup", "1")
		fill("active", "1")
		fill("recovery", mostFrames)
	default:
		fill("total", mostFrames)
	}
	if _, err := table.ReadCells(full, r.rules); err != nil {
		if f := r.fault(err); f.col == col {
			return f
		}
	}
	return nil
}

func (r *moveRows) remove(row int) timeline.Edit {
	return timeline.MoveEdit{Owner: r.f.Name, Before: r.f.Moves[row].Name}
}
