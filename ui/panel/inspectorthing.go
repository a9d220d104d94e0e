package panel

import (
	"errors"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// thingPart shows the move data of the block that is selected on the sheet.
type thingPart struct {
	n      *Inspector
	Of     *model.DataRow // nil: none
	shown  []int          // the columns that have a row
	Rows   []*InspectorRow
	Used   *reasonText // how many setups an edit changes; or that no block is selected
	counts map[model.DataRow]int
	List   *fyne.Container
	box    *fyne.Container
}

func newThingPart(n *Inspector) *thingPart {
	p := &thingPart{n: n, Used: newReasonText(n), List: container.New(layout.NewCustomPaddedVBoxLayout(rowGap)), counts: map[model.DataRow]int{}}
	p.Used.soft = true
	p.box = container.NewVBox(p.List)
	p.clear()
	return p
}

// clear says that no block is selected.
func (p *thingPart) clear() {
	p.Of, p.shown, p.Rows = nil, nil, nil
	p.List.Objects = []fyne.CanvasObject{p.Used}
	p.Used.say(NoBlock)
}

// NoBlock stands in place of a block's numbers.
const NoBlock = "Select a block on the sheet to see and edit its move data here."

// Look shows the move data of the thing called so, nil for none.
func (n *Inspector) Look(of *model.DataRow) {
	p := n.Thing
	if p.Of == of || p.Of != nil && of != nil && *p.Of == *of {
		return
	}
	p.Of, p.shown = of, nil
	n.filling = true
	moved := p.update(true)
	n.filling = false
	if moved {
		n.relay()
	}
	switch {
	case p.Of == nil:
		n.ShowTab(SetupTab)
	case !n.stays:
		n.ShowTab(BlockTab)
	}
	n.Tabs.Body.Objects[BlockTab].(*container.Scroll).ScrollToTop()
}

// stale forgets how many setups use what.
func (p *thingPart) stale() { clear(p.counts) }

// update shows the numbers as they stand, and reports whether there are
// others than before.
func (p *thingPart) update(giveUp bool) (moved bool) {
	var cells []string
	if p.Of != nil {
		cells = p.Of.Cells(p.n.model.Data())
	}
	if cells == nil { // no longer there
		moved = len(p.Rows) > 0
		p.clear()
		return moved
	}
	if shown := p.Of.ColumnsOf(cells); !slices.Equal(shown, p.shown) {
		p.shown = shown
		p.build()
		moved = true
	}
	for _, r := range p.Rows {
		r.Field.update(giveUp)
	}
	p.count()
	return moved
}

// build makes the rows of the thing.
func (p *thingPart) build() {
	n, of := p.n, *p.Of
	p.Rows = nil
	p.List.Objects = []fyne.CanvasObject{n.heading(of.Name + ", of " + of.Owner), p.Used}
	fields := model.RowFields[of.Kind]
	for _, col := range p.shown {
		show := func() string {
			if cells := p.Of.Cells(n.model.Data()); cells != nil {
				return cells[col]
			}
			return ""
		}
		put := func(text string) error { return p.put(col, text) }
		label := model.Capital(fields[col].Label)
		if fields[col].Typed {
			p.Rows = append(p.Rows, n.text(label, show, put))
		} else {
			p.Rows = append(p.Rows, n.number(label, show, put))
		}
	}
	for _, r := range p.Rows {
		p.List.Add(r.Box)
	}
	if n.OnData != nil {
		p.List.Add(container.NewHBox(n.wordButton("Open in Move data", func() { n.OnData() })))
	}
	if f := n.model.Data().Fighter(of.Owner); n.OnRoutes != nil && f != nil && of.Kind == model.MoveRow {
		if m := f.Move(of.Name); m != nil && m.Knockdown != (timeline.Places{}) {
			p.List.Add(container.NewHBox(n.wordButton("Show the routes that end in it", func() { n.OnRoutes(of.Owner, of.Name) })))
		}
	}
}

// put puts a text into a column.
func (p *thingPart) put(col int, text string) error {
	if p.Of == nil {
		return errors.New("it no longer exists")
	}
	of, m := *p.Of, p.n.model
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
		p.Of = &model.DataRow{Owner: of.Owner, Kind: of.Kind, Name: name}
	}
	if err := m.Apply(what, edit); err != nil {
		p.Of = &of
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
	of, n := *p.Of, p.n
	if of.Kind == model.RiseRow {
		p.Used.say("Move data: an edit changes every setup against " + of.Owner + " that claims this rise.")
		return
	}
	say := func(used int) {
		p.Used.say("Move data: an edit changes " + model.CountOf(used, "setup") + ".")
	}
	if used, ok := p.counts[of]; ok {
		say(used)
		return
	}
	p.Used.say("Move data: an edit changes every setup that uses it.")
	doc := n.model.Document()
	n.spawn(func() {
		used, err := doc.Uses(of.Owner, of.Name)
		n.hop(func() {
			if err == nil && p.Of != nil && *p.Of == of && n.model.Document() == doc {
				p.counts[of] = used
				say(used)
			}
		})
	})
}
