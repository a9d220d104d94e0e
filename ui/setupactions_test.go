package ui

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// clickSetup clicks the setup in a row of the list, with keys held.
func clickSetup(t *testing.T, w *window, row int, keys fyne.KeyModifier) {
	t.Helper()
	w.setups.Keys = func() fyne.KeyModifier { return keys }
	defer func() { w.setups.Keys = func() fyne.KeyModifier { return 0 } }()
	for _, r := range w.setups.List.Rows {
		if r.At == w.setups.Shown[row] && r.Visible() {
			r.Tapped(&fyne.PointEvent{})
			return
		}
	}
	t.Fatalf("row %d is not in view", row)
}

// severalItem is what is offered for the setups that are selected.
func severalItem(t *testing.T, w *window, begins string) *fyne.MenuItem {
	t.Helper()
	for _, i := range w.severalItems() {
		if strings.HasPrefix(i.Label, begins) {
			return i
		}
	}
	t.Fatalf("nothing is offered that begins with %q", begins)
	return nil
}

func TestSetupsAreSelectedByCtrlAndShift(t *testing.T) {
	w := openFile(t, many(12))
	clickSetup(t, w, 1, 0)
	if got := w.setups.Marks.Places(); got != nil || w.severalItems() != nil {
		t.Errorf("one click selects %v", got)
	}
	clickSetup(t, w, 4, fyne.KeyModifierControl)
	if got := w.setups.Marks.Places(); !slices.Equal(got, []int{1, 4}) || w.model.Chosen() != 1 {
		t.Errorf("Ctrl: %v, chosen %d", got, w.model.Chosen())
	}
	if got := w.setups.Count.Text; got != "12 setups; 2 selected" {
		t.Errorf("it says %q", got)
	}
	clickSetup(t, w, 4, fyne.KeyModifierControl)
	if got := w.setups.Marks.Places(); got != nil {
		t.Errorf("Ctrl again: %v", got)
	}
	clickSetup(t, w, 3, fyne.KeyModifierShift)
	if got := w.setups.Marks.Places(); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("Shift: %v", got)
	}
	w.setups.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	w.Canvas().Focus(w.setups.List)
	typeKey(w, fyne.KeyDown)
	if got := w.setups.Marks.Places(); !slices.Equal(got, []int{1, 2, 3, 4}) {
		t.Errorf("Shift and Down: %v", got)
	}
	w.setups.Keys = func() fyne.KeyModifier { return 0 }
	typeKey(w, fyne.KeyEscape)
	if got := w.setups.Marks.Places(); got != nil || w.Canvas().Focused() != fyne.Focusable(w.setups.List) {
		t.Errorf("Escape: %v, the keys with %T", got, w.Canvas().Focused())
	}
	w.setups.List.TypedShortcut(&fyne.ShortcutSelectAll{})
	if got := w.setups.Marks.Places(); len(got) != 12 {
		t.Errorf("Ctrl+A: %v", got)
	}
	typeKey(w, desktop.KeyMenu)
	if w.Canvas().Overlays().Top() == nil {
		t.Error("the Menu key opens nothing")
	}
	w.Canvas().Overlays().Remove(w.Canvas().Overlays().Top())
	clickSetup(t, w, 0, 0)
	if got := w.setups.Marks.Places(); got != nil {
		t.Errorf("a click: %v", got)
	}
}

func TestSelectedSetupsAreEditedAsOneStep(t *testing.T) {
	p := many(8)
	w := openFile(t, p)
	whole := func() *timeline.Project {
		got, err := w.model.Document().Whole()
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	before := whole()
	rival := p.Fighters[0].Name
	for _, c := range []struct {
		item, fill, button string
		holds              func(before, after *timeline.Setup) bool
	}{
		{"Tag", "corner, new", "Tag", func(b, a *timeline.Setup) bool {
			return slices.Equal(a.Tags, append(slices.Clone(b.Tags), "corner", "new"))
		}},
		{"Put", rival, "Change", func(b, a *timeline.Setup) bool { return a.Rival == rival && a.Ender == b.Ender && a.Delay == b.Delay }},
		{"Delete", "", "", func(_, a *timeline.Setup) bool { return a == nil }},
	} {
		clickSetup(t, w, 2, 0)
		clickSetup(t, w, 5, fyne.KeyModifierShift)
		severalItem(t, w, c.item).Action()
		if c.button != "" {
			for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
				switch o := o.(type) {
				case *paint.PageEntry:
					if o.Visible() {
						o.SetText(c.fill)
					}
				case *paint.Pick:
					o.SetSelected(c.fill)
				}
			}
			tapButton(t, w, c.button)
		}
		after := whole()
		for i := range before.Setups {
			var now *timeline.Setup
			for k := range after.Setups {
				if after.Setups[k].Name == before.Setups[i].Name {
					now = &after.Setups[k]
				}
			}
			if among := i >= 2 && i <= 5; among != (now == nil || !reflect.DeepEqual(*now, before.Setups[i])) {
				t.Errorf("%s: setup %d changed: %v", c.item, i, !among)
			} else if among && !c.holds(&before.Setups[i], now) {
				t.Errorf("%s: setup %d became %+v", c.item, i, now)
			}
		}
		w.undo()
		if got := whole(); !reflect.DeepEqual(got.Setups, before.Setups) {
			t.Fatalf("%s: one undo doesn't take it back", c.item)
		}
	}
}

