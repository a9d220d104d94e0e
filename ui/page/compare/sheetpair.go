package compare

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// sheetPair draws one exchange of a setup under two states of the move data,
// one sheet over the other on the same scale of frames. It is not edited.
type sheetPair struct {
	paint.Painted
	wrapper paint.Wrapper
	halves  [2]half
}

// half is one state.
type half struct {
	caption  string
	scene    words.Scene
	sentence string
	position timeline.Position
	err      error // why there is no scene
	empty    bool
}

// The measures of the pair, in units.
const (
	pairCaption = 24 // the height of the line over a sheet
	pairPad     = 10 // beside its words
)

func newSheetPair() *sheetPair {
	s := &sheetPair{wrapper: paint.Wrapper{Size: paint.TextSize}}
	s.halves = [2]half{{empty: true}, {empty: true}}
	s.Extend(s, s.paint, s.MinSize)
	return s
}

// pairOf lays a setup out under both states. Both show the same exchange: for a
// route that is named, one that it follows; else one with a reply that is no
// longer covered, or is covered now; else the deciding one of the state that
// fares worse; or, where both fare alike, one with a reply that changed the
// window. c may be nil: nothing changed.
func pairOf(p *patch.Patch, s timeline.Setup, c *compare.Change, route string, captions ...string) (out [2]half) {
	var plans [2]*timeline.Plan
	var verdicts [2]timeline.Word
	for i, of := range []*timeline.Project{p.Before, p.After} {
		out[i] = half{caption: captions[i], position: s.Position}
		if out[i].err = of.CheckSetup(nil, &s); out[i].err == nil {
			plans[i], out[i].err = timeline.Compile(of, s)
		}
		if plans[i] != nil {
			verdicts[i] = plans[i].Word(s.Delay)
		}
	}
	tells := 1
	if plans[1] == nil || plans[0] != nil && badness(verdicts[0]) > badness(verdicts[1]) {
		tells = 0
	}
	if plans[tells] == nil {
		return out
	}
	rise, line := plans[tells].Deciding(s.Delay)
	if c != nil && plans[0] != nil && plans[1] != nil {
		if e, ok := otherwise(plans, s.Delay, c); ok {
			rise, line = e.Rise, e.Line
		} else if l, ok := causeLine(plans[tells], &s, c.By); ok && !c.Turned() {
			line = l
		}
	}
	follows := false
	for i, plan := range plans {
		if plan != nil && route != "" && !follows {
			if e, ok := exchangeOf(p, i == 1, plan, s.Delay, route); ok {
				rise, line, follows = e.Rise, e.Line, true
			}
		}
	}
	for i, plan := range plans {
		if plan == nil {
			continue
		}
		e := timeline.Exchange{Rise: min(rise, plan.Rises()-1), Line: min(line, plan.Lines()-1)}
		v := words.VerdictAt(plan, s.Delay)
		out[i].scene, out[i].sentence = words.SceneAt(plan, s.Delay, e.Rise, e.Line), v.Because
		if follows {
			m := plan.Meetings(s.Delay, nil)
			out[i].scene.Follow(p.Sequel(i == 1, &m, e))
		}
	}
	return out
}

// otherwise is the first exchange with a reply that is no longer covered, or is
// covered now, and that ends otherwise.
func otherwise(plans [2]*timeline.Plan, delay int, c *compare.Change) (timeline.Exchange, bool) {
	if plans[0].Rises() != plans[1].Rises() || plans[0].Lines() != plans[1].Lines() {
		return timeline.Exchange{}, false
	}
	before, after := plans[0].Meetings(delay, nil), plans[1].Meetings(delay, nil)
	for _, title := range slices.Concat(c.Lost, c.Won) {
		for r := range plans[1].Rises() {
			for l := range plans[1].Lines() {
				e := timeline.Exchange{Rise: r, Line: l}
				if reply := plans[1].Reply(l); reply.Title() == title && before.Cell(e).Outcome != after.Cell(e).Outcome {
					return e, true
				}
			}
		}
	}
	return timeline.Exchange{}, false
}

