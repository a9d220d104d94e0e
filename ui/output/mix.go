package output

import (
	"strings"

	"wakeline/storage/table"
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
	drawn, err := mixDrawing(m)
	if err != nil {
		return nil, err
	}
	width, high := o.W, 0.0
	if format == "pdf" {
		const setupsUpright = 8
		width, high = 900, o.Page.Fit(900)
		if len(m.Rows) > setupsUpright {
			width, high = 1050, o.Page.Across().Fit(1050)
		}
	}
	sheets, err := sheet.DrawMix(drawn, width, high)
	switch {
	case err != nil:
		return nil, err
	case format == "pdf":
		return o.pages(sheets), nil
	}
	return o.Of(sheets[0], format)
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
