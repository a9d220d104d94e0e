package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/panel"
)

// tableKey types a key into the table.
func tableKey(w *window, name fyne.KeyName) { w.replies.Body.TypedKey(&fyne.KeyEvent{Name: name}) }

func replyList(w *window) string {
	var out []string
	for _, r := range w.model.Setup().Replies {
		out = append(out, r.Title()+" "+string(r.Demand))
	}
	return strings.Join(out, ", ")
}

// few leaves setup 0 two replies.
func few() *timeline.Project {
	p := sample()
	p.Setups[0].Replies = p.Setups[0].Replies[:2]
	return p
}

func TestTableIsATabStop(t *testing.T) {
	w := open(t, sample(), laptop)
	c := w.Canvas()
	c.Focus(w.sheet)
	for range 10 {
		c.FocusNext()
		if c.Focused() == fyne.Focusable(w.replies.Body) {
			if !w.replies.Body.Focused {
				t.Error("the table doesn't show that it has the keys")
			}
			return
		}
	}
	t.Error("Tab never comes to the table")
}

func TestAddAllGivesTheKeysToTheSheet(t *testing.T) {
	for name, add := range map[string]func(w *window){
		"the row": func(w *window) {
			w.replies.Body.Tapped(&fyne.PointEvent{Position: fyne.NewPos(w.replies.Body.Size().Width-20, float32(w.model.Plan().Lines()*panel.ReplyRow)+5)})
		},
		"the dialog": func(w *window) {
			w.askReply()
			tap(t, w, "Add all that are missing")
		},
		"the menu": func(w *window) {
			w.replies.Body.OpenMenu(w.replies.Body.MenuPlace())
			menu := w.Canvas().Focused().(*widget.PopUpMenu)
			menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp}) // the last item
			menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		},
	} {
		w := open(t, few(), laptop)
		w.Canvas().Focus(w.replies.Body)
		add(w)
		if n := len(w.model.MissingReplies()); n != 0 {
			t.Fatalf("%s leaves %d replies out", name, n)
		}
		if got := w.Canvas().Focused(); got != fyne.Focusable(w.sheet) {
			t.Errorf("after %s %T has the keys", name, got)
		}
	}
}

func TestKeysWalkTheTable(t *testing.T) {
	p := few()
	p.Setups[0].Rises = nil
	w := open(t, p, laptop)
	w.model.Show(0, 1)
	tableKey(w, fyne.KeyDown)
	tableKey(w, fyne.KeyDown)
	tableKey(w, fyne.KeyRight)
	if rise, line := w.model.Shown(); rise != 1 || line != 3 {
		t.Fatalf("shows %d, %d", rise, line)
	}
	tableKey(w, fyne.KeyEnd)
	if _, line := w.model.Shown(); line != 3 || !w.replies.Body.Adding {
		t.Errorf("End comes to line %d, adding %v", line, w.replies.Body.Adding)
	}
	tableKey(w, fyne.KeyUp)
	if _, line := w.model.Shown(); line != 4 || w.replies.Body.Adding {
		t.Errorf("Up comes to line %d, adding %v", line, w.replies.Body.Adding)
	}
	if edits(w.model) != 0 {
		t.Error("walking edits")
	}
}

// TestTableEdits does each edit on the second of two replies: one step each,
// and undone by one.
func TestTableEdits(t *testing.T) {
	const start = "rising gale survive, quick jab beat"
	shift := func(w *window) { w.replies.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift } }
	for name, tt := range map[string]struct {
		do   func(w *window)
		want string
		line int // shown after it
	}{
		"survive": {func(w *window) { w.replies.Body.TypedRune('s') }, "rising gale survive, quick jab survive", 4},
		"none":    {func(w *window) { w.replies.Body.TypedRune('n') }, "rising gale survive, quick jab none", 4},
		"later":   {func(w *window) { w.replies.Body.TypedRune('+') }, "rising gale survive, quick jab late 1 beat", 4},
		"late":    {func(w *window) { w.replies.Body.TypedRune('3') }, "rising gale survive, quick jab late 3 beat", 4},
		"up":      {func(w *window) { shift(w); tableKey(w, fyne.KeyUp) }, "quick jab beat, rising gale survive", 3},
		"taken":   {func(w *window) { tableKey(w, fyne.KeyDelete) }, "rising gale survive", 3},
		"added":   {func(w *window) { w.replies.AddNamed("grip") }, start + ", grip survive", 5},
		"again":   {func(w *window) { w.replies.AddNamed("quick jab") }, start + ", quick jab late 1 survive", 5},
		"all":     {func(w *window) { w.replies.AddAll() }, start + ", slow anchor survive, grip survive, back step survive, back jump survive", 5},
		"all by a click": {func(w *window) {
			name, _ := w.replies.Columns(w.replies.Body.Size().Width)
			w.replies.Body.Tapped(&fyne.PointEvent{Position: fyne.NewPos(name+30, 5*panel.ReplyRow+4)})
		}, start + ", slow anchor survive, grip survive, back step survive, back jump survive", 5},
	} {
		w := open(t, few(), laptop)
		w.model.Show(0, 4)
		tt.do(w)
		if got := replyList(w); got != tt.want {
			t.Errorf("%s: %q, want %q", name, got, tt.want)
		}
		if _, line := w.model.Shown(); line != tt.line || w.model.Follows() {
			t.Errorf("%s: line %d is shown, want %d", name, line, tt.line)
		}
		if edits(w.model) != 1 {
			t.Errorf("%s: %d steps", name, edits(w.model))
		}
		w.undo()
		if got := replyList(w); got != start {
			t.Errorf("%s: undone it is %q", name, got)
		}
	}
}

