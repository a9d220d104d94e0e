package paint

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"golang.org/x/image/vector"

	"wakeline/ui/sheet"
)

// What a stamp shows.
type stampKind uint8

const (
	noStamp stampKind = iota
	hatchKind
	dotsKind
	dashKind
	pathKind
	textKind
)

func textureKind(t sheet.Texture) stampKind {
	if t == sheet.Dots {
		return dotsKind
	}
	return hatchKind
}

// stampKey says what a stamp's picture shows: equal keys have equal pictures.
type stampKey struct {
	kind         stampKind
	w, h         int // pixels
	role, stroke sheet.Role
	width        float32 // of a line, or the size of a text, in pixels
	closed       bool
	bold         bool
	text         string
	points       uint64 // of a path: their hash
}

// stamps are the objects that show one picture: what no plain object can
// show. They are painted once and then only moved.
type stamps struct {
	picture *image.RGBA
	objects []*canvas.Image
	used    int // of the objects, on the sheet of that serial
	serial  int
}

// dot is a point of a path in eighths of a pixel, from its picture's corner.
type dot struct{ x, y int32 }

const (
	dotsPerPixel = 8
	maxStamp     = 8192 // pixels, a side
	MostStamps   = 768  // pictures kept: what a long drag over many frames needs
)

// stamp adds the picture of k with its corner on pixel (x, y).
func (p *Pen) stamp(k stampKey, points []dot, x, y int) {
	if k.w <= 0 || k.h <= 0 || k.w > maxStamp || k.h > maxStamp {
		return // nothing, or nothing that a sheet cut to its tracks has
	}
	s := p.Stamps[k]
	if s == nil {
		s = &stamps{picture: p.paint(k, points)}
		p.Stamps[k] = s
	}
	if s.serial != p.Serial {
		s.serial, s.used = p.Serial, 0
	}
	if s.used == len(s.objects) {
		img := canvas.NewImageFromImage(s.picture)
		img.ScaleMode = canvas.ImageScalePixels
		img.Resize(fyne.NewSize(p.units(k.w), p.units(k.h)))
		img.Refresh() // learns its aspect
		s.objects = append(s.objects, img)
	}
	img := s.objects[s.used]
	s.used++
	img.Move(fyne.NewPos(p.units(x), p.units(y)))
	p.Objects = append(p.Objects, img)
}

// forget lets go of pictures that the last sheet did not show, once there are
// many.
func (p *Pen) forget() {
	if len(p.Stamps) <= MostStamps {
		return
	}
	for k, s := range p.Stamps {
		if s.serial != p.Serial {
			delete(p.Stamps, k)
		}
	}
}

func (p *Pen) paint(k stampKey, points []dot) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, k.w, k.h))
	switch k.kind {
	case hatchKind:
		paintHatch(img, p.Palette.Ink[k.role], float64(p.scale))
	case dotsKind:
		paintDots(img, p.Palette.Ink[k.role], float64(p.scale))
	case dashKind:
		paintDash(img, p.Palette.Ink[k.role], k.width, float64(p.scale))
	case textKind:
		builtInLetters().paint(img, k.text, k.width, k.bold, p.Palette.Ink[k.role])
	case pathKind:
		if k.role != sheet.None {
			fillPath(img, points, p.Palette.Ink[k.role])
		}
		if k.stroke != sheet.None {
			strokePath(img, points, k.closed, k.width, p.Palette.Ink[k.stroke])
		}
	}
	return img
}

// Path adds a run of straight pieces as a stamp.
func (p *Pen) Path(s *sheet.Path) {
	if len(s.Points) < 2 {
		return
	}
	k := stampKey{kind: pathKind, closed: s.Closed}
	if s.Closed {
		k.role = s.Fill
	}
	if s.Width > 0 {
		k.stroke, k.width = s.Stroke, max(1, float32(s.Width)*p.scale)
	}
	if k.role == sheet.None && k.stroke == sheet.None {
		return
	}
	lo, hi := s.Points[0], s.Points[0]
	for _, q := range s.Points[1:] {
		lo = sheet.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = sheet.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	// The picture is told from its own corner, which lies on a whole pixel:
	// a path that only moves keeps its picture.
	f, margin := float64(p.scale), int(math.Ceil(float64(k.width)*mostMiter/2))+1
	k.w, k.h = int(math.Ceil((hi.X-lo.X)*f-nearly))+2*margin, int(math.Ceil((hi.Y-lo.Y)*f-nearly))+2*margin
	p.dots, k.points = p.dots[:0], hashStart
	of := func(v, lo float64) int32 {
		return int32(math.Floor(((v-lo)*f+float64(margin))*dotsPerPixel + 0.5 + nearly))
	}
	for _, q := range s.Points {
		d := dot{of(q.X, lo.X), of(q.Y, lo.Y)}
		p.dots = append(p.dots, d)
		k.points = (k.points ^ uint64(uint32(d.x)) ^ uint64(uint32(d.y))<<32) * hashPrime
		k.points ^= k.points >> 29
	}
	p.stamp(k, p.dots, p.Px(lo.X)-margin, p.Px(lo.Y)-margin)
}

const (
	nearly    = 1e-6 // units and pixels closer than this are one
	hashStart = 14695981039346656037
	hashPrime = 1099511628211
)

// paintHatch lays the sheet's slanting lines over img.
func paintHatch(img *image.RGBA, c color.RGBA, scale float64) {
	b := boxOf(img, scale)
	z := vector.NewRasterizer(img.Rect.Dx(), img.Rect.Dy())
	for _, l := range sheet.HatchLines(&b) {
		bar(z, float32(l[0].X*scale), float32(l[0].Y*scale), float32(l[1].X*scale), float32(l[1].Y*scale), float32(sheet.HatchWidth*scale))
	}
	z.Draw(img, img.Rect, image.NewUniform(c), image.Point{})
}

// paintDots lays the sheet's dots over img.
func paintDots(img *image.RGBA, c color.RGBA, scale float64) {
	b := boxOf(img, scale)
	z := vector.NewRasterizer(img.Rect.Dx(), img.Rect.Dy())
	half := float32(sheet.DotSide * scale / 2)
	for _, q := range sheet.DotCentres(&b) {
		x, y := float32(q.X*scale), float32(q.Y*scale)
		bar(z, x-half, y, x+half, y, 2*half)
	}
	z.Draw(img, img.Rect, image.NewUniform(c), image.Point{})
}

func boxOf(img *image.RGBA, scale float64) sheet.Box {
	return sheet.Box{Max: sheet.Point{X: float64(img.Rect.Dx()) / scale, Y: float64(img.Rect.Dy()) / scale}}
}

// paintDash lays the strokes of a dashed line along the longer side of img.
func paintDash(img *image.RGBA, c color.RGBA, width float32, scale float64) {
	on, off := sheet.Dashes(float64(width) / scale)
	long, all := int(math.Round(on*scale)), int(math.Round((on+off)*scale))
	tall := img.Rect.Dy() > img.Rect.Dx()
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			at := x
			if tall {
				at = y
			}
			if at%all < long {
				img.SetRGBA(x, y, c)
			}
		}
	}
}

