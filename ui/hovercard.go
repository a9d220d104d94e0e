package ui

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// The card's measures, in units.
const (
	cardLine  = 17
	cardPad   = 8
	cardGap   = 10 // from the names to the values, and from a block to the card
	cardWide  = 330
	cardFacts = 11 // at most
)

// card tells about the block under the pointer.
type card struct {
	part  timeline.Part
	index int
	title string
	facts []words.Fact
}

// lookAt fills the card for the block under the pointer; empties it where
// there is none.
func (t *Timeline) lookAt(h *sheet.Hot) {
	t.card = nil
	plan := t.model.Plan()
	if h == nil || plan == nil {
		return
	}
	b := t.block(h.Part, h.Index)
	if b == nil {
		return
	}
	t.card = &card{h.Part, h.Index, b.Name, words.About(plan, b)}
	switch b.Part {
	case timeline.PartRise:
		t.card.title = b.Name + " rise"
	case timeline.PartEnder:
		if b.Name == "" {
			t.card.title = "no ender"
		}
	}
}

// placeCard is where a card of that size lies least in the way: near the
// pointer, off its block, and above all off the verdict and the meeting's
// stamp.
func placeCard(d *sheet.Drawing, h *sheet.Hot, pointer sheet.Point, w, high float64) sheet.Point {
	block := sheet.Area{Min: h.Min, Max: h.Max}
	head := sheet.Area{Max: sheet.Point{X: d.W, Y: d.Ruler.From}}
	best, least := sheet.Point{}, math.Inf(1)
	for _, y := range [...]float64{h.Min.Y - cardGap - high, h.Max.Y + cardGap, d.Ruler.From + 2, d.H - 2 - high} {
		for _, x := range [...]float64{pointer.X + 14, h.Max.X + cardGap, h.Min.X - cardGap - w, d.Flag.Max.X + cardGap, d.Flag.Min.X - cardGap - w} {
			at := sheet.Point{X: math.Round(math.Max(2, math.Min(x, d.Right-w))), Y: math.Round(math.Max(2, math.Min(y, d.H-2-high)))}
			over := sheet.Area{Min: at, Max: sheet.Point{X: at.X + w, Y: at.Y + high}}
			cost := 100*(over.Over(head)+over.Over(d.Flag)) + over.Over(block) + math.Hypot(at.X-pointer.X, at.Y-pointer.Y)
			if cost < least {
				best, least = at, cost
			}
		}
	}
	return best
}

// paintCard draws the card.
func (t *Timeline) paintCard(p *paint.Pen, d *sheet.Drawing) {
	c := t.card
	if c == nil || t.drag != nil || t.typed.open() || t.ghost != nil {
		return
	}
	h := t.hot(c.part, c.index)
	if h == nil {
		return
	}
	facts := c.facts[:min(len(c.facts), cardFacts)]
	names, values := float32(0), float32(0)
	for i := range facts {
		names = max(names, t.wrapper.WidthOf(facts[i].Name))
		values = max(values, t.wrapper.WidthOf(facts[i].Value))
	}
	values = min(values, cardWide)
	w := max(names+cardGap+values, min(t.wrapper.WidthOf(c.title)*1.1, cardWide)) + 2*cardPad
	high := float64(cardPad*2 + cardLine*(len(facts)+1))
	at := placeCard(d, h, t.pointer, float64(w), high)
	x, y := at.X, at.Y
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: y}, Max: sheet.Point{X: x + float64(w), Y: y + high}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	left, base := float32(x)+cardPad, float32(y)+cardPad+paint.TextSize-1
	title := paint.ColumnText(t.wrapper.Fit(c.title, w-2*cardPad), left, base, sheet.Ink)
	title.Bold = true
	p.Text(&title)
	for i := range facts {
		base += cardLine
		name := paint.ColumnText(facts[i].Name, left, base, sheet.Soft)
		p.Text(&name)
		value := paint.ColumnText(t.wrapper.Fit(facts[i].Value, values), left+names+cardGap, base, sheet.Ink)
		p.Text(&value)
	}
}
