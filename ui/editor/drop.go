package editor

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// ghost is a block from the shelf that a hand holds over the sheet.
type ghost struct {
	block model.Block
	at    sheet.Point // the pointer
	spot  model.Spot
	on    timeline.Part // the block that it would replace or stand before
	index int           // of that, among the fillers
	does  string        // what letting go would do
	Why   string        // it can't be let go here; empty where it can
}

// DragOver shows what becomes of b, held over the sheet at pos: where it would
// go, or why it may not.
func (t *Timeline) DragOver(b *model.Block, pos fyne.Position) {
	if t.drawing == nil {
		t.hint("A block is dropped on the sheet of a setup.")
		return
	}
	g := t.over(b, paint.Point(pos))
	if old := t.Ghost; old != nil && old.block == g.block && old.spot == g.spot && old.does == g.does && g.does != "" {
		g.Why = old.Why // asked already
	} else if g.Why == "" {
		next := t.model.With(b, g.spot)
		if _, err := t.model.May(&next); err != nil {
			g.Why = model.WhyNot(err)
		}
	}
	t.Ghost = g
	if g.Why != "" {
		t.hint(g.Why)
	} else {
		t.hint(g.does)
	}
	t.Repaint()
}

// DragOut forgets the block held over the sheet.
func (t *Timeline) DragOut() {
	if t.Ghost != nil {
		t.Ghost = nil
		t.hint("")
		t.Repaint()
	}
}

// Drop puts b where the hand lets it go. It reports whether it could.
func (t *Timeline) Drop(b *model.Block, pos fyne.Position) bool {
	if t.drawing == nil {
		return false
	}
	t.DragOver(b, pos)
	g := t.Ghost
	t.Ghost = nil
	t.Repaint()
	return g.Why == "" && t.place(b, g.spot)
}

// Put puts b where it belongs: a filler behind those chosen, else last, a
// reply last, anything else in place of the present one. It reports whether
// it could; why not is said.
func (t *Timeline) Put(b *model.Block) bool {
	where := model.Spot{At: t.after()}
	if b.As == model.AsReply {
		where.At = len(t.model.Setup().Replies)
	}
	return t.place(b, where)
}

func (t *Timeline) place(b *model.Block, where model.Spot) bool {
	if err := t.model.Place(b, where); err != nil {
		t.hint(model.WhyNot(err))
		return false
	}
	switch b.As {
	case model.AsFiller:
		at := min(where.At, len(t.model.Setup().Fillers)-1)
		t.Select(FillersChosen(at, at+1))
	case model.AsReply:
		t.Select(One(timeline.PartReply, 0))
	default:
		if part := slotParts[b.As]; t.block(part, 0) != nil {
			t.Select(One(part, 0))
		}
	}
	return true
}

// slotParts are the blocks that stand in the slots.
var slotParts = map[model.Slot]timeline.Part{
	model.AsEnder: timeline.PartEnder, model.AsFiller: timeline.PartFiller, model.AsJump: timeline.PartJump,
	model.AsAttack: timeline.PartAttack, model.AsLanding: timeline.PartLanding, model.AsReply: timeline.PartReply,
}

// over says where b goes when it is let go at p.
func (t *Timeline) over(b *model.Block, p sheet.Point) *ghost {
	d := t.drawing
	g := &ghost{block: *b, at: p, on: slotParts[b.As]}
	below := p.Y > (d.Bars.To+d.Bottom.From)/2
	switch {
	case p.Y < d.Ruler.From:
		g.Why = "A block is dropped on a track."
	case b.As == model.AsReply && !below:
		g.Why = "A reply goes on the rival's track, the lower one."
	case b.As != model.AsReply && below:
		g.Why = fmt.Sprintf("%s is %s's: it goes on the upper track.", b.Title(), t.model.Setup().Attacker)
	case b.As == model.AsFiller:
		t.overFillers(g, p)
	case b.As == model.AsReply:
		s := t.model.Setup()
		g.spot = model.Spot{At: len(s.Replies)}
		g.does = fmt.Sprintf("Drop to add the reply %s", b.Name)
		h, i := t.drawing.HotAt(p), t.model.Reply()
		if h != nil && h.Part == timeline.PartReply && i >= 0 {
			g.spot = model.Spot{At: i, Over: true}
			g.does = fmt.Sprintf("Drop to put %s instead of %s", b.Name, s.Replies[i].Title())
		}
	default:
		g.does = "Drop for " + b.Title()
		if old := t.block(g.on, 0); old != nil && old.Name != "" && old.Name != b.Name {
			g.does = fmt.Sprintf("Drop to put %s instead of %s", b.Title(), old.Name)
		}
	}
	return g
}

