package editor

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*Lanes)(nil)

// Lanes shows all replies at once: one under the other, the most dangerous
// first, each as thin bars on the frames of the sheet above. While a hand
// drags, marks and meetings follow and the order stays; it is made anew when
// the hand lets go.
type Lanes struct {
	widget.BaseWidget

	OnHint  func(string)
	OnWorst func(bool) // another choice of rises

	model   *model.Model
	sheet   *Timeline
	wrapper paint.Wrapper
	Worst   bool // each reply on its worst rise, else all on the rise shown

	shown  lanesState
	Lanes  []timeline.Lane // in the order shown
	sorted []timeline.Lane // in the order of danger
	byLine []timeline.Lane
	count  int // of the lanes that the scroller knows of
	plan   *timeline.Plan
	blocks [][]timeline.Block // of plan, by rise and line, as far as seen

	Head *lanesHead
	Body *lanesBody
	Rows *container.Scroll
	line *paint.FrameLine
	all  *fyne.Container
}

// lanesState is what lanes are painted from: where it is the same, so are
// they.
type lanesState struct {
	plan                *timeline.Plan
	chosen, delay       int
	rise, line          int
	worst, held, follow bool
	view                sheet.View
	left, right         float64
}

// The measures of a lane, in units.
const (
	LaneRow  = 23
	laneTop  = 7
	laneEnd  = 18
	laneHead = 22
	laneName = 8 + paint.MarkSide + 6 // where names begin
)

// NewLanes returns the lanes of m's replies, under the frames of t.
func NewLanes(m *model.Model, t *Timeline) *Lanes {
	l := &Lanes{model: m, sheet: t, wrapper: paint.Wrapper{Size: paint.CaptionSize}}
	l.Head = &lanesHead{l: l}
	l.Head.Extend(l.Head, l.Head.paint, func() fyne.Size { return fyne.NewSize(300, laneHead) })
	l.Body = &lanesBody{l: l, hover: -1}
	l.Body.Extend(l.Body, l.Body.paint, func() fyne.Size { return fyne.NewSize(300, float32(len(l.Lanes)*LaneRow)) })
	l.Body.OnPointer("The lanes", func(at fyne.Position) { l.Body.setHover(l.Body.hit(at)) }, func() { l.Body.setHover(-1) })
	l.Rows = container.NewVScroll(l.Body)
	l.Rows.OnScrolled = func(fyne.Position) { l.Body.Refresh() }
	l.line = paint.NewFrameLine()
	l.all = container.NewBorder(l.Head, nil, nil, nil, container.NewStack(l.Rows, l.line))
	l.ExtendBaseWidget(l)
	return l
}

// CreateRenderer implements fyne.Widget.
func (l *Lanes) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(l.all) }

// MinSize keeps the head and a lane in view.
func (l *Lanes) MinSize() fyne.Size { return fyne.NewSize(300, laneHead+LaneRow) }

// Resize paints the lanes that come into view.
func (l *Lanes) Resize(s fyne.Size) {
	l.BaseWidget.Resize(s)
	l.Body.Refresh()
}

// Show brings the lanes up to date: they are left alone while they are hidden.
func (l *Lanes) Show() {
	defer paint.Survive("The lanes")
	l.BaseWidget.Show()
	l.shown = lanesState{}
	l.Follow()
}

// SetWorst shows each reply on its worst rise, or all on the rise shown.
func (l *Lanes) SetWorst(worst bool) {
	if worst == l.Worst {
		return
	}
	l.Worst = worst
	l.Follow()
	if l.OnWorst != nil {
		l.OnWorst(worst)
	}
}

// Follow shows the verdict and the sheet's view as they stand, where they are
// other than those shown.
func (l *Lanes) Follow() {
	d, plan := l.sheet.Drawing(), l.model.Plan()
	if !l.Visible() || d == nil || plan == nil {
		return
	}
	now := lanesState{plan: plan, chosen: l.model.Chosen(), delay: l.model.Setup().Delay, worst: l.Worst, view: d.View, left: d.Left, right: d.Right, follow: l.model.Follows()}
	now.rise, now.line = l.model.Shown()
	_, now.held = l.model.Gesture()
	was := l.shown
	if now == was {
		return
	}
	l.shown = now
	l.order(was.chosen == now.chosen && was.plan != nil)
	if plan != l.plan {
		l.plan, l.blocks = plan, make([][]timeline.Block, plan.Rises()*plan.Lines())
	}
	if len(l.Lanes) != l.count {
		l.count = len(l.Lanes)
		l.Rows.Refresh()
	}
	if !now.held && (now.line != was.line || now.rise != was.rise || was.plan == nil) {
		l.reveal()
	}
	l.Head.Refresh()
	l.Body.Refresh()
}

// order takes the lanes from the plan; while a hand drags each stays where it
// is.
func (l *Lanes) order(same bool) {
	rise := l.shown.rise
	if l.shown.worst {
		rise = -1
	}
	l.sorted = l.shown.plan.Danger(l.shown.delay, rise, l.sorted)
	if !same || !l.shown.held || len(l.Lanes) != len(l.sorted) {
		l.Lanes = append(l.Lanes[:0], l.sorted...)
		return
	}
	l.byLine = append(l.byLine[:0], l.sorted...)
	for _, s := range l.sorted {
		l.byLine[s.Line] = s
	}
	for i := range l.Lanes {
		l.Lanes[i] = l.byLine[l.Lanes[i].Line]
	}
}

// Rival is what the reply of a lane lays on the rival's track.
func (l *Lanes) Rival(lane *timeline.Lane) []timeline.Block {
	at := &l.blocks[lane.Rise*l.plan.Lines()+lane.Line]
	if *at == nil {
		*at = words.SceneAt(l.plan, l.shown.delay, lane.Rise, lane.Line).Bottom
	}
	return *at
}

// at is the place of the shown reply among the lanes, -1 for none.
func (l *Lanes) at() int {
	for i := range l.Lanes {
		if l.Lanes[i].Line == l.shown.line {
			return i
		}
	}
	return -1
}

// reveal scrolls so that the shown reply's lane is in view.
func (l *Lanes) reveal() {
	top, high, y := float32(l.at()*LaneRow), l.Rows.Size().Height, l.Rows.Offset.Y
	switch {
	case high <= 0 || top < 0:
	case top < y:
		paint.ScrollTo(l.Rows, top)
	case top+LaneRow > y+high:
		paint.ScrollTo(l.Rows, top+LaneRow-high)
	}
}

// walk shows the reply n lanes further on.
func (l *Lanes) walk(n int) {
	if len(l.Lanes) > 0 {
		l.choose(min(max(l.at()+n, 0), len(l.Lanes)-1))
	}
}

// choose shows lane i's reply above.
func (l *Lanes) choose(i int) {
	if rise, line := l.model.Shown(); l.Lanes[i].Line != line || l.Lanes[i].Rise != rise {
		l.model.Show(l.Lanes[i].Rise, l.Lanes[i].Line)
	}
}

// Line puts the scrub line through the lanes, or takes it away.
func (l *Lanes) Line(frame int, on bool) {
	d := l.sheet.Drawing()
	if on = on && d != nil; on {
		x := d.X(float64(frame))
		l.line.X, on = float32(x), x >= d.Left-0.01 && x <= d.Right+0.01
	}
	l.line.On = on
	l.line.Refresh()
}
