package ui

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/grid"
	"wakeline/ui/page/matchup"
	"wakeline/ui/paint"
)

// menuShortcuts are the labels of the menu's items by their shortcut, as the
// driver compares it.
func menuShortcuts(w *window) map[string][]string {
	out := map[string][]string{}
	var walk func(items []*fyne.MenuItem)
	walk = func(items []*fyne.MenuItem) {
		for _, i := range items {
			if i.Shortcut != nil {
				name := i.Shortcut.ShortcutName()
				out[name] = append(out[name], i.Label)
			}
			if i.ChildMenu != nil {
				walk(i.ChildMenu.Items)
			}
		}
	}
	for _, top := range w.menu.main.Items {
		walk(top.Items)
	}
	return out
}

func TestNoTwoItemsShareAShortcut(t *testing.T) {
	w := open(t, sample(), laptop)
	for name, labels := range menuShortcuts(w) {
		if len(labels) > 1 {
			t.Errorf("%s is the shortcut of %q", name, labels)
		}
	}
	for _, top := range w.menu.main.Items {
		seen := map[string]bool{}
		for _, i := range top.Items {
			if !i.IsSeparator && seen[i.Label] {
				t.Errorf("%s has two items %q", top.Label, i.Label)
			}
			seen[i.Label] = true
		}
	}
}

func TestTheMenusStandInTheUsualPlaces(t *testing.T) {
	w := open(t, sample(), laptop)
	var tops []string
	for _, m := range w.menu.main.Items {
		tops = append(tops, m.Label)
		if high := widget.NewMenu(m).MinSize().Height; high > 640-30 {
			t.Errorf("%s is %g high, too much for a window of 640", m.Label, high)
		}
		for i, item := range m.Items {
			if item.IsSeparator && (i == 0 || i == len(m.Items)-1 || m.Items[i-1].IsSeparator) {
				t.Errorf("%s has a line with nothing to part", m.Label)
			}
		}
	}
	if tops[0] != "File" || tops[1] != "Edit" || tops[len(tops)-1] != "Help" {
		t.Errorf("the menus are %q", tops)
	}
	file, edit := w.menu.main.Items[0].Items, w.menu.main.Items[1].Items
	if !strings.HasPrefix(file[0].Label, "New") || file[len(file)-1].Label != "Quit" || edit[0] != w.menu.undo || edit[1] != w.menu.redo {
		t.Errorf("File begins with %q and ends with %q, Edit begins with %q", file[0].Label, file[len(file)-1].Label, edit[0].Label)
	}
}

func TestWhatTheSheetAloneCanDoIsGreyOnAPage(t *testing.T) {
	w := open(t, sample(), laptop)
	grey := func() (n int) {
		for _, i := range w.menu.sheet {
			if i.Disabled {
				n++
			}
		}
		return n
	}
	if n := grey(); n != 0 {
		t.Errorf("%d items are grey on the timeline", n)
	}
	w.showMatchup()
	if n := grey(); n != len(w.menu.sheet) || n == 0 {
		t.Errorf("%d of %d items are grey on a page", n, len(w.menu.sheet))
	}
	before := looks(w)
	for _, i := range w.menu.sheet {
		i.Action()
	}
	if looks(w) != before {
		t.Error("a grey item did something")
	}
	w.Close()
	if n := grey(); n != 0 {
		t.Errorf("%d items are grey after the page was closed", n)
	}
}

// keyNames are the driver's names of the keys that the page of keys names
// otherwise.
var keyNames = map[string]fyne.KeyName{
	"Enter": fyne.KeyReturn, "Page Up": fyne.KeyPageUp, "Page Down": fyne.KeyPageDown,
	"comma": fyne.KeyComma, "period": fyne.KeyPeriod,
}

var modifiers = map[string]fyne.KeyModifier{"Ctrl": fyne.KeyModifierControl, "Shift": fyne.KeyModifierShift, "Alt": fyne.KeyModifierAlt}

// shortcutOf reads a key as the page writes it, "Ctrl+Shift+Z", as the name of
// its shortcut; empty for one without Ctrl or Alt.
func shortcutOf(key string) string {
	parts := strings.Split(key, "+")
	if len(parts) < 2 || parts[len(parts)-1] == "" {
		return ""
	}
	var mod fyne.KeyModifier
	for _, p := range parts[:len(parts)-1] {
		mod |= modifiers[p]
	}
	name := fyne.KeyName(parts[len(parts)-1])
	if n, ok := keyNames[string(name)]; ok {
		name = n
	}
	if mod == fyne.KeyModifierControl { // the driver has names of its own for these
		for _, s := range []fyne.Shortcut{&fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}, &fyne.ShortcutCopy{}, &fyne.ShortcutCut{}, &fyne.ShortcutPaste{}, &fyne.ShortcutSelectAll{}} {
			if k, ok := s.(fyne.KeyboardShortcut); ok && k.Key() == name {
				return s.ShortcutName()
			}
		}
	}
	return (&desktop.CustomShortcut{KeyName: name, Modifier: mod}).ShortcutName()
}

