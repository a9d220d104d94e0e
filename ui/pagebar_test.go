package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/page/lesson"
	"wakeline/ui/paint"
)

// small is the smallest window that everything must fit in.
var small = fyne.NewSize(1024, 640)

// tapPage clicks on a name in the bar.
func tapPage(w *window, name string) {
	b := w.pageBar
	for i := range barPages {
		if barPages[i].name == name {
			from, to := b.span(i)
			ev := &fyne.PointEvent{Position: fyne.NewPos(20, (from+to)/2)}
			b.Tapped(ev)
		}
	}
}

// twoRevisions is a project file with a setup that its second revision judges
// otherwise.
func twoRevisions(t *testing.T) *window {
	w := openFile(t, sample())
	p := sample()
	p.Fighters[0].Jumps[0].Landing++
	take(t, w, write(t, "patch.json", timeline.WriteText(&timeline.Project{Ruleset: p.Ruleset, Fighters: p.Fighters[:1]})), "1.1")
	for w.Dialogs().Top() != nil {
		typeEscape(w)
	}
	return w
}

// TestEachPageIsReachedByTheBarAndByItsKey goes to every page by a click, by
// the keys of the bar and by its shortcut, from the page before.
func TestEachPageIsReachedByTheBarAndByItsKey(t *testing.T) {
	w := twoRevisions(t)
	menu := map[string]func(){}
	for _, top := range w.menu.main.Items {
		for _, i := range top.Items {
			if i.Shortcut != nil {
				menu[i.Shortcut.ShortcutName()] = i.Action
			}
		}
	}
	arrived := func(p *barPage, how string) {
		t.Helper()
		if p.name == "Keys" {
			if !strings.Contains(overlayText(w), "Keys") {
				t.Errorf("Keys by %s: %q", how, overlayText(w))
			}
			typeEscape(w)
			return
		}
		if !p.here(w) || w.busy() {
			t.Fatalf("%s by %s: the page is %T; %s", p.name, how, w.page, overlayText(w))
		}
		if f := w.Canvas().Focused(); f == nil || f == fyne.Focusable(w.pageBar) {
			t.Errorf("%s by %s: the keys are with %T", p.name, how, f)
		}
		if at := w.pageBar.here(); barPages[at].name != p.name {
			t.Errorf("%s by %s: the bar marks %s", p.name, how, barPages[at].name)
		}
	}
	for i := range barPages {
		p := &barPages[i]
		tapPage(w, p.name)
		arrived(p, "a click")
	}
	for i := range barPages {
		w.Canvas().Focus(w.pageBar)
		typeKey(w, fyne.KeyHome)
		for range i {
			typeKey(w, fyne.KeyDown)
		}
		typeKey(w, fyne.KeyReturn)
		arrived(&barPages[i], "the bar's keys")
	}
	for i := range barPages {
		p := &barPages[i]
		w.goTo(&barPages[(i+1)%(len(barPages)-1)])
		switch do := menu[shortcutOf(p.key)]; {
		case p.key == "F1":
			typeKey(w, fyne.KeyF1)
		case do == nil:
			t.Fatalf("%s: nothing takes %s", p.name, p.key)
		default:
			do()
		}
		arrived(p, p.key)
	}
}

// TestTheBarHasRoomForMorePages lays it with five more, in the smallest window.
func TestTheBarHasRoomForMorePages(t *testing.T) {
	w := open(t, sample(), small)
	was := barPages
	defer func() { barPages = was }()
	for _, name := range []string{"One more", "Another", "A third", "A fourth", "A fifth"} {
		more := was[0]
		more.name, more.here = name, func(*window) bool { return false }
		barPages = slices.Insert(slices.Clone(barPages), 6, more)
	}
	for _, high := range []float32{560, 640, 900, 1400} {
		b := newPageBar(w)
		b.Resize(fyne.NewSize(b.wide(), high))
		end := float32(0)
		for i := range barPages {
			from, to := b.span(i)
			if from < end || to > high || to-from < placeLeast {
				t.Errorf("%g high: %s lies from %g to %g, the one before ends on %g", high, barPages[i].name, from, to, end)
			}
			end = to
		}
	}
}

// TestTheBarTakesNoHeight holds the room of the sheet to what it has without
// the bar, and the bar to a narrow strip.
func TestTheBarTakesNoHeight(t *testing.T) {
	w := open(t, sample(), small)
	if wide := w.pageBar.Size().Width; wide > 96 || wide < 40 {
		t.Errorf("the bar is %g wide", wide)
	}
	with := w.sheet.Size().Height
	w.pageBar.Hide()
	w.win.Content().Refresh()
	w.win.Resize(small.AddWidthHeight(1, 0))
	w.win.Resize(small)
	if without := w.sheet.Size().Height; with != without {
		t.Errorf("the sheet is %g high beside the bar, %g without", with, without)
	}
}

