package ui

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// subject is one sort of thing of the move data, as rows of cells. It shows
// the data that it was made of; other data need another.
type subject interface {
	thing() string     // "move"
	columns() []column // the first is the name
	len() int
	cell(row, col int) string

	// read makes an edit of the cells of a row: of the one there, or of a new
	// one where row is len. It returns the first fault where they make none.
	read(row int, cells []string) (timeline.Edit, *fault)
	// alone returns what is wrong with one cell whatever stands in the others.
	alone(row, col int, cells []string) *fault
	remove(row int) timeline.Edit // nil: its rows stay
	grows() bool                  // a new row can be added
	turns(col int) bool           // another value there needs others in other cells
}

// column is a column of a subject.
type column struct {
	name  string
	about string // what may stand in it
	fixed bool   // it can't be typed in
}

// heading is the column's name as it is read; tables of files keep the name.
func (c column) heading() string { return strings.ReplaceAll(c.name, "_", " ") }

// fault is what is wrong with a row of cells.
type fault struct {
	col       int // -1: the row as a whole
	want, got string
	plain     string // says it whole, in place of both
}

// words say the fault, without the column.
func (f *fault) words() string {
	if f.plain != "" {
		return f.plain
	}
	s := "expected " + headings.Replace(f.want)
	if f.got != "" {
		s += ", got " + f.got
	}
	return s
}

// nothingGot stands in a fault for an empty cell.
const nothingGot = "nothing"

// cellsOf are the cells of a row as they stand; of a new row all are empty.
func cellsOf(s subject, row int) []string {
	out := make([]string, len(s.columns()))
	if row < s.len() {
		for col := range out {
			out[col] = s.cell(row, col)
		}
	}
	return out
}

// columnAt is the place of the column of that name, -1 where there is none.
func columnAt(s subject, name string) int {
	return slices.IndexFunc(s.columns(), func(c column) bool { return c.name == name })
}

var projectPath = regexp.MustCompile(`^(?:setup ("(?:[^"\\]|\\.)*"): )?\$(?:\.(fighters|setups)\[(\d+)\](?:\.(moves|jumps|rises)\[(\d+)\])?)?\.?(.*)$`)

// pathWords puts a JSON path of p into words: the thing, and the column.
func pathWords(p *timeline.Project, path string) (thing, field string) {
	m := projectPath.FindStringSubmatch(path)
	if m == nil {
		return "", path
	}
	field = fieldWords(m[6])
	whole := fieldWords(strings.TrimPrefix(path, "$."))
	number := func(s string) int { n, _ := strconv.Atoi(s); return n }
	switch at := number(m[3]); {
	case m[1] != "":
		name, _ := strconv.Unquote(m[1])
		return "setup " + name, field
	case m[2] == "setups" && at < len(p.Setups):
		return "setup " + p.Setups[at].Name, field
	case m[2] == "fighters" && at < len(p.Fighters):
		f := &p.Fighters[at]
		switch k := number(m[5]); {
		case m[4] == "moves" && k < len(f.Moves):
			return f.Name + "'s " + f.Moves[k].Name, field
		case m[4] == "jumps" && k < len(f.Jumps):
			return f.Name + "'s jump " + f.Jumps[k].Name, field
		case m[4] == "rises" && k < len(f.Rises):
			return f.Name + "'s rise " + f.Rises[k].Name, field
		}
		return f.Name, field
	case m[2] != "": // of data that could not be read
		return "", whole
	}
	return "", field
}

// errorWords puts an error of an edit into words; p is the data as they were
// to become, or as near to that as is known.
func errorWords(p *timeline.Project, err error) string {
	broken := (*timeline.FieldError)(nil)
	if !errors.As(err, &broken) {
		return err.Error()
	}
	thing, field := pathWords(p, broken.Path)
	f := fault{want: broken.Want, got: broken.Got}
	if setup, ok := strings.CutPrefix(thing, "setup "); ok {
		if use := useWords(broken); use != "" {
			return fmt.Sprintf("“%s” uses %s: expected %s", setup, use, headings.Replace(broken.Want))
		}
	}
	var places []string
	for _, s := range []string{thing, field} {
		if s != "" {
			places = append(places, s)
		}
	}
	if len(places) == 0 {
		return f.words()
	}
	return strings.Join(places, ", ") + ": " + f.words()
}

