package compare

import (
	"fmt"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// CastCell is how a setup fares against one rival.
type CastCell struct {
	Word         timeline.Word     // empty where it can't be judged there
	Asked        bool              // some reply of the rival is demanded; else only the wake-up is judged
	Window       []timeline.Bounds // of delays; both ends belong to it
	Uncovered    []string          // demanded replies that no timing covers
	HoldsStartup timeline.Maybe    // frames; the quickest reversal that it meets safely
	Because      string            // a sentence or more; why it can't be judged, where it can't
}

// Unknown reports whether the rival was given no replies, so that a verdict of
// safe says nothing about it.
func (c *CastCell) Unknown() bool { return c.Word != "" && c.Word != timeline.Unsafe && !c.Asked }

// Holds reports whether the setup is good there, and more than the wake-up is
// judged.
func (c *CastCell) Holds() bool { return c.Word == timeline.Safe && c.Asked }

// CastRow is a setup against every rival.
type CastRow struct {
	Setup string
	Rival string     // its own
	Cells []CastCell // one a rival
}

// Covers counts the rivals against which the setup holds.
func (r *CastRow) Covers() (n int) {
	for i := range r.Cells {
		if r.Cells[i].Holds() {
			n++
		}
	}
	return n
}

// Cast judges the setups of one fighter against every fighter of a project,
// itself among them, in the project's order. It is not changed after NewCast;
// its methods may be called from several goroutines at once.
type Cast struct {
	Attacker string
	Rivals   []string
	index    *timeline.Index
}

// NewCast makes the cast of a project's fighters. An attacker that p doesn't
// have is an error.
func NewCast(p *timeline.Project, attacker string) (*Cast, error) {
	if p.Fighter(attacker) == nil {
		return nil, fmt.Errorf("expected a fighter of the project, got %q", attacker)
	}
	c := &Cast{Attacker: attacker, index: timeline.NewIndex(p)}
	for i := range p.Fighters {
		c.Rivals = append(c.Rivals, p.Fighters[i].Name)
	}
	return c, nil
}

// Plan lays s out on tracks, which its caller doesn't change. An error is that
// of Index.Compile.
func (c *Cast) Plan(s timeline.Setup) (*timeline.Plan, error) { return c.index.Compile(s) }

// Row judges s, a setup of the attacker that Check allows, against every
// rival, as Against aims it.
func (c *Cast) Row(s *timeline.Setup) CastRow {
	return c.row(s, true)
}

// Cell judges s, which may be aimed at any rival.
func (c *Cast) Cell(s timeline.Setup) CastCell { return c.cell(s, true) }

// Marks is Row without a sentence for each cell that can be judged: quicker, for
// a table whose sentences are asked for one by one.
func (c *Cast) Marks(s *timeline.Setup) CastRow { return c.row(s, false) }

func (c *Cast) row(s *timeline.Setup, told bool) CastRow {
	row := CastRow{Setup: s.Name, Rival: s.Rival, Cells: make([]CastCell, 0, len(c.Rivals))}
	for _, rival := range c.Rivals {
		row.Cells = append(row.Cells, c.cell(s.Against(rival), told))
	}
	return row
}

func (c *Cast) cell(s timeline.Setup, told bool) (out CastCell) {
	err := c.index.With(s, func(p *timeline.Plan, into []timeline.Cell) {
		out = CastCell{Word: p.Word(s.Delay), Asked: p.Demanded() > 0, Window: timeline.Runs(p.WindowSet()), Uncovered: p.Uncovered(), HoldsStartup: p.HoldsStartup(s.Delay)}
		if told {
			m := p.Meetings(s.Delay, into)
			out.Because = words.Because(&m)
		}
	})
	if err != nil {
		return CastCell{Window: []timeline.Bounds{}, Uncovered: []string{}, Because: err.Error()}
	}
	return out
}

// FewestOfCast returns the fewest setups that hold against every rival against
// which any holds: Sets are rows, Missing are rivals against which none does.
// limit is that of FewestSets.
func FewestOfCast(rivals int, rows []CastRow, limit int) Cover {
	sets := make([][]int, len(rows))
	for i := range rows {
		for k := range rows[i].Cells {
			if rows[i].Cells[k].Holds() {
				sets[i] = append(sets[i], k)
			}
		}
	}
	return FewestSets(rivals, sets, limit)
}