func TestTableRefuses(t *testing.T) {
	p := few()
	p.Setups[0].Replies = append(p.Setups[0].Replies, timeline.Reply{Move: "quick jab", Demand: timeline.Survive, Late: 1})
	w := open(t, p, laptop)
	told := ""
	w.replies.OnHint = func(s string) { told = s }
	before := replyList(w)
	for name, tt := range map[string]struct {
		line int
		do   func()
		want string // part of what is told
	}{
		"a guard's demand": {0, func() { w.replies.Body.TypedRune('b') }, "always judged"},
		"a guard out":      {2, func() { tableKey(w, fyne.KeyDelete) }, "always judged"},
		"one twice":        {4, func() { w.replies.Body.TypedRune('+') }, "each reply once"},
		"before its time":  {3, func() { w.replies.Body.TypedRune('-') }, ""},
		"above the first":  {3, func() { w.replies.MoveReply(-1) }, ""},
	} {
		told = ""
		w.replies.Body.ShowLine(tt.line)
		tt.do()
		if got := replyList(w); got != before || edits(w.model) != 0 {
			t.Errorf("%s: now %q, %d steps", name, got, edits(w.model))
		}
		if !strings.Contains(told, tt.want) {
			t.Errorf("%s: told %q, want %q", name, told, tt.want)
		}
	}
}

// TestDemandMenu opens the menu on a demand's word and takes an item.
func TestDemandMenu(t *testing.T) {
	w := open(t, few(), laptop)
	b := w.replies.Body
	name, _ := w.replies.Columns(b.Size().Width)
	b.Tapped(&fyne.PointEvent{Position: fyne.NewPos(name-panel.ReplyPad-6, 3*panel.ReplyRow+8), AbsolutePosition: fyne.NewPos(500, 500)})
	menu, ok := w.Canvas().Focused().(*widget.PopUpMenu)
	if !ok {
		t.Fatal("no menu opens")
	}
	for range 2 { // past "survive", to "beat"
		menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := replyList(w); got != "rising gale beat, quick jab beat" {
		t.Errorf("now %q", got)
	}
	if w.Canvas().Overlays().Top() != nil {
		t.Error("the menu stays")
	}
	if w.Canvas().Focused() != fyne.Focusable(b) {
		t.Error("the table has not the keys again")
	}
}

// TestPickAReply types a few letters and takes what is left.
func TestPickAReply(t *testing.T) {
	w := open(t, few(), laptop)
	w.replies.Body.TypedRune('a')
	p, ok := w.Canvas().Focused().(*replyPicker)
	if !ok {
		t.Fatalf("the keys are with %T", w.Canvas().Focused())
	}
	if got := strings.Join(p.shown, ", "); got != "rising gale, slow anchor, grip, quick jab, back step, back jump" {
		t.Errorf("offers %q", got)
	}
	p.SetText("BACK")
	if got := strings.Join(p.shown, ", "); got != "back step, back jump" {
		t.Fatalf("offers %q", got)
	}
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := replyList(w); !strings.HasSuffix(got, ", back jump survive") {
		t.Errorf("now %q", got)
	}
	if w.Canvas().Overlays().Top() != nil || w.Canvas().Focused() != fyne.Focusable(w.replies.Body) {
		t.Error("the picker stays, or keeps the keys")
	}
	w.replies.Body.TypedRune('a')
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Overlays().Top() != nil {
		t.Error("Escape leaves the picker open")
	}
	if p.SetText("no such move"); len(p.shown) != 0 {
		t.Error("offers what is not there")
	}
	p.takeMarked()
	if n := len(w.model.Setup().Replies); n != 3 {
		t.Errorf("%d replies after nothing was marked", n)
	}
}

// TestTablePaintsWhatIsSeen scrolls through sixty replies.
func TestTablePaintsWhatIsSeen(t *testing.T) {
	w := open(t, crowd(60), fyne.NewSize(1720, 900)) // the table has room for every name
	w.hideNumbers()
	lines := w.model.Plan().Lines()
	w.model.Show(0, 0)
	title := func(i int) string { return w.model.Verdict().Rises[0].Replies[i].Title() }
	names := paintedNames(w.replies.Body)
	if !slices.Contains(names, title(0)) || slices.Contains(names, title(lines-1)) {
		t.Fatalf("at the start it paints %q", names)
	}
	for i := range lines {
		tableKey(w, fyne.KeyDown)
		if names = paintedNames(w.replies.Body); i < lines-1 && !slices.Contains(names, title(i+1)) {
			t.Fatalf("at row %d it paints %q", i+1, names)
		}
	}
	if !slices.Contains(names, panel.AddReply) || slices.Contains(names, title(0)) || !w.replies.Body.Adding {
		t.Errorf("at the end it paints %q", names)
	}
}
