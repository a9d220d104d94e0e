package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/ui/editor"
)

// buildMoment makes what reads one frame: the line over the sheet, the player
// and its strip; and the lanes, which the line runs through. It returns the
// sheet with the line and the strip.
func (w *window) buildMoment() fyne.CanvasObject {
	w.scrub = editor.NewScrub(w.sheet)
	w.player = editor.NewPlayer(w.scrub)
	w.strip = editor.NewPlayBar(w.player)
	w.strip.OnKey = w.typedKey
	w.lanes = editor.NewLanes(w.model, w.sheet)
	w.side = editor.NewSideView(w.model, w.scrub)
	w.scrub.OnHint, w.strip.OnHint, w.lanes.OnHint, w.side.OnHint = w.status.Hint, w.status.Hint, w.status.Hint, w.status.Hint
	w.scrub.OnTaken = w.player.Stop
	w.scrub.OnMoved = func() {
		w.strip.Say()
		w.lanes.Line(w.scrub.Frame())
		w.side.Follow()
	}
	w.player.OnState = func() {
		w.strip.Refresh()
		w.Preferences().SetInt(prefSlow, w.player.Slow)
	}
	w.lanes.OnWorst = func(on bool) { w.Preferences().SetBool(prefWorst, on) }
	w.replies.OnHint, w.replies.OnAdd, w.replies.OnAll = w.status.Hint, w.askReply, w.refocus
	w.replies.OnKey, w.replies.OnRune = w.sheet.TypedKey, w.sheet.TypedRune

	upper := container.NewBorder(nil, w.strip, nil, nil, container.NewStack(w.sheet, w.scrub))
	w.strip.OnHeight = func() { upper.Layout.Layout(upper.Objects, upper.Size()) }
	return upper
}

// sheetDrawn has what stands on the sheet's frames follow it.
func (w *window) sheetDrawn() {
	w.scrub.Follow()
	w.lanes.Follow()
	w.side.Follow()
}

// momentKey moves the scrub line, plays, and takes the line away. It reports
// whether the key means any of that.
func (w *window) momentKey(ev *fyne.KeyEvent) bool {
	n := 1
	if w.sheet.Keys()&fyne.KeyModifierShift != 0 {
		n = scrubStep
	}
	switch ev.Name {
	case fyne.KeyComma:
		w.stepScrub(-n)
	case fyne.KeyPeriod:
		w.stepScrub(n)
	case fyne.KeyEnd:
		w.readMeeting()
	case fyne.KeySpace:
		w.player.Toggle()
	case fyne.KeyEscape:
		if w.side.TakeBack() {
			return true
		}
		w.player.Stop()
		return w.scrub.Clear()
	default:
		return false
	}
	return true
}

// scrubStep is how many frames a key moves the line with Shift.
const scrubStep = 5

func (w *window) stepScrub(n int) {
	w.player.Stop()
	w.scrub.Step(n)
}

func (w *window) readMeeting() {
	w.player.Stop()
	w.scrub.Meeting()
}

// showLanes and showReplies show that tab and give it the keys.
func (w *window) showLanes() {
	if w.showBelow("Lanes") {
		w.Canvas().Focus(w.lanes.Body)
	}
}

// toggleSide shows where both stand, or the replies again.
func (w *window) toggleSide() {
	if w.side.Visible() {
		w.showReplies()
		return
	}
	w.showBelow("Side view")
}

// showReplies: see showLanes.
func (w *window) showReplies() {
	if w.showBelow("Replies") {
		w.Canvas().Focus(w.replies.Body)
	}
}
