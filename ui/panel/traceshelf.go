//go:build trace

package panel

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
)

var slotNames = map[model.Slot]string{model.AsEnder: "ender", model.AsFiller: "filler", model.AsJump: "jump", model.AsAttack: "attack", model.AsLanding: "landing", model.AsReply: "reply"}

// Spots are the blocks of the shelf that are in view: the group a block is of
// and its name.
func (l *shelfList) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(l)
	for _, r := range l.Rows {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(r).Subtract(top)
		if line := r.Line(); line != nil && line.Head == "" && at.Y >= 0 && at.Y+r.Size().Height <= l.Size().Height {
			add(slotNames[line.Block.As]+" "+line.Block.Title(), at, r.Size())
		}
	}
}
