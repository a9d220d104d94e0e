package ui

import (
	"slices"
	"wakeline/ui/grid"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page  = (*dataPage)(nil)
	_ grid.Edits = (*dataPage)(nil)
	_ grid.Cells = (*dataPage)(nil)
)

// dataPage is the page of the move data: a table for each sort of thing,
// typed in like a sheet. What is typed goes to the document cell by cell; a
// row that is not whole yet waits as a draft.
type dataPage struct {
	w    *window
	doc  *model.Document
	kind int // of dataKinds

	fighter string  // whose moves, jumps and rises are shown
	rows    subject // nil where there is no fighter
	order   []int   // the rows in the order shown
	drafts  map[draftKey]*draftRow

	editing bool
	was     string // what stood in the cell that is typed in
	tried   attempt
	needle  string // what is looked for, in small letters
	quiet   bool   // the fighter is set without a hand

	who     *paint.Pick
	tabs    *paint.Tabs
	seek    *cellEntry
	grid    *grid.Grid
	entry   *cellEntry
	reason  *reasonBox
	over    *cellLayout
	foot    *dataFoot
	effects *effects
	message *fyne.Container   // in place of the table where there is no fighter
	first   *paint.PushButton // of the message
	sheet   *fyne.Container
	box     *fyne.Container
}

// dataKinds are the tables, in their order.
var dataKinds = []struct {
	title string
	owned bool // by a fighter
	rows  func(p *timeline.Project, f *timeline.Fighter) subject
}{
	{"Moves", true, func(p *timeline.Project, f *timeline.Fighter) subject { return &moveRows{p.Ruleset, f} }},
	{"Jumps", true, func(p *timeline.Project, f *timeline.Fighter) subject { return jumpRows(p.Ruleset, f) }},
	{"Rises", true, func(p *timeline.Project, f *timeline.Fighter) subject { return riseRows(p.Ruleset, f) }},
	{"Fighters", false, func(p *timeline.Project, _ *timeline.Fighter) subject { return fighterRows(p) }},
	{"Ruleset", false, func(p *timeline.Project, _ *timeline.Fighter) subject { return &rulesetRows{p} }},
}

// showData shows the page as it was left.
func (w *window) showData() {
	d, ok := w.page.(*dataPage)
	if !ok {
		if d = w.data; d == nil || d.doc != w.model.Document() {
			d = newDataPage(w)
			w.data = d
		}
		w.showPage(d)
	}
	d.refresh()
	d.Refocus()
}

// showTimeline closes a page that is open.
func (w *window) showTimeline() {
	if d, ok := w.page.(*dataPage); ok {
		d.close()
		return
	}
	w.Close()
}

func newDataPage(w *window) *dataPage {
	d := &dataPage{w: w, doc: w.model.Document(), drafts: map[draftKey]*draftRow{}}
	d.who = paint.NewPick(w, nil, func(name string) {
		if !d.quiet {
			d.choose(name)
		}
	})
	d.tabs = paint.NewTabs()
	for _, k := range dataKinds {
		d.tabs.Add(k.title, container.NewWithoutLayout())
	}
	d.tabs.OnShow = d.show
	d.seek = newCellEntry()
	d.seek.SetPlaceHolder("Find in the table")
	d.seek.OnChanged = paint.GuardedOf("The move data", d.lookFor)
	d.seek.done = func(down, right int) {
		switch c := w.Canvas(); {
		case right > 0:
			c.FocusNext()
		case right < 0:
			c.FocusPrevious()
		default:
			d.next(down)
		}
	}
	d.seek.undo = func() {
		d.seek.SetText("")
		d.Refocus()
	}
	d.grid = grid.New(d, d)
	d.entry = newCellEntry()
	d.entry.Hide()
	d.entry.OnChanged = paint.GuardedOf("The move data", func(string) { d.typed() })
	d.entry.done = func(down, right int) {
		if d.commit() {
			d.onward(down, right)
		}
	}
	d.entry.undo = d.takeBack
	d.reason = newReasonBox()
	d.over = &cellLayout{d.grid, d.entry, d.reason}
	d.foot = newDataFoot(d.open, w.Dialogs().Lines)
	d.effects = &effects{w: w, show: d.foot.show}

	title := widget.NewLabel("Move data")
	title.TextStyle.Bold = true
	revise := paint.NewPageButton(w, "New revision…", nil, w.askRevision)
	shut := paint.NewPageButton(w, "Close", theme.CancelIcon(), func() { d.close() })
	wide := func(o fyne.CanvasObject, n float32) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(n, o.MinSize().Height), o)
	}
	middle := container.NewHBox(title, wide(d.who, 150), container.NewVBox(layout.NewSpacer(), d.tabs.Row, layout.NewSpacer()))
	top := container.NewPadded(container.NewBorder(nil, nil, middle, container.NewHBox(revise, wide(d.seek, 150), shut)))
	d.message = d.emptyMessage()
	clip := container.NewClip(container.New(d.over, d.grid, d.entry, d.reason))
	clip.ExtendBaseWidget(clip) // without which Fyne 2.7.1 lays nothing out before it paints
	d.sheet = container.NewStack(clip)
	d.box = container.NewBorder(container.NewVBox(top, widget.NewSeparator()), d.foot, nil, nil, container.NewStack(d.sheet, d.message))
	return d
}

