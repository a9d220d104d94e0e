package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// The smallest side view that holds its text.
const (
	MinSideW = 320
	MinSideH = 160
)

// saysH is the height of one that is a sentence.
const saysH = 64

// SideHeight is a good height for a side view of that width.
func SideHeight(v *words.SideView, w float64) float64 {
	if !v.Known {
		return saysH
	}
	return math.Round(clamp(0.14*w+120, MinSideH, 460))
}

// SideOptions say how a side view is drawn.
type SideOptions struct {
	W, H  float64 // in units of the drawing; at least MinSideW and MinSideH
	Frame int
	Rows  int   // kept for reaches, where another view in its place has more
	View  *View // units of the axis in place of frames; nil: all that any frame needs

	Em    float64 // the size of plain text, in units; 0: by the view's size
	Tight bool    // a small one: names stand beside what is said of the frame
}

// The smallest tight view that holds its text, in ems.
const (
	tightW = 19
	tightH = 9
)

// SideSweep draws side views one after another, each on the frame that tells
// most, so that nothing but the fighters moves.
func SideSweep(views []words.SideView, o SideOptions) []*Drawing {
	low, high := 0, 0
	for i := range views {
		v := &views[i]
		low, high = min(low, v.Low), max(high, v.High)
		o.Rows = max(o.Rows, v.Blows())
	}
	out := make([]*Drawing, len(views))
	for i := range views {
		v := views[i]
		v.Low, v.High, o.Frame = low, high, v.Frame
		out[i] = DrawSide(&v, o)
	}
	return out
}

// sidePen draws both sides from the side, on one frame.
type sidePen struct {
	pen
	v       *words.SideView
	f       int
	ground  float64 // the height of the ground line
	airTop  float64 // the highest that a head may be
	high    float64 // units of the drawing for a unit of height
	lanes   float64 // where the reaches begin
	laneRow float64
	dimY    float64
}

// DrawSide draws where both stand on one frame: the ground with its units, the
// wall, both bodies, the jump's way, each reach as a bar from its owner, and
// how far both are apart. In the drawing's View a unit of the axis stands for
// a frame. Where nothing is known it is a sentence.
func DrawSide(v *words.SideView, o SideOptions) *Drawing {
	leastW, leastH := float64(MinSideW), float64(MinSideH)
	if o.Em > 0 && o.Tight {
		leastW, leastH = tightW*o.Em, tightH*o.Em
	}
	o.W, o.H = atLeast(o.W, leastW), atLeast(o.H, saysH)
	if v.Known {
		o.H = atLeast(o.H, leastH)
	}
	p := &sidePen{v: v, f: o.Frame}
	p.em = clamp(math.Min(8+o.W/190, o.H/13), 10.5, 22)
	if o.Em > 0 {
		p.em = o.Em
	}
	em := p.em
	p.margin = clamp(em, 10, 20)
	if o.Tight {
		p.margin = 0.8 * em
	}
	p.frame = math.Round(p.margin * 0.45)
	p.left, p.right = p.margin, o.W-p.margin
	if o.W >= 520 {
		p.left += 7 * em
	}
	p.d = &Drawing{W: o.W, H: o.H, Left: p.left, Right: p.right, Em: em, View: View{0, 1}, Desc: clean(v.On(o.Frame))}
	p.box(Box{Max: Point{o.W, o.H}, Fill: Paper, Texture: Solid})
	p.box(Box{Min: Point{p.frame, p.frame}, Max: Point{o.W - p.frame, o.H - p.frame}, Stroke: Ink, Width: medium * em})
	if !v.Known {
		p.missing()
	} else {
		p.layOut(&o)
		p.caption()
		p.axis()
		p.wall()
		p.way()
		p.figures()
		p.apart()
		p.names()
		p.reaches()
		p.units()
	}
	p.d.Shapes = append(p.d.Shapes, p.texts...)
	return p.d
}

// missing says in place of the view why there is none.
func (p *sidePen) missing() {
	lines, _ := wrap(clean(p.v.Missing), p.em, false, p.d.W-4*p.margin, 4)
	y := p.d.H/2 - 0.65*p.em*float64(len(lines)-1) + 0.35*p.em
	for i, l := range lines {
		p.write(Text{At: Point{p.d.W / 2, y + 1.3*p.em*float64(i)}, Str: l, Size: p.em, Role: Soft, Anchor: AtMiddle})
	}
}

