package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ page = (*glossaryPage)(nil)

// glossaryPage tells the words in use, each with the strip that shows it.
type glossaryPage struct {
	w    *window
	view *scrolledSheet
	box  fyne.CanvasObject
}

// glossaryTitle is what the drawing is headed with.
const glossaryTitle = "Glossary"

// showGlossary shows the page.
func (w *window) showGlossary() {
	g := &glossaryPage{w: w}
	terms := words.Glossary()
	g.view = newScrolledSheet(func(wide float64) *sheet.Drawing {
		return sheet.DrawGlossary(terms, glossaryTitle, wide)
	})
	g.view.OnKey = w.PageKey
	title := widget.NewLabel("Glossary")
	title.TextStyle.Bold = true
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(),
		paint.NewPageButton(w, "Export…", nil, func() { w.showExportOf(exportGlossary) }),
		paint.NewPageButton(w, "Close", theme.CancelIcon(), w.closePage))), widget.NewSeparator())
	g.box = container.NewBorder(top, nil, nil, nil, g.view.box)
	w.showPage(g)
	g.refocus()
}

func (g *glossaryPage) content() fyne.CanvasObject { return g.box }
func (g *glossaryPage) edits() bool                { return false }
func (g *glossaryPage) changed(model.Change)       {}
func (g *glossaryPage) recolour()                  { g.view.Refresh() }
func (g *glossaryPage) refocus()                   { g.w.win.Canvas().Focus(g.view) }
