package table

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// Replies writes the exchanges of verdicts as a table, one verdict after the
// other: a row an exchange, with the setup, its delay and word, the rise and
// the frame it is up on, and the fields of a reply as `judge --json` names
// them. A number that has no meaning there is an empty cell. Nothing reads the
// table back, so names are guarded from being taken for formulas.
type Replies struct {
	w    io.Writer
	out  bytes.Buffer
	rows rows
}

// NewReplies begins a table on w.
func NewReplies(w io.Writer) (*Replies, error) {
	r := &Replies{w: w}
	r.rows = newRows(&r.out)
	return r, r.row("setup", "delay", "verdict", "rise", "wake", "reply", "late", "demand", "outcome", "meeting", "spare", "after_wake", "advantage", "to_punish", "apart", "side", "out_of_reach", "points", "route", "kills_from")
}

// Add writes one verdict's rows; worth is what its exchanges come to, rise by
// rise; nil: nobody knows.
func (t *Replies) Add(v *timeline.Verdict, worth [][]words.Worth) error {
	for i, r := range v.Rises {
		for k, c := range r.Replies {
			var w words.Worth
			out := "" // as most are: a column of no would hide the few
			if c.OutOfReach {
				out = "yes"
			}
			if worth != nil {
				w = worth[i][k]
			}
			if err := t.row(Guarded(v.Setup), strconv.Itoa(v.Delay), string(v.Word), Guarded(r.Rise), strconv.Itoa(r.Wake), Guarded(c.Reply), strconv.Itoa(c.Late), string(c.Demand),
				c.Outcome.String(), cellOf(c.Meeting), cellOf(c.Spare), cellOf(c.AfterWake), cellOf(c.Advantage), cellOf(c.ToPunish), cellOf(c.Apart), c.Side.String(), out, cellOf(w.Points), Guarded(w.Route), cellOf(w.Kills)); err != nil {
				return err
			}
		}
	}
	return nil
}

func (t *Replies) row(cells ...string) error {
	err := t.rows.write(cells)
	if err == nil {
		_, err = t.out.WriteTo(t.w)
	}
	if err != nil {
		return fmt.Errorf("table: %w", err)
	}
	return nil
}

// WriteGrid writes a match-up as a table: a row a setup with its delay and
// word, a column a reply. A cell says the mark, what became of it and on which
// frame, "safe: attack hits on 42", with "covers" first where the setup covers the
// reply; it is empty where the reply doesn't fit. Names are guarded as those of
// Replies are. Where it has points, two more columns a reply come last: the
// points, and the damage done to the rival, which ends the round from that
// health on.
func WriteGrid(w io.Writer, g *compare.Grid) error {
	var out bytes.Buffer
	rows := newRows(&out)
	head := []string{"setup", "delay", "verdict"}
	for _, r := range g.Replies {
		head = append(head, Guarded(r.Title))
	}
	for _, r := range g.Replies {
		if g.Valued {
			head = append(head, Guarded(r.Title+": points"), Guarded(r.Title+": kills_from"))
		}
	}
	err := rows.write(head)
	for i := range g.Rows {
		r := &g.Rows[i]
		cells := []string{Guarded(r.Setup), strconv.Itoa(r.Delay), string(r.Word)}
		for k := range r.Cells {
			cells = append(cells, gridCell(&r.Cells[k]))
		}
		for k := range r.Cells {
			if w := r.Cells[k].Worth; g.Valued {
				cells = append(cells, cellOf(w.Points), cellOf(w.Kills))
			}
		}
		if err == nil {
			err = rows.write(cells)
		}
	}
	if err == nil {
		_, err = w.Write(out.Bytes())
	}
	if err != nil {
		return fmt.Errorf("table: %w", err)
	}
	return nil
}

func gridCell(c *compare.GridCell) string {
	if !c.Judged {
		return ""
	}
	out := c.Mark.String() + ": " + c.Cell.Outcome.String()
	if c.Cell.Meeting.Given {
		out += " on " + c.Cell.Meeting.String()
	}
	if c.Covers {
		out = "covers, " + out
	}
	return out
}

func cellOf(m timeline.Maybe) string {
	if !m.Given {
		return ""
	}
	return strconv.Itoa(m.N)
}

// Guarded is a name for a table that is never read back: with an apostrophe
// before it where a spreadsheet would take it for a formula.
func Guarded(name string) string {
	if name != "" && strings.ContainsRune("=+-@\t\r\n", rune(name[0])) {
		return "'" + name
	}
	return name
}
