package ui

import (
	"errors"
	"fmt"
	"slices"
	"wakeline/ui/model"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// thingPart shows the move data of the block that is selected on the sheet.
type thingPart struct {
	n      *Inspector
	of     *model.DataRow // nil: none
	shown  []int          // the columns that have a row
	rows   []*inspectorRow
	used   *reasonText // how many setups an edit changes; or that no block is selected
	counts map[model.DataRow]int
	list   *fyne.Container
	box    *fyne.Container
}

func newThingPart(n *Inspector) *thingPart {
	p := &thingPart{n: n, used: newReasonText(n), list: container.New(layout.NewCustomPaddedVBoxLayout(rowGap)), counts: map[model.DataRow]int{}}
	p.used.soft = true
	p.box = container.NewVBox(p.list)
	p.clear()
	return p
}

// clear says that no block is selected.
func (p *thingPart) clear() {
	p.of, p.shown, p.rows = nil, nil, nil
	p.list.Objects = []fyne.CanvasObject{p.used}
	p.used.say(noBlock)
}

// noBlock stands in place of a block's numbers.
const noBlock = "Select a block on the sheet to see and edit its move data here."

// Look shows the move data of the thing called so, nil for none.
func (n *Inspector) Look(of *model.DataRow) {
	p := n.thing
	if p.of == of || p.of != nil && of != nil && *p.of == *of {
		return
	}
	p.of, p.shown = of, nil
	n.filling = true
	moved := p.update(true)
	n.filling = false
	if moved {
		n.relay()
	}
	switch {
	case p.of == nil:
		n.show(setupTab)
	case !n.stays:
		n.show(blockTab)
	}
	n.tabs.Body.Objects[blockTab].(*container.Scroll).ScrollToTop()
}

// stale forgets how many setups use what.
func (p *thingPart) stale() { clear(p.counts) }

// update shows the numbers as they stand, and reports whether there are
// others than before.
func (p *thingPart) update(giveUp bool) (moved bool) {
	var cells []string
	if p.of != nil {
		cells = p.of.Cells(p.n.model.Data())
	}
	if cells == nil { // no longer there
		moved = len(p.rows) > 0
		p.clear()
		return moved
	}
	if shown := p.of.ColumnsOf(cells); !slices.Equal(shown, p.shown) {
		p.shown = shown
		p.build()
		moved = true
	}
	for _, r := range p.rows {
		r.field.update(giveUp)
	}
	p.count()
	return moved
}

// build makes the rows of the thing.
func (p *thingPart) build() {
	n, of := p.n, *p.of
	p.rows = nil
	p.list.Objects = []fyne.CanvasObject{n.heading(of.Name + ", of " + of.Owner), p.used}
	fields := model.RowFields[of.Kind]
	for _, col := range p.shown {
		show := func() string {
			if cells := p.of.Cells(n.model.Data()); cells != nil {
				return cells[col]
			}
			return ""
		}
		put := func(text string) error { return p.put(col, text) }
		label := model.Capital(fields[col].Label)
		if fields[col].Typed {
			p.rows = append(p.rows, n.text(label, show, put))
		} else {
			p.rows = append(p.rows, n.number(label, show, put))
		}
	}
	for _, r := range p.rows {
		p.list.Add(r.box)
	}
	if n.OnData != nil {
		p.list.Add(container.NewHBox(n.wordButton("Open in Move data", func() { n.OnData() })))
	}
}

// put puts a text into a column.
func (p *thingPart) put(col int, text string) error {
	if p.of == nil {
		return errors.New("it no longer exists")
	}
	of, m := *p.of, p.n.model
	cells := of.Cells(m.Data())
	if cells == nil {
		return errors.New("it no longer exists")
	}
	cells[col] = text
	edit, name, err := of.Read(m.Data(), cells)
	if err != nil {
		return err
	}
	what := fmt.Sprintf("%s of %s: %s", model.RowFields[of.Kind][col].Label, of.Name, model.NameOr(text, "none"))
	if col == 0 {
		what = "name " + name
		p.of = &model.DataRow{Owner: of.Owner, Kind: of.Kind, Name: name}
	}
	if err := m.Apply(what, edit); err != nil {
		p.of = &of
		return err
	}
	if col == 0 {
		p.shown = nil
		p.n.fill(false)
	}
	return nil
}

// count says how many setups an edit changes, once that is known.
func (p *thingPart) count() {
	of, n := *p.of, p.n
	if of.Kind == model.RiseRow {
		p.used.say("Move data: an edit changes every setup against " + of.Owner + " that claims this rise.")
		return
	}
	say := func(used int) {
		p.used.say("Move data: an edit changes " + model.CountOf(used, "setup") + ".")
	}
	if used, ok := p.counts[of]; ok {
		say(used)
		return
	}
	p.used.say("Move data: an edit changes every setup that uses it.")
	doc := n.model.Document()
	n.spawn(func() {
		used, err := doc.Uses(of.Owner, of.Name)
		n.hop(func() {
			if err == nil && p.of != nil && *p.of == of && n.model.Document() == doc {
				p.counts[of] = used
				say(used)
			}
		})
	})
}