// emptyMessage says what to do first in a project without a fighter.
func (d *dataPage) emptyMessage() *fyne.Container {
	head := widget.NewLabel("No fighter yet")
	head.TextStyle.Bold, head.SizeName = true, theme.SizeNameSubHeadingText
	text := widget.NewLabel("A setup needs a fighter with a move that knocks down, a jump, and an air attack to land with; and a rival with replies. Begin with a fighter, then type its moves here or paste them from a spreadsheet.")
	text.Wrapping = fyne.TextWrapWord
	head.Alignment, text.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	d.first = paint.NewPageButton(d.w, "New fighter", nil, d.askFighter)
	d.first.Importance = widget.HighImportance
	return container.NewVBox(layout.NewSpacer(), head, text, container.NewHBox(layout.NewSpacer(), d.first, layout.NewSpacer()), layout.NewSpacer())
}

// askFighter asks for a new fighter's name and adds it.
func (d *dataPage) askFighter() {
	name := paint.NewPageEntry(d.w)
	name.SetPlaceHolder("name")
	note := widget.NewLabel("It gets one rise, normal; more are added in the table Rises.")
	note.Wrapping, note.Importance = fyne.TextWrapWord, widget.LowImportance
	a := d.w.Dialogs().New("New fighter", container.NewVBox(name, note))
	a.Button("Cancel", a.Hide)
	a.Main("Add", func() {
		f := &timeline.Fighter{Name: name.Text, Rises: timeline.DefaultRises()}
		if why := d.apply("new fighter "+f.Name, timeline.FighterEdit{Fighter: f}); why != "" {
			note.SetText(why)
			return
		}
		a.Hide()
		d.choose(f.Name)
	})
	a.Show(fyne.NewSize(400, 190), name)
}

// choose shows another fighter's things.
func (d *dataPage) choose(name string) {
	if name == d.fighter || !d.Leave() {
		d.refresh()
		return
	}
	d.fighter = name
	d.turned()
}

// show shows another table.
func (d *dataPage) show(kind int) {
	if kind == d.kind {
		return
	}
	if !d.Leave() {
		d.tabs.Show(d.kind)
		return
	}
	d.kind = kind
	d.turned()
}

// turned shows another table or fighter from its first cell.
func (d *dataPage) turned() {
	d.rows, d.order = nil, nil
	d.grid.Sorted = -1
	d.effects.clear()
	d.refresh()
	d.grid.Begin(d.home())
	d.Refocus()
}

// home is the first cell that can be typed in.
func (d *dataPage) home() grid.Place {
	if d.rows == nil {
		return grid.Place{}
	}
	return grid.Place{Col: slices.IndexFunc(d.rows.columns(), func(c column) bool { return !c.fixed })}
}