// barText is how a name is painted in the bar.
func barText(t *testing.T, w *window, name string) *canvas.Text {
	t.Helper()
	for _, o := range test.WidgetRenderer(w.pageBar).Objects() {
		if c, ok := o.(*canvas.Text); ok && c.Text == name {
			return c
		}
	}
	t.Fatalf("the bar paints no %s", name)
	return nil
}

// TestTheBarMarksWhereOneIs looks at what is painted, in both themes.
func TestTheBarMarksWhereOneIs(t *testing.T) {
	w := open(t, sample(), small)
	for _, p := range paint.Palettes {
		w.setPalette(p)
		for _, name := range []string{"Timeline", "Match-up", "Lesson", "Glossary"} {
			tapPage(w, name)
			for _, other := range barPages {
				if got := barText(t, w, other.name).TextStyle.Bold; got != (other.name == name) {
					t.Errorf("%s: on %s the name %s is bold: %v", p.Name, name, other.name, got)
				}
			}
		}
	}
}

// TestTheTipTellsThePageAndItsKey points at each name.
func TestTheTipTellsThePageAndItsKey(t *testing.T) {
	w := open(t, sample(), small)
	b := w.pageBar
	for i := range barPages {
		from, to := b.span(i)
		ev := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(10, (from+to)/2)}}
		b.MouseMoved(ev)
		if !b.tip.Visible() || b.tip.of != i {
			t.Fatalf("%s: the tip is of %d, shown: %v", barPages[i].name, b.tip.of, b.tip.Visible())
		}
		var words []string
		for _, o := range test.WidgetRenderer(b.tip).Objects() {
			if c, ok := o.(*canvas.Text); ok {
				words = append(words, c.Text)
				if end := c.Position().X + c.MinSize().Width; end > b.tip.Size().Width {
					t.Errorf("%s: %q ends on %g of %g", barPages[i].name, c.Text, end, b.tip.Size().Width)
				}
			}
		}
		for _, want := range []string{barPages[i].name, barPages[i].key} {
			if !slices.Contains(words, want) {
				t.Errorf("%s: the tip says %q, it lacks %q", barPages[i].name, words, want)
			}
		}
		if at, size := b.tip.Position(), b.tip.Size(); at.X < b.Size().Width || at.Y < 0 || at.Y+size.Height > w.win.Content().Size().Height {
			t.Errorf("%s: the tip lies at %v, %v large", barPages[i].name, at, size)
		}
	}
	b.MouseOut()
	if b.tip.Visible() {
		t.Error("the tip stays")
	}
	w.Canvas().Focus(b)
	if !b.tip.Visible() || b.tip.of != 0 {
		t.Error("with the keys on the bar there is no tip")
	}
	typeEscape(w)
	if w.Canvas().Focused() != fyne.Focusable(w.sheet) || b.tip.Visible() {
		t.Errorf("Escape leads to %T, the tip is shown: %v", w.Canvas().Focused(), b.tip.Visible())
	}
}

// TestTheBarSaysWhatAPageLacks asks for revisions of a project in memory, and
// for pages of a project without anything.
func TestTheBarSaysWhatAPageLacks(t *testing.T) {
	w := open(t, sample(), small)
	tapPage(w, "Compare")
	if got := overlayText(w); w.page != nil || !strings.Contains(got, "stored in a project file") {
		t.Errorf("page %T, %q", w.page, got)
	}
	typeEscape(w)
	w = open(t, nil, small)
	for _, name := range []string{"Match-up", "Find", "Drill", "Lesson", "Compare"} {
		tapPage(w, name)
		if w.page != nil || overlayText(w) == "" {
			t.Errorf("%s of nothing: page %T, %q", name, w.page, overlayText(w))
		}
		typeEscape(w)
	}
	for _, name := range []string{"Move data", "Export", "History", "Glossary", "Timeline"} {
		tapPage(w, name)
		if w.busy() || barPages[w.pageBar.here()].name != name {
			t.Errorf("%s of nothing: page %T, %q", name, w.page, overlayText(w))
		}
	}
}

// TestTheBarLeavesNoCellUnsettled types what can't stand in a cell, and asks
// for another page.
func TestTheBarLeavesNoCellUnsettled(t *testing.T) {
	w, d := openData(t, sample())
	d.typeIn(t, sample().Fighters[0].Moves[0].Name, "startup", "many")
	tapPage(w, "Lesson")
	if !w.Showing(d.Page) || d.Leave() {
		t.Errorf("the page is %T", w.page)
	}
	typeEscape(w)
	tapPage(w, "Lesson")
	if _, ok := w.page.(*lesson.Page); !ok {
		t.Errorf("after Escape the page is %T", w.page)
	}
}