// uses are what a setup uses a move or jump as, by the field that names it.
var uses = map[string]string{"ender": "as its ender", "fillers": "as a filler", "jump": "as its jump", "attack": "as its attack", "landing": "as its landing action", "replies": "as a reply"}

var usedAs = regexp.MustCompile(`\$\.(?:setups\[\d+\]\.)?([a-z]+)(?:\[\d+\](?:\.move)?)?$`)

// useWords say what a setup uses that no longer fits: "Thole as a filler";
// nothing where the error is of something else.
func useWords(e *timeline.FieldError) string {
	m := usedAs.FindStringSubmatch(e.Path)
	if m == nil || uses[m[1]] == "" {
		return ""
	}
	quoted, err := strconv.QuotedPrefix(e.Got)
	if err != nil {
		return ""
	}
	name, _ := strconv.Unquote(quoted)
	return name + " " + uses[m[1]]
}

var placed = regexp.MustCompile(`^([a-z_]+)\[(\d+)\]\.?(.*)$`)

// singles are the entries of the lists that have another name than the list.
var singles = map[string]string{"fighters": "fighter", "setups": "setup", "moves": "move", "jumps": "jump", "fillers": "filler", "replies": "reply", "rises": "rise", "tags": "tag"}

// fieldWords writes a field of the project text as it is read: "guard after",
// "filler 2", "immune 1, from".
func fieldWords(field string) string {
	if rule, ok := strings.CutPrefix(field, "ruleset."); ok && timeline.FieldNamed(rulesetFields, rule) != nil {
		return timeline.FieldNamed(rulesetFields, rule).Label
	}
	if m := placed.FindStringSubmatch(field); m != nil {
		at, _ := strconv.Atoi(m[2])
		words := fmt.Sprintf("%s %d", nameOr(singles[m[1]], m[1]), at+1)
		if m[3] != "" {
			words += ", " + fieldWords(m[3])
		}
		return strings.ReplaceAll(words, "_", " ")
	}
	if field == "advantage" {
		return "knockdown advantage"
	}
	return strings.NewReplacer(".", " ", "_", " ").Replace(field)
}

// faultOf is the fault that err finds in the row, by the last field of its
// path.
func faultOf(s subject, err error) *fault {
	if err == nil {
		return nil
	}
	broken := (*timeline.FieldError)(nil)
	if !errors.As(err, &broken) {
		return &fault{col: -1, plain: err.Error()}
	}
	field := broken.Path[strings.LastIndexByte(broken.Path, '.')+1:]
	return &fault{col: columnAt(s, field), want: broken.Want, got: broken.Got}
}

// tryIn does an edit on data made for it, with no more in them than its rules
// look at, and returns what is wrong with it.
func tryIn(s subject, p *timeline.Project, e timeline.Edit) *fault {
	_, err := p.With(e)
	return faultOf(s, err)
}

// namesakes is a fighter with nothing but what bears that name already, apart
// from what is called before itself.
func namesakes(f *timeline.Fighter, before, name string) timeline.Fighter {
	out := timeline.Fighter{Name: f.Name}
	if name == before {
		return out
	}
	if m := f.Move(name); m != nil {
		out.Moves = []timeline.Move{*m}
	}
	if j := f.Jump(name); j != nil {
		out.Jumps = []timeline.Jump{*j}
	}
	return out
}

// quoteCell shows a cell in a fault.
func quoteCell(s string) string {
	if s == "" {
		return nothingGot
	}
	return fmt.Sprintf("%q", cutText(s, 60))
}
