package output

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// CheckListFormats are the endings that a list of in-game tests can be written
// in.
var CheckListFormats = []string{"md", "pdf", "png", "svg"}

// MakeCheckSheet draws a list of what to test in the game as a table to print
// and write on, in one of CheckListFormats but md; setups that can't be judged
// are left out. It is ErrNone where none is left.
func (o *Order) MakeCheckSheet(ctx context.Context, index *timeline.Index, each Each, title, format string) (*Made, error) {
	t := &sheet.Table{Heading: title + ": in-game tests", Fixed: 1,
		Notes: []string{"Mark the result of each. Replies of which nothing is demanded are left out."},
		Columns: []sheet.TableColumn{{Head: "Setup", Least: 9, Most: 15}, {Head: "Set up", Least: 9, Most: 17}, {Head: "Advantage to read", Least: 6, Most: 6, AtEnd: true},
			{Head: "Replies to record, and what is expected", Least: 14, Most: 26}, {Head: "Result", Least: 5, Most: 6}, {Head: "Advantage read, note", Least: 8, Most: 10}},
	}
	var skipped []error
	err := each(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		switch {
		case err != nil:
			skipped = append(skipped, err)
		case len(t.Rows) == MostChecks:
			return fmt.Errorf("in-game tests: expected at most %d setups on pages; as .md they have no end", MostChecks)
		default:
			t.Rows = append(t.Rows, checkRow(plan))
		}
		return ctx.Err()
	})
	if err != nil {
		return nil, err
	}
	if len(t.Rows) == 0 {
		return nil, errors.Join(append([]error{ErrNone}, skipped...)...)
	}
	t.Answer = words.Count(len(t.Rows), "setup") + " to test."
	m, err := ofTable(o, t, format)
	if err != nil {
		return nil, err
	}
	m.Skipped = skipped
	return m, nil
}

// MostChecks is how many setups a drawn list of in-game tests takes.
const MostChecks = 2000

// checkRow is one setup of the table.
func checkRow(p *timeline.Plan) sheet.TableRow {
	c := handout.CheckOf(p)
	var record []string
	for _, r := range c.Record {
		record = append(record, fmt.Sprintf("%s, %s rise: %s", r.Reply, r.Rise, r.Expected))
	}
	if len(record) == 0 {
		record = []string{"none is demanded"}
	}
	return sheet.TableRow{Cells: []sheet.TableCell{
		{Lines: []string{c.Setup, fmt.Sprintf("%s vs %s, %s", c.Attacker, c.Rival, c.Position)}, Look: sheet.BoldCell},
		{Lines: []string{strings.Join(c.SetUp, ", ")}},
		{Lines: []string{fmt.Sprint(c.Advantage)}, Look: sheet.BoldCell},
		{Lines: record},
		{Lines: []string{"[  ] worked", "[  ] failed", "[  ] unclear"}},
		{Lines: []string{""}},
	}}
}
