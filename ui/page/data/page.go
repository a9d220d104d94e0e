package data

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page     = (*Page)(nil)
	_ page.Ending   = (*Page)(nil)
	_ page.Settling = (*Page)(nil)
	_ page.Noting   = (*Page)(nil)
	_ grid.Events   = (*Page)(nil)
	_ grid.Edits    = (*Page)(nil)
	_ grid.Cells    = (*view)(nil)
	_ grid.Wide     = (*view)(nil)
)

// Page is the page of the move data: a table for each sort of row, typed in
// like a spreadsheet. What is typed goes to the document cell by cell; a row
// that is not whole yet waits as a draft.
type Page struct {
	*editor
	*typing
	*pasting
	*search

	fighters *paint.Pick
	filling  bool // the pick of fighters is set by the page
	tabs     *paint.Tabs
	message  *fyne.Container   // in place of the table where there is no fighter
	first    *paint.PushButton // of the message
	sheet    *fyne.Container
	box      *fyne.Container
}

// New returns the page. revise asks for a new revision, and mapped says how an
// import mapped headings before, in small letters.
func New(host page.Host, revise func(), mapped func(headings []string) map[string]string) *Page {
	e := &editor{view: &view{drafts: map[model.DataRow]*draftRow{}}, host: host, reason: newReasonBox()}
	t := &typing{editor: e, entry: newCellEntry(), enders: &enders{host: host}}
	p := &Page{editor: e, typing: t, pasting: &pasting{e, mapped}, search: newSearch(t), tabs: paint.NewTabs()}
	e.refresh, e.refocus = p.Refresh, p.Refocus
	e.grid = grid.New(e.view, p)
	e.over = &cellLayout{e.grid, t.entry, e.reason}
	e.foot = newFoot(p.open, host.Dialogs().Lines)
	e.effects = &effects{host: host, show: e.foot.show}
	t.enders.found = p.Moved
	t.entry.Hide()
	t.entry.OnChanged = paint.GuardedOf("The move data", func(string) { t.typed() })
	t.entry.done = func(down, right int) {
		switch {
		case !t.commit():
		case right != 0:
			e.grid.Step(right < 0)
		default:
			e.grid.Place(e.grid.Below(down))
		}
	}
	t.entry.undo = t.takeBack
	p.fighters = paint.NewPick(host, nil, func(name string) {
		if !p.filling {
			p.choose(name)
		}
	})
	for i := range tables {
		p.tabs.Add(tables[i].title, container.NewWithoutLayout())
	}
	p.tabs.OnShow = func(i int) { p.show(model.RowKind(i)) }
	p.build(revise)
	return p
}

func (p *Page) build(revise func()) {
	wide := func(o fyne.CanvasObject, n float32) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(n, o.MinSize().Height), o)
	}
	middle := container.NewHBox(wide(p.fighters, 150), container.NewVBox(layout.NewSpacer(), p.tabs.Row, layout.NewSpacer()))
	right := container.NewHBox(paint.NewPageButton(p.host, "New revision…", nil, revise), wide(p.field, 150),
		paint.NewPageButton(p.host, "Close", theme.CancelIcon(), func() { p.close() }))
	top := container.NewPadded(container.NewBorder(nil, nil, middle, right))
	p.buildMessage()
	clip := container.NewClip(container.New(p.over, p.grid, p.entry, p.reason))
	clip.ExtendBaseWidget(clip) // without which Fyne 2.7.1 lays nothing out before it paints
	p.sheet = container.NewStack(clip)
	p.box = container.NewBorder(container.NewVBox(top, widget.NewSeparator()), p.foot, nil, nil, container.NewStack(p.sheet, p.message))
}

// choose shows another fighter's rows.
func (p *Page) choose(name string) {
	if name == p.fighter || !p.Leave() {
		p.Refresh()
		return
	}
	p.fighter = name
	p.turned()
}

// show shows another table.
func (p *Page) show(kind model.RowKind) {
	if kind == p.kind {
		return
	}
	if !p.Leave() {
		p.tabs.Show(int(p.kind))
		return
	}
	p.kind = kind
	p.turned()
}

// turned shows another table or fighter from its first cell.
func (p *Page) turned() {
	p.table, p.order = nil, nil
	p.grid.Sorted = -1
	p.effects.clear()
	p.Refresh()
	p.grid.Begin(p.home())
	p.Refocus()
}

// Turn implements grid.Edits: it shows the table after, or before.
func (p *Page) Turn(by int) { p.tabs.Show((int(p.kind) + by + len(tables)) % len(tables)) }

// Refresh shows the data as they stand, and keeps the cursor on what it was.
func (p *Page) Refresh() {
	data := p.host.Model().Data()
	p.offer(model.FighterNames(data))
	at, on := p.grid.At(), ""
	if p.table != nil && at.Row < len(p.order) {
		on = nameAt(p.table, p.order[at.Row])
	}
	if !p.load(data) {
		p.editing = false
		p.entry.Hide()
		p.sheet.Hide()
		p.message.Show()
		p.foot.say("")
		p.foot.tell(footMore{})
		return
	}
	p.message.Hide()
	p.sheet.Show()
	if len(p.order) != p.table.len() {
		p.arrange(p.grid.Sorted, p.grid.Falling)
		for row, i := range p.order {
			if on != "" && nameAt(p.table, i) == on {
				at.Row = row
			}
		}
	}
	p.grid.Fit()
	p.forget()
	if p.editing {
		p.grid.Refresh()
		return
	}
	_, end := p.grid.Selection()
	if at = p.grid.Within(at); at != p.grid.At() || end.Row >= p.Len() {
		p.grid.Place(at)
	}
	p.Moved()
	p.grid.Refresh()
}

