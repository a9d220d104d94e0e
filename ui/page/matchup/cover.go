package matchup

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable      = (*coverView)(nil)
	_ desktop.Cursorable = (*coverView)(nil)
)

// coverView says which setups are the fewest that cover every reply that
// can be covered, what each covers, and what nothing covers. A click on one
// goes to its row.
type coverView struct {
	paint.Painted

	OnChoose func(row int) // of the grid

	wrapper paint.Wrapper
	words   string
	entries []coverEntry
	missing string
	lines   []coverLine // laid for width
	width   float32
}

// coverEntry is one chosen setup.
type coverEntry struct {
	row  int
	name string
	word timeline.Word
	what string
}

// coverLine is a line of text as it stands.
type coverLine struct {
	text  string
	entry int // -1: none
	first bool
}

// The measures of the cover, in units.
const (
	coverRow  = 20
	coverLeft = gridPad + paint.MarkSide + gridPad
)

func newCoverView() *coverView {
	c := &coverView{wrapper: paint.Wrapper{Size: paint.TextSize}}
	c.Extend(c, c.paint, func() fyne.Size {
		c.lay(max(c.Size().Width, 300))
		return fyne.NewSize(300, float32(len(c.lines)*coverRow)+gridPad)
	})
	return c
}

// show shows what was found of a grid.
func (c *coverView) show(g *compare.Grid, cover compare.Cover) {
	c.words, c.entries, c.missing = coverWords(g, &cover), nil, ""
	for _, i := range cover.Sets {
		c.entries = append(c.entries, coverEntry{i, g.Rows[i].Setup, g.Rows[i].Called, covers(g, &cover, i)})
	}
	if len(cover.Missing) > 0 {
		c.missing = "Not covered by any setup: " + strings.Join(titles(g, func(k int) bool { return slices.Contains(cover.Missing, k) }), ", ") + "."
	}
	c.width = 0
	c.Refresh()
}

// coverWords says how many setups cover how many replies, and whether that
// is proved to be the fewest.
func coverWords(g *compare.Grid, cover *compare.Cover) string {
	asked := len(titles(g, func(int) bool { return true }))
	can := asked - len(cover.Missing)
	switch {
	case len(g.Rows) == 0:
		return "There are no setups."
	case asked == 0:
		return "The setups have no replies to cover."
	case can == 0:
		return "No setup covers any of the replies."
	}
	all := fmt.Sprintf("all of the %s", model.CountOf(asked, "reply"))
	if can < asked {
		all = fmt.Sprintf("the %s of %d that can be covered", model.CountOf(can, "reply"), asked)
	}
	out := fmt.Sprintf("%s %s %s", model.CountOf(len(cover.Sets), "setup"), verb(len(cover.Sets), "covers", "cover"), all)
	if cover.Proved {
		return out + ". This is the minimum."
	}
	return out + ". There may be a smaller set: the search stopped before it had tried everything."
}

// covers says what row i covers, or, where that is shorter, what it doesn't of
// that which can be covered.
func covers(g *compare.Grid, cover *compare.Cover, i int) string {
	yes := titles(g, func(k int) bool { return g.Rows[i].Cells[k].Covers })
	no := titles(g, func(k int) bool { return !g.Rows[i].Cells[k].Covers && !slices.Contains(cover.Missing, k) })
	if len(no) == 0 {
		return fmt.Sprintf("covers all %d", len(yes))
	}
	if len(no) < len(yes) {
		return fmt.Sprintf("covers %d, all but %s", len(yes), strings.Join(no, ", "))
	}
	return fmt.Sprintf("covers %d: %s", len(yes), strings.Join(yes, ", "))
}

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// titles are the replies that ask to be covered, of those that pass.
func titles(g *compare.Grid, pass func(column int) bool) (out []string) {
	for k := range g.Replies {
		if !g.Replies[k].Shown && pass(k) {
			out = append(out, g.Replies[k].Title)
		}
	}
	return out
}

// lay breaks the text for a width.
func (c *coverView) lay(width float32) {
	if width == c.width {
		return
	}
	c.width, c.lines = width, nil
	add := func(text string, entry int, room float32) {
		for i, s := range c.wrapper.Wrap(nil, text, room) {
			c.lines = append(c.lines, coverLine{s, entry, i == 0})
		}
	}
	add(c.words, -1, width-2*gridPad)
	for i := range c.entries {
		add(c.entries[i].name, i, width-coverLeft-gridPad)
		for _, s := range c.wrapper.Wrap(nil, c.entries[i].what, width-coverLeft-gridPad) {
			c.lines = append(c.lines, coverLine{s, i, false})
		}
	}
	if c.missing != "" {
		add(c.missing, -1, width-2*gridPad)
	}
}

// Resize breaks the text anew.
func (c *coverView) Resize(s fyne.Size) {
	defer paint.Survive("The match-up")
	c.lay(s.Width)
	c.BaseWidget.Resize(s)
}

func (c *coverView) paint(p *paint.Pen, size fyne.Size) {
	c.lay(size.Width)
	for i, l := range c.lines {
		base, x, role := float32(i*coverRow)+16, float32(gridPad), sheet.Ink
		if l.entry >= 0 {
			x = coverLeft
			if l.first {
				p.Mark(c.entries[l.entry].word.Judgement(), gridPad, float64(base)-11)
			} else {
				role = sheet.Soft
			}
		}
		t := paint.ColumnText(l.text, x, base, role)
		t.Bold = l.first && l.entry >= 0
		p.Text(&t)
	}
}

// Tapped goes to the row of the setup under the pointer.
func (c *coverView) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The match-up")
	if i := int(ev.Position.Y / coverRow); i < len(c.lines) && c.lines[i].entry >= 0 && c.OnChoose != nil {
		c.OnChoose(c.entries[c.lines[i].entry].row)
	}
}

// Cursor implements desktop.Cursorable.
func (c *coverView) Cursor() desktop.Cursor { return desktop.PointerCursor }
