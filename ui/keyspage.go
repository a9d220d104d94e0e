package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

// The groups of keys that are not the sheet's.
const (
	keysOfReplies = "In the table of replies"
	keysOfLanes   = "In the lanes"
	keysOfMatchup = "In the match-up"
	keysOfData    = "In the move data"
	keysOfFind    = "In the answers of a search"
	keysOfDrill   = "In a drill"
	keysOfLesson  = "In a lesson and its exercise"
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
		{"+, -, F, Home", "zoom in, out, fit, go to the start"},
		{"Ctrl and Left, Right", "choose the block before, after"},
		{"Ctrl+Shift and Left, Right", "choose fewer, more fillers"},
		{"Ctrl and Up, Down", "move the chosen fillers"},
		{"Ctrl+A, C, X, V, D", "all, copy, cut, paste, duplicate fillers"},
		{"Delete", "take the chosen block out"},
		{"a digit, Enter", "type the chosen block's number"},
		{"/, Ctrl+B", "find a block to put in"},
		{"comma, period", "read the frame before, after"},
		{"Shift and comma, period", "five frames"},
		{"End", "read the frame of the meeting"},
		{"Space", "play, pause"},
		{"M", "zoom to the meeting"},
		{"Escape", "take a drag back, choose nothing"},
	}},
	{keysOfReplies, [][2]string{
		{"S, B, N", "survive it, beat it, demand nothing"},
		{"+, -", "one frame later, earlier"},
		{"a digit", "so many frames late"},
		{"Shift and Up, Down", "move it up, down"},
		{"Delete", "take it out"},
		{"A, Insert", "add a reply"},
		{"Enter", "all that can be done with it"},
	}},
	{keysOfLanes, [][2]string{
		{"Up, Down", "show another reply"},
		{"R", "the rise shown, or each on its worst"},
	}},
	{keysOfMatchup, [][2]string{
		{"Up, Down, Left, Right", "another cell"},
		{"Home, End", "the first reply, the last"},
		{"Page Up, Page Down", "a page of setups"},
		{"Enter", "open the cell on the timeline"},
		{"Ctrl+C", "copy the grid, for a spreadsheet"},
	}},
	{"With the mouse", [][2]string{
		{"drag the delay or the jump", "change the delay"},
		{"drag the attack", "change its press"},
		{"drag a filler", "move it, or off the track take it out"},
		{"drag the wake-up", "try another advantage"},
		{"drag a reply", "have it done later"},
		{"Ctrl while dragging", "no pull to the frames that matter"},
		{"click, Ctrl or Shift and click", "choose a block, more fillers"},
		{"drag between the tracks", "choose the fillers in a band"},
		{"drag a block from the list", "put it in, or in place of another"},
		{"double click in the list", "put it where it belongs"},
		{"wheel", "zoom at the pointer"},
		{"Shift and wheel, middle button", "pan; also Shift and drag"},
		{"click or drag on the ruler", "read one frame in words"},
		{"click a cell of the table", "show that reply; again: follow"},
		{"click a demand, right click", "change it, take it out"},
		{"click a lane", "show that reply"},
	}},
	{keysOfData, [][2]string{
		{"Enter, F2, or type", "type in the cell"},
		{"Tab, Enter", "take the cell, go on right, down"},
		{"Escape", "take it back, give up the row, close"},
		{"Delete", "empty the cells; by its number: the row"},
		{"Ctrl+-", "remove the rows"},
		{"Shift+arrows, Ctrl+A", "choose several cells"},
		{"Ctrl+C, Ctrl+X, Ctrl+V", "copy, cut, paste; spreadsheets too"},
		{"Alt+Up, Alt+Down", "sort by the column, as its heading"},
		{"Ctrl+F", "find in the table"},
		{"Ctrl+Page Up, Ctrl+Page Down", "another table"},
		{"F6, Shift+F6", "leave the table"},
	}},
	{keysOfFind, [][2]string{
		{"Up, Down, Home, End", "another answer, the first, the last"},
		{"Left, Right", "its sheet against another rival"},
		{"Enter", "open it as a setup"},
		{"Escape", "stop the search, close"},
	}},
	{keysOfDrill, [][2]string{
		{"Space", "start, press, go on after a pause"},
		{"Escape", "stop, close"},
	}},
	{keysOfLesson, [][2]string{
		{"Left, Right", "delay one frame less, more"},
		{"Up, Down", "another reply"},
		{"Page Up, Page Down", "read on, back"},
		{"Enter", "try it yourself; check the delay"},
		{"Escape", "give the exercise up, close"},
	}},
	{"Everywhere", [][2]string{
		{"Ctrl+Z", "undo"},
		{"Ctrl+Shift+Z, Ctrl+Y", "redo"},
		{"Ctrl+N, Ctrl+O, Ctrl+I", "new, open, import"},
		{"Ctrl+S, Ctrl+Shift+S", "save a project text, and as"},
		{"Ctrl+E", "export: pictures, pages, words"},
		{"Ctrl+Shift+C, Ctrl+Shift+T", "copy as a picture, as text"},
		{"Ctrl+F", "filter the setups"},
		{"Ctrl+Shift+N, Ctrl+Shift+D", "new setup, duplicate the chosen one"},
		{"F2, Ctrl+Delete", "rename, delete the setup"},
		{"Ctrl+G", "go to the numbers; again: hide them"},
		{"Ctrl+R, Ctrl+L", "the table of replies, the lanes"},
		{"Ctrl+Space", "play at the next speed"},
		{"Ctrl+1, Ctrl+2", "the timeline, the move data"},
		{"Ctrl+3", "all setups against all replies"},
		{"Ctrl+4, Ctrl+5", "find setups, drill the timing"},
		{"Ctrl+6", "the lesson of the setup"},
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
	widget.BaseWidget
	palette *palette
	in      *container.Scroll
	close   func()
}

// The measures of the list, in units.
const (
	keyLine    = 23
	keyGroup   = 14  // between two groups
	keyWhat    = 205 // from a key to what it does
	keyColumn  = 455
	keyColumns = 2
)

// CreateRenderer implements fyne.Widget.
func (k *keyList) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: k, palette: func() *palette { return k.palette }, paint: k.paint,
		min: func() fyne.Size { return fyne.NewSize(keyColumns*keyColumn, k.place(nil)) }}
}

func (k *keyList) paint(p *pen, _ fyne.Size) { k.place(p) }

// place puts the groups where there is most room left, on p unless it is nil,
// and returns the height they take.
func (k *keyList) place(p *pen) float32 {
	var ends [keyColumns]float32
	write := func(s string, x, y float32, bold bool, role sheet.Role) {
		if p != nil {
			t := columnText(s, x, y+textSize+2, role)
			t.Bold = bold
			p.text(&t)
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
	list := &keyList{palette: w.palette}
	list.ExtendBaseWidget(list)
	list.in = container.NewScroll(list)
	a := w.newAsk("Keys", list.in)
	list.close = a.hide
	a.main("Close", a.hide)
	a.show(list.MinSize().AddWidthHeight(50, 120), list)
}

// TypedKey implements fyne.Focusable.
func (k *keyList) TypedKey(ev *fyne.KeyEvent) {
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

// TypedRune implements fyne.Focusable.
func (k *keyList) TypedRune(rune) {}

// FocusGained implements fyne.Focusable.
func (k *keyList) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (k *keyList) FocusLost() {}
