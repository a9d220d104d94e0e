package output

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// MakeCompared makes what changed from one revision to another, in one of
// TableFormats.
func (o *Order) MakeCompared(d *patch.Day, from, to, format string) (*Made, error) {
	return tabled(o, comparedTable(d, from, to), func(w io.Writer) error { return d.JSON(w, from, to) }, format)
}

// mostShares is of how many setups of a mix the shares are drawn.
const mostShares = 12

// comparedTable is what changed as it is drawn: section by section, before and
// now.
func comparedTable(d *patch.Day, from, to string) *sheet.Table {
	t := &sheet.Table{Heading: fmt.Sprintf("What changed from %s to %s", from, to), Answer: d.Answer(), Fixed: 4, Lines: 8,
		Notes: []string{fmt.Sprintf("%d of %s changed, each at its own delay.", len(d.Setups), words.Count(len(d.Setups)+d.Unchanged, "setup"))},
		Columns: []sheet.TableColumn{{Head: "Changed", Least: 8, Most: 15}, {Head: "Before", Least: 8, Most: 14}, {Head: "Now", Least: 8, Most: 14},
			{Head: "Why", Least: 10, Most: 24}},
		Key: sheet.MarkKeys(timeline.JudgedSafe, timeline.JudgedLimited, timeline.JudgedUnsafe)}
	if !d.Weighed {
		t.Notes = append(t.Notes, "The mixes were not weighed.")
	}
	counts := d.Counts()
	for _, section := range patch.Sections() {
		for _, i := range d.In(section) {
			row := sheet.TableRow{Section: fmt.Sprintf("%s (%d)", section, counts[section])}
			switch section {
			case patch.MoveData:
				row.Cells = partCells(&d.Parts[i])
			case patch.RoutesBroke, patch.RoutesMended, patch.RoutesChanged:
				row.Cells = routeCells(&d.Routes[i])
			case patch.Mixes:
				row.Cells = movedCells(&d.Mixes[i])
			default:
				c := &d.Setups[i]
				row.Cells = []sheet.TableCell{{}, stateCell(&c.Before), stateCell(&c.After), {Lines: []string{c.Because}}}
				row.Cells[0].Lines = []string{c.Setup}
			}
			row.Cells[0].Look = sheet.BoldCell
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// capital begins a text with a capital.
func capital(s string) string {
	if s == "" || s[0] >= utf8.RuneSelf {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// comparedCells are the cells of a row: its name, before, now, and why.
func comparedCells(name string, before, now, why []string) []sheet.TableCell {
	return []sheet.TableCell{{Lines: []string{name}}, {Lines: before}, {Lines: now}, {Lines: why}}
}

// stateCell is how a setup fares under one revision.
func stateCell(s *compare.State) sheet.TableCell {
	c := sheet.TableCell{Lines: []string{s.Words()}, Told: s.Words()}
	if s.Judged() {
		c.Marked, c.Mark, c.Lines = true, s.Word.Judgement(), []string{string(s.Word), words.Window(s.Window, s.Uncovered)}
	}
	return c
}

// partCells are those of a part of the move data: each field before and now.
func partCells(c *compare.Cause) []sheet.TableCell {
	var before, now []string
	for _, f := range c.Fields {
		before, now = append(before, f.Noun+" "+f.Before), append(now, f.Noun+" "+f.After)
	}
	if len(c.Fields) == 0 {
		now = []string{c.Became()}
	}
	return comparedCells(capital(c.Title()), before, now, nil)
}

// routeCells are those of a route.
func routeCells(r *patch.Route) []sheet.TableCell {
	state := func(s *patch.RouteState) []string {
		if s == nil {
			return []string{"none"}
		}
		return []string{s.Words()}
	}
	why := r.Became()
	if r.Before == nil || r.After == nil {
		why = string(r.Kind) // the rest stands beside it
	}
	return comparedCells(r.Title(), state(r.Before), state(r.After), []string{capital(why)})
}

// movedCells are those of a mix: what a round is worth, and the shares that are
// others.
func movedCells(m *patch.Mix) []sheet.TableCell {
	var shares []string
	for _, s := range m.Setups {
		before, now := m.Before.Percent(s), m.After.Percent(s)
		switch {
		case before == now:
		case len(shares) == mostShares:
			shares = append(shares, "and more")
		case len(shares) < mostShares:
			shares = append(shares, fmt.Sprintf("%s: %s, it was %s", s, now, before))
		}
	}
	worth := func(s *patch.MixState) []string {
		if s.Mix == nil {
			return []string{s.Worth()}
		}
		return []string{report.Short(s.Mix.Value) + " points a round"}
	}
	return comparedCells(m.Title(), worth(&m.Before), worth(&m.After), shares)
}
