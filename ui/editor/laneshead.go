package editor

import (
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable      = (*lanesHead)(nil)
	_ desktop.Cursorable = (*lanesHead)(nil)
)

// lanesHead says which rise the lanes stand on, lets a click choose another
// way, and names the lines that run through them.
type lanesHead struct {
	paint.Painted
	l *Lanes
}

// choices are the ways to choose rises, of which the last is the worst.
func (h *lanesHead) choices() []string {
	v := h.l.model.Verdict()
	if h.l.plan == nil || len(v.Rises) == 0 {
		return nil
	}
	rise, _ := h.l.model.Shown()
	out := []string{"on the " + v.Rises[rise].Rise + " rise"}
	if n := len(v.Rises); n > 1 {
		out = append(out, fmt.Sprintf("each on the worst of %d rises (R)", n))
	}
	return out
}

// span is where choice i lies.
func (h *lanesHead) span(choices []string, i int) (from, to float32) {
	to = 2
	for k := 0; k <= i; k++ {
		from, to = to, to+h.l.wrapper.WidthOf(choices[k])+12
	}
	return from, to
}

func (h *lanesHead) paint(p *paint.Pen, size fyne.Size) {
	l := h.l
	choices := h.choices()
	end := float32(0)
	write := func(s string, x float32, role sheet.Role) {
		t := paint.ColumnText(s, x, laneHead-7, role)
		t.Size = paint.CaptionSize
		p.Text(&t)
	}
	for i, c := range choices {
		from, to := h.span(choices, i)
		end = to
		role := sheet.Soft
		if len(choices) == 1 || (i == 1) == l.Worst {
			role = sheet.Ink
			p.Rect(p.Px(float64(from+6)), p.Px(laneHead-3), p.Px(float64(to-6)), p.Px(laneHead-1), paint.Colours().Ink[sheet.Ink], nil, 0)
		}
		write(c, from+6, role)
	}
	p.Line(&sheet.Line{From: sheet.Point{X: 0, Y: laneHead - 1}, To: sheet.Point{X: float64(size.Width), Y: laneHead - 1}, Stroke: sheet.Soft, Width: 1})
	if l.plan == nil || l.sheet.Drawing() == nil {
		return
	}
	type label struct {
		words string
		frame int
	}
	var labels []label
	if t := l.sheet.Scene.Touches(); len(t) > 0 {
		labels = append(labels, label{"can touch from " + strconv.Itoa(t[0].From), t[0].From})
	}
	labels = append(labels, label{"guards from " + strconv.Itoa(l.sheet.Scene.GuardsFrom), l.sheet.Scene.GuardsFrom})
	slices.SortStableFunc(labels, func(a, b label) int { return a.frame - b.frame })
	most := size.Width - 4 // where a label may begin, less what it and those after it take
	for _, t := range labels {
		most -= l.wrapper.WidthOf(t.words) + 8
	}
	lane := l.Strip(0)
	for _, t := range labels { // near its line, and never over another word
		n := l.wrapper.WidthOf(t.words)
		most += 8
		x, in := lane.X(t.frame)
		if at := min(max(float32(x)+3, end+8), most); in && at > end {
			write(t.words, at, sheet.Soft)
			end = at + n
		}
		most += n
	}
}

// Tapped takes the way under the pointer.
func (h *lanesHead) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The lanes")
	choices := h.choices()
	for i := range choices {
		if from, to := h.span(choices, i); ev.Position.X >= from && ev.Position.X < to {
			h.l.SetWorst(i == 1)
		}
	}
}

// Cursor implements desktop.Cursorable.
func (h *lanesHead) Cursor() desktop.Cursor { return desktop.PointerCursor }
