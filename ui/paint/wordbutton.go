package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable      = (*WordButton)(nil)
	_ fyne.Focusable     = (*WordButton)(nil)
	_ desktop.Cursorable = (*WordButton)(nil)
)

// WordButton is a word, underlined, that does something: a button for where
// one with a plate would be too heavy.
type WordButton struct {
	Keyed
	OnKey func(ev *fyne.KeyEvent) // a key that does not press it; may be nil

	Text    string
	do      func()
	wrapper Wrapper
}

const (
	WordHeight = 20
	WordPad    = 4
)

func NewWordButton(text string, do func()) *WordButton {
	b := &WordButton{Text: text, do: do, wrapper: Wrapper{Size: CaptionSize}}
	b.Extend(b, b.paint, func() fyne.Size {
		return fyne.NewSize(b.wrapper.WidthOf(b.Text)+2*WordPad, WordHeight)
	})
	return b
}

// Say puts another word on the button.
func (b *WordButton) Say(text string) {
	if text != b.Text {
		b.Text = text
		b.Refresh()
	}
}

func (b *WordButton) paint(p *Pen, size fyne.Size) {
	t := ColumnText(b.wrapper.Fit(b.Text, size.Width-2*WordPad), WordPad, 14, sheet.Ink)
	t.Size = CaptionSize
	p.Text(&t)
	end := WordPad + float64(b.wrapper.WidthOf(t.Str))
	p.Line(&sheet.Line{From: sheet.Point{X: WordPad, Y: 17}, To: sheet.Point{X: end, Y: 17}, Stroke: sheet.Soft, Width: 1})
	if b.Focused {
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), nil, Colours().Ink[sheet.Ink], p.Thick(1))
	}
}

// Tapped does it.
func (b *WordButton) Tapped(*fyne.PointEvent) {
	defer Survive("The button " + b.Text)
	b.do()
}

// TypedKey does it with Return or Space.
func (b *WordButton) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The button " + b.Text)
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.do()
	default:
		if b.OnKey != nil {
			b.OnKey(ev)
		}
	}
}

// Cursor implements desktop.Cursorable.
func (b *WordButton) Cursor() desktop.Cursor { return desktop.PointerCursor }