// tapButton taps the button of that text in the dialog on top.
func tapButton(t *testing.T, w *window, text string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if b, ok := o.(*paint.PushButton); ok && b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button %q", text)
}

// A setup that can't be put against the rival keeps all of them as they are, and
// the dialog says which.
func TestSeveralSetupsChangeAllOrNone(t *testing.T) {
	p := many(5)
	w := openFile(t, p)
	_, err := w.model.Several("x", []int{1, 2}, func(s *timeline.Setup) (bool, error) {
		if s.Delay = 3; s.Name == p.Setups[2].Name {
			s.Jump = "nothing of that name"
		}
		return true, nil
	})
	got, readErr := w.model.Document().Whole()
	if err == nil || readErr != nil || !reflect.DeepEqual(got.Setups, mustWhole(t, p).Setups) {
		t.Errorf("error %v, %v; the setups changed", err, readErr)
	}
}

// mustWhole is a project as a file gives it back.
func mustWhole(t *testing.T, p *timeline.Project) *timeline.Project {
	t.Helper()
	got, err := openFile(t, p).model.Document().Whole()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestAReplyIsAddedToSeveralSetups(t *testing.T) {
	p := many(4)
	w := openFile(t, p)
	rival := w.model.Data().Fighter(p.Setups[0].Rival)
	name := rival.Jumps[0].Name
	w.setups.List.TypedShortcut(&fyne.ShortcutSelectAll{})
	same := true
	for i := range p.Setups {
		same = same && p.Setups[i].Rival == rival.Name
	}
	severalItem(t, w, "Add a reply").Action()
	if !same {
		if text := dialogLabels(w); !strings.Contains(text, "several rivals") {
			t.Errorf("it says %q", text)
		}
		return
	}
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if pick, ok := o.(*paint.Pick); ok && slices.Contains(pick.Options, name) {
			pick.SetSelected(name)
		}
	}
	tapButton(t, w, "Add")
	for i := range p.Setups {
		s, err := w.model.Document().Setup(i)
		if err != nil || !slices.ContainsFunc(s.Replies, func(r timeline.Reply) bool { return r.Move == name }) {
			t.Errorf("setup %d asks %v, %v", i, s.Replies, err)
		}
	}
}

func dialogLabels(w *window) string {
	var b strings.Builder
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *widget.RichText:
			b.WriteString(o.String() + "\n")
		}
	}
	return b.String()
}

// The keys are with the list: the chosen row has the outline, and no other.
func TestTheListOutlinesTheChosenRow(t *testing.T) {
	w := openFile(t, many(8))
	outlined := func() (rows []int) {
		for _, r := range w.setups.List.Rows {
			if !r.Visible() {
				continue
			}
			for _, o := range test.WidgetRenderer(r).Objects() {
				if box, ok := o.(*canvas.Rectangle); ok && box.Visible() && box.StrokeWidth > 0 {
					rows = append(rows, r.At)
				}
			}
		}
		return rows
	}
	if got := outlined(); len(got) != 0 {
		t.Errorf("without the keys: %v", got)
	}
	w.Canvas().Focus(w.setups.List)
	for range 3 {
		if got := outlined(); !slices.Equal(got, []int{w.model.Chosen()}) {
			t.Errorf("setup %d is chosen, %v outlined", w.model.Chosen(), got)
		}
		typeKey(w, fyne.KeyDown)
	}
	w.Canvas().Focus(w.sheet)
	if got := outlined(); len(got) != 0 {
		t.Errorf("the keys went on: %v", got)
	}
}

func TestEqualSetupsAreMergedIntoOne(t *testing.T) {
	p := many(6)
	same := p.Setups[1]
	same.Name, same.Tags, same.Note = "the same", []string{"again"}, "seen twice"
	p.Setups = append(p.Setups, same)
	other := p.Setups[1]
	other.Name, other.Delay = "a frame on", other.Delay+1
	p.Setups = append(p.Setups, other)
	found, err := model.FindSame(t.Context(), p, func(_ context.Context, do func(*timeline.Setup) error) error {
		for i := range p.Setups {
			if err := do(&p.Setups[i]); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	gone := 0
	listed := false
	for _, g := range found {
		gone += len(g.Setups) - 1
		for i := range g.Setups {
			if g.Setups[i].Name == other.Name && len(g.Setups) > 1 && g.Setups[0].Name == p.Setups[1].Name {
				t.Error("a setup one frame later is taken for the same")
			}
			listed = listed || g.Setups[0].Name == p.Setups[1].Name && g.Setups[i].Name == same.Name
		}
	}
	if !listed {
		t.Fatalf("%d groups, without the two that are the same", len(found))
	}
	w := openFile(t, p)
	w.askMergeSetups()
	tapButton(t, w, "Merge")
	if got := w.model.Document().Len(); got != len(p.Setups)-gone {
		t.Errorf("%d setups are left, want %d", got, len(p.Setups)-gone)
	}
	at := w.model.Find(p.Setups[1].Name)
	s, err := w.model.Document().Setup(at)
	if err != nil || !slices.Contains(s.Tags, "again") || !strings.Contains(s.Note, "seen twice") {
		t.Errorf("the one that stays: %+v, %v", s, err)
	}
	w.undo()
	if got := w.model.Document().Len(); got != len(p.Setups) {
		t.Errorf("after an undo there are %d setups", got)
	}
}
