package output

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// CheatFormats are the endings that a cheat sheet can be written in.
var CheatFormats = []string{"pdf", "png", "svg", "csv"}

// MostCheats is how many setups a cheat sheet takes: more are no help to memory.
const MostCheats = 400

// MakeCheatSheet makes a sheet of what to keep in mind of all setups that each
// hands over: of each its inputs, what to read in the game, and what beats it. It
// has the shape of the order's page: as a PDF on one page, in letters as large as
// have room there, without notes where those have none; or on several, with them.
// Unsafe setups are
// left out, and counted; so are those that can't be judged, which are named.
func (o *Order) MakeCheatSheet(ctx context.Context, index *timeline.Index, each Each, title, format string) (*Made, error) {
	var cheats []words.Cheat
	var skipped []error
	unsafe, found := 0, 0
	err := each(ctx, func(s *timeline.Setup) error {
		found++
		plan, err := index.Compile(*s)
		switch {
		case err != nil:
			skipped = append(skipped, err)
		case plan.Called(s.Delay) == timeline.Unsafe:
			unsafe++
		case len(cheats) == MostCheats:
			return fmt.Errorf("cheat sheet: expected at most %d setups: filter them", MostCheats)
		default:
			cheats = append(cheats, words.CheatOf(plan))
		}
		return ctx.Err()
	})
	if err == nil && found == len(skipped) {
		err = ErrNone
	}
	if err != nil {
		return nil, errors.Join(append([]error{err}, skipped...)...)
	}
	made, err := cheatSheet(o, together(cheats), unsafe, title, format)
	if err == nil {
		made.Skipped = skipped
	}
	return made, err
}

// together lays setups of the same fighters and ender beside each other, as the
// first of them stand.
func together(cheats []words.Cheat) []words.Cheat {
	first := map[[2]string]int{}
	for i := range cheats {
		key := [2]string{cheats[i].Pair, cheats[i].After}
		if _, ok := first[key]; !ok {
			first[key] = len(first)
		}
	}
	slices.SortStableFunc(cheats, func(a, b words.Cheat) int {
		return first[[2]string{a.Pair, a.After}] - first[[2]string{b.Pair, b.After}]
	})
	return cheats
}

// cheatSheet makes one of what was gathered.
func cheatSheet(o *Order, cheats []words.Cheat, unsafe int, title, format string) (*Made, error) {
	if format == "csv" {
		var rows []table.MatrixRow
		for i := range cheats {
			c := &cheats[i]
			cells := []string{c.Pair, c.After, string(c.Called), strings.Join(c.Do, ", "), strings.Join(c.Read, ", "), strings.Join(c.Beaten, ", ")}
			for k := range cells {
				cells[k] = table.Guarded(cells[k])
			}
			rows = append(rows, table.MatrixRow{Name: c.Setup, Cells: cells})
		}
		var b strings.Builder
		err := table.WriteMatrix(&b, []string{"setup", "fighters", "after", "verdict", "inputs", "read", "beaten_by"}, rows)
		return written(format, b.String()), err
	}
	phone := o.Page == sheet.Phone
	t := cheatDrawing(cheats, unsafe, title, phone)
	if format != "pdf" {
		width := o.W
		if phone {
			width = phoneWidth
		}
		sheets, err := sheet.DrawTable(t, width, 0)
		if err != nil {
			return nil, err
		}
		sheets[0].AtLeastAs(o.Page)
		return o.Of(sheets[0], format)
	}
	if phone {
		sheets, _, err := sheet.OnePage(t, o.Page, []float64{phoneWidth})
		if err != nil {
			return nil, err
		}
		return pages(o, sheets), nil
	}
	several, one, err := sheet.OnePage(t, o.Page, []float64{620, 700, 800, 900, 1000})
	if err == nil && !one { // without the notes, and then closer
		short := *t
		short.Rows = slices.Clone(t.Rows)
		for i := range short.Rows {
			short.Rows[i].Cells = slices.Clone(short.Rows[i].Cells)
			short.Rows[i].Cells[0].More = nil
		}
		tight := short
		tight.Tight = true
		for _, next := range []struct {
			of     *sheet.Table
			widths []float64
		}{{&short, []float64{900, 1000, 1120}}, {&tight, []float64{1000, 1120, 1250, 1320, 1400, 1500}}} {
			var sheets []*sheet.Drawing
			if sheets, one, err = sheet.OnePage(next.of, o.Page, next.widths); err != nil || one {
				several = sheets
				break
			}
		}
	}
	if err != nil {
		return nil, err
	}
	return pages(o, several), nil
}

// phoneWidth is how wide a sheet for a phone is, in units: its text is as large
// there as a phone's own.
const phoneWidth = 330

// cheatDrawing is a cheat sheet as it is drawn: for a phone all of a setup stands
// in one column.
func cheatDrawing(cheats []words.Cheat, unsafe int, title string, phone bool) *sheet.Table {
	alone := len(cheats) > 0 && !slices.ContainsFunc(cheats, func(c words.Cheat) bool { return c.Pair != cheats[0].Pair })
	if alone {
		title = cheats[0].Pair
	}
	t := &sheet.Table{Heading: title, Lines: 8, Key: sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited),
		Answer:  fmt.Sprintf("%s to keep in mind. Frames are counted from 0, the first after the ender.", words.Count(len(cheats), "setup")),
		Columns: []sheet.TableColumn{{Head: "Setup", Least: 8, Most: 13}, {Head: "Inputs", Least: 14, Most: 24}, {Head: "Read in the game", Least: 12, Most: 19}, {Head: "Beaten by", Least: 8, Most: 17}}}
	if phone {
		t.Columns = []sheet.TableColumn{{Head: "Setup", Least: 20, Most: 28}}
	}
	t.Fixed = len(t.Columns)
	if unsafe > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("%s left out, as unsafe.", words.Count(unsafe, "setup")))
	}
	for i := range cheats {
		c := &cheats[i]
		beaten := "nothing that it is asked"
		if len(c.Beaten) > 0 {
			beaten = strings.Join(c.Beaten, ", ")
		}
		name := sheet.TableCell{Lines: []string{c.Setup}, Look: sheet.BoldCell, Marked: true, Mark: c.Called.Judgement()}
		row := sheet.TableRow{Section: c.Pair + ", " + c.After}
		if alone {
			row.Section = strings.ToUpper(c.After[:1]) + c.After[1:]
		}
		inputs, read := strings.Join(c.Do, ", "), strings.Join(c.Read, ", ")
		if phone {
			name.More = []string{inputs, "Read: " + read, "Beaten by: " + beaten}
			row.Cells = []sheet.TableCell{name}
		} else {
			row.Cells = []sheet.TableCell{name, {Lines: []string{inputs}}, {Lines: []string{read}}, {Lines: []string{beaten}}}
		}
		if c.Note != "" {
			row.Cells[0].More = append(row.Cells[0].More, c.Note)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
