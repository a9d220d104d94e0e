package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/sheet"
)

// mostHistory is how many steps the page lists.
const mostHistory = 200

// historyList draws steps of the history, the newest on top: when, what, and
// of which setup.
type historyList struct {
	widget.BaseWidget
	palette *palette
	wrapper wrapper
	steps   []storage.StepNote
}

// The measures of the list, in units.
const (
	historyLine  = 24
	historyWhat  = 150 // from the left edge to what was done
	historySetup = 390 // and to the setup's name
	historyWidth = 640
)

// CreateRenderer implements fyne.Widget.
func (h *historyList) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: h, palette: func() *palette { return h.palette }, paint: h.paint,
		min: func() fyne.Size { return fyne.NewSize(historyWidth, float32(len(h.steps)*historyLine)) }}
}

func (h *historyList) paint(p *pen, size fyne.Size) {
	for i := range h.steps {
		s := &h.steps[i]
		base, role := float32(i*historyLine+historyLine-8), sheet.Ink
		what := s.What
		if s.Undone {
			role = sheet.Soft
			what += " (taken back)"
		}
		for _, c := range []struct {
			text    string
			x, room float32
			role    sheet.Role
		}{
			{stepDate(s.Date), 4, historyWhat - 12, sheet.Soft},
			{what, historyWhat, historySetup - historyWhat - 12, role},
			{s.Name, historySetup, size.Width - historySetup - 4, role},
		} {
			t := columnText(h.wrapper.fit(c.text, c.room), c.x, base, c.role)
			p.text(&t)
		}
		end := float64((i + 1) * historyLine)
		p.line(&sheet.Line{From: sheet.Point{X: 0, Y: end}, To: sheet.Point{X: float64(size.Width), Y: end}, Stroke: sheet.Rule, Width: 1})
	}
}

// stepDate writes a step's date in the time of here.
func stepDate(date string) string {
	at, err := time.Parse(time.RFC3339, date)
	if err != nil {
		return date
	}
	return at.Local().Format("2006-01-02 15:04:05")
}

// showHistory lists the last steps of the file's history.
func (w *window) showHistory() {
	d, ok := w.model.Document().(*FileDocument)
	if !ok {
		return
	}
	steps, err := d.File().Steps(mostHistory)
	if err != nil {
		w.fail("The history can't be read", err)
		return
	}
	title := "History: the last " + countOf(len(steps), "step")
	if len(steps) < mostHistory {
		title = "History: " + countOf(len(steps), "step")
	}
	list := &historyList{palette: w.palette, wrapper: wrapper{size: textSize}, steps: steps}
	list.ExtendBaseWidget(list)
	page := dialog.NewCustom(title, "Close", container.NewVScroll(list), w.win)
	page.SetOnClosed(w.refocus)
	most := w.win.Canvas().Size()
	page.Resize(fyne.NewSize(min(most.Width-40, historyWidth+60), min(most.Height-60, max(200, list.MinSize().Height+110))))
	page.Show()
}
