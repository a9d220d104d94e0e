package panel

import (
	"fmt"

	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable          = (*setupRow)(nil)
	_ fyne.SecondaryTappable = (*setupRow)(nil)
)

// setupRow is one setup of the list: its mark, its name, and under it the
// verdict's word, the rival and the place, and whether it was tried in the
// game.
type setupRow struct {
	paint.Row // At: of the document's setups
	s         *Setups
}

// The measures of a row, in units.
const (
	SetupRowHeight = 39
	rowLeft        = 8 + paint.MarkSide + 8
	rowBelow       = 32 // the second line's baseline
)

func newSetupRow(s *Setups) *setupRow {
	r := &setupRow{s: s}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(120, paint.WholeRow(r.s.List, SetupRowHeight)) })
	return r
}

// Set shows another setup.
func (r *setupRow) Set(i int) {
	r.s.List.Rows.Note(r)
	r.Row.Set(i)
}

func (r *setupRow) paint(p *paint.Pen, size fyne.Size) {
	if r.At < 0 || r.At >= r.s.model.Len() {
		return
	}
	if r.s.Marks.has(r.At) {
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), paint.Colours().Blend(sheet.Ink, 0.09), nil, 0)
	}
	if r.s.List.focused && r.At == r.s.model.Chosen() {
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), nil, paint.Colours().Ink[sheet.Ink], p.Thick(1))
	}
	row := r.s.model.Row(r.At)
	w := &r.s.wrapper
	under := "can't be read"
	if row.Read {
		state := NoVerdict
		if row.Err == nil {
			state = string(row.Word)
			p.Mark(row.Word.Judgement(), 8, 5)
		}
		under = fmt.Sprintf("%s · vs %s, %s", state, row.Rival, row.Position)
	}
	name := paint.ColumnText(w.Fit(row.Name, size.Width-rowLeft-6), rowLeft, 16, sheet.Ink)
	p.Text(&name)
	room := size.Width - rowLeft - 6
	if d, ok := r.s.model.Document().OnDisk(); ok {
		if result := d.Tried(r.At); result != "" {
			room -= tried(p, w, result, size.Width-6)
		}
	}
	below := paint.ColumnText(w.Fit(under, room), rowLeft, rowBelow, sheet.Soft)
	below.Size = paint.CaptionSize
	p.Text(&below)
}

// tried draws the stamp of a setup that was tried in the game, with its right
// edge at x, and returns the width it takes.
func tried(p *paint.Pen, w *paint.Wrapper, result string, x float32) float32 {
	const high, mark, pad = 15, 8, 4
	wide := w.WidthOf(result) + mark + 3*pad
	left, top := float64(x-wide), float64(rowBelow-12)
	p.Box(&sheet.Box{Min: sheet.Point{X: left, Y: top}, Max: sheet.Point{X: float64(x), Y: top + high}, Stroke: sheet.Soft, Width: 1})
	at := func(points ...float64) {
		var line []sheet.Point
		for i := 0; i < len(points); i += 2 {
			line = append(line, sheet.Point{X: left + pad + points[i]*mark, Y: top + (high-mark)/2 + points[i+1]*mark})
		}
		p.Path(&sheet.Path{Points: line, Stroke: sheet.Ink, Width: 1.4})
	}
	switch result {
	case "worked":
		at(0, 0.5, 0.4, 0.95, 1, 0.05)
	case "failed":
		at(0.05, 0.05, 0.95, 0.95)
		at(0.05, 0.95, 0.95, 0.05)
	default:
		at(0.15, 0.25, 0.35, 0, 0.7, 0, 0.85, 0.25, 0.5, 0.5, 0.5, 0.7)
		at(0.5, 0.9, 0.5, 1)
	}
	t := paint.ColumnText(result, float32(left)+2*pad+mark, rowBelow, sheet.Ink)
	t.Size = paint.CaptionSize
	p.Text(&t)
	return wide + pad
}

// Tapped chooses the setup.
func (r *setupRow) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The list of setups")
	paint.FocusOn(r.s.List)
	if !r.take(r.s.Keys()) {
		r.choose()
	}
}

// TappedSecondary chooses the setup, unless it is one of several that are
// selected, and asks for its menu.
func (r *setupRow) TappedSecondary(ev *fyne.PointEvent) {
	defer paint.Survive("The list of setups")
	if !r.s.Marks.has(r.At) {
		r.s.Marks.Clear()
		r.choose()
	}
	r.ask(ev.Position)
}

func (r *setupRow) choose() {
	for row, i := range r.s.Shown {
		if i == r.At {
			r.s.List.Select(row)
		}
	}
}

// ask asks for the menu at a place of the row.
func (r *setupRow) ask(at fyne.Position) {
	if r.s.OnMenu != nil {
		r.s.OnMenu(fyne.CurrentApp().Driver().AbsolutePositionForObject(r).Add(at))
	}
}
