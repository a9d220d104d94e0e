package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*matchupWords)(nil)

// matchupWords are two lines that say in full what the grid has to cut.
type matchupWords struct {
	widget.BaseWidget
	wrapper    wrapper
	name, what string
}

const matchupWordsHeight = 44

func newMatchupWords() *matchupWords {
	m := &matchupWords{wrapper: wrapper{size: textSize}}
	m.ExtendBaseWidget(m)
	return m
}

// say shows other words.
func (m *matchupWords) say(name, what string) {
	if name != m.name || what != m.what {
		m.name, m.what = name, what
		m.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (m *matchupWords) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: m, paint: m.paint, min: func() fyne.Size { return fyne.NewSize(200, matchupWordsHeight) }}
}

func (m *matchupWords) paint(p *pen, size fyne.Size) {
	p.line(&sheet.Line{To: sheet.Point{X: float64(size.Width)}, Stroke: sheet.Rule, Width: 1})
	for i, s := range []string{m.name, m.what} {
		t := columnText(m.wrapper.fit(s, size.Width-2*gridPad), gridPad, float32(17+18*i), [...]sheet.Role{sheet.Ink, sheet.Soft}[i])
		p.text(&t)
	}
}
