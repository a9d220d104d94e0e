package sheet

import "math"

// The smallest band, and the least height of a low sheet, that hold their text.
const (
	minBandW = 440
	minLowH  = 110
)

// low reports whether the sheet's lanes are as close together as they can be.
func (o *Options) low() bool { return o.Band || o.Tight }

// leastLowW is how wide a low sheet is at least.
func (o *Options) leastLowW() float64 {
	if o.Band {
		return minBandW
	}
	return MinW
}

// bandColumn is the part of a band's width that its answer takes.
const bandColumn = 0.27

// column is the part of a band's width that its answer takes.
func (o *Options) column() float64 {
	if o.Column > 0 {
		return o.Column
	}
	return bandColumn
}

// headLines are how many lines of a sentence a short head has room for.
const headLines = 3

// layLow lays a low sheet out: the answer in a column beside the tracks, or in
// a short head over them, and no room for windows.
func (l *layout) layLow(o *Options) {
	em := l.em
	l.margin = 0.8 * em
	l.frame = math.Round(l.margin * 0.4)
	l.headTop, l.headEnd = l.margin, o.H-l.margin
	l.stampH = 2.3 * em
	l.right = o.W - l.margin
	head := 0.0
	if o.Band {
		l.stampW = math.Min(o.column()*o.W, 7.6*em)
		l.left = l.margin + o.column()*o.W + 1.2*em
	} else {
		l.stampW = 7.6 * em
		l.left = l.margin
		l.headEnd = l.headTop + l.stampH + 0.5*em
		if o.Sentence != "" {
			l.headEnd += 1.22 * headLines * em
		}
		head = l.headEnd
	}
	l.rulerTop = head + 0.5*l.margin

	const ruler, window, flag, dim, name = 1.5, 0.95, 1.5, 1.15, 1.8
	bar := 1.1 * em
	air := math.Max(0, o.H-head-0.9*l.margin-(ruler+window+flag+dim+name)*em-2*bar)
	if air > 5*em { // there is height to spare
		more := (air - 5*em) / 6
		bar, air = bar+more, air-2*more
	}
	l.rulerEnd = l.rulerTop + ruler*em
	l.airTop = l.rulerEnd + 0.3*em
	l.groundA = l.rulerEnd + air + bar
	l.barA = l.groundA - bar
	l.windowY = l.groundA + 0.75*em
	l.flagTop = l.groundA + window*em
	l.flagEnd = l.flagTop + flag*em
	l.dimY = l.flagEnd + 0.55*em
	l.barB = l.flagEnd + dim*em
	l.groundB = l.barB + bar
	l.nameB = l.groundB + 1.1*em
	l.markTop, l.markRow = l.groundB, em
	l.kY = l.groundB + 0.95*em
}

// column is the answer of a band: the stamp, the setup, and the sentence.
func (p *pen) column() {
	em := p.em
	x, y, room := p.margin, p.headTop, p.o.column()*p.o.W
	p.stamp(p.s.Verdict.Judgement(), x, y, p.stampW, p.stampH)
	y += p.stampH + 0.2*em
	title := 1.25 * em
	if TextWidth(clean(p.s.Setup), title, true) > room {
		title = em
	}
	p.write(Text{At: Point{x, y + title}, Str: fit(clean(p.s.Setup), title, true, room), Size: title, Bold: true, Role: Ink})
	y += title + 0.45*em
	p.sentence(x, y, room, p.headEnd)
	p.line(p.left-0.7*em, p.frame, p.left-0.7*em, p.o.H-p.frame, thin, Ink)
}

// shortHead is the answer over the tracks: the stamp with the setup beside it,
// and the sentence under both.
func (p *pen) shortHead() {
	em := p.em
	x, y, title := p.margin, p.headTop, 1.35*p.em
	p.stamp(p.s.Verdict.Judgement(), x, y, p.stampW, p.stampH)
	tx := x + p.stampW + em
	p.write(Text{At: Point{tx, y + p.stampH/2 + 0.36*title}, Str: fit(clean(p.s.Setup), title, true, p.right-tx), Size: title, Bold: true, Role: Ink})
	p.sentence(x, y+p.stampH+0.15*em, p.right-x, p.headEnd-0.2*em)
}
