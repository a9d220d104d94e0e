package panel

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Replies is the table of a verdict: a row a reply, in the verdict's order, a
// column a rise. Its head stays while the rows scroll.
type Replies struct {
	widget.BaseWidget

	OnHint func(string)
	OnAdd  func()                  // a reply to add is asked for
	OnAll  func()                  // after all replies were added: the keys go back to the sheet
	OnKey  func(ev *fyne.KeyEvent) // a key that means nothing to the table
	OnRune func(r rune)            // and a letter

	model   *model.Model
	source  *RepliesSource          // says whose they are; nil: nothing does
	Keys    func() fyne.KeyModifier // held now
	Wrapper paint.Wrapper

	count int // of the rows that the scroller knows of

	head *repliesHead
	Body *repliesBody
	Rows *container.Scroll
	all  *container.Scroll // sideways, where the columns don't fit
}

// The measures of the table, in units.
const (
	ReplyRow    = 25
	replyHead   = 26
	replyName   = 176 // least width of the names' column
	replyNameTo = 300 // and the most
	ReplyCell   = 300 // least width of a rise's column
	replyCellTo = 420 // and the most
	ReplyPad    = 10
)

// NewReplies returns the table of m's verdict.
func NewReplies(m *model.Model) *Replies {
	r := &Replies{model: m, Keys: paint.HeldKeys, Wrapper: paint.Wrapper{Size: paint.TextSize}}
	r.head = &repliesHead{r: r}
	r.head.Extend(r.head, r.head.paint, func() fyne.Size { return fyne.NewSize(r.minWidth(), replyHead) })
	r.Body = &repliesBody{r: r, hoverRise: -1, hoverLine: -1}
	r.Body.Extend(r.Body, r.Body.paint, func() fyne.Size {
		n := 0
		if plan := m.Plan(); plan != nil {
			n = plan.Lines() + 1
		}
		return fyne.NewSize(r.minWidth(), float32(n*ReplyRow))
	})
	r.Body.OnPointer("The table of replies", r.Body.point, func() { r.Body.setHover(-1, -1, "") })
	r.Rows = container.NewVScroll(r.Body)
	r.Rows.OnScrolled = func(fyne.Position) { r.Body.Refresh() }
	r.all = container.NewHScroll(container.NewBorder(r.head, nil, nil, nil, r.Rows))
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *Replies) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.all) }

// MinSize keeps the head and a row in view.
func (r *Replies) MinSize() fyne.Size { return fyne.NewSize(replyName+ReplyCell, replyHead+ReplyRow) }

// Resize keeps the shown reply in view, and else the first row at the top.
func (r *Replies) Resize(s fyne.Size) {
	high := r.Size().Height
	r.BaseWidget.Resize(s)
	if s.Height != high {
		r.Rows.ScrollToTop()
		r.Reveal()
		r.Body.Refresh()
	}
}

// Show brings the table up to date: it is left alone while it is hidden.
func (r *Replies) Show() {
	defer paint.Survive("The replies")
	r.BaseWidget.Show()
	r.Update()
	r.Reveal()
}

// Update shows the verdict as it stands.
func (r *Replies) Update() {
	if r.source != nil {
		r.source.Refresh()
	}
	if !r.Visible() {
		return
	}
	plan := r.model.Plan()
	if plan != nil && r.count != plan.Lines() {
		r.count = plan.Lines()
		r.Rows.Refresh()
	}
	r.head.Refresh()
	r.Body.Refresh()
}

// Reveal scrolls so that the row with the keys is in view.
func (r *Replies) Reveal() {
	_, line := r.model.Shown()
	if r.Body.Adding {
		line = r.count
	}
	top, high := float32(line*ReplyRow), r.Rows.Size().Height
	switch y := r.Rows.Offset.Y; {
	case high <= 0:
	case top < y:
		paint.ScrollTo(r.Rows, top)
	case top+ReplyRow > y+high:
		hidden := math.Ceil(float64(top+ReplyRow-high) / ReplyRow) // whole rows
		paint.ScrollTo(r.Rows, float32(hidden)*ReplyRow)
	}
}

// Columns says where the columns lie for a width: rise i begins at name +
// i*cell.
func (r *Replies) Columns(width float32) (name, cell float32) {
	n := 1
	if plan := r.model.Plan(); plan != nil {
		n = plan.Rises()
	}
	name = min(max(width*0.28, replyName), replyNameTo)
	least := ReplyCell + r.pointsRoom()
	cell = min((width-name)/float32(n), replyCellTo+r.pointsRoom())
	if cell < least {
		name = max(replyName, width-float32(n)*least)
		cell = max(least, (width-name)/float32(n))
	}
	return name, cell
}

func (r *Replies) minWidth() float32 {
	n := 1
	if plan := r.model.Plan(); plan != nil {
		n = plan.Rises()
	}
	return replyName + float32(n)*(ReplyCell+r.pointsRoom())
}

// repliesHead is the row of titles.
type repliesHead struct {
	paint.Painted
	r *Replies
}

func (h *repliesHead) paint(p *paint.Pen, size fyne.Size) {
	r := h.r
	name, cell := r.Columns(size.Width)
	base := float32(replyHead - 8)
	soft := func(s string, x, room float32) {
		t := paint.ColumnText(r.Wrapper.Fit(s, room), x, base, sheet.Soft)
		p.Text(&t)
	}
	const demand = "demand"
	n := r.Wrapper.WidthOf(demand)
	soft("reply", ReplyPad, name-n-3*ReplyPad)
	soft(demand, name-ReplyPad-n, n)
	if r.model.Plan() != nil {
		for i, rise := range r.model.Verdict().Rises {
			x, room := name+float32(i)*cell, r.pointsRoom()
			soft(fmt.Sprintf("%s rise, wake-up %d", rise.Rise, rise.Wake), x+cellMark, cell-2*cellMark-room)
			if room > 0 {
				t := paint.ColumnText(pointsHead, x+cell-cellMark, base, sheet.Soft)
				t.Anchor = sheet.AtEnd
				p.Text(&t)
			}
		}
	}
	p.Line(&sheet.Line{From: sheet.Point{X: 0, Y: replyHead - 1}, To: sheet.Point{X: float64(size.Width), Y: replyHead - 1}, Stroke: sheet.Soft, Width: 1})
}