// offer offers the fighters, and keeps the one that is shown or takes the one
// in its place.
func (p *Page) offer(names []string) {
	if !slices.Contains(names, p.fighter) {
		p.fighter = ""
		if len(names) > 0 {
			p.fighter = names[max(0, min(slices.Index(p.fighters.Options, p.fighters.Selected), len(names)-1))]
		}
	}
	p.filling = true
	p.fighters.SetOptions(names)
	p.fighters.SetSelected(p.fighter)
	if p.fighter == "" {
		p.fighters.ClearSelected()
	}
	p.filling = false
	if p.owner() != "" {
		p.fighters.Enable()
	} else {
		p.fighters.Disable()
	}
}

// Reveal shows a row: another table or fighter where it is not on screen, and
// else nothing, so that the cursor stays.
func (p *Page) Reveal(of model.DataRow) {
	if p.kind != of.Kind || tables[of.Kind].owned && p.fighter != of.Owner {
		if of.Owner != "" {
			p.fighter = of.Owner
		}
		p.kind = of.Kind
		p.tabs.Show(int(of.Kind))
		p.turned()
	} else if p.table == nil || p.inView(p.placeNamed(of.Name)) {
		return
	}
	if of.Kind == model.RulesetRow {
		return
	}
	if row := p.placeNamed(of.Name); row >= 0 {
		p.grid.Place(grid.Place{Row: row, Col: max(p.grid.At().Col, 0)})
	}
}

// GoTo puts the cursor on a row.
func (p *Page) GoTo(of model.DataRow) {
	if !p.Leave() {
		return
	}
	p.Reveal(of)
	if p.table == nil {
		return
	}
	if row := p.placeNamed(of.Name); row >= 0 {
		p.grid.Place(grid.Place{Row: row, Col: max(p.grid.At().Col, 0)})
	}
}

// inView reports whether a row of the table is on screen.
func (p *Page) inView(row int) bool {
	at, size, _ := p.grid.Rect(grid.Place{Row: row, Col: grid.LabelColumn})
	return row < 0 || at.Y >= grid.HeadHeight && at.Y+size.Height <= p.grid.Size().Height
}

// open shows a setup on the timeline.
func (p *Page) open(setup string) {
	if !p.close() {
		return
	}
	if at := p.host.Model().Find(setup); at >= 0 {
		p.host.Model().Choose(at)
	}
}

// close leads back to the setups; a cell that is refused keeps the page.
func (p *Page) close() bool {
	if !p.Leave() {
		return false
	}
	p.host.Close()
	return true
}

// EndOwn keeps the page while a cell is refused.
func (p *Page) EndOwn() bool { return !p.Leave() }

// Content implements page.Page.
func (p *Page) Content() fyne.CanvasObject { return p.box }

// Edits implements page.Page.
func (p *Page) Edits() bool { return true }

// Note implements page.Noting.
func (p *Page) Note(text string) { p.foot.say(text) }

// Changed implements page.Page.
func (p *Page) Changed(c model.Change) {
	if c&(model.DataChanged|model.ListChanged|model.SetupChanged) != 0 {
		p.enders.forget()
	}
	if c&model.DataChanged != 0 {
		if !p.editing {
			p.effects.clear()
		}
		p.Refresh()
	}
}

// Refocus gives the keys to the cell that is typed in, else to the table.
func (p *Page) Refocus() {
	c := p.host.Canvas()
	switch {
	case p.editing:
		c.Focus(p.entry)
	case p.table != nil:
		c.Focus(p.grid)
	default:
		c.Focus(p.first)
	}
}

// Find gives the keys to the field that finds.
func (p *Page) Find() { p.host.Canvas().Focus(p.field) }

// Help implements grid.Edits.
func (p *Page) Help() { p.host.PageKey(&fyne.KeyEvent{Name: fyne.KeyF1}) }

// Sort implements grid.Edits: the cursor stays on what it was.
func (p *Page) Sort() {
	at := p.row(p.grid.At().Row)
	p.arrange(p.grid.Sorted, p.grid.Falling)
	to := slices.Index(p.order, at)
	if to < 0 { // the new one
		to = len(p.order)
	}
	p.grid.Place(grid.Place{Row: to, Col: p.grid.At().Col})
}

// Escape implements grid.Events: it takes away what stands in the way, one
// thing at a time, and at last closes the page.
func (p *Page) Escape() {
	switch {
	case p.reason.Visible():
		p.reason.say("")
	case p.table != nil && p.draft(p.row(p.grid.At().Row)) != nil:
		delete(p.drafts, p.named(p.row(p.grid.At().Row)))
		p.Moved()
		p.grid.Refresh()
	default:
		p.close()
	}
}
