package matchup

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*wordLines)(nil)

// wordLines are two lines that say in full what the grid has to cut.
type wordLines struct {
	widget.BaseWidget
	wrapper    paint.Wrapper
	name, what string
}

const wordLinesHeight = 44

func newWordLines() *wordLines {
	m := &wordLines{wrapper: paint.Wrapper{Size: paint.TextSize}}
	m.ExtendBaseWidget(m)
	return m
}

// say shows other words.
func (m *wordLines) say(name, what string) {
	if name != m.name || what != m.what {
		m.name, m.what = name, what
		m.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (m *wordLines) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: m, Paint: m.paint, Min: func() fyne.Size { return fyne.NewSize(200, wordLinesHeight) }}
}

func (m *wordLines) paint(p *paint.Pen, size fyne.Size) {
	p.Line(&sheet.Line{To: sheet.Point{X: float64(size.Width)}, Stroke: sheet.Rule, Width: 1})
	for i, s := range []string{m.name, m.what} {
		t := paint.ColumnText(m.wrapper.Fit(s, size.Width-2*gridPad), gridPad, float32(17+18*i), [...]sheet.Role{sheet.Ink, sheet.Soft}[i])
		p.Text(&t)
	}
}
