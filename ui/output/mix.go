package output

import (
	"fmt"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/value/report"
	"wakeline/ui/sheet"
)

// MixFormats are the endings that a mix can be written in.
var MixFormats = []string{"png", "svg", "pdf", "csv", "json"}

// MakeMix makes a mix in one of MixFormats.
func (o *Order) MakeMix(m *report.Mix, format string) (*Made, error) {
	switch format {
	case "json":
		var b strings.Builder
		err := m.JSON(&b)
		return written(format, b.String()), err
	case "csv":
		var b strings.Builder
		head, rows := mixTable(m)
		err := table.WriteMatrix(&b, head, rows)
		return written(format, b.String()), err
	}
	sheets, err := mixSheets(o, m, format == "pdf")
	switch {
	case err != nil:
		return nil, err
	case format == "pdf":
		return pages(o, sheets), nil
	}
	return o.Of(sheets[0], format)
}

// mixSheets draws a mix, as one picture or on pages.
func mixSheets(o *Order, m *report.Mix, onPages bool) ([]*sheet.Drawing, error) {
	drawn, err := mixDrawing(m)
	if err != nil {
		return nil, err
	}
	width, high := o.W, 0.0
	if onPages {
		const setupsUpright = 8
		width, high = 900, o.Page.Fit(900)
		if len(m.Rows) > setupsUpright {
			width, high = 1050, o.Page.Across().Fit(1050)
		}
	}
	return sheet.DrawMix(drawn, width, high)
}

// mixed reports whether a mix follows a lesson.
func mixed(o *Order) bool { return o.Mixes != nil && o.Neighbours >= 0 }

// withMix is a lesson with the mix of its ender under it, where one is asked for.
func withMix(o *Order, d *sheet.Drawing, p *timeline.Plan) (*sheet.Drawing, error) {
	if !mixed(o) {
		return d, nil
	}
	m, err := o.Mixes(&p.Setup)
	if err != nil {
		return nil, err
	}
	sheets, err := mixSheets(o, m, false)
	if err != nil {
		return nil, err
	}
	return sheet.Under(d, sheets[0]), nil
}

// addMix adds the mix of a setup's ender to a PDF, on pages of its own.
func addMix(o *Order, to *Made, s *timeline.Setup) error {
	m, err := o.Mixes(s)
	if err != nil {
		return err
	}
	sheets, err := mixSheets(o, m, true)
	to.Sheets = append(to.Sheets, sheets...)
	return err
}

// mixesOf are the mixes of all plans, each once: what the contents of a booklet
// say of them, their pages, and why some can't be weighed.
func mixesOf(o *Order, plans []*timeline.Plan) (entries []sheet.Entry, pages []*sheet.Drawing, bad []error) {
	if o.Mixes == nil {
		return nil, nil, nil
	}
	type group struct {
		attacker, rival, ender string
		position               timeline.Position
	}
	seen := map[group]bool{}
	for _, p := range plans {
		s := &p.Setup
		of := group{s.Attacker, s.Rival, s.Ender, s.Position}
		if seen[of] {
			continue
		}
		seen[of] = true
		m, err := o.Mixes(s)
		if err != nil {
			bad = append(bad, fmt.Errorf("mix of %s vs %s after %s: %w", s.Attacker, s.Rival, s.Ender, err))
			continue
		}
		sheets, err := mixSheets(o, m, true)
		if err != nil {
			bad = append(bad, fmt.Errorf("mix of %s vs %s after %s: %w", s.Attacker, s.Rival, s.Ender, err))
			continue
		}
		entries = append(entries, sheet.Entry{Name: "Mix", About: m.Heading(), Answer: m.Answer(), Pages: len(sheets)})
		pages = append(pages, sheets...)
	}
	return entries, pages, bad
}

// mixTable is a mix as a table: a row a setup, then the rival's shares, what it
// leaves by each reply, and the value.
func mixTable(m *report.Mix) (head []string, rows []table.MatrixRow) {
	head = []string{"setup", "share", "against", "worst"}
	shares, against := []string{"", "", ""}, []string{"", "", ""}
	blank := make([]string, len(m.Columns))
	for j := range m.Columns {
		head = append(head, m.Column(j))
		shares = append(shares, m.Number(m.Columns[j].Share))
		against = append(against, m.Number(m.Columns[j].Against))
	}
	for i := range m.Rows {
		r := &m.Rows[i]
		cells := []string{m.Number(r.Share), m.Number(r.Against), m.Number(r.Worst)}
		for _, v := range m.Payoff[i] {
			cells = append(cells, m.Number(v))
		}
		rows = append(rows, table.MatrixRow{Name: r.Setup, Cells: cells})
	}
	return head, append(rows,
		table.MatrixRow{Name: "the rival's share", Cells: shares},
		table.MatrixRow{Name: "against the attacker's shares", Cells: against},
		table.MatrixRow{Name: "value", Cells: append([]string{"", m.Number(m.Value), ""}, blank...)})
}

// mixDrawing is a mix as it is drawn.
func mixDrawing(m *report.Mix) (*sheet.Mix, error) {
	notes, err := m.Notes()
	if err != nil {
		return nil, err
	}
	out := &sheet.Mix{Heading: m.Heading(), Answer: m.Answer(), Notes: notes}
	for i := range m.Rows {
		r := &m.Rows[i]
		f, _ := r.Share.Float64()
		out.Setups = append(out.Setups, sheet.MixSetup{Name: r.Setup, Share: f, Never: r.Never})
	}
	for j := range m.Columns {
		c := &m.Columns[j]
		f, _ := c.Share.Float64()
		r := sheet.MixReply{Rise: c.Rise, Name: m.Reply(j), Share: f, Never: c.Never, Gain: report.Short(m.Gain(j)), With: m.Rows[c.BestRow].Setup}
		for i := range m.Rows {
			v := m.Payoff[i][j]
			r.Points = append(r.Points, sheet.MixPoints{Text: report.Short(v), Most: v.Cmp(c.Best) == 0})
		}
		out.Replies = append(out.Replies, r)
	}
	return out, nil
}