// layOut says where everything lies. Nothing of it hangs on the frame.
func (p *sidePen) layOut(o *SideOptions) {
	em, view := p.em, o.View
	p.laneRow = 1.4 * em
	p.dimY = p.d.H - p.frame - 0.95*em
	p.lanes = p.dimY - 0.75*em - p.laneRow*float64(max(o.Rows, p.v.Blows()))
	p.ground = p.lanes - 1.35*em
	p.airTop = p.frame + 1.7*em + 1.25*em // the caption, and a name over a head
	if o.Tight {
		p.airTop = p.frame + 1.9*em
	}

	low, high := float64(p.v.Low), float64(p.v.High)
	if w := p.v.Wall; w.Given && float64(w.N) <= high+0.6*(high-low) {
		high = math.Max(high, float64(w.N))
	}
	air := 0.06 * math.Max(high-low, 1)
	low, high = low-air, high+air
	scale := math.Min((p.right-p.left)/(high-low), 6)
	p.d.View = View{(low+high)/2 - (p.right-p.left)/2/scale, scale}
	if view != nil && view.Scale > 0 && !math.IsNaN(view.From) {
		p.d.View = View{clamp(view.From, -farthest*10, farthest*10), clamp(view.Scale, 1e-6, maxScale)}
	}
	p.high = math.Min(p.d.View.Scale, (p.ground-p.airTop)/float64(max(1, p.v.Top())))
	p.d.Top, p.d.Bottom = Band{p.airTop, p.ground}, Band{p.lanes, p.dimY}
}

// at is where a post stands in the drawing.
func (p *sidePen) at(q timeline.Post) Point {
	return Point{p.d.X(float64(q.X) / timeline.PerUnit), p.ground - float64(q.Height)/timeline.PerUnit*p.high}
}

// unitStep is the finest step of units whose numbers don't crowd.
func (p *sidePen) unitStep() int {
	room := TextWidth("-0000", p.numberSize(), false) + 0.8*p.em
	for n := 1; n < 1<<40; n *= 10 {
		for _, k := range [...]int{n, 2 * n, 5 * n} {
			if float64(k)*p.d.View.Scale >= room {
				return k
			}
		}
	}
	return 1 << 40
}

// axis is the ground line with its units.
func (p *sidePen) axis() {
	em, end := p.em, p.right
	if w := p.v.Wall; w.Given {
		end = clamp(p.x(w.N), p.left, p.right)
	}
	p.line(p.left, p.ground, end, p.ground, medium, Ink)
	step := p.unitStep()
	minor := step / 5
	if step < 5 || float64(minor)*p.d.View.Scale < 0.35*em {
		minor = step
	}
	from, to := p.frames()
	for n := floorTo(from+minor-1, minor); n <= to && p.x(n) <= end+0.01; n += minor {
		long := 0.2
		if n%step == 0 {
			long = 0.4
		}
		p.line(p.x(n), p.ground, p.x(n), p.ground+long*em, hair, Ink)
	}
}

// units writes the numbers of the ground line, and names the rows.
func (p *sidePen) units() {
	step := p.unitStep()
	from, to := p.frames()
	y := p.ground + 1.15*p.em
	for n := floorTo(from+step-1, step); n <= to; n += step {
		if w := p.v.Wall; w.Given && n > w.N {
			break
		}
		p.place(Text{Str: strconv.Itoa(n), Size: p.numberSize(), Role: Soft}, spot{p.x(n), y, AtMiddle})
	}
	p.inMargin("units", y)
	for i, n := range [...]int{len(p.v.Attacker.Blows), len(p.v.Rival.Blows)} {
		if n > 0 {
			k := float64(i * len(p.v.Attacker.Blows))
			p.inMargin([...]string{"attacker's reach", "rival's reach"}[i], p.lanes+(k+0.5)*p.laneRow+0.3*p.em)
		}
	}
	p.inMargin("distance", p.dimY+0.3*p.em)
}

