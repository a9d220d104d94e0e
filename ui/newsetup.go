package ui

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// newSetup asks for a setup. Whatever is chosen in it makes a valid one.
type newSetup struct {
	m     *model.Model
	named bool // the name was typed by hand

	name                          *paint.PageEntry
	attacker, rival, ender, where *paint.Pick
	none                          *widget.Label // why there is no ender to choose
	box                           *fyne.Container
}

func newNewSetup(w *window) *newSetup {
	m := w.model
	n := &newSetup{m: m, name: paint.NewPageEntry(w), none: widget.NewLabel("")}
	n.none.Wrapping = fyne.TextWrapWord
	n.none.Hide()
	names, attacker := model.FightersWithEnder(m.Data())
	rival, position := names[len(names)-1], string(timeline.Midscreen)
	if s := m.Setup(); m.Chosen() >= 0 { // as the one on screen
		attacker, rival, position = s.Attacker, s.Rival, string(s.Position)
	} else if rival == attacker {
		rival = names[0]
	}
	n.attacker = paint.NewPick(w, names, nil)
	n.rival = paint.NewPick(w, names, nil)
	n.where = paint.NewPick(w, model.Positions, nil)
	n.ender = paint.NewPick(w, nil, nil)
	n.attacker.SetSelected(attacker)
	n.rival.SetSelected(rival)
	n.where.SetSelected(position)
	n.name.OnChanged = func(string) { n.named = true }
	n.offer()
	n.attacker.OnChanged = paint.GuardedOf("The new setup", func(string) { n.offer() })
	n.where.OnChanged = paint.GuardedOf("The new setup", func(string) { n.offer() })
	n.ender.OnChanged = paint.GuardedOf("The new setup", func(string) { n.offerName() })
	n.rival.OnChanged = paint.GuardedOf("The new setup", func(string) { n.offerName() })
	row := func(label string, o fyne.CanvasObject) []fyne.CanvasObject {
		return []fyne.CanvasObject{widget.NewLabel(label), o}
	}
	grid := container.New(layout.NewFormLayout())
	for _, r := range [][]fyne.CanvasObject{row("Attacker", n.attacker), row("Rival", n.rival), row("Position", n.where), row("Ender", n.ender), row("Name", n.name)} {
		grid.Objects = append(grid.Objects, r...)
	}
	n.box = container.NewVBox(grid, n.none)
	return n
}

// offer lists the enders that knock down there, and offers the first.
func (n *newSetup) offer() {
	f := n.m.Data().Fighter(n.attacker.Selected)
	n.ender.Options = model.Enders(f, timeline.Position(n.where.Selected))
	n.none.Hide()
	switch {
	case len(n.ender.Options) == 0:
		n.ender.ClearSelected()
		n.none.SetText(f.Name + " has no move that knocks down at " + positionWords(timeline.Position(n.where.Selected)) + ".")
		n.none.Show()
	default:
		n.ender.SetSelected(n.ender.Options[0])
	}
	n.offerName()
}

func positionWords(p timeline.Position) string {
	if p == timeline.Wall {
		return "the wall"
	}
	return string(p)
}

// offerName offers a name, unless one was typed.
func (n *newSetup) offerName() {
	if n.named || n.ender.Selected == "" {
		return
	}
	n.name.SetText(n.m.FreeName(n.ender.Selected + " vs " + n.rival.Selected))
	n.named = false
}

// setup is what is asked for: its ender, and from there on nothing but a
// guard.
func (n *newSetup) setup() timeline.Setup {
	return timeline.Setup{Name: n.name.Text, Attacker: n.attacker.Selected, Rival: n.rival.Selected, Ender: n.ender.Selected,
		Position: timeline.Position(n.where.Selected), Landing: timeline.DoGuard}
}

// askNewSetup asks for a new setup, puts it last and chooses it. Where the
// move data have nothing to make one of it says so.
func (w *window) askNewSetup() {
	if why := w.model.ReadOnly(); why != "" {
		w.refused(why)
		return
	}
	w.Close()
	if names, first := model.FightersWithEnder(w.model.Data()); first == "" {
		text := "A setup begins with an ender. No move of this project knocks down yet: fill in its knockdown advantage in the move data, midscreen or at the wall."
		if len(names) == 0 {
			text = "A setup needs a fighter, with a move that knocks down. There is no fighter in this project yet."
		}
		w.tellData("There is no ender yet", text)
		return
	}
	n := newNewSetup(w)
	w.Dialogs().Form("New setup", "Create", n.box, n.name, func() error {
		if n.ender.Selected == "" {
			return errors.New("choose an ender: a setup begins with a move that knocks down")
		}
		err := w.model.AddSetup("new setup", n.setup())
		if err == nil {
			w.ShowChosen()
			w.status.Hint("New: " + n.name.Text)
		}
		return err
	})
	typed := n.name.OnChanged // the dialog's own; a hand's name is kept
	n.name.OnChanged = func(text string) {
		defer paint.Survive("The new setup")
		n.named = true
		typed(text)
	}
	n.offerName()
}

// tellData says what the move data lack, and offers to go there.
func (w *window) tellData(title, words string) {
	text := widget.NewLabel(words)
	text.Wrapping = fyne.TextWrapWord
	a := w.Dialogs().New(title, text)
	a.Button("Close", a.Hide)
	if w.openData != nil {
		a.Main("Move data", func() {
			a.Hide()
			w.openData()
		})
	}
	a.Show(fyne.NewSize(460, 160), nil)
}
