package editor

import (
	"slices"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Selection is what is chosen on the sheet: nothing, one block, or fillers.
type Selection struct {
	on   bool
	part timeline.Part
	at   []int // of fillers, their places, rising and at least one
}

// One chooses a single block.
func One(part timeline.Part, index int) Selection {
	if part == timeline.PartFiller {
		return FillersChosen(index, index+1)
	}
	return Selection{on: true, part: part}
}

// FillersChosen chooses the fillers from one place up to another, which is
// not chosen.
func FillersChosen(from, to int) Selection {
	s := Selection{on: to > from, part: timeline.PartFiller}
	for i := from; i < to; i++ {
		s.at = append(s.at, i)
	}
	return s
}

// fillers are the places of the fillers chosen, none where another block is.
func (s *Selection) fillers() []int {
	if s.on && s.part == timeline.PartFiller {
		return s.at
	}
	return nil
}

func (s *Selection) has(part timeline.Part, index int) bool {
	return s.on && s.part == part && (part != timeline.PartFiller || slices.Contains(s.at, index))
}

// toggled is s with filler i chosen where it was not, or the other way round.
func (s *Selection) toggled(i int) Selection {
	at := slices.Clone(s.fillers())
	if k, found := slices.BinarySearch(at, i); found {
		at = slices.Delete(at, k, k+1)
	} else {
		at = slices.Insert(at, k, i)
	}
	return Selection{on: len(at) > 0, part: timeline.PartFiller, at: at}
}

// reaching is s stretched to filler i from the end that lies farther off.
func (s *Selection) reaching(i int) Selection {
	at := s.fillers()
	if len(at) == 0 {
		return One(timeline.PartFiller, i)
	}
	if first := at[0]; i >= first {
		return FillersChosen(first, i+1)
	}
	return FillersChosen(i, at[len(at)-1]+1)
}

// Select chooses s on the sheet.
func (t *Timeline) Select(s Selection) {
	t.Chosen = s
	t.Typed.close()
	t.tellSelected()
	t.Repaint()
}

// tellSelected tells which block is chosen, and what a hand may do with it.
func (t *Timeline) tellSelected() {
	if t.OnSelect != nil {
		t.OnSelect()
	}
	if s := &t.Chosen; s.on {
		t.hint(t.hintOf(s.part))
	}
}

// Selected is the part chosen on the sheet; of fillers also their places.
func (t *Timeline) Selected() (part timeline.Part, fillers []int, ok bool) {
	return t.Chosen.part, t.Chosen.fillers(), t.Chosen.on
}

// trim gives up what is chosen but no longer there.
func (t *Timeline) trim() {
	s := &t.Chosen
	if name := t.model.Setup().Name; name != t.of {
		t.of, *s = name, Selection{}
	}
	if at := s.fillers(); len(at) > 0 {
		n := len(t.model.Setup().Fillers)
		at = slices.DeleteFunc(slices.Clone(at), func(i int) bool { return i >= n })
		*s = Selection{on: len(at) > 0, part: timeline.PartFiller, at: at}
	} else if s.on && t.block(s.part, 0) == nil {
		*s = Selection{}
	}
}

// block is the block of that part, and of fillers that place; nil where the
// scene has none.
func (t *Timeline) block(part timeline.Part, index int) *timeline.Block {
	for _, side := range [2][]timeline.Block{t.Scene.Top, t.Scene.Bottom} {
		for i := range side {
			if b := &side[i]; b.Part == part && (part != timeline.PartFiller || b.Index == index) {
				return b
			}
		}
	}
	return nil
}

// Hot is where a block can be taken hold of; nil where it is out of view.
func (t *Timeline) Hot(part timeline.Part, index int) *sheet.Hot {
	if t.drawing == nil {
		return nil
	}
	for i := range t.drawing.Hots {
		if h := &t.drawing.Hots[i]; h.Part == part && (part != timeline.PartFiller || h.Index == index) {
			return h
		}
	}
	return nil
}

// walk chooses the block n further on; with more, fillers are added or left.
func (t *Timeline) walk(n int, more bool) {
	if !t.Idle() {
		return
	}
	if at := t.Chosen.fillers(); more && len(at) > 0 {
		last := len(t.model.Setup().Fillers) - 1
		from, to := at[0], at[len(at)-1]
		if n > 0 {
			to = min(to+1, last)
		} else if to > from {
			to--
		} else {
			from = max(from-1, 0)
		}
		t.Select(FillersChosen(from, to+1))
		return
	}
	var all []Selection
	now := -1
	for _, side := range [2][]timeline.Block{t.Scene.Top, t.Scene.Bottom} {
		for i := range side {
			b := &side[i]
			switch b.Part {
			case timeline.PartLate, timeline.PartAfter, timeline.PartStep, timeline.PartStun, timeline.PartDown:
				continue
			}
			if t.Chosen.has(b.Part, b.Index) {
				now = len(all)
			}
			all = append(all, One(b.Part, b.Index))
		}
	}
	if len(all) == 0 {
		return
	}
	if now < 0 && n < 0 {
		now = 0
	}
	t.Select(all[(now+n+len(all))%len(all)])
}

// SelectFillers chooses all fillers.
func (t *Timeline) SelectFillers() {
	if n := len(t.model.Setup().Fillers); n > 0 && t.Idle() {
		t.Select(FillersChosen(0, n))
	}
}

// Remove takes what is chosen out of the setup. A landing action goes back to
// the guard.
func (t *Timeline) Remove() {
	if !t.Idle() || !t.Chosen.on {
		return
	}
	s := t.model.Setup()
	switch t.Chosen.part {
	case timeline.PartFiller:
		s.Fillers, _ = parted(s.Fillers, t.Chosen.at)
	case timeline.PartJump:
		s = t.model.With(&model.Block{As: model.AsJump}, model.Spot{})
	case timeline.PartAttack:
		s = t.model.With(&model.Block{As: model.AsAttack}, model.Spot{})
	case timeline.PartLanding:
		s.Landing = timeline.DoGuard
	case timeline.PartDelay:
		s.Delay = 0
	case timeline.PartReply:
		i := t.model.Reply()
		if i < 0 {
			t.hint("This reply is always judged; it can't be removed.")
			return
		}
		s.Replies = slices.Delete(slices.Clone(s.Replies), i, i+1)
	default:
		t.hint("The " + map[timeline.Part]string{timeline.PartEnder: "ender", timeline.PartRise: "wake-up"}[t.Chosen.part] + " can't be removed, only replaced.")
		return
	}
	t.change(s)
}

// shift moves the fillers chosen n places on, as one run.
func (t *Timeline) shift(n int) {
	at := t.Chosen.fillers()
	if !t.Idle() || len(at) == 0 {
		return
	}
	s := t.model.Setup()
	rest, run := parted(s.Fillers, at)
	to := min(max(at[0]+n, 0), len(rest))
	s.Fillers = slices.Insert(rest, to, run...)
	if t.change(s) {
		t.Select(FillersChosen(to, to+len(run)))
	}
}

// change puts s in place of the chosen setup, or says why it can't.
func (t *Timeline) change(s timeline.Setup) bool {
	err := t.model.Change(s)
	if err != nil {
		t.hint(model.WhyNot(err))
	}
	return err == nil
}

// parted splits list into what is not at those places, which rise, and what is.
func parted(list []string, at []int) (rest, run []string) {
	for i, v := range list {
		if slices.Contains(at, i) {
			run = append(run, v)
		} else {
			rest = append(rest, v)
		}
	}
	return rest, run
}

// hint says a word in the status line.
func (t *Timeline) hint(text string) {
	if t.OnHint != nil {
		t.OnHint(text)
	}
}

// The frame around what is chosen, in units.
const (
	chosenOut    = 3
	chosenHandle = 5
)

// paintChosen outlines what is chosen, with a handle on each corner.
func (t *Timeline) paintChosen(p *paint.Pen, d *sheet.Drawing) {
	for i := range d.Hots {
		h := &d.Hots[i]
		if !t.Chosen.has(h.Part, h.Index) {
			continue
		}
		a := sheet.Point{X: h.Min.X - chosenOut, Y: h.Min.Y - chosenOut}
		b := sheet.Point{X: h.Max.X + chosenOut, Y: h.Max.Y + chosenOut}
		p.Box(&sheet.Box{Min: a, Max: b, Stroke: sheet.Ink, Width: 1.5})
		for _, q := range [4]sheet.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}} {
			handle(p, q)
		}
	}
	t.paintEdge(p, d)
}

