package mix

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*habits)(nil)
	_ fyne.Draggable     = (*habits)(nil)
	_ desktop.Mouseable  = (*habits)(nil)
	_ desktop.Cursorable = (*habits)(nil)
)

// habits lists what the rival may do: what each costs it as a habit, what to do
// then, and a bar that is dragged to how often the rival does it. Only what is
// in view is painted.
type habits struct {
	paint.Keyed
	host     page.Host
	onWeight func(j, n int)

	wrapper, small paint.Wrapper
	got            *report.Mix
	weights        []int // from 0 to mostWeight
	sum            int
	at             int // the row that the keys are on
	held           int // the row whose bar is dragged, -1: none
	head           *habitsHead
	scroll         *container.Scroll
	box            *fyne.Container
}

// mostWeight is the weight of a full bar.
const mostWeight = 100

// weightStep is how far a key moves a bar.
const weightStep = 5

const habitRow = 24

func newHabits(host page.Host) *habits {
	h := &habits{host: host, held: -1, wrapper: paint.Wrapper{Size: paint.TextSize}, small: paint.Wrapper{Size: paint.CaptionSize}}
	h.Extend(h, h.paint, func() fyne.Size { return fyne.NewSize(480, float32(h.count()*habitRow)) })
	h.head = &habitsHead{h: h}
	h.head.Extend(h.head, h.head.paint, func() fyne.Size { return fyne.NewSize(480, habitRow) })
	h.scroll = container.NewVScroll(h)
	h.scroll.OnScrolled = paint.GuardedOf("The habits", func(fyne.Position) { h.Refresh() })
	h.box = container.NewBorder(h.head, nil, nil, nil, h.scroll)
	return h
}

// show shows the replies of another mix.
func (h *habits) show(got *report.Mix) {
	h.got, h.held = got, -1
	h.weights, h.sum = nil, 0
	h.at = max(0, min(h.at, h.count()-1))
	h.scroll.Refresh()
	h.head.Refresh()
	h.Refresh()
}

// weigh shows other weights.
func (h *habits) weigh(weights []int) {
	h.weights, h.sum = weights, 0
	for _, n := range weights {
		h.sum += n
	}
	h.Refresh()
}

func (h *habits) count() int {
	if h.got == nil {
		return 0
	}
	return len(h.got.Columns)
}

// habitPlaces is where the parts of a row begin, for a width.
type habitPlaces struct{ name, share, gain, do, bar, percent, end float32 }

func placesFor(w float32) (p habitPlaces) {
	p.name, p.end = paint.GridPad, w-paint.GridPad
	p.percent = p.end - numWide
	p.bar = p.percent - min(max(w*0.2, 110), 300)
	rest := p.bar - 3*paint.GridPad - p.name
	p.share = p.name + rest*0.38
	p.gain = p.share + numWide + paint.GridPad
	p.do = p.gain + 84
	return p
}

func (h *habits) paint(p *paint.Pen, size fyne.Size) {
	at := placesFor(size.Width)
	from := int(h.scroll.Offset.Y / habitRow)
	to := min(h.count(), int((h.scroll.Offset.Y+h.scroll.Size().Height)/habitRow)+1)
	for j := from; j < to; j++ {
		c := &h.got.Columns[j]
		y := float32(j * habitRow)
		base := y + habitRow - 7
		if j == h.at && h.Focused {
			p.Rect(p.Px(0), p.Px(float64(y)), p.Px(float64(size.Width)), p.Px(float64(y+habitRow)), paint.Colours().Blend(sheet.Ink, 0.06), nil, 0)
		}
		role := sheet.Ink
		if c.Never {
			role = sheet.Soft
		}
		text := func(s string, x, end float32, role sheet.Role) {
			t := paint.ColumnText(h.wrapper.Fit(s, end-x-paint.GridPad), x, base, role)
			p.Text(&t)
		}
		number := func(s string, end float32, role sheet.Role) {
			t := paint.ColumnText(s, end, base, role)
			t.Anchor = sheet.AtEnd
			p.Text(&t)
		}
		text(h.got.Column(j), at.name, at.share, role)
		if c.Never {
			number("never", at.gain-paint.GridPad, sheet.Soft)
		} else {
			number(report.Percent(c.Share), at.gain-paint.GridPad, sheet.Ink)
		}
		number(report.Short(h.got.Gain(j)), at.do-paint.GridPad, sheet.Ink)
		text(h.got.Rows[c.BestRow].Setup, at.do, at.bar, sheet.Ink)
		h.slider(p, j, at, y)
		p.Line(&sheet.Line{From: sheet.Point{Y: float64(y + habitRow)}, To: sheet.Point{X: float64(size.Width), Y: float64(y + habitRow)}, Stroke: sheet.Rule, Width: 1})
	}
}

