package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable      = (*wordButton)(nil)
	_ fyne.Focusable     = (*wordButton)(nil)
	_ desktop.Cursorable = (*wordButton)(nil)
)

// wordButton is a word, underlined, that does something: a button for where
// one with a plate would be too heavy.
type wordButton struct {
	widget.BaseWidget
	OnKey func(ev *fyne.KeyEvent) // a key that does not press it; may be nil

	text    string
	do      func()
	wrapper wrapper
	focused bool
}

const (
	wordHeight = 20
	wordPad    = 4
)

func newWordButton(text string, do func()) *wordButton {
	b := &wordButton{text: text, do: do, wrapper: wrapper{size: captionSize}}
	b.ExtendBaseWidget(b)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *wordButton) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: b, paint: b.paint, min: func() fyne.Size {
		return fyne.NewSize(b.wrapper.widthOf(b.text)+2*wordPad, wordHeight)
	}}
}

// say puts another word on the button.
func (b *wordButton) say(text string) {
	if text != b.text {
		b.text = text
		b.Refresh()
	}
}

func (b *wordButton) paint(p *pen, size fyne.Size) {
	t := columnText(b.wrapper.fit(b.text, size.Width-2*wordPad), wordPad, 14, sheet.Ink)
	t.Size = captionSize
	p.text(&t)
	end := wordPad + float64(b.wrapper.widthOf(t.Str))
	p.line(&sheet.Line{From: sheet.Point{X: wordPad, Y: 17}, To: sheet.Point{X: end, Y: 17}, Stroke: sheet.Soft, Width: 1})
	if b.focused {
		p.rect(0, 0, p.px(float64(size.Width)), p.px(float64(size.Height)), nil, colours().ink[sheet.Ink], p.thick(1))
	}
}

// Tapped does it.
func (b *wordButton) Tapped(*fyne.PointEvent) {
	defer survive("The button " + b.text)
	b.do()
}

// FocusGained implements fyne.Focusable.
func (b *wordButton) FocusGained() { b.focus(true) }

// FocusLost implements fyne.Focusable.
func (b *wordButton) FocusLost() { b.focus(false) }

func (b *wordButton) focus(on bool) {
	b.focused = on
	b.Refresh()
}

// TypedRune implements fyne.Focusable.
func (b *wordButton) TypedRune(rune) {}

// TypedKey does it with Return or Space.
func (b *wordButton) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The button " + b.text)
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
func (b *wordButton) Cursor() desktop.Cursor { return desktop.PointerCursor }