// handle is a small square to take hold of, about q.
func handle(p *paint.Pen, q sheet.Point) {
	const half = chosenHandle / 2.0
	p.Box(&sheet.Box{Min: sheet.Point{X: q.X - half, Y: q.Y - half}, Max: sheet.Point{X: q.X + half, Y: q.Y + half}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
}

// paintEdge draws the grip of the edge that a hand would drag: the delay's
// end, the press on the arc, the wake-up, a reply's start.
func (t *Timeline) paintEdge(p *paint.Pen, d *sheet.Drawing) {
	h := t.held()
	if h == nil {
		return
	}
	frame := 0
	switch b := t.block(h.Part, h.Index); {
	case b == nil:
		return
	case h.Part == timeline.PartDelay, h.Part == timeline.PartRise:
		frame = b.Span.To
	case h.Part == timeline.PartAttack, h.Part != timeline.PartDelay && t.waits(h.Part), h.Part == timeline.PartReply && t.model.Reply() >= 0:
		frame = b.Span.From
	default:
		return
	}
	x := d.X(float64(frame))
	if x < d.Left || x > d.Right {
		return
	}
	const reach, head = 11.0, 4.0 // of an arrow that points both ways
	y := (h.Min.Y + h.Max.Y) / 2
	if h.Part == timeline.PartJump {
		y = (d.Bars.From + d.Bars.To) / 2
	}
	p.Box(&sheet.Box{Min: sheet.Point{X: x - reach - 3, Y: y - head - 3}, Max: sheet.Point{X: x + reach + 3, Y: y + head + 3}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	for _, way := range [2]float64{-1, 1} {
		tip := sheet.Point{X: x + way*reach, Y: y}
		p.Path(&sheet.Path{Points: []sheet.Point{{X: tip.X - way*head, Y: y - head}, tip, {X: tip.X - way*head, Y: y + head}}, Stroke: sheet.Ink, Width: 1.4})
		p.Line(&sheet.Line{From: sheet.Point{X: x + way*3, Y: y}, To: tip, Stroke: sheet.Ink, Width: 1.2})
	}
}
