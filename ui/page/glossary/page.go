package glossary

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ page.Page = (*Page)(nil)

// Page tells the words in use, each with the strip that shows it.
type Page struct {
	host page.Host
	view *paint.ScrolledSheet
	box  fyne.CanvasObject
}

// headline is what the drawing is headed with.
const headline = "Glossary"

// New returns the page. export shows where the glossary can be written to a
// file.
func New(host page.Host, export func()) *Page {
	g := &Page{host: host}
	terms := words.Glossary()
	g.view = paint.NewScrolledSheet(func(wide float64) *sheet.Drawing {
		return sheet.DrawGlossary(terms, headline, wide)
	})
	g.view.OnKey = host.PageKey
	title := page.Title("Glossary")
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(),
		paint.NewPageButton(host, "Export…", nil, export),
		page.CloseButton(host))), widget.NewSeparator())
	g.box = container.NewBorder(top, nil, nil, nil, g.view.Box)
	return g
}

func (g *Page) Content() fyne.CanvasObject { return g.box }
func (g *Page) Edits() bool                { return false }
func (g *Page) Changed(model.Change)       {}
func (g *Page) Recolour()                  { g.view.Refresh() }
func (g *Page) Refocus()                   { g.host.Canvas().Focus(g.view) }
