package paint

import (
	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// AnswerSheet shows the sheet of a setup that need not be in the project, for
// looking at alone.
type AnswerSheet struct {
	Painted
	Scene   words.Scene
	Drawing *sheet.Drawing // nil: nothing is shown

	shown   bool
	options sheet.Options
}

// NewAnswerSheet returns one that shows nothing.
func NewAnswerSheet() *AnswerSheet {
	a := &AnswerSheet{}
	a.Extend(a, a.paint, func() fyne.Size { return fyne.NewSize(sheet.MinW, sheet.MinH) })
	return a
}

// Follow draws on from the meeting with what follows it; nil changes nothing.
func (a *AnswerSheet) Follow(q *timeline.Sequel) {
	a.Scene.Follow(q)
	a.Refresh()
}

// ShowPlan shows the deciding exchange of a plan at that delay.
func (a *AnswerSheet) ShowPlan(plan *timeline.Plan, delay int) {
	rise, line := plan.Deciding(delay)
	v := words.VerdictAt(plan, delay)
	a.Scene, a.shown = words.SceneAt(plan, delay, rise, line), true
	a.options = sheet.Options{Sentence: v.Because, Position: string(plan.Setup.Position)}
	a.Refresh()
}

// Clear shows nothing.
func (a *AnswerSheet) Clear() {
	a.shown, a.Drawing = false, nil
	a.Refresh()
}

func (a *AnswerSheet) paint(p *Pen, size fyne.Size) {
	if a.Drawing = nil; a.shown {
		o := a.options
		o.W, o.H = float64(size.Width), float64(size.Height)
		a.Drawing = sheet.Draw(&a.Scene, o)
		p.Draw(a.Drawing.Shapes)
	}
}
