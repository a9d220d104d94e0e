package panel

import (
	"strconv"

	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// pointsHead heads the points at the end of each rise's column.
const pointsHead = "points"

// pointsRoom is the width that the points take at the end of a cell: none where
// the setup's moves have no damage.
func (r *Replies) pointsRoom() float32 {
	if !r.model.Worth.Tells() {
		return 0
	}
	return max(r.Wrapper.WidthOf(pointsHead), r.Wrapper.WidthOf("-44444")) + cellSpace
}

// points writes what an exchange comes to, softly while that is worked out anew.
func (r *Replies) points(p *paint.Pen, rise, line int, end, base float32) {
	w := r.model.Worth.Of(rise, line)
	if !w.Points.Given || r.pointsRoom() == 0 {
		return
	}
	role := sheet.Ink
	if _, known := r.model.Worth.Answer(); !known {
		role = sheet.Soft
	}
	t := paint.ColumnText(strconv.Itoa(w.Points.N), end, base, role)
	t.Anchor = sheet.AtEnd
	p.Text(&t)
}

// worthHint says how an exchange comes to its points, and what it ends.
func (r *Replies) worthHint(rise, line int) string {
	if r.pointsRoom() == 0 {
		return ""
	}
	return words.WorthSentence(r.model.Worth.Of(rise, line))
}
