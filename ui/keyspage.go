package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// keysPage lists what keys and the mouse do, group by group.
var keysPage = []struct {
	group string
	keys  [][2]string
}{
	{"On the sheet", [][2]string{
		{"Left, Right", "delay one frame less, more"},
		{"Shift and Left, Right", "ten frames"},
		{"[ and ], Alt and Left, Right", "press the attack earlier, later"},
		{"Up, Down", "show another reply"},
		{"Shift and Up, Down", "show another rise"},
		{"D", "follow the reply that decides"},
		{"+, -, 0, Home", "zoom in, out, fit, go to the start"},
		{"Escape", "take a running drag back"},
	}},
	{"With the mouse", [][2]string{
		{"drag the delay or the jump", "change the delay"},
		{"drag the attack", "change its press"},
		{"drag a filler", "swap it with its neighbour, or take it out"},
		{"drag the wake-up", "try another advantage"},
		{"wheel", "zoom at the pointer"},
		{"Shift and wheel, drag the paper", "pan"},
		{"click a cell of the table", "show that reply; again: follow"},
	}},
	{"Everywhere", [][2]string{
		{"Ctrl+Z", "undo"},
		{"Ctrl+Shift+Z, Ctrl+Y", "redo"},
		{"Ctrl+O, Ctrl+S, Ctrl+Shift+S", "open, save, save as"},
		{"Ctrl+E", "save the strip"},
		{"Tab, Shift+Tab", "next, previous: filter, list, sheet"},
	}},
}

// showKeys shows the page.
func (w *window) showKeys() {
	page := container.NewVBox()
	for _, g := range keysPage {
		title := widget.NewLabel(g.group)
		title.TextStyle.Bold = true
		page.Add(title)
		grid := container.New(layout.NewFormLayout())
		for _, k := range g.keys {
			key := widget.NewLabel(k[0])
			grid.Add(key)
			what := widget.NewLabel(k[1])
			what.Importance = widget.LowImportance
			grid.Add(what)
		}
		page.Add(grid)
	}
	d := dialog.NewCustom("Keys", "Close", container.NewVScroll(page), w.win)
	d.SetOnClosed(w.refocus)
	s := w.dialogSize()
	d.Resize(fyne.NewSize(min(s.Width, 600), s.Height))
	d.Show()
}
