package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ page.Page = (*glossaryPage)(nil)

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
		paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close))), widget.NewSeparator())
	g.box = container.NewBorder(top, nil, nil, nil, g.view.box)
	w.showPage(g)
	g.Refocus()
}

func (g *glossaryPage) Content() fyne.CanvasObject { return g.box }
func (g *glossaryPage) Edits() bool                { return false }
func (g *glossaryPage) Changed(model.Change)       {}
func (g *glossaryPage) Recolour()                  { g.view.Refresh() }
func (g *glossaryPage) Refocus()                   { g.w.Canvas().Focus(g.view) }