// exchangeOf is the first exchange that is followed by the route of that name.
func exchangeOf(p *patch.Patch, after bool, plan *timeline.Plan, delay int, route string) (timeline.Exchange, bool) {
	m := plan.Meetings(delay, nil)
	for r := range plan.Rises() {
		for l := range plan.Lines() {
			e := timeline.Exchange{Rise: r, Line: l}
			if q := p.Sequel(after, &m, e); q != nil && q.Name == route {
				return e, true
			}
		}
	}
	return timeline.Exchange{}, false
}

// causeLine is the line of the first reply among the causes.
func causeLine(plan *timeline.Plan, s *timeline.Setup, by []compare.Cause) (int, bool) {
	v := words.VerdictAt(plan, s.Delay)
	for i := range by {
		if by[i].Kind != compare.MovePart || by[i].Fighter != s.Rival {
			continue
		}
		for l := range v.Rises[0].Replies {
			if v.Rises[0].Replies[l].Reply == by[i].Name {
				return l, true
			}
		}
	}
	return 0, false
}

func badness(w timeline.Word) int {
	switch w {
	case timeline.Unsafe:
		return 2
	case timeline.Limited:
		return 1
	}
	return 0
}

func (s *sheetPair) show(halves [2]half) {
	s.halves = halves
	s.Refresh()
}

// MinSize holds both sheets' texts.
func (s *sheetPair) MinSize() fyne.Size {
	s.ExtendBaseWidget(s)
	return fyne.NewSize(420, 2*(pairCaption+sheet.MinH))
}

func (s *sheetPair) paint(p *paint.Pen, size fyne.Size) {
	high := size.Height/2 - pairCaption
	o := sheet.Options{W: float64(size.Width), H: float64(high)}
	o.View = s.view(o)
	for i := range s.halves {
		h := &s.halves[i]
		if h.empty {
			continue
		}
		top := float32(i) * size.Height / 2
		caption := paint.ColumnText(s.wrapper.Fit(h.caption, size.Width-2*pairPad), pairPad, top+pairCaption-7, sheet.Ink)
		caption.Bold = true
		p.Text(&caption)
		if h.err != nil {
			why := paint.ColumnText(s.wrapper.Fit(fmt.Sprintf("It can't be judged: %v", h.err), size.Width-2*pairPad), pairPad, top+pairCaption+40, sheet.Soft)
			p.Text(&why)
			continue
		}
		o.Sentence, o.Position = h.sentence, string(h.position)
		p.Draw(lower(sheet.Draw(&h.scene, o).Shapes, float64(top+pairCaption)))
	}
}

// view fits both scenes, so that a frame lies in one place on both sheets.
func (s *sheetPair) view(o sheet.Options) *sheet.View {
	var view *sheet.View
	var span timeline.Span
	for i := range s.halves {
		h := &s.halves[i]
		if h.empty || h.err != nil {
			continue
		}
		own := sheet.Draw(&h.scene, o).View
		tracks := own.Scale * float64(max(1, h.scene.Span.Len()))
		if view == nil {
			span = h.scene.Span
		} else {
			span = timeline.Span{From: min(span.From, h.scene.Span.From), To: max(span.To, h.scene.Span.To)}
		}
		view = &sheet.View{From: float64(span.From), Scale: tracks / float64(max(1, span.Len()))}
	}
	return view
}

// lower returns the shapes of a sheet of its own, by units further down.
func lower(shapes []sheet.Shape, by float64) []sheet.Shape {
	down := func(q sheet.Point) sheet.Point { return sheet.Point{X: q.X, Y: q.Y + by} }
	out := make([]sheet.Shape, len(shapes))
	for i, s := range shapes {
		switch s := s.(type) {
		case sheet.Box:
			s.Min, s.Max = down(s.Min), down(s.Max)
			out[i] = s
		case sheet.Line:
			s.From, s.To = down(s.From), down(s.To)
			out[i] = s
		case sheet.Path:
			points := make([]sheet.Point, len(s.Points))
			for k, q := range s.Points {
				points[k] = down(q)
			}
			s.Points = points
			out[i] = s
		case sheet.Text:
			s.At = down(s.At)
			out[i] = s
		}
	}
	return out
}
