package brush_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
)

const side = 120 // of the pictures, in pixels

// covered is how much of each pixel a path inks.
func covered(t *testing.T, p sheet.Path) (out [side][side]float64) {
	t.Helper()
	img, err := raster.Picture(&sheet.Drawing{W: side, H: side, Shapes: []sheet.Shape{p}}, sheet.PaperTheme, 1)
	if err != nil {
		t.Fatal(err)
	}
	for y := range side {
		for x := range side {
			out[y][x] = float64(img.RGBAAt(x, y).A) / 255
		}
	}
	return out
}

// beside is where q lies on the way from a to b, 0 to 1 if between them, and how
// far from it.
func beside(q, a, b sheet.Point) (along, off float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := math.Hypot(dx, dy)
	return ((q.X-a.X)*dx + (q.Y-a.Y)*dy) / (n * n), math.Abs((q.X-a.X)*dy-(q.Y-a.Y)*dx) / n
}

// TestStrokesCoverTheirLines compares strokes with points tried one by one: a
// stroke covers all that lies beside one of its pieces, and away from its
// corners nothing else. (Where it crosses itself, a pixel at the edge of both
// pieces may be covered by the sum of both.)
func TestStrokesCoverTheirLines(t *testing.T) {
	g := rand.New(rand.NewPCG(7, 11))
	const fine = 12 // tries a pixel, each way
	for n := range 60 {
		p := sheet.Path{Stroke: sheet.Ink, Width: 0.6 + 9*g.Float64(), Closed: n%3 == 0}
		at := sheet.Point{X: 30 + 60*g.Float64(), Y: 30 + 60*g.Float64()}
		for range 3 + g.IntN(5) {
			p.Points = append(p.Points, at)
			reach := 6.0
			if g.IntN(3) > 0 {
				reach = 50
			}
			at = sheet.Point{X: min(max(at.X+reach*(2*g.Float64()-1), 20), 100), Y: min(max(at.Y+reach*(2*g.Float64()-1), 20), 100)}
		}
		pieces := [][2]sheet.Point{}
		for i := range p.Points[1:] {
			pieces = append(pieces, [2]sheet.Point{p.Points[i], p.Points[i+1]})
		}
		if p.Closed {
			pieces = append(pieces, [2]sheet.Point{p.Points[len(p.Points)-1], p.Points[0]})
		}
		got := covered(t, p)
		for y := range side {
			for x := range side {
				in, all, near := 0, 0, false // all: what pieces share counts for each; near: a corner, where the stroke may go on
				var close [][2]sheet.Point
				for _, s := range pieces {
					if _, off := beside(sheet.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}, s[0], s[1]); off < p.Width/2+1 {
						close = append(close, s)
					}
				}
				for i := range min(len(close), 1) * fine * fine {
					q := sheet.Point{X: float64(x) + (float64(i%fine)+0.5)/fine, Y: float64(y) + (float64(i/fine)+0.5)/fine}
					before := all
					for _, s := range close {
						if along, off := beside(q, s[0], s[1]); along >= 0 && along <= 1 && off <= p.Width/2 {
							all++
						}
					}
					if all > before {
						in++
					}
				}
				for _, c := range p.Points {
					near = near || math.Hypot(c.X-float64(x)-0.5, c.Y-float64(y)-0.5) < 2*p.Width+1.5
				}
				least, most := float64(in)/(fine*fine), float64(all)/(fine*fine)
				if got[y][x] < least-0.12 || !near && got[y][x] > most+0.12 {
					t.Fatalf("path %d, %+v: pixel %d, %d is covered %.2f, tried point by point %.2f to %.2f", n, p, x, y, got[y][x], least, most)
				}
			}
		}
	}
}

// TestCorners: the sides of a right corner go on to where they meet, those of a
// very sharp one don't; outside the stroke ends flat.
func TestCorners(t *testing.T) {
	p := sheet.Path{Stroke: sheet.Ink, Width: 10, Points: []sheet.Point{{X: 20, Y: 60}, {X: 60, Y: 60}, {X: 60, Y: 100}}}
	got := covered(t, p)
	for _, c := range []struct {
		x, y int
		want float64
	}{{64, 55, 1}, {65, 55, 0}, {64, 54, 0}, {19, 60, 0}, {20, 60, 1}, {60, 99, 1}, {60, 100, 0}, {54, 66, 0}} {
		if got[c.y][c.x] != c.want {
			t.Errorf("a right corner: pixel %d, %d is covered %v, want %v", c.x, c.y, got[c.y][c.x], c.want)
		}
	}
	p.Points = []sheet.Point{{X: 20, Y: 60}, {X: 60, Y: 60}, {X: 20, Y: 65}}
	if got := covered(t, p); got[60][70] != 0 || got[58][59] != 1 {
		t.Errorf("a sharp corner: %v past its end, %v before", got[60][70], got[58][59])
	}
}