// wall is the wall behind the rival, hatched on its far side.
func (p *sidePen) wall() {
	w := p.v.Wall
	if !w.Given {
		return
	}
	em, x := p.em, p.x(w.N)
	size := small(0.85 * em)
	if !p.inView(x) {
		return
	}
	top := p.airTop - 0.4*em
	if to := math.Min(x+1.1*em, p.d.W-p.frame); to > x {
		p.box(Box{Min: Point{x, top}, Max: Point{to, p.ground}, Fill: Ink, Texture: Hatch})
	}
	p.line(x, top, x, p.ground, thick, Ink)
	p.take(x-0.1*em, top, x+1.1*em, p.ground)
	p.place(Text{Str: "wall", Size: size, Role: Ink}, spot{x + 0.4*em, top - 0.3*em, AtMiddle}, spot{x - 0.5*em, top + 0.9*em, AtEnd})
	p.grip(timeline.PartWall, Point{x - 0.7*em, top}, Point{x + 1.1*em, p.ground + 0.5*em})
}

// grip makes a place to take hold of.
func (p *sidePen) grip(part timeline.Part, lo, hi Point) {
	lo.X, hi.X = math.Max(lo.X, p.left), math.Min(hi.X, p.right)
	if hi.X > lo.X {
		p.d.Hots = append(p.d.Hots, Hot{part, 0, lo, hi})
	}
}

// way is the jump's way in space: thin in the air, thicker while the attack is
// out, heavy where it is active, and hollow where it is but touches nobody.
func (p *sidePen) way() {
	path := p.v.Path
	if len(path) < 2 {
		return
	}
	piece := func(s timeline.Span) []Point { // each frame up to the next
		from, to := s.From-(p.v.Air.From-1), s.To-(p.v.Air.From-1)
		var out []Point
		for k := max(from, 0); k <= min(to, len(path)-1); k++ {
			out = append(out, p.at(path[k]))
		}
		return p.inside(out)
	}
	stroke := func(width float64, role Role, s timeline.Span) {
		if pts := piece(s); len(pts) > 1 {
			p.path(width, role, pts...)
		}
	}
	const heavy, core = 0.62, 0.36
	stroke(thin, Ink, timeline.Span{From: p.v.Air.From - 1, To: p.v.Air.To})
	stroke(thick, Ink, p.v.Attack)
	for _, s := range p.v.Active {
		stroke(heavy, Ink, s)
		if pts := piece(s); len(pts) > 1 && pts[0] != pts[1] {
			p.path(core, Paper, shorter(pts, medium*p.em)...)
		}
	}
	for _, s := range p.v.Touches {
		stroke(heavy, Ink, s)
	}
	for _, q := range path {
		a := p.at(q)
		p.take(a.X-0.2*p.em, a.Y-0.2*p.em, a.X+0.2*p.em, a.Y+0.2*p.em)
	}
	if down := p.at(path[len(path)-1]); p.inView(down.X) {
		p.line(down.X, p.ground-0.7*p.em, down.X, p.ground+0.4*p.em, medium, Ink)
		p.grip(timeline.PartTouchdown, Point{down.X - 0.7*p.em, p.ground - 1.2*p.em}, Point{down.X + 0.7*p.em, p.ground + 0.6*p.em})
	}
}

// inside is a line of points without those out of view.
func (p *sidePen) inside(in []Point) []Point {
	out := in[:0]
	for _, q := range in {
		if p.inView(q.X) {
			out = append(out, q)
		}
	}
	return out
}

// figures draws both bodies, and where the rival lay if its rise moved it.
func (p *sidePen) figures() {
	if p.v.Rises != p.v.Distance && p.f >= p.v.Wake {
		lay := timeline.Post{X: p.v.Distance * timeline.PerUnit, Phase: timeline.Lying}
		if r := p.bodyRect(&p.v.Rival, lay); p.inView(r.x0) && p.inView(r.x1) {
			p.outline(r.x0, r.y0, r.x1, r.y1, false, false, true)
		}
	}
	p.figure(&p.v.Rival)
	p.figure(&p.v.Attacker)
	r := p.bodyRect(&p.v.Rival, p.v.Rival.At(p.f))
	p.grip(timeline.PartPlace, Point{r.x0 - 0.4*p.em, r.y0}, Point{r.x1 + 0.4*p.em, p.ground + 0.4*p.em})
}

