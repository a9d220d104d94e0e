package output

import (
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// MakeFound makes the answers of a search, in one of TableFormats.
func (o *Order) MakeFound(t *find.Told, format string) (*Made, error) {
	return tabled(o, foundTable(t), t.JSON, format)
}

// foundTable is the answers of a search as they are drawn.
func foundTable(of *find.Told) *sheet.Table {
	t := &sheet.Table{Heading: of.Heading(), Answer: of.Words(), Notes: of.Because, Fixed: 2,
		Key: sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited)}
	if n := of.Limited; n.Sign() > 0 {
		t.Notes = append(t.Notes[:len(t.Notes):len(t.Notes)], fmt.Sprintf("Left out: %s, safe but for replies that no timing covers.", find.Answers(n)))
	}
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
	column("Verdict", 4, 6, false)
	for i := range of.Answers {
		a := &of.Answers[i]
		s := &a.Setups[0]
		spare := ""
		if a.Spare.Given {
			spare = fmt.Sprint(a.Spare.N)
		}
		var row sheet.TableRow
		for _, text := range []string{fmt.Sprint(a.Rank), s.Name, strings.Join(s.Fillers, ", "), fmt.Sprint(a.Wait()), s.Jump, s.Attack, fmt.Sprint(a.JumpOn), words.Percent(a.Chance), spare, fmt.Sprint(a.Gauge), string(a.Word)} {
			row.Cells = append(row.Cells, sheet.TableCell{Lines: []string{text}})
		}
		row.Cells[1].Marked, row.Cells[1].Mark, row.Cells[1].Look = true, a.Word.Judgement(), sheet.BoldCell
		t.Rows = append(t.Rows, row)
	}
	return t
}

// MakeEnders makes the table of enders of a search, in one of TableFormats.
func (o *Order) MakeEnders(t *find.ToldEnders, format string) (*Made, error) {
	return tabled(o, endersTable(t), t.JSON, format)
}

// endersTable is the table of enders as it is drawn: a row an ender and
// position, a column a jump and attack.
func endersTable(of *find.ToldEnders) *sheet.Table {
	t := &sheet.Table{Heading: of.Heading(), Answer: of.Answer(), Fixed: 3,
		Columns: []sheet.TableColumn{{Head: "Ender", Least: 6, Most: 14}, {Head: "Position", Least: 5, Most: 6}, {Head: "Knockdown advantage", Least: 6.5, Most: 8, AtEnd: true}},
		Key: append(sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited),
			sheet.TableKey{Sample: "wait 3", Means: "the shortest way: fillers, and a counted wait in frames"},
			sheet.TableKey{Sample: "at once", Means: "the jump follows the ender"},
			sheet.TableKey{Sample: "none", Look: sheet.SoftCell, Means: "there is no way"})}
	for i := range of.Rows {
		r := &of.Rows[i]
		row := sheet.TableRow{Cells: []sheet.TableCell{{Lines: []string{r.Ender}, Look: sheet.BoldCell}, {Lines: []string{string(r.Position)}}, {Lines: []string{fmt.Sprint(r.Advantage)}}}}
		for k := range r.Cells {
			c := &r.Cells[k]
			if i == 0 {
				t.Columns = append(t.Columns, sheet.TableColumn{Head: c.Jump + ", " + c.Attack, Least: 6, Most: 13})
			}
			cell := sheet.TableCell{Lines: []string{"none"}, Look: sheet.SoftCell, Told: "none: " + c.Because}
			if a := c.Shortest; a != nil {
				cell = sheet.TableCell{Lines: []string{a.Short()}, Marked: true, Mark: a.Word.Judgement(), Told: string(a.Word) + ": " + a.Short()}
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
