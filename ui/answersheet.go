package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*answerSheet)(nil)

// answerSheet shows the sheet of a setup that need not be in the project, for
// looking at alone.
type answerSheet struct {
	widget.BaseWidget
	shown   bool
	scene   words.Scene
	options sheet.Options
	drawing *sheet.Drawing // nil: nothing is shown
}

func newAnswerSheet() *answerSheet {
	a := &answerSheet{}
	a.ExtendBaseWidget(a)
	return a
}

// show shows the deciding exchange of a plan at that delay.
func (a *answerSheet) show(plan *timeline.Plan, delay int) {
	rise, line := plan.Deciding(delay)
	v := words.VerdictAt(plan, delay)
	a.scene, a.shown = words.SceneAt(plan, delay, rise, line), true
	a.options = sheet.Options{Sentence: v.Because, Position: string(plan.Setup.Position)}
	a.Refresh()
}

// clear shows nothing.
func (a *answerSheet) clear() {
	a.shown, a.drawing = false, nil
	a.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (a *answerSheet) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: a, Paint: a.paint, Min: func() fyne.Size { return fyne.NewSize(sheet.MinW, sheet.MinH) }}
}

func (a *answerSheet) paint(p *paint.Pen, size fyne.Size) {
	if a.drawing = nil; a.shown {
		o := a.options
		o.W, o.H = float64(size.Width), float64(size.Height)
		a.drawing = sheet.Draw(&a.scene, o)
		p.Draw(a.drawing.Shapes)
	}
}
