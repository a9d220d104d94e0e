package compare

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// CastTable is a cast as it is told: its rows in the order to show.
type CastTable struct {
	*Cast
	Rows   []CastRow
	Fewest Cover // of Rows
	More   int   // setups that were not judged, as there were too many
}

// Heading says whose setups they are.
func (t *CastTable) Heading() string { return t.Attacker + " vs all" }

// Answer says against how many rivals some row holds.
func (t *CastTable) Answer() string { return t.Cast.Answer(t.Rows) }

// Answer says against how many rivals some row holds.
func (c *Cast) Answer(rows []CastRow) string {
	held := 0
	for k := range c.Rivals {
		if slices.ContainsFunc(rows, func(r CastRow) bool { return r.Cells[k].Holds() }) {
			held++
		}
	}
	return fmt.Sprintf("%s of %s: some setup holds against %d of %s.", words.Count(len(rows), "setup"), c.Attacker, held, words.Count(len(c.Rivals), "rival"))
}

// About says which of the rows are the fewest that hold, and what is left out.
func (t *CastTable) About() (lines []string) {
	lines = t.CoverWords(t.Rows, &t.Fewest)
	if t.More > 0 {
		lines = append(lines, fmt.Sprintf("%s more are not judged: narrow the filter.", words.Count(t.More, "setup")))
	}
	return lines
}

// Covered says of a row how many rivals it holds against.
func (r *CastRow) Covered() string { return fmt.Sprintf("%d of %d", r.Covers(), len(r.Cells)) }

// Labelled is Short with the verdict before it, for a table without marks.
func (c *CastCell) Labelled() string {
	if c.Word == "" || c.Unknown() {
		return c.Short()
	}
	return string(c.Word) + ": " + c.Short()
}

// The JSON of a cast; the command's help says what it means.
type (
	castText struct {
		Attacker string        `json:"attacker"`
		Rivals   []string      `json:"rivals"`
		Setups   []castRowText `json:"setups"`
	}
	castRowText struct {
		Setup string         `json:"setup"`
		Cells []castCellText `json:"cells"`
	}
	castCellText struct {
		Rival        string            `json:"rival"`
		Verdict      *timeline.Word    `json:"verdict"`
		Window       []timeline.Bounds `json:"window"`
		Uncovered    []string          `json:"uncovered"`
		HoldsStartup timeline.Maybe    `json:"holds_startup"`
		Because      string            `json:"because"`
	}
)

// JSON writes the rows as one document. They are those of Row: each cell has its
// sentence.
func (t *CastTable) JSON(out io.Writer) error {
	doc := castText{t.Attacker, t.Rivals, []castRowText{}}
	for _, row := range t.Rows {
		text := castRowText{row.Setup, []castCellText{}}
		for i := range row.Cells {
			c := &row.Cells[i]
			cell := castCellText{t.Rivals[i], nil, c.Window, c.Uncovered, c.HoldsStartup, c.Because}
			if c.Word != "" {
				cell.Verdict = &c.Word
			}
			text.Cells = append(text.Cells, cell)
		}
		doc.Setups = append(doc.Setups, text)
	}
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(doc)
}