// keysOf parts what a line of the page says of keys: "Ctrl+N, Ctrl+O",
// "Ctrl+A, C" and "Alt and Left, Right" are two each.
func keysOf(line string) (out []string) {
	prefix, last := "", ""
	for _, k := range strings.Split(line, ", ") {
		before, after, both := strings.Cut(k, " and ")
		switch {
		case both && strings.Trim(strings.NewReplacer("Ctrl", "", "Shift", "", "Alt", "").Replace(before), "+") == "":
			prefix = before + "+" // holds for the keys after it
			out = append(out, prefix+after)
		case both:
			out = append(out, prefix+before, prefix+after)
		case strings.Contains(k, "+") && k != "+":
			prefix, last = "", k[:strings.LastIndexByte(k, '+')+1]
			out = append(out, k)
		case len(k) == 1 && last != "":
			out = append(out, last+k)
		default:
			out = append(out, prefix+k)
		}
	}
	return out
}

func TestKeysOf(t *testing.T) {
	for line, want := range map[string]string{
		"Left, Right":                    "Left|Right",
		"Shift and Left, Right":          "Shift+Left|Shift+Right",
		"[ and ], Alt and Left, Right":   "[|]|Alt+Left|Alt+Right",
		"Ctrl+Shift+Z, Ctrl+Y":           "Ctrl+Shift+Z|Ctrl+Y",
		"Ctrl+Shift and Left, Right":     "Ctrl+Shift+Left|Ctrl+Shift+Right",
		"+, -, 0, Home":                  "+|-|0|Home",
		"Tab, Shift+Tab":                 "Tab|Shift+Tab",
		"Ctrl+A, C, D":                   "Ctrl+A|Ctrl+C|Ctrl+D",
		"F2, Ctrl+Delete":                "F2|Ctrl+Delete",
		"Ctrl and comma, Ctrl and Space": "Ctrl+comma|Ctrl+Space",
	} {
		if got := strings.Join(keysOf(line), "|"); got != want {
			t.Errorf("%q: %q, want %q", line, got, want)
		}
	}
}