// bodyRect is where a body is drawn: slim, as heights and the axis have scales
// of their own.
func (p *sidePen) bodyRect(g *timeline.Figure, q timeline.Post) rect {
	at := p.at(q)
	tall := math.Max(float64(g.Tall)*p.high, 0.8*p.em)
	wide := math.Max(math.Min(float64(g.Width)*p.d.View.Scale, 0.42*tall), 0.5*p.em)
	if q.Phase == timeline.Lying {
		wide, tall = tall, math.Max(0.2*tall, 0.35*p.em)
	}
	return rect{at.X - wide/2, at.Y - tall, at.X + wide/2, at.Y}
}

// figure draws one body as what it does on the frame is drawn on the sheet,
// with a beak where it faces.
func (p *sidePen) figure(g *timeline.Figure) {
	q := g.At(p.f)
	em, r := p.em, p.bodyRect(g, q)
	if !p.inView(r.x0) || !p.inView(r.x1) {
		return
	}
	b := Box{Min: Point{r.x0, r.y0}, Max: Point{r.x1, r.y1}, Fill: Paper, Texture: Solid}
	p.box(b)
	b.Fill = Ink
	switch q.Phase {
	case timeline.Startup, timeline.Between:
		b.Texture = Hatch
		p.box(b)
	case timeline.Active:
		p.box(b)
	case timeline.Recovery:
		b.Texture = Dots
		p.box(b)
	}
	p.outline(r.x0, r.y0, r.x1, r.y1, false, false, q.Phase == timeline.Waiting)
	if at := p.at(q); q.Phase != timeline.Lying && q.Height == 0 { // how wide it stands
		half, end := float64(g.Width)/2*p.d.View.Scale, p.right
		if w := p.v.Wall; w.Given {
			end = math.Min(end, math.Max(p.x(w.N), r.x1))
		}
		p.line(clamp(at.X-half, p.left, p.right), at.Y, clamp(at.X+half, p.left, end), at.Y, thick, Ink)
	}
	front := r.x1
	if q.Facing < 0 {
		front = r.x0
	}
	if q.Phase == timeline.Guarding || q.Phase == timeline.Parrying { // a wall at its front
		p.line(front, r.y0, front, r.y1, thick*1.4, Ink)
	}
	if q.Phase != timeline.Lying {
		y, deep := r.y0+0.2*(r.y1-r.y0), 0.5*em*float64(q.Facing)
		p.fill(Ink, Point{front, y - 0.32*em}, Point{front + deep, y}, Point{front, y + 0.32*em})
	}
	p.take(r.x0-0.5*em, r.y0, r.x1+0.5*em, r.y1)
}

// names names both over their heads, and says where a wall out of view is.
func (p *sidePen) names() {
	em := p.em
	if w := p.v.Wall; w.Given && p.x(w.N) > p.right {
		p.place(Text{Str: "wall at " + strconv.Itoa(w.N), Size: small(0.85 * em), Role: Soft}, spot{p.right, p.frame + 2.7*em, AtEnd})
	}
	for _, g := range [...]*timeline.Figure{&p.v.Attacker, &p.v.Rival} {
		q := g.At(p.f)
		r := p.bodyRect(g, q)
		mid := (r.x0 + r.x1) / 2
		named := func(most float64) Text {
			return Text{Str: fit(clean(g.Name), 0.95*em, true, most*(p.right-p.left)), Size: 0.95 * em, Bold: true, Role: Ink}
		}
		near := false
		for _, most := range [...]float64{0.42, 0.25, 0.14} {
			t := named(most)
			w, y := TextWidth(t.Str, t.Size, true), r.y0-0.4*em
			in := clamp(mid, p.left+w/2, math.Max(p.left+w/2, p.right-w/2))
			spots := []spot{{in, y, AtMiddle}}
			for _, up := range [...]float64{1.2, 2.6} {
				if y-up*em-em > p.frame {
					spots = append(spots, spot{in, y - up*em, AtMiddle})
				}
			}
			for _, base := range [...]float64{r.y0 + 0.9*em, p.ground - 0.5*em} {
				spots = append(spots, spot{r.x1 + 0.8*em, base, AtStart}, spot{r.x0 - 0.8*em, base, AtEnd})
			}
			if near = p.place(t, spots...); near {
				break
			}
		}
		if !near {
			p.nameApart(named(0.25), r)
		}
	}
}

