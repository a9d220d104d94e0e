package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/storage/guard"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*pageBar)(nil)
	_ fyne.Tappable      = (*pageBar)(nil)
	_ desktop.Cursorable = (*pageBar)(nil)
)

// pageBar names the pages at the left edge of the window, like the tabs of a
// folder of drawings: the page that is shown has no line between it and its
// name. It takes width and no height, for the sheet needs that more.
type pageBar struct {
	paint.Painted
	paint.Pointed
	w       *window
	wrapper paint.Wrapper
	hover   int // under the pointer, -1: none
	at      int // that the keys are on
	focused bool
	tip     *pageTip
	wait    time.Duration // before the tip comes
	turn    int           // of the pointer's moves from one name to another
}

// The measures of the bar, in units.
const (
	placeHeight = 29
	placeLeast  = 22 // in a low window
	placePad    = 11
	placeGap    = 9 // between two groups
	placeTop    = 6
	placeMark   = 4 // the width of the mark at the page that is shown
)

func newPageBar(w *window) *pageBar {
	b := &pageBar{w: w, wrapper: paint.Wrapper{Size: paint.CaptionSize}, hover: -1, wait: 350 * time.Millisecond}
	b.tip = newPageTip(b)
	b.Extend(b, b.paint, func() fyne.Size { return fyne.NewSize(b.wide(), b.need(placeLeast)) })
	b.OnPointer("The bar of pages", func(at fyne.Position) { b.point(b.hit(at.Y)) }, func() { b.point(-1) })
	return b
}

// wide is the width of the bar: that of the longest name, in bold. It ends on a
// whole pixel, and so what stands beside it begins on one.
func (b *pageBar) wide() float32 {
	wide := float32(0)
	for i := range barPages {
		wide = max(wide, b.wrapper.WidthOf(barPages[i].name)*1.1)
	}
	scale := paint.ScaleOf(b)
	return float32(math.Ceil(float64((wide+2*placePad)*scale))) / scale
}

// need is the height that names of that height take.
func (b *pageBar) need(high float32) float32 {
	gaps := 0
	for i := 1; i < len(barPages); i++ {
		if barPages[i].group != barPages[i-1].group {
			gaps++
		}
	}
	return 2*placeTop + float32(len(barPages))*high + float32(gaps)*placeGap
}

// span is where name i lies. What explains stands at the foot.
func (b *pageBar) span(i int) (from, to float32) {
	high := float32(placeHeight)
	if room := b.Size().Height; room > 0 && b.need(high) > room {
		high = max(placeLeast, high-(b.need(high)-room)/float32(len(barPages)))
	}
	y := float32(placeTop)
	for k := range barPages {
		if k > 0 && barPages[k].group != barPages[k-1].group {
			y += placeGap
			if barPages[k].group == toRead {
				y = max(y, b.Size().Height-placeTop-float32(len(barPages)-k)*high)
			}
		}
		if k == i {
			return y, y + high
		}
		y += high
	}
	return y, y
}

// hit is the name at a height, -1 where there is none.
func (b *pageBar) hit(y float32) int {
	for i := range barPages {
		if from, to := b.span(i); y >= from && y < to {
			return i
		}
	}
	return -1
}

// here is the page that is shown.
func (b *pageBar) here() int {
	for i := range barPages {
		if barPages[i].here(b.w) {
			return i
		}
	}
	return -1
}

func (b *pageBar) paint(p *paint.Pen, size fyne.Size) {
	pal := paint.Colours()
	edge := p.Px(float64(size.Width)) - 1
	px := func(v float32) int { return p.Px(float64(v)) }
	p.Rect(0, 0, edge+1, px(size.Height), pal.Blend(sheet.Ink, 0.045), nil, 0)
	here := b.here()
	from, to := float32(0), float32(0)
	if here >= 0 {
		from, to = b.span(here)
	}
	line := pal.Ink[sheet.Soft]
	p.Rect(edge, 0, edge+1, px(from), line, nil, 0)
	p.Rect(edge, px(to), edge+1, px(size.Height), line, nil, 0)
	if here >= 0 {
		p.Rect(0, px(from), edge+1, px(to), pal.Ink[sheet.Paper], nil, 0)
		p.Rect(0, px(from), edge, px(from)+1, line, nil, 0)
		p.Rect(0, px(to)-1, edge, px(to), line, nil, 0)
		p.Rect(0, px(from), px(placeMark), px(to), pal.Ink[sheet.Ink], nil, 0)
	}
	for i := range barPages {
		b.name(p, i, i == here, size.Width)
	}
}

func (b *pageBar) name(p *paint.Pen, i int, here bool, width float32) {
	from, to := b.span(i)
	px := func(v float32) int { return p.Px(float64(v)) }
	pl := &barPages[i]
	if i == b.hover && !here {
		p.Rect(0, px(from), px(width)-1, px(to), paint.Colours().Blend(sheet.Ink, 0.11), nil, 0)
	}
	role := sheet.Ink
	if pl.lacks != nil && pl.lacks(b.w) != "" {
		role = sheet.Soft
	}
	t := paint.ColumnText(pl.name, placePad, (from+to)/2+4, role)
	t.Size, t.Bold = paint.CaptionSize, here
	p.Text(&t)
	if b.focused && i == b.at {
		p.Rect(px(placeMark+2), px(from+3), px(width-4), px(to-3), nil, paint.Colours().Ink[sheet.Ink], p.Thick(1.5))
	}
}

// Tapped shows the page under the pointer.
func (b *pageBar) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The bar of pages")
	if i := b.hit(ev.Position.Y); i >= 0 {
		b.tip.Hide()
		b.w.goTo(&barPages[i])
	}
}

// point marks a name, and tells of it where the pointer stays.
func (b *pageBar) point(i int) {
	if i == b.hover {
		return
	}
	b.hover = i
	b.Refresh()
	b.turn++
	if b.tip.Visible() || b.wait == 0 || i < 0 {
		b.tip.show(i)
		return
	}
	turn := b.turn
	guard.After(b.wait, "The bar of pages", func() {
		b.w.Later(func() {
			if turn == b.turn {
				b.tip.show(i)
			}
		})
	})
}

// FocusGained implements fyne.Focusable.
func (b *pageBar) FocusGained() {
	defer paint.Survive("The bar of pages")
	b.focused, b.at = true, max(b.here(), 0)
	b.tip.show(b.at)
	b.Refresh()
}

// FocusLost implements fyne.Focusable.
func (b *pageBar) FocusLost() {
	defer paint.Survive("The bar of pages")
	b.focused = false
	b.tip.show(-1)
	b.Refresh()
}

// TypedRune implements fyne.Focusable.
func (b *pageBar) TypedRune(rune) {}

// TypedKey goes from name to name, and shows the page of one.
func (b *pageBar) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The bar of pages")
	switch ev.Name {
	case fyne.KeyUp:
		b.at = max(b.at-1, 0)
	case fyne.KeyDown:
		b.at = min(b.at+1, len(barPages)-1)
	case fyne.KeyHome:
		b.at = 0
	case fyne.KeyEnd:
		b.at = len(barPages) - 1
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.w.goTo(&barPages[b.at])
		return
	case fyne.KeyEscape:
		b.w.refocus()
		return
	default:
		b.w.typedKey(ev)
		return
	}
	b.tip.show(b.at)
	b.Refresh()
}

// Cursor implements desktop.Cursorable.
func (b *pageBar) Cursor() desktop.Cursor { return desktop.PointerCursor }