// TestThePageOfKeysIsTrue holds what the page says of shortcuts to those that
// there are, both ways.
func TestThePageOfKeysIsTrue(t *testing.T) {
	w := open(t, sample(), laptop)
	menu, listed := menuShortcuts(w), map[string]bool{}
	there := func(name string) bool {
		if len(menu[name]) > 0 || name == (&fyne.ShortcutRedo{}).ShortcutName() { // the canvas's own
			return true
		}
		for _, i := range w.menuBar.letters().Items {
			if i.Shortcut.ShortcutName() == name {
				return true
			}
		}
		for s := range editor.SheetShortcuts {
			if s.ShortcutName() == name {
				return true
			}
		}
		for s := range grid.Shortcuts {
			if s.ShortcutName() == name {
				return true
			}
		}
		return slices.Contains([]string{"Copy", "Cut", "Paste", "SelectAll"}, name) // what has the keys takes these
	}
	for _, g := range keysPage {
		for _, line := range g.keys {
			for _, key := range keysOf(line[0]) {
				name := shortcutOf(key)
				if !strings.Contains(key, "Ctrl+") && !strings.Contains(key, "Alt+") {
					continue
				}
				listed[name] = true
				if !there(name) {
					t.Errorf("the page lists %q, %s, which nothing takes", key, line[1])
				}
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(menu)) {
		if !listed[name] {
			t.Errorf("the page lacks %s, %q", name, menu[name])
		}
		if len(menu[name]) > 1 {
			t.Errorf("%s is the shortcut of several: %q", name, menu[name])
		}
	}
}

// TestThePageOfKeysFitsItsColumns measures what is written beside each other.
func TestThePageOfKeysFitsItsColumns(t *testing.T) {
	open(t, sample(), laptop)
	w := paint.Wrapper{Size: paint.TextSize}
	for _, g := range keysPage {
		for _, line := range g.keys {
			if n := w.WidthOf(line[0]); n > keyWhat-8 {
				t.Errorf("%q is %g wide, want at most %d", line[0], n, keyWhat-8)
			}
			if n := w.WidthOf(line[1]); n > keyColumn-keyWhat-12 {
				t.Errorf("%q is %g wide, want at most %d", line[1], n, keyColumn-keyWhat-12)
			}
		}
	}
}

// looks is all of the window that a key of the sheet may change.
func looks(w *window) string {
	rise, line := w.model.Shown()
	var cell []int
	if m, ok := w.page.(*matchup.Page); ok {
		row, column := m.Cursor()
		cell = []int{row, column}
	}
	return fmt.Sprint(cell, w.model.Setup(), w.model.OwnReplies(), w.sheet.CurrentView, rise, line, w.model.Follows(), w.sheet.Chosen, w.sheet.Typed.Open(),
		w.Canvas().Focused() == fyne.Focusable(w.sheet), len(w.Canvas().Overlays().List()), w.scrub.On, w.scrub.FrameAt, w.player.Playing(), w.lanes.Worst)
}

// TestEachPlainKeyOfThePageDoesSomething presses the page's keys that have
// neither Ctrl nor Alt, on a sheet where each has something to do. Those of the
// move data, the list of setups, the search, the drill, the mix, the comparison, the presentation and the
// in-game tests have tests of their own.
func TestEachPlainKeyOfThePageDoesSomething(t *testing.T) {
	elsewhere := []string{"With the mouse", keysOfData, keysOfFind, keysOfDrill, keysOfLesson, keysOfMix, keysOfCompare, keysOfTests, keysOfPresent, keysOfSetups}
	asked := 0
	for _, g := range keysPage {
		for _, line := range g.keys {
			for _, key := range keysOf(line[0]) {
				if slices.Contains(elsewhere, g.group) || strings.Contains(key, "Ctrl+") || strings.Contains(key, "Alt+") || strings.HasSuffix(key, "Tab") {
					continue
				}
				if asked++; testing.Short() && asked%4 != 0 {
					continue
				}
				p := sample()
				p.Fighters[1].Rises = append(p.Fighters[1].Rises, timeline.Rise{Name: "third", Extra: 2})
				p.Setups[1].Rises = nil
				shown := &p.Setups[1].Replies[1]
				shown.Late, shown.Demand = 1, timeline.DemandNone
				if key == "N" {
					shown.Demand = timeline.Beat
				}
				if key == "O" { // gives the setup's own replies up for these
					p.Fighter(p.Setups[1].Rival).Replies = p.Setups[1].Replies[:1]
				}
				w := open(t, p, laptop)
				w.model.Choose(1)
				w.model.SetDelay(4)
				w.model.Show(1, 4)
				w.sheet.ZoomIn()
				w.sheet.LookAt(5)
				w.sheet.Select(editor.FillersChosen(0, 1))
				plain, shifted := strings.CutPrefix(key, "Shift+")
				if shifted {
					w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
				}
				switch plain {
				case "a digit":
					plain = "7"
					fallthrough
				case "Enter":
					w.sheet.Select(editor.One(timeline.PartDelay, 0))
				}
				if g.group == keysOfMatchup {
					w.showMatchup()
					for _, to := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight} {
						typeKey(w, to)
					}
				}
				before := looks(w)
				name, ok := keyNames[plain]
				if !ok {
					name = fyne.KeyName(plain)
				}
				keys := fyne.Focusable(w.sheet)
				switch g.group {
				case keysOfReplies:
					keys = w.replies.Body
					w.replies.Keys = w.sheet.Keys
				case keysOfLanes:
					w.showLanes()
					keys = w.lanes.Body
				case keysOfMatchup:
					keys = w.Canvas().Focused()
				}
				keys.TypedKey(&fyne.KeyEvent{Name: name})
				if len(plain) == 1 {
					keys.TypedRune([]rune(strings.ToLower(plain))[0])
				}
				if looks(w) == before {
					t.Errorf("the page says that %s does this: %s; nothing comes of it", key, line[1])
				}
			}
		}
	}
}

// TestThePageOfKeysIsReadByKeys scrolls it to its end and closes it.
func TestThePageOfKeysIsReadByKeys(t *testing.T) {
	w := open(t, sample(), fyne.NewSize(1024, 640))
	w.showKeys()
	list, ok := w.Canvas().Focused().(*keyList)
	if !ok {
		t.Fatalf("the keys are with %T", w.Canvas().Focused())
	}
	seen := float32(0)
	for range 10 {
		if seen < list.in.Offset.Y {
			t.Fatalf("lines from %g to %g are skipped", seen, list.in.Offset.Y)
		}
		seen = list.in.Offset.Y + list.in.Size().Height
		list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	}
	if seen < list.Size().Height {
		t.Errorf("%g of %g units are seen", seen, list.Size().Height)
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	if list.in.Offset.Y != 0 {
		t.Errorf("Home leads to %g", list.in.Offset.Y)
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Overlays().Top() != nil {
		t.Error("Escape leaves the page open")
	}
}
