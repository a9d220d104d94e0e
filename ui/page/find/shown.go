package find

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/sheet"
)

var _ page.Exported = (*Page)(nil)

// Shown is the answers that are listed, where there are any.
func (f *Page) Shown() *page.Shown {
	if len(f.list.answers) == 0 {
		return nil
	}
	t := f.table()
	return &page.Shown{Kind: output.Found, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
		return o.MakeTable(t, format)
	}}
}

// table is the answers as they are drawn.
func (f *Page) table() *sheet.Table {
	first := &f.list.answers[0].Setups[0]
	t := &sheet.Table{Heading: fmt.Sprintf("%s vs %s, after %s: setups found", first.Attacker, first.Rival, first.Ender), Answer: f.count.Text, Fixed: 2,
		Key: sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited)}
	column := func(head string, least, most float64, atEnd bool) {
		t.Columns = append(t.Columns, sheet.TableColumn{Head: head, Least: least, Most: most, AtEnd: atEnd})
	}
	column("Rank", 3, 4, true)
	column("Setup", 10, 20, false)
	column("Fillers", 6, 18, false)
	column("Wait", 3, 4, true)
	column("Jump", 4, 8, false)
	column("Attack", 4, 9, false)
	column("Jumps on", 3, 5, true)
	column("Chance by hand", 4, 6, true)
	column("To spare", 3, 5, true)
	column("Gauge", 3, 5, true)
	for i := range f.list.answers {
		a := &f.list.answers[i]
		s := &a.Setups[0]
		var row sheet.TableRow
		for _, text := range []string{fmt.Sprint(a.Rank), s.Name, strings.Join(s.Fillers, ", "), fmt.Sprint(a.Wait()), s.Jump, s.Attack, fmt.Sprint(a.JumpOn), words.Percent(a.Chance), "", fmt.Sprint(a.Gauge)} {
			row.Cells = append(row.Cells, sheet.TableCell{Lines: []string{text}})
		}
		row.Cells[1].Marked, row.Cells[1].Mark, row.Cells[1].Look = true, a.Word.Judgement(), sheet.BoldCell
		if a.Spare.Given {
			row.Cells[8].Lines = []string{fmt.Sprint(a.Spare.N)}
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = slices.Clip(t.Rows)
	return t
}
