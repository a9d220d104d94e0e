package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*lineText)(nil)

// lineText is a line of small soft text, cut to the room that it has.
type lineText struct {
	widget.BaseWidget
	text    string
	wrapper wrapper
}

func newLineText() *lineText {
	t := &lineText{wrapper: wrapper{size: captionSize}}
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *lineText) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: t, min: func() fyne.Size { return fyne.NewSize(40, wordHeight) },
		paint: func(p *pen, size fyne.Size) {
			line := columnText(t.wrapper.fit(t.text, size.Width-wordPad), wordPad, 14, sheet.Soft)
			line.Size = captionSize
			p.text(&line)
		}}
}

// say puts another text there.
func (t *lineText) say(text string) {
	if text != t.text {
		t.text = text
		t.Refresh()
	}
}
