package ui

import (
	"wakeline/ui/model"
	"wakeline/ui/page/data"
)

// revealRow shows a row of the move data.
func (w *window) revealRow(of model.DataRow) {
	w.goTo(namedPage("Move data"))
	if d, ok := w.page.(*data.Page); ok {
		d.GoTo(of)
	}
}

// showStanding shows the standing replies of the chosen setup's rival.
func (w *window) showStanding() {
	rival := w.model.Setup().Rival
	if w.busy() || w.model.Data().Fighter(rival) == nil {
		return
	}
	w.revealRow(model.DataRow{Owner: rival, Kind: model.ReplyRow})
}

// showRoutesTo shows the first route of a fighter that ends in that move.
func (w *window) showRoutesTo(fighter, ender string) {
	f := w.model.Data().Fighter(fighter)
	if w.busy() || f == nil {
		return
	}
	if ender == "" {
		w.status.Hint("The setup has no ender, only a knockdown advantage of its own.")
		return
	}
	for i := range f.Routes {
		if steps := f.Routes[i].Steps; steps[len(steps)-1].Move == ender {
			w.revealRow(model.DataRow{Owner: fighter, Kind: model.RouteRow, Name: f.Routes[i].Name})
			return
		}
	}
	w.status.Hint("No route of " + fighter + " ends in " + ender + " yet. Routes are added in Move data, under Routes.")
}