// overFillers finds the place of a filler: the middle third of another is in
// its place, all else between two.
func (t *Timeline) overFillers(g *ghost, p sheet.Point) {
	fillers := t.model.Setup().Fillers
	f := t.drawing.Frame(p.X)
	for i := range fillers {
		b := t.block(timeline.PartFiller, i)
		if b == nil || f >= float64(b.Span.To) {
			continue
		}
		third := float64(b.Span.Len()) / 3
		switch {
		case f < float64(b.Span.From)+third:
			g.spot = model.Spot{At: i}
		case f < float64(b.Span.To)-third:
			g.spot = model.Spot{At: i, Over: true}
		default:
			g.spot = model.Spot{At: i + 1}
		}
		break
	}
	if n := len(fillers); n == 0 || f >= float64(t.block(timeline.PartFiller, n-1).Span.To) {
		g.spot = model.Spot{At: n}
	}
	g.index = g.spot.At
	switch {
	case g.spot.Over:
		g.does = fmt.Sprintf("Drop to put %s instead of %s", g.block.Name, fillers[g.spot.At])
	case g.spot.At < len(fillers):
		g.does = fmt.Sprintf("Drop to put %s before %s", g.block.Name, fillers[g.spot.At])
	default:
		g.does = fmt.Sprintf("Drop to put %s before the delay", g.block.Name)
	}
}

// paintGhost draws the block that is held over the sheet, and where it goes.
func (t *Timeline) paintGhost(p *paint.Pen, d *sheet.Drawing) {
	g := t.Ghost
	if g == nil {
		return
	}
	if g.Why == "" {
		t.paintSpot(p, d, g)
	}
	words := g.block.Title()
	if g.block.Frames.Given && g.block.As != model.AsEnder {
		words = fmt.Sprintf("%s · %d", words, g.block.Frames.N)
	}
	t.tag(p, d, words, g.at.X, g.at.Y-30)
}

// paintSpot marks where the block goes: an outline of its own length, with a
// mark where it begins, or the outline of what it replaces.
func (t *Timeline) paintSpot(p *paint.Pen, d *sheet.Drawing, g *ghost) {
	h := t.Hot(g.on, g.index)
	if h != nil && (g.spot.Over || g.block.As != model.AsFiller && g.block.As != model.AsReply) {
		p.Box(&sheet.Box{Min: sheet.Point{X: h.Min.X - 2, Y: h.Min.Y - 2}, Max: sheet.Point{X: h.Max.X + 2, Y: h.Max.Y + 2}, Fill: sheet.Ink, Texture: sheet.Tint, Stroke: sheet.Ink, Width: 1.5, Dashed: true})
		return
	}
	from, band := t.Scene.Delay.To, d.Bars
	switch {
	case g.block.As == model.AsReply:
		from, band = t.Scene.Wake, d.Bottom
	case g.block.As == model.AsFiller:
		from = t.Scene.Delay.From
		if b := t.block(timeline.PartFiller, g.spot.At); b != nil {
			from = b.Span.From
		}
	}
	x := d.X(float64(from))
	end := math.Min(x+float64(max(g.block.Frames.N, 1))*d.View.Scale, d.Right)
	if x < d.Left || x >= d.Right {
		return
	}
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: band.From}, Max: sheet.Point{X: end, Y: band.To}, Fill: sheet.Ink, Texture: sheet.Tint, Stroke: sheet.Ink, Width: 1.5, Dashed: true})
	top, foot := band.From-0.7*d.Em, band.To+0.5*d.Em
	p.Line(&sheet.Line{From: sheet.Point{X: x, Y: top}, To: sheet.Point{X: x, Y: foot}, Stroke: sheet.Ink, Width: 2.5})
	for _, y := range [2]float64{top, foot} {
		p.Line(&sheet.Line{From: sheet.Point{X: x - 4, Y: y}, To: sheet.Point{X: x + 4, Y: y}, Stroke: sheet.Ink, Width: 2.5})
	}
}