func fillPath(img *image.RGBA, points []dot, c color.RGBA) {
	z := vector.NewRasterizer(img.Rect.Dx(), img.Rect.Dy())
	for i, q := range points {
		if i == 0 {
			z.MoveTo(q.at())
		} else {
			z.LineTo(q.at())
		}
	}
	z.ClosePath()
	z.Draw(img, img.Rect, image.NewUniform(c), image.Point{})
}

// strokePath draws the pieces as bars with pointed joints, as files have them.
func strokePath(img *image.RGBA, points []dot, closed bool, width float32, c color.RGBA) {
	z := vector.NewRasterizer(img.Rect.Dx(), img.Rect.Dy())
	n := len(points)
	for i := range n {
		if i == n-1 && !closed {
			break
		}
		ax, ay := points[i].at()
		bx, by := points[(i+1)%n].at()
		bar(z, ax, ay, bx, by, width)
		if i > 0 || closed {
			px, py := points[(i+n-1)%n].at()
			joint(z, px, py, ax, ay, bx, by, width)
		}
	}
	z.Draw(img, img.Rect, image.NewUniform(c), image.Point{})
}

// bar adds a straight stroke with flat ends.
func bar(z *vector.Rasterizer, ax, ay, bx, by, width float32) {
	ux, uy, ok := unit(ax, ay, bx, by)
	if !ok {
		return
	}
	nx, ny := -uy*width/2, ux*width/2
	z.MoveTo(ax+nx, ay+ny)
	z.LineTo(bx+nx, by+ny)
	z.LineTo(bx-nx, by-ny)
	z.LineTo(ax-nx, ay-ny)
	z.ClosePath()
}

// mostMiter is how far the point of a joint may reach, in half widths: a
// sharper one is cut off.
const mostMiter = 4

// joint fills the outer corner between the bars p to a and a to b, wound as
// they are.
func joint(z *vector.Rasterizer, px, py, ax, ay, bx, by, width float32) {
	ux, uy, ok := unit(px, py, ax, ay)
	vx, vy, ok2 := unit(ax, ay, bx, by)
	turn := ux*vy - uy*vx
	if !ok || !ok2 || turn == 0 {
		return
	}
	side := width / 2
	if turn > 0 { // a turn to the right on screen: the corner is on the left
		side = -side
	}
	// The outer ends of the two bars, and the point where their edges meet.
	cx, cy := ax-uy*side, ay+ux*side
	dx, dy := ax-vy*side, ay+vx*side
	mx, my := (cx+dx)/2, (cy+dy)/2
	if k := 1 + ux*vx + uy*vy; k > 2.0/(mostMiter*mostMiter) {
		mx, my = ax+(cx+dx-2*ax)/k, ay+(cy+dy-2*ay)/k
	}
	corner := [4][2]float32{{ax, ay}, {cx, cy}, {mx, my}, {dx, dy}}
	if turn > 0 {
		corner[1], corner[3] = corner[3], corner[1]
	}
	z.MoveTo(corner[0][0], corner[0][1])
	for _, q := range corner[1:] {
		z.LineTo(q[0], q[1])
	}
	z.ClosePath()
}

// unit is the direction from a to b; ok is false where they are one.
func unit(ax, ay, bx, by float32) (x, y float32, ok bool) {
	x, y = bx-ax, by-ay
	n := float32(math.Hypot(float64(x), float64(y)))
	if n == 0 {
		return 0, 0, false
	}
	return x / n, y / n, true
}

func (d dot) at() (x, y float32) { return float32(d.x) / dotsPerPixel, float32(d.y) / dotsPerPixel }