// slider draws the bar of row j, and how often that is of all.
func (h *habits) slider(p *paint.Pen, j int, at habitPlaces, y float32) {
	weight := 0
	if j < len(h.weights) {
		weight = h.weights[j]
	}
	left, right := float64(at.bar), float64(at.percent-paint.GridPad)
	mid := float64(y) + habitRow/2
	knob := left + (right-left)*float64(weight)/mostWeight
	p.Line(&sheet.Line{From: sheet.Point{X: left, Y: mid}, To: sheet.Point{X: right, Y: mid}, Stroke: sheet.Soft, Width: 1})
	if weight > 0 {
		p.Box(&sheet.Box{Min: sheet.Point{X: left, Y: mid - 2}, Max: sheet.Point{X: knob, Y: mid + 2}, Fill: sheet.Ink, Texture: sheet.Solid})
	}
	fill := sheet.Paper
	if weight > 0 {
		fill = sheet.Ink
	}
	p.Box(&sheet.Box{Min: sheet.Point{X: knob - 4, Y: mid - 7}, Max: sheet.Point{X: knob + 4, Y: mid + 7}, Fill: fill, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	said := "0 %"
	if h.sum > 0 {
		said = words.Percent(float64(weight) / float64(h.sum))
	}
	role := sheet.Soft
	if weight > 0 {
		role = sheet.Ink
	}
	t := paint.ColumnText(h.wrapper.Fit(said, numWide), at.end, y+habitRow-7, role)
	t.Anchor = sheet.AtEnd
	p.Text(&t)
}

// set moves the bar of row j.
func (h *habits) set(j, n int) {
	n = max(0, min(n, mostWeight))
	if j >= 0 && j < len(h.weights) && h.weights[j] != n {
		h.onWeight(j, n)
	}
}

// pull moves the bar that is held to a place.
func (h *habits) pull(x float32) {
	at := placesFor(h.Size().Width)
	right := at.percent - paint.GridPad
	h.set(h.held, int((x-at.bar)/(right-at.bar)*mostWeight+0.5))
}

// MouseDown takes hold of a bar.
func (h *habits) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The habits")
	h.host.Canvas().Focus(h)
	j := int(ev.Position.Y / habitRow)
	if j < 0 || j >= h.count() {
		return
	}
	h.at = j
	if at := placesFor(h.Size().Width); ev.Button == desktop.MouseButtonPrimary && ev.Position.X >= at.bar-paint.GridPad && ev.Position.X < at.percent {
		h.held = j
		h.pull(ev.Position.X)
	}
	h.Refresh()
}

// MouseUp lets go.
func (h *habits) MouseUp(*desktop.MouseEvent) { h.held = -1 }

// Dragged moves the bar that is held.
func (h *habits) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The habits")
	if h.held >= 0 {
		h.pull(ev.Position.X)
	}
}

// DragEnd lets go.
func (h *habits) DragEnd() { h.held = -1 }

// Cursor implements desktop.Cursorable.
func (h *habits) Cursor() desktop.Cursor { return desktop.DefaultCursor }

// TypedKey goes to another reply, or moves its bar.
func (h *habits) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The habits")
	weight := func() int {
		if h.at < len(h.weights) {
			return h.weights[h.at]
		}
		return 0
	}
	switch ev.Name {
	case fyne.KeyUp:
		h.goTo(h.at - 1)
	case fyne.KeyDown:
		h.goTo(h.at + 1)
	case fyne.KeyHome:
		h.goTo(0)
	case fyne.KeyEnd:
		h.goTo(h.count() - 1)
	case fyne.KeyLeft:
		h.set(h.at, weight()-weightStep)
	case fyne.KeyRight:
		h.set(h.at, weight()+weightStep)
	case fyne.KeyDelete, fyne.KeyBackspace:
		h.set(h.at, 0)
	default:
		h.host.PageKey(ev)
	}
}

// goTo puts the keys on a row, and brings it into view.
func (h *habits) goTo(j int) {
	h.at = max(0, min(j, h.count()-1))
	top, room := float32(h.at*habitRow), h.scroll.Size().Height
	switch o := h.scroll.Offset.Y; {
	case top < o:
		h.scroll.ScrollToOffset(fyne.NewPos(0, top))
	case top+habitRow > o+room:
		h.scroll.ScrollToOffset(fyne.NewPos(0, top+habitRow-room))
	}
	h.Refresh()
}

// habitsHead heads the list.
type habitsHead struct {
	paint.Painted
	h *habits
}

func (d *habitsHead) paint(p *paint.Pen, size fyne.Size) {
	at := placesFor(size.Width)
	text := func(s string, x float32, anchor sheet.Anchor) {
		t := paint.ColumnText(s, x, habitRow-7, sheet.Soft)
		t.Size, t.Anchor = paint.CaptionSize, anchor
		p.Text(&t)
	}
	text(d.h.small.Fit("A habit of the rival", at.share-at.name-paint.GridPad), at.name, sheet.AtStart)
	text("Best share", at.gain-paint.GridPad, sheet.AtEnd)
	text("You gain", at.do-paint.GridPad, sheet.AtEnd)
	text("with", at.do, sheet.AtStart)
	text("How often it really does it", at.bar, sheet.AtStart)
	p.Line(&sheet.Line{From: sheet.Point{Y: habitRow - 1}, To: sheet.Point{X: float64(size.Width), Y: habitRow - 1}, Stroke: sheet.Soft, Width: 1})
}
