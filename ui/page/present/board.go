package present

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable = (*board)(nil)
	_ fyne.Tappable  = (*board)(nil)
)

// The board's measures: the size of its type by its own, and its foot.
const (
	emsAcross = 46.5 // ems in its width, at most: fewer are laid out as an upright sheet
	emsDown   = 30
	leastEm   = 10.5
	footEms   = 2
)

// board draws one setup as large as it can.
type board struct {
	paint.Keyed
	page  *Page
	drawn *sheet.Drawing // nil: there is nothing to show
	said  string         // in passing
}

func newBoard(p *Page) *board {
	b := &board{page: p}
	b.Extend(b, b.paint, b.MinSize)
	return b
}

// MinSize holds the texts.
func (b *board) MinSize() fyne.Size {
	b.ExtendBaseWidget(b)
	return fyne.NewSize(sheet.MinW, sheet.MinH+40)
}

func (b *board) paint(p *paint.Pen, size fyne.Size) {
	w, h := float64(size.Width), float64(size.Height)
	em := max(leastEm, min(w/emsAcross, h/emsDown))
	foot := footEms * em
	b.drawn = b.draw(w, h-foot, em)
	if b.drawn != nil {
		p.Draw(b.drawn.Shapes)
	}
	line := func(text string, x float64, anchor sheet.Anchor, role sheet.Role) {
		p.Text(&sheet.Text{At: sheet.Point{X: x, Y: h - 0.7*em}, Str: text, Size: 0.8 * em, Role: role, Anchor: anchor})
	}
	left := b.page.where(b.page.host.Model().Plan())
	switch {
	case b.said != "":
		left = b.said
	case b.drawn == nil:
		left = model.Sentence(model.Refusal(b.page.host.Model().Err()))
	}
	line(left, em, sheet.AtStart, sheet.Ink)
	line("Space: next · ← →: earlier, later · W: why · Esc: leave", w-em, sheet.AtEnd, sheet.Soft)
}

// draw draws the shown setup, nil where it can't be judged.
func (b *board) draw(w, h, em float64) *sheet.Drawing {
	plan := b.page.host.Model().Plan()
	if plan == nil {
		return nil
	}
	step := b.page.step(plan)
	o := sheet.Options{W: w, H: h, Em: em, Position: string(plan.Setup.Position)}
	if b.page.why {
		o.Sentence = step.Sentence
	}
	return sheet.Draw(&step.Scene, o)
}

// Tapped takes the keys.
func (b *board) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The presentation")
	b.page.Refocus()
}

// TypedKey implements fyne.Focusable.
func (b *board) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The presentation")
	b.said = ""
	b.page.key(ev)
}