// turn shows the table after, or before.
func (d *dataPage) Turn(by int) {
	d.tabs.Show((d.kind + by + len(dataKinds)) % len(dataKinds))
}

// refresh shows the data as they stand, and keeps the cursor on what it was.
func (d *dataPage) refresh() {
	p := d.w.model.Data()
	names := model.FighterNames(p)
	if !slices.Contains(names, d.fighter) {
		d.fighter = ""
		if len(names) > 0 {
			d.fighter = names[max(0, min(slices.Index(d.who.Options, d.who.Selected), len(names)-1))]
		}
	}
	d.quiet = true
	d.who.SetOptions(names)
	d.who.SetSelected(d.fighter)
	if d.fighter == "" {
		d.who.ClearSelected()
	}
	d.quiet = false
	kind := &dataKinds[d.kind]
	if kind.owned && d.fighter != "" {
		d.who.Enable()
	} else {
		d.who.Disable()
	}
	f := p.Fighter(d.fighter)
	if kind.owned && f == nil {
		d.rows, d.order, d.editing = nil, nil, false
		d.entry.Hide()
		d.sheet.Hide()
		d.message.Show()
		d.foot.say("")
		return
	}
	d.message.Hide()
	d.sheet.Show()
	at, on := d.grid.At(), ""
	if d.rows != nil && at.Row < len(d.order) {
		on = d.rows.cell(d.order[at.Row], 0)
	}
	d.rows = kind.rows(p, f)
	if len(d.order) != d.rows.len() {
		d.arrange()
		for row, i := range d.order {
			if on != "" && d.rows.cell(i, 0) == on {
				at.Row = row
			}
		}
	}
	d.grid.Fit()
	for key := range d.drafts { // of what is gone
		if key.name != "" && key.kind == d.kind && key.fighter == d.owner() && !d.has(key.name) {
			delete(d.drafts, key)
		}
	}
	if d.editing {
		d.grid.Refresh()
		return
	}
	_, end := d.grid.Selection()
	if at = d.grid.Within(at); at != d.grid.At() || end.Row >= d.Len() {
		d.grid.Place(at)
	}
	d.Moved()
	d.grid.Refresh()
}

func (d *dataPage) has(name string) bool {
	for i := range d.rows.len() {
		if d.rows.cell(i, 0) == name {
			return true
		}
	}
	return false
}

// owner is whose things the table holds, empty for a table of no fighter.
func (d *dataPage) owner() string {
	if dataKinds[d.kind].owned {
		return d.fighter
	}
	return ""
}

// open shows a setup on the timeline.
func (d *dataPage) open(setup string) {
	if !d.close() {
		return
	}
	if at := d.w.model.Find(setup); at >= 0 {
		d.w.model.Choose(at)
	}
}

// close leads back to the setups; a cell that is refused keeps the page.
func (d *dataPage) close() bool {
	if !d.Leave() {
		return false
	}
	d.w.Close()
	return true
}

// EndOwn keeps the page while a cell is refused.
func (d *dataPage) EndOwn() bool { return !d.Leave() }

func (d *dataPage) Content() fyne.CanvasObject { return d.box }
func (d *dataPage) Edits() bool                { return true }
func (d *dataPage) Note(text string)           { d.foot.say(text) }

func (d *dataPage) Changed(c model.Change) {
	if c&model.DataChanged != 0 {
		if !d.editing {
			d.effects.clear()
		}
		d.refresh()
	}
}

// Refocus gives the keys to the cell that is typed in, else to the table.
func (d *dataPage) Refocus() {
	c := d.w.Canvas()
	switch {
	case d.editing:
		c.Focus(d.entry)
	case d.rows != nil:
		c.Focus(d.grid)
	default:
		c.Focus(d.first)
	}
}

// Help implements grid.Edits.
func (d *dataPage) Help() { d.w.showKeys() }

// find gives the keys to the field that finds.
func (d *dataPage) find() { d.w.Canvas().Focus(d.seek) }
