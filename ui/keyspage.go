package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// The groups of keys that are not the sheet's.
const (
	keysOfSetups  = "In the list of setups"
	keysOfReplies = "In the table of replies"
	keysOfLanes   = "In the lanes"
	keysOfMatchup = "In the match-up"
	keysOfMix     = "In the mix"
	keysOfCompare = "In the comparison"
	keysOfTests   = "In the in-game tests to do"
	keysOfData    = "In the move data"
	keysOfFind    = "In the answers of a search"
	keysOfDrill   = "In a drill"
	keysOfLesson  = "In a lesson and its exercise"
	keysOfPresent = "While presenting"
)

// keysPage lists what keys and the mouse do, group by group.
var keysPage = []struct {
	group string
	keys  [][2]string
}{
	{"On the sheet", [][2]string{
		{"Left, Right", "delay 1 frame shorter, longer"},
		{"Shift and Left, Right", "10 frames shorter, longer"},
		{"[ and ], Alt and Left, Right", "press the attack earlier, later"},
		{"Up, Down", "show another reply"},
		{"Shift and Up, Down", "show another rise"},
		{"D", "show the deciding reply"},
		{"+, -, F, Home", "zoom in, zoom out, fit, go to start"},
		{"Ctrl and Left, Right", "select the previous, next block"},
		{"Ctrl+Shift and Left, Right", "extend the selection of fillers"},
		{"Ctrl and Up, Down", "move the selected fillers"},
		{"Ctrl+A, C, X, V, D", "fillers: all, copy, cut, paste, duplicate"},
		{"Delete", "remove the selected block"},
		{"a digit, Enter", "edit the selected block's value"},
		{"/, Ctrl+B", "insert a block"},
		{"comma, period", "explain the previous, next frame"},
		{"Shift and comma, period", "5 frames back, on"},
		{"End", "explain the frame of the meeting"},
		{"Space", "play, pause"},
		{"M", "zoom to the meeting"},
		{"Escape", "cancel drag, deselect"},
	}},
	{keysOfSetups, [][2]string{
		{"a click with Ctrl held", "select one more setup"},
		{"Shift and Up, Down", "select setups in a row"},
		{"Ctrl+A", "select all setups of the list"},
		{"Escape", "select none"},
		{"Menu", "what can be done with them"},
	}},
	{keysOfReplies, [][2]string{
		{"S, B, N", "demand: survive, beat, none"},
		{"+, -", "reply 1 frame later, earlier"},
		{"a digit", "set how many frames late"},
		{"Shift and Up, Down", "move the reply up, down"},
		{"Delete", "remove the reply"},
		{"A, Insert", "add a reply"},
		{"O", "own replies, or standing ones"},
		{"Enter", "open its menu"},
	}},
	{keysOfLanes, [][2]string{
		{"Up, Down", "show another reply"},
		{"R", "the shown rise, or the worst of each"},
	}},
	{keysOfMatchup, [][2]string{
		{"Up, Down, Left, Right", "go to another cell"},
		{"Home, End", "first, last reply"},
		{"Page Up, Page Down", "one page of setups"},
		{"Enter", "open the setup on the timeline"},
		{"Ctrl+C", "copy the table, for a spreadsheet"},
	}},
	{keysOfMix, [][2]string{
		{"Space", "the setup takes part, or not"},
		{"Left, Right", "in the habits: less often, more often"},
		{"Delete", "in the habits: never"},
	}},
	{keysOfCompare, [][2]string{
		{"Left, Right", "fold, unfold the section"},
		{"Enter", "open the setup on the timeline"},
		{"F", "find other setups after its ender"},
		{"Escape", "stop the weighing, close"},
	}},
	{keysOfTests, [][2]string{
		{"W, F, U", "it worked, failed, is unclear; next"},
		{"a digit", "type the advantage that you read"},
		{"N", "type a note"},
		{"Enter", "back to the list; open the setup"},
	}},
	{"With the mouse", [][2]string{
		{"drag the delay or the jump", "change the delay"},
		{"drag the attack", "change its press frame"},
		{"drag a filler", "move it; off the track: remove it"},
		{"drag the wake-up", "try another knockdown advantage"},
		{"drag a reply", "make it later"},
		{"Ctrl while dragging", "disable snapping"},
		{"click, Ctrl or Shift and click", "select a block, several fillers"},
		{"drag between the tracks", "select the fillers in a range"},
		{"drag a block from the list", "insert it, or replace a block"},
		{"double click in the list", "insert it in its place"},
		{"wheel", "zoom at the pointer"},
		{"Shift and wheel, middle button", "pan; also Shift and drag"},
		{"click or drag on the ruler", "explain one frame"},
		{"click a cell of the table", "show that reply; again: deciding"},
		{"click a demand, right click", "change it, remove the reply"},
		{"click a lane", "show that reply"},
	}},
	{keysOfData, [][2]string{
		{"Enter, F2, or type", "edit the cell"},
		{"Tab, Enter", "confirm, go right, down"},
		{"Escape", "cancel, discard row, close"},
		{"Delete", "clear cells, or remove the row"},
		{"Ctrl+-", "remove rows"},
		{"Shift+arrows, Ctrl+A", "select several cells"},
		{"Ctrl+C, Ctrl+X, Ctrl+V", "copy, cut, paste; spreadsheets too"},
		{"Alt+Up, Alt+Down", "sort by the column"},
		{"Alt+Shift+Up, Alt+Shift+Down", "move rows up, down"},
		{"Ctrl+F", "find in the table"},
		{"Ctrl+Page Up, Ctrl+Page Down", "another table"},
		{"F6, Shift+F6", "leave the table"},
	}},
	{keysOfFind, [][2]string{
		{"Up, Down, Home, End", "another answer, first, last"},
		{"Left, Right", "show it against another rival"},
		{"Enter", "open it as a setup"},
		{"Escape", "stop the search, close"},
	}},
	{keysOfDrill, [][2]string{
		{"Space", "start, press, continue after a pause"},
		{"Backspace", "discard the last press"},
		{"Escape", "stop, close"},
	}},
	{keysOfLesson, [][2]string{
		{"Left, Right", "delay 1 frame shorter, longer"},
		{"Up, Down", "another reply"},
		{"Page Up, Page Down", "scroll down, up"},
		{"Enter", "start the exercise; check the delay"},
		{"Escape", "end the exercise, close"},
	}},
	{keysOfPresent, [][2]string{
		{"Space, Backspace", "the next, previous setup of the list"},
		{"Left, Right", "1 frame earlier, later"},
		{"Home", "as it is"},
		{"W", "why"},
		{"Escape", "leave the full screen"},
	}},
	{"Everywhere", [][2]string{
		{"Ctrl+Z", "undo"},
		{"Ctrl+Shift+Z, Ctrl+Y", "redo"},
		{"Ctrl+N, Ctrl+O, Ctrl+I", "new, open, import"},
		{"Ctrl+S, Ctrl+Shift+S", "save JSON, save as"},
		{"Ctrl+E", "export pictures, PDF, text"},
		{"Ctrl+Shift+C, Ctrl+Shift+T", "copy as picture, as text"},
		{"Ctrl+F", "filter the setups"},
		{"Ctrl+Shift+N, Ctrl+Shift+D", "new setup, duplicate setup"},
		{"F2, Ctrl+Delete", "rename, delete the setup"},
		{"Ctrl+G", "go to the numbers; again: hide them"},
		{"Ctrl+R, Ctrl+L, Ctrl+K", "reply table, lanes, side view"},
		{"Ctrl+Space", "next playback speed"},
		{"Ctrl+1, Ctrl+2", "the timeline, the move data"},
		{"Ctrl+3", "all setups against all replies"},
		{"Ctrl+9", "all setups against every rival"},
		{"Ctrl+0", "what to test in the game"},
		{"Ctrl+4, Ctrl+5", "find setups, drill the timing"},
		{"Ctrl+6", "the lesson of the setup"},
		{"Ctrl+Shift+E", "exercises about the setups of the list"},
		{"Ctrl+Shift+P", "present on the full screen"},
		{"Ctrl+7, Ctrl+8", "the mix of setups, the finish"},
		{"Ctrl+H, Ctrl+Shift+H", "the history; compare revisions"},
		{"Ctrl+F1", "the glossary"},
		{"Tab, Shift+Tab", "next, previous: list, sheet, pages"},
		{"F10, Alt+F, E, S, V, H", "open a menu"},
		{"F1, Ctrl+Q", "this page, quit"},
	}},
}

