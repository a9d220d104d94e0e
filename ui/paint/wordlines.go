package paint

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/sheet"
)

// WordLines are two lines that say in full what a grid has to cut.
type WordLines struct {
	Painted
	Name, What string

	wrapper Wrapper
}

const wordLinesHeight = 44

// NewWordLines returns two empty lines.
func NewWordLines() *WordLines {
	m := &WordLines{wrapper: Wrapper{Size: TextSize}}
	m.Extend(m, m.paint, func() fyne.Size { return fyne.NewSize(200, wordLinesHeight) })
	return m
}

// Say shows other words.
func (m *WordLines) Say(name, what string) {
	if name != m.Name || what != m.What {
		m.Name, m.What = name, what
		m.Refresh()
	}
}

func (m *WordLines) paint(p *Pen, size fyne.Size) {
	p.Line(&sheet.Line{To: sheet.Point{X: float64(size.Width)}, Stroke: sheet.Rule, Width: 1})
	for i, s := range []string{m.Name, m.What} {
		t := ColumnText(m.wrapper.Fit(s, size.Width-2*GridPad), GridPad, float32(17+18*i), [...]sheet.Role{sheet.Ink, sheet.Soft}[i])
		p.Text(&t)
	}
}
