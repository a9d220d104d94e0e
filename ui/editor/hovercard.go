package editor

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// The card's measures, in units.
const (
	CardLine  = 17
	CardPad   = 8
	cardGap   = 10 // from the names to the values, and from a block to the card
	cardWide  = 330
	cardFacts = 11 // at most
)

// card tells about the block under the pointer.
type card struct {
	Part  timeline.Part
	index int
	Title string
	Facts []words.Fact
}

// lookAt fills the card for the block under the pointer; empties it where
// there is none.
func (t *Timeline) lookAt(h *sheet.Hot) {
	t.Card = nil
	plan := t.model.Plan()
	if h == nil || plan == nil {
		return
	}
	b := t.block(h.Part, h.Index)
	if b == nil {
		return
	}
	t.Card = &card{h.Part, h.Index, b.Name, words.About(plan, b)}
	switch b.Part {
	case timeline.PartRise:
		t.Card.Title = b.Name + " rise"
	case timeline.PartEnder:
		if b.Name == "" {
			t.Card.Title = "no ender"
		}
	}
}

// PlaceCard is where a card of that size lies least in the way: near the
// pointer, off its block, and above all off the verdict and the meeting's
// stamp.
func PlaceCard(d *sheet.Drawing, h *sheet.Hot, pointer sheet.Point, w, high float64) sheet.Point {
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
	c := t.Card
	if c == nil || t.drag != nil || t.Typed.Open() || t.Ghost != nil {
		return
	}
	h := t.Hot(c.Part, c.index)
	if h == nil {
		return
	}
	facts := c.Facts[:min(len(c.Facts), cardFacts)]
	names, values := float32(0), float32(0)
	for i := range facts {
		names = max(names, t.wrapper.WidthOf(facts[i].Name))
		values = max(values, t.wrapper.WidthOf(facts[i].Value))
	}
	values = min(values, cardWide)
	w := max(names+cardGap+values, min(t.wrapper.WidthOf(c.Title)*1.1, cardWide)) + 2*CardPad
	high := float64(CardPad*2 + CardLine*(len(facts)+1))
	at := PlaceCard(d, h, t.pointer, float64(w), high)
	x, y := at.X, at.Y
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: y}, Max: sheet.Point{X: x + float64(w), Y: y + high}, Fill: sheet.Paper, Texture: sheet.Solid, Stroke: sheet.Ink, Width: 1})
	left, base := float32(x)+CardPad, float32(y)+CardPad+paint.TextSize-1
	title := paint.ColumnText(t.wrapper.Fit(c.Title, w-2*CardPad), left, base, sheet.Ink)
	title.Bold = true
	p.Text(&title)
	for i := range facts {
		base += CardLine
		name := paint.ColumnText(facts[i].Name, left, base, sheet.Soft)
		p.Text(&name)
		value := paint.ColumnText(t.wrapper.Fit(facts[i].Value, values), left+names+cardGap, base, sheet.Ink)
		p.Text(&value)
	}
}
