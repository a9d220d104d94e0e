package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// pageTip tells beside a name of the bar what its page is for, and its key.
type pageTip struct {
	paint.Painted
	b       *pageBar
	wrapper paint.Wrapper
	of      int // barPages, -1: none
	lines   []string
}

// The measures of the tip, in units.
const (
	tipPad  = 8
	tipLine = 17
	tipWide = 230 // of its sentence, at most
	tipGap  = 6   // from the bar
)

func newPageTip(b *pageBar) *pageTip {
	t := &pageTip{b: b, wrapper: paint.Wrapper{Size: paint.CaptionSize}, of: -1}
	t.Extend(t, t.paint, func() fyne.Size { return fyne.Size{} })
	t.Hide()
	return t
}

// show tells of a page; of none it goes.
func (t *pageTip) show(i int) {
	if t.of = i; i < 0 {
		t.Hide()
		return
	}
	p := &barPages[i]
	text := p.about
	if p.lacks != nil {
		if why := p.lacks(t.b.w); why != "" {
			text += " " + why
		}
	}
	t.lines = t.wrapper.Wrap(t.lines[:0], text, tipWide)
	wide := t.wrapper.WidthOf(t.title())*1.1 + t.wrapper.WidthOf(p.key) + 14
	for _, l := range t.lines {
		wide = max(wide, t.wrapper.WidthOf(l))
	}
	t.Resize(fyne.NewSize(wide+2*tipPad, float32(len(t.lines)+1)*tipLine+2*tipPad-2))
	from, to := t.b.span(i)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(t.b)
	content := fyne.CurrentApp().Driver().AbsolutePositionForObject(t.b.w.win.Content())
	y := at.Y - content.Y + (from+to-t.Size().Height)/2
	y = max(tipGap, min(y, t.b.w.win.Content().Size().Height-t.Size().Height-tipGap))
	t.Move(fyne.NewPos(at.X-content.X+t.b.Size().Width+tipGap, y))
	t.Show()
	t.Refresh()
}

func (t *pageTip) title() string { return barPages[t.of].name }

func (t *pageTip) paint(p *paint.Pen, size fyne.Size) {
	if t.of < 0 {
		return
	}
	p.Box(&sheet.Box{Max: sheet.Point{X: float64(size.Width), Y: float64(size.Height)}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	write := func(s string, x, base float32, role sheet.Role, bold bool) {
		l := paint.ColumnText(s, x, base, role)
		l.Size, l.Bold = paint.CaptionSize, bold
		p.Text(&l)
	}
	base := float32(tipPad + paint.CaptionSize - 1)
	write(t.title(), tipPad, base, sheet.Ink, true)
	key := barPages[t.of].key
	write(key, size.Width-tipPad-t.wrapper.WidthOf(key), base, sheet.Soft, false)
	for i, l := range t.lines {
		write(l, tipPad, base+float32(i+1)*tipLine, sheet.Ink, false)
	}
}
