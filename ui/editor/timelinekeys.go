package editor

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
)

var _ fyne.Shortcutable = (*Timeline)(nil)

// FocusGained implements fyne.Focusable.
func (t *Timeline) FocusGained() {
	t.focused = true
	t.Refresh()
}

// FocusLost implements fyne.Focusable.
func (t *Timeline) FocusLost() {
	t.focused = false
	t.Refresh()
}

// TypedRune zooms, moves the press, and follows the deciding reply.
func (t *Timeline) TypedRune(r rune) {
	defer paint.Survive("The sheet")
	if r >= '0' && r <= '9' && t.Type(string(r)) {
		return
	}
	switch r {
	case '+', '=':
		t.ZoomIn()
	case '-', '_':
		t.ZoomOut()
	case '0', 'f', 'F':
		t.Fit()
	case '[':
		t.PressBy(-1)
	case ']':
		t.PressBy(1)
	case '9', 'm', 'M':
		t.FitMeeting()
	case 'd', 'D':
		t.model.Follow()
	case '/':
		if t.OnShelf != nil {
			t.OnShelf()
		}
	}
}

// unchoose gives the chosen block up. It reports whether there was one.
func (t *Timeline) unchoose() bool {
	was := t.Chosen.on
	if was {
		t.Select(Selection{})
	}
	return was
}

// TypedShortcut copies, pastes, walks over the blocks and moves fillers; what
// it doesn't know is the window's.
func (t *Timeline) TypedShortcut(s fyne.Shortcut) {
	defer paint.Survive("The sheet")
	switch s := s.(type) {
	case *fyne.ShortcutCopy:
		t.Copy()
		return
	case *fyne.ShortcutCut:
		t.Cut()
		return
	case *fyne.ShortcutPaste:
		t.Paste()
		return
	case *fyne.ShortcutSelectAll:
		t.SelectFillers()
		return
	case *desktop.CustomShortcut:
		if do := SheetShortcuts[*s]; do != nil {
			do(t)
			return
		}
	}
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(t).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// nudge changes the delay by n frames; not under a hand that drags.
func (t *Timeline) nudge(n int) {
	if t.Idle() {
		t.model.SetDelay(t.model.Setup().Delay + n)
	}
}

// PressBy presses the attack n air frames later.
func (t *Timeline) PressBy(n int) {
	if plan := t.model.Plan(); plan != nil && t.Idle() {
		t.model.SetPress(plan.Press() + n)
	}
}

// pick shows the reply n lines further on, or with rises the rise.
func (t *Timeline) pick(n int, rises bool) {
	if rises {
		t.model.Step(n, 0)
	} else {
		t.model.Step(0, n)
	}
}

// Idle reports whether no hand drags.
func (t *Timeline) Idle() bool { return t.drag == nil || !t.drag.moving }

// SheetShortcuts are the shortcuts that only the sheet has.
var SheetShortcuts = map[desktop.CustomShortcut]func(t *Timeline){
	{KeyName: fyne.KeyD, Modifier: paint.KeyCtrl}:                      (*Timeline).Duplicate,
	{KeyName: fyne.KeyLeft, Modifier: paint.KeyCtrl}:                   func(t *Timeline) { t.walk(-1, false) },
	{KeyName: fyne.KeyRight, Modifier: paint.KeyCtrl}:                  func(t *Timeline) { t.walk(1, false) },
	{KeyName: fyne.KeyLeft, Modifier: paint.KeyCtrl | paint.KeyShift}:  func(t *Timeline) { t.walk(-1, true) },
	{KeyName: fyne.KeyRight, Modifier: paint.KeyCtrl | paint.KeyShift}: func(t *Timeline) { t.walk(1, true) },
	{KeyName: fyne.KeyUp, Modifier: paint.KeyCtrl}:                     func(t *Timeline) { t.shift(-1) },
	{KeyName: fyne.KeyDown, Modifier: paint.KeyCtrl}:                   func(t *Timeline) { t.shift(1) },
}

// TypedKey moves the delay and the reply shown, and takes a drag back.
func (t *Timeline) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The sheet")
	t.Card = nil
	shift := t.Keys()&fyne.KeyModifierShift != 0
	step := 1
	if shift {
		step = paint.BigStep
	}
	switch ev.Name {
	case fyne.KeyLeft:
		t.nudge(-step)
	case fyne.KeyRight:
		t.nudge(step)
	case fyne.KeyUp:
		t.pick(-1, shift)
	case fyne.KeyDown:
		t.pick(1, shift)
	case fyne.KeyHome:
		t.LookAt(float64(t.Scene.Span.From))
	case fyne.KeyReturn, fyne.KeyEnter:
		t.TypeNow()
	case fyne.KeyDelete, fyne.KeyBackspace:
		t.Remove()
	case fyne.KeyEscape:
		if !t.takeBack() && !t.unchoose() && t.OnKey != nil {
			t.OnKey(ev)
		}
	default:
		if t.OnKey != nil {
			t.OnKey(ev)
		}
	}
}
