package table

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"wakeline/timeline"
)

// form is how a table is written: a separator, the order and words of its
// headings, where the fighters stand, what is put in between.
type form struct {
	g      *dice
	sep    string
	marked bool // with a byte order mark
	wide   bool // in UTF-16
	breaks string
}

// written writes the moves of fighters as somebody might keep them.
func (f *form) written(fighters []string, moves [][]timeline.Move) string {
	g := f.g
	cols := g.Perm(len(columns) - 1)
	section := g.one(3)
	heads := []string{"fighter"}
	if section {
		heads = nil
	}
	for _, c := range cols {
		heads = append(heads, f.heading(&columns[1+c]))
	}
	var rows [][]string
	if g.one(2) {
		rows = append(rows, []string{"# by hand, of the last patch"})
	}
	rows = append(rows, heads)
	for i, fighter := range fighters {
		if section {
			rows = append(rows, append([]string{fighter}, make([]string, len(heads)-1)...))
		}
		for k := range moves[i] {
			var row []string
			if !section {
				row = append(row, fighter)
			}
			for _, c := range cols {
				row = append(row, f.cell(&columns[1+c], &moves[i][k]))
			}
			rows = append(rows, row)
			if g.one(5) {
				rows = append(rows, make([]string, len(heads)))
			}
			if g.one(7) {
				rows = append(rows, append([]string{"# a remark"}, make([]string, len(heads)-1)...))
			}
			if g.one(9) {
				rows = append(rows, heads)
			}
		}
	}
	var b strings.Builder
	for _, row := range rows {
		for i, cell := range row {
			if i > 0 {
				b.WriteString(f.sep)
			}
			if strings.ContainsAny(cell, f.sep+"\"\r\n,") || strings.HasPrefix(cell, " ") {
				cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
			}
			b.WriteString(cell)
		}
		b.WriteString(f.breaks)
	}
	text := b.String()
	if f.marked || f.wide {
		text = "\ufeff" + text
	}
	if !f.wide {
		return text
	}
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		out = append(out, byte(u), byte(u>>8))
	}
	return string(out)
}

// heading is a word for the column, its own or one of others.
func (f *form) heading(c *column) string {
	words := append([]string{c.name, strings.ToUpper(c.name), strings.ReplaceAll(c.name, "_", " ")}, c.field.Also...)
	word := words[f.g.IntN(len(words))]
	if c.number() && c.unit == timeline.Frames && f.g.one(3) {
		word += " (f)"
	}
	return word
}

// cell is what the move has there, as somebody might write it.
func (f *form) cell(c *column, m *timeline.Move) string {
	cell := c.field.Cell(m)
	g := f.g
	switch {
	case cell == "" && c.notText() && c.name != timeline.MoveKind && c.name != levelColumn && g.one(4):
		return []string{"-", "n/a", "–"}[g.IntN(3)]
	case cell == "" || c.isText():
		return cell
	case c.number() && !strings.HasPrefix(cell, "-") && g.one(4):
		return "+" + cell
	case c.number() && strings.HasPrefix(cell, "-") && g.one(2):
		return "\u2212" + cell[1:]
	case c.number() && c.unit == timeline.Frames && g.one(4):
		return cell + []string{"f", " frames"}[g.IntN(2)]
	case c.number() && c.unit == timeline.Frames && g.one(4):
		return cell + []string{",0", ".0"}[g.IntN(2)]
	case c.number() && c.care.Why != "" && c.unit == timeline.Frames && g.one(4):
		return f.around(cell, c.care)
	case c.knocks == c.name && g.one(3):
		return "KD +" + cell
	case c.name == levelColumn && cell != string(timeline.LevelAirThr) && g.one(2):
		return map[string]string{"mid": "M", "low": "L", "overhead": "O", "throw": "T"}[cell]
	}
	return cell
}

// around is a range whose careful end is the number.
func (f *form) around(cell string, care timeline.Care) string {
	n, _ := timeline.ParseWhole(cell)
	other := n + 1 + f.g.IntN(3)
	if care.Most {
		other = n - 1 - f.g.IntN(3)
	}
	return fmt.Sprintf("%+d~%+d", n, other)
}

// plainNames gives the moves and fighters names that are no remark, no group and
// no number between marks, and not written over several lines.
func plainNames(moves []timeline.Move, of string) {
	for i := range moves {
		moves[i].Name = fmt.Sprintf("%s move %d, \"the %dth\"", of, i, i)
	}
}

// A random project that is written in a random form reads back equal.
func TestRandomFormsReadBackEqual(t *testing.T) {
	rounds := 400
	if testing.Short() {
		rounds = 60
	}
	for seed := range rounds {
		g := newDice(uint64(1000 + seed))
		f := &form{g: g, sep: []string{",", ";", "\t", "|"}[g.IntN(4)], marked: g.one(2), wide: g.one(4), breaks: []string{"\n", "\r\n", "\r"}[g.IntN(3)]}
		fighters := []string{"Marl", "Orla the Elder", "Ness"}[:1+g.IntN(3)]
		var all [][]timeline.Move
		var want []Row
		for _, name := range fighters {
			moves := g.moves(1 + g.IntN(6))
			plainNames(moves, name)
			all = append(all, moves)
			for _, m := range moves {
				want = append(want, Row{0, name, m})
			}
		}
		text := f.written(fighters, all)
		got, err := Read(strings.NewReader(text), Options{})
		if err != nil {
			t.Fatalf("seed %d: %v in\n%s", seed, err, text)
		}
		for i := range got.Rows {
			got.Rows[i].Line = 0
		}
		if !reflect.DeepEqual(got.Rows, want) {
			for i := range want {
				if i < len(got.Rows) && !reflect.DeepEqual(got.Rows[i], want[i]) {
					t.Fatalf("seed %d: row %d is %+v\nwant %+v in\n%s", seed, i, got.Rows[i], want[i], text)
				}
			}
			t.Fatalf("seed %d: %d rows, want %d in\n%s", seed, len(got.Rows), len(want), text)
		}
		if slices.ContainsFunc(got.Notes, func(n Note) bool { return n.Line == 0 }) {
			t.Errorf("seed %d: a note without a line", seed)
		}
	}
}
