package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

// LineText is a line of small soft text, cut to the room that it has.
type LineText struct {
	Painted
	Text    string
	Wrapper Wrapper
}

func NewLineText() *LineText {
	t := &LineText{Wrapper: Wrapper{Size: CaptionSize}}
	t.Extend(t, func(p *Pen, size fyne.Size) {
		line := ColumnText(t.Wrapper.Fit(t.Text, size.Width-WordPad), WordPad, 14, sheet.Soft)
		line.Size = CaptionSize
		p.Text(&line)
	}, func() fyne.Size { return fyne.NewSize(40, WordHeight) })
	return t
}

// Say puts another text there.
func (t *LineText) Say(text string) {
	if text != t.Text {
		t.Text = text
		t.Refresh()
	}
}

// NewLowLabel returns a label of less importance, on one line.
func NewLowLabel() *widget.Label {
	l := widget.NewLabel("")
	l.Importance, l.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	return l
}
