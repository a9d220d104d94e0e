package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

var _ fyne.Widget = (*Inspector)(nil)

// Inspector holds the numbers of the chosen setup, and under a tab of their own
// those of the block that is selected on its sheet, each in a field. A value is
// put in by the model's own edits; one that can't stand is refused under its
// field. The results stand apart, and are only read.
//
// Selecting a block shows its tab, and giving it up shows the setup's again. A
// hand that goes back to the setup's tab stays there, whatever it selects,
// until it takes the block's.
type Inspector struct {
	widget.BaseWidget

	OnLeave        func()                      // Escape was pressed where there was nothing to give up
	OnHide         func()                      // the pane is to be hidden
	OnProof        func()                      // a proof is to be noted
	OnUndo, OnRedo func()                      // of the project's steps
	OnData         func()                      // the move data are to be shown
	OnRoutes       func(fighter, ender string) // the routes that end in a move are to be shown

	Odds  func() []words.Fact           // how likely a hand lands the setup
	Holds func() (timeline.Holds, bool) // for what else it is good; false while that isn't known

	model      *model.Model
	Keys       func() fyne.KeyModifier
	spawn, hop func(do func())
	filling    bool   // fields are set by the inspector itself
	name       string // of the setup that the fields are filled for
	Rows       []*InspectorRow
	Facts      *factList
	proofs     *proofPart
	Thing      *thingPart
	setup      *fyne.Container
	Tabs       *paint.Tabs
	leading    bool // a tab is shown that no hand asked for
	stays      bool // a hand has gone back to the setup's tab
	pane       fyne.CanvasObject
}

// The tabs of the pane.
const (
	SetupTab = iota
	BlockTab
)

const (
	InspectorWide  = 264 // units
	inspectorLeast = 230
)

// NewInspector returns the numbers of m's chosen setup. What takes long runs
// through spawn, and hops back through later.
func NewInspector(m *model.Model, spawn, later func(do func())) *Inspector {
	n := &Inspector{model: m, Keys: paint.HeldKeys, spawn: spawn, hop: later, Odds: func() []words.Fact { return nil }, Holds: func() (timeline.Holds, bool) { return timeline.Holds{}, false }}
	n.Facts, n.proofs, n.Thing = newFactList(n), newProofPart(n), newThingPart(n)
	n.setup = container.New(layout.NewCustomPaddedVBoxLayout(rowGap))
	n.buildSetup()
	n.Tabs = paint.NewTabs()
	for _, part := range []struct {
		name string
		body *fyne.Container
	}{{"Setup", n.setup}, {"Selected block", n.Thing.box}} {
		n.Tabs.Add(part.name, container.NewVScroll(container.New(layout.NewCustomPaddedLayout(2, 10, 8, 14), part.body)))
	}
	n.Tabs.OnShow = func(tab int) {
		if !n.leading {
			n.stays = tab == SetupTab
		}
	}
	n.Tabs.OnKey = func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyEscape {
			n.OnLeave()
		}
	}
	title := widget.NewLabel("Numbers")
	title.TextStyle.Bold = true
	hide := n.wordButton("hide", func() { n.OnHide() })
	n.pane = container.NewBorder(container.NewBorder(nil, widget.NewSeparator(), nil, container.NewCenter(hide), title), nil, widget.NewSeparator(), nil, n.Tabs.Box)
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
	defer paint.Survive("The numbers")
	wide := n.Size().Width
	n.BaseWidget.Resize(s)
	if s.Width != wide {
		n.relay()
	}
}

// ShowTab shows a tab that no hand has asked for.
func (n *Inspector) ShowTab(tab int) {
	n.leading = true
	n.Tabs.Show(tab)
	n.leading = false
}

// scroll is what the tab shown lies in.
func (n *Inspector) scroll() *container.Scroll {
	return n.Tabs.Body.Objects[n.Tabs.At].(*container.Scroll)
}

// First is the first field of the tab shown.
func (n *Inspector) First() fyne.Focusable {
	rows := n.Rows
	if n.Tabs.At == BlockTab && len(n.Thing.Rows) > 0 {
		rows = n.Thing.Rows
	}
	if f, ok := rows[0].Field.(*TypedField); ok && n.model.Chosen() >= 0 {
		return f.Entry
	}
	return n.Tabs.Row
}

// Has reports whether o is part of the pane.
func (n *Inspector) Has(o fyne.Focusable) bool {
	at, ok := o.(fyne.CanvasObject)
	if !ok || !n.Visible() {
		return false
	}
	d := fyne.CurrentApp().Driver()
	p, left := d.AbsolutePositionForObject(at), d.AbsolutePositionForObject(n)
	return p.X >= left.X && p.X < left.X+n.Size().Width && p.Y >= left.Y && p.Y < left.Y+n.Size().Height
}

// width is the room of a row.
func (n *Inspector) width() float32 { return max(n.Size().Width, inspectorLeast) - 26 }

// wordButton is a word of the pane; Escape gives the keys back.
func (n *Inspector) wordButton(text string, do func()) *paint.WordButton {
	b := paint.NewWordButton(text, do)
	b.OnKey = func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyEscape {
			n.OnLeave()
		}
	}
	return b
}

// relay lays the rows under each other again, after one has another height.
func (n *Inspector) relay() {
	if n.Tabs == nil {
		return
	}
	for _, part := range []*fyne.Container{n.setup, n.Thing.box} {
		part.Layout.Layout(part.Objects, part.Size())
	}
	for _, o := range n.Tabs.Body.Objects {
		o.Refresh()
	}
}

// reveal scrolls to a field that has got the focus.
func (n *Inspector) reveal(o fyne.CanvasObject) {
	d, in := fyne.CurrentApp().Driver(), n.scroll()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(in).Y
	switch high := in.Size().Height; {
	case high <= 0:
	case top < 0:
		in.ScrollToOffset(fyne.NewPos(0, in.Offset.Y+top))
	case top+o.Size().Height > high:
		in.ScrollToOffset(fyne.NewPos(0, in.Offset.Y+top+o.Size().Height-high))
	}
}

// Changed shows what has changed in the model.
func (n *Inspector) Changed(c model.Change) {
	if !n.Visible() {
		return
	}
	if c&(model.ListChanged|model.DataChanged|model.ProjectChanged) != 0 {
		n.Thing.stale()
	}
	if c&(model.ListChanged|model.ChoiceChanged|model.ProjectChanged) != 0 {
		n.proofs.update()
	}
	if c&model.WorthChanged != 0 && n.model.Chosen() >= 0 && n.Facts.Update() {
		n.relay()
	}
	if c&(model.SetupChanged|model.ShownChanged|model.ListChanged|model.DataChanged) != 0 {
		n.fill(c&model.ChoiceChanged != 0 || n.name != n.model.Setup().Name)
	}
}

// Show shows the numbers as they stand.
func (n *Inspector) Show() {
	defer paint.Survive("The numbers")
	n.BaseWidget.Show()
	n.Changed(model.Everything)
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
		for _, r := range n.Rows {
			if there := r.when == nil || r.when(); there == r.Box.Hidden {
				r.Box.Hidden, moved = !there, true
			}
			moved = r.Field.update(giveUp) || moved
		}
		moved = n.Facts.Update() || moved
	}
	moved = n.Thing.update(giveUp) || moved
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
