package data

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// buildMessage says what to do first in a project without a fighter.
func (p *Page) buildMessage() {
	head := widget.NewLabel("No fighter yet")
	head.TextStyle.Bold, head.SizeName = true, theme.SizeNameSubHeadingText
	text := page.Wrapped("A setup needs a fighter with a move that knocks down, a jump, and an air attack to land with; and a rival with replies. Begin with a fighter, then type its moves here or paste them from a spreadsheet.")
	head.Alignment, text.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	p.first = paint.NewPageButton(p.host, "New fighter", nil, p.AskFighter)
	p.first.Importance = widget.HighImportance
	p.message = container.NewVBox(layout.NewSpacer(), head, text, container.NewHBox(layout.NewSpacer(), p.first, layout.NewSpacer()), layout.NewSpacer())
}

// AskFighter asks for a new fighter's name and adds it.
func (p *Page) AskFighter() {
	name := paint.NewPageEntry(p.host)
	name.SetPlaceHolder("name")
	note := widget.NewLabel("It gets one rise, normal; more are added in the table Rises.")
	note.Wrapping, note.Importance = fyne.TextWrapWord, widget.LowImportance
	a := p.host.Dialogs().New("New fighter", container.NewVBox(name, note))
	a.Button("Cancel", a.Hide)
	a.Main("Add", func() {
		f := &timeline.Fighter{Name: name.Text, Rises: timeline.DefaultRises()}
		if why := p.apply("new fighter "+f.Name, timeline.FighterEdit{Fighter: f}); why != "" {
			note.SetText(why)
			return
		}
		a.Hide()
		p.choose(f.Name)
	})
	a.Show(fyne.NewSize(400, 190), name)
}