var _ fyne.Focusable = (*keyList)(nil)

// keyList draws the groups, two beside each other. Its keys scroll what it
// lies in.
type keyList struct {
	paint.Keyed
	in    *container.Scroll
	close func()
}

// The measures of the list, in units.
const (
	keyLine    = 23
	keyGroup   = 14  // between two groups
	keyWhat    = 205 // from a key to what it does
	keyColumn  = 455
	keyColumns = 2
)

func (k *keyList) paint(p *paint.Pen, _ fyne.Size) { k.place(p) }

// place puts the groups where there is most room left, on p unless it is nil,
// and returns the height they take.
func (k *keyList) place(p *paint.Pen) float32 {
	var ends [keyColumns]float32
	write := func(s string, x, y float32, bold bool, role sheet.Role) {
		if p != nil {
			t := paint.ColumnText(s, x, y+paint.TextSize+2, role)
			t.Bold = bold
			p.Text(&t)
		}
	}
	for _, g := range keysPage {
		at := 0
		for i := range ends {
			if ends[i] < ends[at] {
				at = i
			}
		}
		x, y := float32(at*keyColumn), ends[at]
		write(g.group, x, y, true, sheet.Ink)
		for _, key := range g.keys {
			y += keyLine
			write(key[0], x, y, false, sheet.Ink)
			write(key[1], x+keyWhat, y, false, sheet.Soft)
		}
		ends[at] = y + keyLine + keyGroup
	}
	return slices.Max(ends[:]) - keyGroup
}

// showKeys shows the page.
func (w *window) showKeys() {
	list := &keyList{}
	list.Extend(list, list.paint, func() fyne.Size { return fyne.NewSize(keyColumns*keyColumn, list.place(nil)) })
	list.in = container.NewScroll(list)
	a := w.Dialogs().New("Keys", list.in)
	list.close = a.Hide
	a.Main("Close", a.Hide)
	a.Show(list.MinSize().AddWidthHeight(50, 120), list)
}

// TypedKey implements fyne.Focusable.
func (k *keyList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The page of keys")
	page := k.in.Size().Height
	end := max(k.Size().Height-page, 0)
	y := k.in.Offset.Y
	switch ev.Name {
	case fyne.KeyUp:
		y -= keyLine
	case fyne.KeyDown:
		y += keyLine
	case fyne.KeyPageUp:
		y -= page - keyLine
	case fyne.KeyPageDown:
		y += page - keyLine
	case fyne.KeyHome:
		y = 0
	case fyne.KeyEnd:
		y = end
	case fyne.KeyEscape, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF1:
		k.close()
		return
	}
	k.in.ScrollToOffset(fyne.NewPos(0, min(max(y, 0), end)))
}
