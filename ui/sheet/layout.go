package sheet

import (
	"math"
	"slices"

	"wakeline/timeline/words"
)

// layout says where the lanes of a sheet lie, top to bottom. It depends on
// the sheet's size and on how many windows the blocks bear, never on the view
// or on the length of a text: nothing jumps while a hand drags or zooms. Only
// where the size of type is given does it depend on the sentence, which is then
// in full. All in units.
type layout struct {
	em     float64 // the size of plain text
	margin float64 // from the sheet's edge to its content
	frame  float64 // from the sheet's edge to the border line
	narrow bool    // the sentence stands under the stamp, not beside it

	headTop, headEnd float64
	stampW, stampH   float64

	rulerTop, rulerEnd float64
	airTop             float64 // the highest the arc may reach
	barA, groundA      float64 // the attacker's bars
	windowY            float64 // middle of the lane of safe delays
	odds               float64 // height of the lane of chances under it, 0 for none
	flagTop, flagEnd   float64 // the lane of the meeting's flag
	dimY               float64 // the line of gap and spare
	barB, groundB      float64 // the rival's bars
	nameB              float64 // baseline of the rival's names
	markTop, markRow   float64 // the windows' brackets, and the height of one row
	markRows           int
	kY                 float64 // the line of the advantage

	left, right float64 // the tracks
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(v, hi)) }

// layOut lays a sheet of that size out, with up to marks rows of brackets; a
// plan that never flies needs little air.
func layOut(o *Options, marks int, flies bool) layout {
	var l layout
	l.em = clamp(math.Min(8+o.W/190, o.H/28), 10.5, 22)
	if o.Em > 0 {
		l.em = o.Em
	}
	if o.low() {
		l.layLow(o)
		return l
	}
	em := l.em
	l.margin = clamp(em, 10, 20)
	l.frame = math.Round(l.margin * 0.45)
	l.narrow = o.W < 46*em
	l.header(o)

	l.left, l.right = l.margin, o.W-l.margin
	if o.W >= 520 {
		l.left += 7 * em
	}

	// The lanes at their least, then the rest is shared out.
	bar, air, flag := 1.7*em, 4*em, 2.1*em
	const ruler, window, dim, name, mark, k = 1.7, 1.45, 1.65, 1.35, 1.35, 1.5
	top := l.headEnd + 0.35*em
	fixed := (ruler + window + dim + name + k) * em
	rest := o.H - l.margin*0.8 - top - fixed - 2*bar - air - flag
	for l.markRows = min(marks, 4); l.markRows > 0 && float64(l.markRows)*mark*em > rest+1.2*em; {
		l.markRows--
	}
	rest -= float64(l.markRows) * mark * em
	if o.Odds != nil && rest >= 3*oddsLane*em { // the arc needs its room too
		l.odds = oddsLane * em
		rest -= l.odds
	}
	if rest < 0 { // a small sheet: the arc gives way
		air, rest = air+rest, 0
	}
	barMore := math.Min(0.09*rest, 2.2*em)
	flagMore := math.Min(0.10*rest, 1.6*em)
	airMore := math.Min(rest-2*barMore-flagMore, math.Max(0.42*(l.right-l.left), 20*em))
	if !flies {
		airMore = math.Min(airMore, 1.5*em)
	}
	slack := math.Max(0, rest-2*barMore-flagMore-airMore) / 3.9 // a tall, narrow sheet: spread the lanes
	bar, air, flag = bar+barMore, air+airMore, flag+flagMore

	l.rulerTop = top + slack*0.5
	l.rulerEnd = l.rulerTop + ruler*em
	l.airTop = l.rulerEnd + 0.7*em
	l.groundA = l.rulerEnd + air + bar
	l.barA = l.groundA - bar
	l.windowY = l.groundA + 0.8*em
	l.flagTop = l.groundA + window*em + l.odds + 0.1*flag + slack
	l.flagEnd = l.flagTop + 0.9*flag
	l.dimY = l.flagEnd + 0.7*em + slack*0.5
	l.barB = l.flagEnd + dim*em + slack
	l.groundB = l.barB + bar
	l.nameB = l.groundB + 1.1*em
	l.markTop = l.groundB + name*em + slack*0.3
	l.markRow = mark * em
	l.kY = l.markTop + float64(l.markRows)*l.markRow + 0.8*em + slack*0.5
	return l
}

// leastText is the size, in units, that no text of a drawing is smaller than:
// a sheet as wide as a phone, 480 pixels, stays legible.
const leastText = 9

// small is the size of a text that is less than plain.
func small(size float64) float64 { return math.Max(size, leastText) }

// header keeps room for the stamp, the title and the sentence.
func (l *layout) header(o *Options) {
	em := l.em
	l.headTop = l.margin
	pad := l.margin - l.frame
	if l.narrow {
		l.stampH = 3.5 * em
		l.stampW = math.Min(11.5*em, 0.40*(o.W-2*l.margin))
		lines := 3.0
		if o.H >= 34*em {
			lines = 4
		}
		if o.Em > 0 && (o.H >= 34*em || o.W >= 46*em) { // a picture of a video, and what is presented, have their sentence in full
			lines = math.Max(lines, l.linesOf(o, 8))
		}
		if o.H >= 50*em { // there is height to spare
			l.stampH, l.stampW = 5.5*em, math.Min(14.3*em, 0.46*(o.W-2*l.margin))
		}
		if o.Sentence == "" {
			lines = 0
		}
		l.headEnd = l.headTop + l.stampH + (lines*1.22+0.3)*em + pad*0.6
		return
	}
	lines := 2.0
	if o.H >= 38*em {
		lines = 3
	}
	stamp := func() {
		l.stampH = (3.3 + lines*1.3) * em
		l.stampW = l.stampH * 2.6
	}
	stamp()
	room := o.W - 2*l.margin - l.stampW - em
	fits := func(sentence string) bool {
		_, whole := wrap(sentence, leastSentence*em, false, room, int(lines))
		return whole || sentence == ""
	}
	if lines < 3 && (!fits(o.Sentence) || slices.ContainsFunc(o.also, func(s string) bool { return !fits(s) })) {
		lines = 3
		stamp()
	}
	if o.Em > 0 && !fits(o.Sentence) { // of large type: there is more room under the stamp
		l.narrow = true
		l.header(o)
		return
	}
	l.headEnd = l.headTop + l.stampH + pad
}

// linesOf is how many lines the longest sentence of those that stand in one
// place takes, at most most.
func (l *layout) linesOf(o *Options, most int) (n float64) {
	for _, s := range append([]string{o.Sentence}, o.also...) {
		lines, _ := wrap(s, l.em, false, o.W-2*l.margin, most)
		n = math.Max(n, float64(len(lines)))
	}
	return n
}

// leastSentence is the smallest size of the verdict's sentence, in ems.
const leastSentence = 0.9

// fitView is the view that shows all of scene s.
func fitView(s *words.Scene, l *layout) View {
	n := max(1, s.Span.Len())
	return View{float64(s.Span.From), (l.right - l.left) / float64(n)}
}