// nameApart names a body that stands among others on the nearest free place
// beside it, with a line that leads there.
func (p *sidePen) nameApart(t Text, r rect) {
	em := p.em
	for k := 1.6; k < 20; k += 0.4 {
		for _, base := range [...]float64{r.y0 + 0.9*em, r.y0 - 0.4*em, r.y0 - 1.6*em} {
			if base-em < p.frame {
				continue
			}
			y := base - 0.34*t.Size
			if from := (Point{r.x1, r.y0 + 0.3*em}); p.place(t, spot{from.X + k*em, base, AtStart}) {
				p.line(from.X, from.Y, from.X+(k-0.25)*em, y, hair, Ink)
				return
			}
			if from := (Point{r.x0, r.y0 + 0.3*em}); p.place(t, spot{from.X - k*em, base, AtEnd}) {
				p.line(from.X, from.Y, from.X-(k-0.25)*em, y, hair, Ink)
				return
			}
		}
	}
}

// reaches draws each reach as a bar from its owner, in rows under the ground.
func (p *sidePen) reaches() {
	row := 0
	for _, g := range [...]*timeline.Figure{&p.v.Attacker, &p.v.Rival} {
		for i := range g.Blows {
			p.reach(g, &g.Blows[i], p.lanes+(float64(row)+0.5)*p.laneRow)
			row++
		}
	}
}

// within reports whether one of spans has the frame.
func within(spans []timeline.Span, f int) bool {
	for _, s := range spans {
		if s.Has(f) {
			return true
		}
	}
	return false
}

func (p *sidePen) reach(g *timeline.Figure, b *timeline.Blow, y float64) {
	em, q := p.em, g.At(p.f)
	axis := float64(q.X) / timeline.PerUnit
	near, far := p.d.X(axis+float64(q.Facing*b.Reach.Near)), p.d.X(axis+float64(q.Facing*b.Reach.Far))
	own := p.d.X(axis)
	if cx := clamp(own, p.left, p.right); b.Reach.Near > 0 {
		p.line(cx, y, clamp(near, p.left, p.right), y, thin, Ink)
	}
	x0, x1 := math.Min(near, far), math.Max(near, far)
	openL, openR := x0 < p.left-0.01, x1 > p.right+0.01
	x0, x1 = clamp(x0, p.left, p.right), clamp(x1, p.left, p.right)
	h := 0.34 * em
	box := Box{Min: Point{x0, y - h}, Max: Point{x1, y + h}, Fill: Ink}
	dashed := false
	switch {
	case within(b.Touches, p.f):
		box.Texture = Solid
	case within(b.Active, p.f):
		p.box(Box{Min: box.Min, Max: box.Max, Stroke: Ink, Width: thick * em})
	case !b.Span.Has(p.f):
		dashed = true
	case p.f < b.Active[0].From:
		box.Texture = Hatch
	default:
		box.Texture = Dots
	}
	if x1 > x0 {
		if box.Texture != Blank {
			p.box(box)
		}
		p.outline(x0, y-h, x1, y+h, openL, openR, dashed)
	}
	p.take(math.Min(x0, own)-0.1*em, y-h, math.Max(x1, own)+0.1*em, y+h)
	size := small(0.85 * em)
	span := " " + strconv.Itoa(b.Reach.Near) + " to " + strconv.Itoa(b.Reach.Far)
	for _, most := range [...]float64{20, 11, 6, 0} {
		t := Text{Str: fit(clean(b.Name), size, false, most*em) + span, Size: size, Role: Ink}
		if most == 0 {
			t.Str = span[1:]
		}
		if p.insist(t, spot{math.Max(x1, own) + 0.5*em, y + 0.34*size, AtStart}, spot{math.Min(x0, own) - 0.5*em, y + 0.34*size, AtEnd}) {
			return
		}
	}
}

