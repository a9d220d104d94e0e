package ui

import "fyne.io/fyne/v2"

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

// bigStep is how many frames an arrow moves the delay with Shift.
const bigStep = 10

// TypedKey moves the delay and the reply shown, and takes a drag back.
func (t *Timeline) TypedKey(ev *fyne.KeyEvent) {
	defer t.model.survive("The sheet")
	shift := t.keys()&fyne.KeyModifierShift != 0
	step := 1
	if shift {
		step = bigStep
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
		t.look(float64(t.scene.Span.From))
	case fyne.KeyEscape:
		t.takeBack()
	default:
		if t.OnKey != nil {
			t.OnKey(ev)
		}
	}
}

// TypedRune zooms, moves the press, and follows the deciding reply.
func (t *Timeline) TypedRune(r rune) {
	defer t.model.survive("The sheet")
	switch r {
	case '+', '=':
		t.ZoomIn()
	case '-', '_':
		t.ZoomOut()
	case '0':
		t.Fit()
	case '[':
		t.PressBy(-1)
	case ']':
		t.PressBy(1)
	case 'd', 'D':
		t.model.Follow()
	}
}

// nudge changes the delay by n frames; not under a hand that drags.
func (t *Timeline) nudge(n int) {
	if t.idle() {
		t.model.SetDelay(t.model.Setup().Delay + n)
	}
}

// PressBy presses the attack n air frames later.
func (t *Timeline) PressBy(n int) {
	if plan := t.model.Plan(); plan != nil && t.idle() {
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

// idle reports whether no hand drags.
func (t *Timeline) idle() bool { return t.drag == nil || !t.drag.moving }
