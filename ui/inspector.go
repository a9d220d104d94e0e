package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
)

var _ fyne.Widget = (*Inspector)(nil)

// Inspector holds the numbers of the chosen setup, and of the block that is
// chosen on its sheet, each in a field of its own. A value is put in by the
// model's own edits; one that can't stand is refused under its field. What
// follows from the numbers stands apart, and is only read.
type Inspector struct {
	widget.BaseWidget

	OnLeave        func() // Escape was pressed where there was nothing to give up
	OnHide         func() // the pane is to be hidden
	OnProof        func() // a proof is to be noted
	OnUndo, OnRedo func() // of the project's steps
	OnData         func() // the move data are to be shown

	Odds func() []timeline.Fact // how likely a hand lands the setup

	model       *Model
	palette     *palette
	keys        func() fyne.KeyModifier
	spawn, hop  func(do func())
	filling     bool   // fields are set by the inspector itself
	name        string // of the setup that the fields are filled for
	rows        []*inspectorRow
	facts       *factList
	proofs      *proofPart
	thing       *thingPart
	setup, body *fyne.Container
	scroll      *container.Scroll
	pane        fyne.CanvasObject
}

const (
	inspectorWide  = 264 // units
	inspectorLeast = 230
)

// NewInspector returns the numbers of m's chosen setup. What takes long runs
// through spawn, and hops back through later.
func NewInspector(m *Model, p *palette, spawn, later func(do func())) *Inspector {
	n := &Inspector{model: m, palette: p, keys: heldKeys, spawn: spawn, hop: later, Odds: func() []timeline.Fact { return nil }}
	n.facts, n.proofs, n.thing = newFactList(n), newProofPart(n), newThingPart(n)
	n.setup = container.New(layout.NewCustomPaddedVBoxLayout(rowGap))
	n.buildSetup()
	n.body = container.New(layout.NewCustomPaddedVBoxLayout(rowGap), n.thing.box, n.setup)
	n.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(2, 10, 8, 14), n.body))
	title := widget.NewLabel("Numbers")
	title.TextStyle.Bold = true
	hide := newWordButton("hide", n.colours, func() { n.OnHide() })
	n.pane = container.NewBorder(container.NewBorder(nil, widget.NewSeparator(), nil, container.NewCenter(hide), title), nil, widget.NewSeparator(), nil, n.scroll)
	n.ExtendBaseWidget(n)
	n.fill(true)
	return n
}

// CreateRenderer implements fyne.Widget.
func (n *Inspector) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(n.pane) }

// MinSize leaves room for a name and a number.
func (n *Inspector) MinSize() fyne.Size { return fyne.NewSize(inspectorLeast, 100) }

// Resize lays the texts out anew where there is other room for them.
func (n *Inspector) Resize(s fyne.Size) {
	wide := n.Size().Width
	n.BaseWidget.Resize(s)
	if s.Width != wide {
		n.relay()
	}
}

// SetPalette draws in other colours from now on.
func (n *Inspector) SetPalette(p *palette) {
	n.palette = p
	n.Refresh()
}

func (n *Inspector) colours() *palette { return n.palette }

// width is the room of a row.
func (n *Inspector) width() float32 { return max(n.Size().Width, inspectorLeast) - 26 }

// relay lays the rows under each other again, after one has another height.
func (n *Inspector) relay() {
	if n.scroll != nil {
		n.body.Layout.Layout(n.body.Objects, n.body.Size())
		n.setup.Layout.Layout(n.setup.Objects, n.setup.Size())
		n.scroll.Refresh()
	}
}

// reveal scrolls to a field that has got the focus.
func (n *Inspector) reveal(o fyne.CanvasObject) {
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(n.scroll).Y
	switch high := n.scroll.Size().Height; {
	case high <= 0:
	case top < 0:
		n.scroll.ScrollToOffset(fyne.NewPos(0, n.scroll.Offset.Y+top))
	case top+o.Size().Height > high:
		n.scroll.ScrollToOffset(fyne.NewPos(0, n.scroll.Offset.Y+top+o.Size().Height-high))
	}
}

// changed shows what has changed in the model.
func (n *Inspector) changed(c Change) {
	if !n.Visible() {
		return
	}
	if c&(ListChanged|DataChanged|ProjectChanged) != 0 {
		n.thing.stale()
	}
	if c&(ListChanged|ChoiceChanged|ProjectChanged) != 0 {
		n.proofs.update()
	}
	if c&(SetupChanged|ShownChanged|ListChanged|DataChanged) != 0 {
		n.fill(c&ChoiceChanged != 0 || n.name != n.model.Setup().Name)
	}
}

// Show shows the numbers as they stand.
func (n *Inspector) Show() {
	n.BaseWidget.Show()
	n.changed(everything)
}

// fill shows all values. What is typed and not taken yet stays, unless it is
// to be given up.
func (n *Inspector) fill(giveUp bool) {
	n.filling = true
	defer func() { n.filling = false }()
	n.name = n.model.Setup().Name
	n.setup.Hidden = n.model.Chosen() < 0
	moved := false
	if n.model.Chosen() >= 0 {
		for _, r := range n.rows {
			if there := r.when == nil || r.when(); there == r.box.Hidden {
				r.box.Hidden, moved = !there, true
			}
			moved = r.field.update(giveUp) || moved
		}
		moved = n.facts.update() || moved
	}
	moved = n.thing.update(giveUp) || moved
	if moved {
		n.relay()
	}
}

// heading is the name of a part.
func (n *Inspector) heading(text string) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.TextStyle.Bold, l.SizeName = true, theme.SizeNameCaptionText
	l.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(nil, widget.NewSeparator(), nil, nil, l)
}
