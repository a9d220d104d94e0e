package sheet

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TracksOptions say how tracks are drawn. Scenes that are shown in turn share
// them, so that nothing jumps between two of their drawings.
type TracksOptions struct {
	W        float64       // in units, at least MinW
	Span     timeline.Span // the frames that are shown
	MarkRows int           // rows kept for the rival's windows, where another scene has more
}

// Tracks draws both sides of a scene on one ruler, and nothing of what is said
// beside them: for a page that has the words itself. Its height follows from
// the options and on whether the setup jumps.
func Tracks(s *words.Scene, o TracksOptions) *Drawing {
	w := math.Min(atLeast(o.W, MinW), 1e5)
	em := clamp(7+w/190, 10.5, 22)
	q := &pen{s: s, d: &Drawing{W: w, Em: em, Shapes: make([]Shape, 0, 160)}}
	q.em, q.margin, q.left, q.right = em, 0.6*em, 0.6*em, w-0.6*em
	q.o.W = w
	if w >= 520 {
		q.left += 7 * em
	}
	q.d.Left, q.d.Right = q.left, q.right
	q.d.View = View{float64(o.Span.From), (q.right - q.left) / float64(max(1, o.Span.Len()))}
	q.lanes(0.2*em, o.MarkRows)
	q.rulerTop = 0.2 * em
	q.d.H = math.Ceil(q.kY + 1.1*em)
	q.d.Ruler = Band{q.rulerTop, q.rulerEnd}
	q.d.Top, q.d.Bars, q.d.Bottom = Band{q.rulerEnd, q.groundA}, Band{q.barA, q.groundA}, Band{q.barB, q.groundB}
	q.describe()

	q.box(Box{Max: Point{w, q.d.H}, Fill: Paper, Texture: Solid})
	q.ruler()
	q.tracks(func() {})
	q.numbers()
	q.gutter()
	q.legend()
	q.d.Shapes = append(q.d.Shapes, q.texts...)
	return q.d
}