// apart is the distance between both as a dimension line, with the axis of
// each body down to it.
func (p *sidePen) apart() {
	em, y := p.em, p.dimY
	a, b := p.at(p.v.Attacker.At(p.f)).X, p.at(p.v.Rival.At(p.f)).X
	for _, x := range [...]float64{a, b} {
		if p.inView(x) {
			p.line(x, p.ground, x, y+0.3*em, hair, Ink)
			p.line(x-0.25*em, y+0.25*em, x+0.25*em, y-0.25*em, medium, Ink)
			p.take(x-0.12*em, p.ground+0.4*em, x+0.12*em, p.lanes)
			p.edges[p.nedges] = rect{x - 0.12*em, p.lanes, x + 0.12*em, y - 0.75*em}
			p.nedges++
		}
	}
	x0, x1 := clamp(math.Min(a, b), p.left, p.right), clamp(math.Max(a, b), p.left, p.right)
	t := Text{Str: p.v.Gap(p.f), Size: em, Bold: true, Role: Ink}
	w, mid, pad := TextWidth(t.Str, em, true), (x0+x1)/2, 0.35*em
	if x1-x0 > w+2*pad+0.8*em && p.place(t, spot{mid, y + 0.36*em, AtMiddle}) {
		p.line(x0, y, mid-w/2-pad, y, thin, Ink)
		p.line(mid+w/2+pad, y, x1, y, thin, Ink)
		return
	}
	p.line(x0, y, x1, y, thin, Ink)
	p.place(t, spot{x1 + 0.6*em, y + 0.36*em, AtStart}, spot{x0 - 0.6*em, y + 0.36*em, AtEnd})
}

// caption says which frame this is, and what meets on it.
func (p *sidePen) caption() {
	em, y := p.em, p.frame+1.35*p.em
	x := p.margin
	say := "frame " + strconv.Itoa(p.f)
	p.write(Text{At: Point{x, y}, Str: say, Size: em, Bold: true, Role: Ink})
	x += TextWidth(say, em, true) + 0.9*em
	end := p.d.W - p.margin
	against := "against " + clean(p.v.Reply)
	if p.v.Tells(p.f) {
		j := p.v.Judgement
		t := Text{At: Point{end, y}, Str: p.v.Cell.Outcome.String(), Size: em, Bold: true, Role: RoleOf(j), Anchor: AtEnd}
		p.write(t)
		end -= TextWidth(t.Str, em, true) + 1.3*em
		p.mark(j, end, y-0.75*em, 0.8*em, 0.15*em, RoleOf(j))
		end -= 0.9 * em
		if p.v.Why != "" {
			against += ": " + clean(p.v.Why)
		}
	}
	p.write(Text{At: Point{x, y}, Str: fit(against, em, false, end-x), Size: em, Role: Soft})
}

// Under is a drawing with another one under it.
func Under(d, below *Drawing) *Drawing { return joined(d, below, Point{0, d.H}) }

// Beside is a drawing with another one on its right.
func Beside(d, right *Drawing) *Drawing { return joined(d, right, Point{d.W, 0}) }

// joined is a drawing with another one that begins at a place outside it.
func joined(d, other *Drawing, at Point) *Drawing {
	out := *d
	out.W, out.H = math.Max(d.W, at.X+other.W), math.Max(d.H, at.Y+other.H)
	out.Shapes = make([]Shape, 0, len(d.Shapes)+len(other.Shapes))
	out.Shapes = append(out.Shapes, Box{Max: Point{out.W, out.H}, Fill: Paper, Texture: Solid})
	out.Shapes = append(out.Shapes, d.Shapes[1:]...)
	out.Shapes = append(out.Shapes, other.from(at)...)
	if other.Desc != "" {
		out.Desc += " " + other.Desc
	}
	return &out
}

// from are the drawing's shapes, without its ground, where it begins at a place.
func (d *Drawing) from(at Point) (out []Shape) {
	for _, s := range d.Shapes[1:] {
		out = append(out, moved(s, at.X, at.Y))
	}
	return out
}
