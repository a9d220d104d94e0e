package lists

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// opened is the menu of a project file of the demo, beside a real list.
func opened(t *testing.T, file bool) (*Menu, *pagetest.Host, *panel.Setups) {
	t.Helper()
	p := pagetest.Sample()
	p.Setups[0].Tags, p.Setups[1].Tags = []string{"corner", "new"}, []string{"corner"}
	h := pagetest.Open(t, p)
	if file {
		h = pagetest.OpenFile(t, p)
	}
	at := func(do func()) { do() }
	s := panel.NewSetups(h.Model(), at, at)
	h.Model().Observe(s.Changed)
	return &Menu{Host: h, Filter: s}, h, s
}

// labels are those of the menu as it would be shown now.
func (m *Menu) shown() (items []*fyne.MenuItem, labels []string) {
	doc := m.Host.Model().Document()
	var counted []timeline.Search
	for _, l := range doc.Lists() {
		of, _ := doc.ReadSearch(timeline.ListSearch(l.Name))
		counted = append(counted, of)
	}
	items = m.items(doc.Lists(), counted)
	for _, i := range items {
		label := i.Label
		switch {
		case i.IsSeparator:
			label = "-"
		case i.Checked:
			label += "*"
		case i.Disabled:
			label += " off"
		}
		labels = append(labels, label)
	}
	return items, labels
}

// pick does an item of the menu.
func (m *Menu) pick(t *testing.T, label string) {
	t.Helper()
	items, labels := m.shown()
	at := slices.IndexFunc(labels, func(l string) bool { return strings.TrimSuffix(l, "*") == label })
	if at < 0 {
		t.Fatalf("no item %q in %q", label, labels)
	}
	items[at].Action()
}

// name types a name in the dialog.
func name(h *pagetest.Host, text string) {
	for _, o := range test.LaidOutObjects(h.Canvas().Overlays().Top()) {
		if e, ok := o.(*paint.PageEntry); ok {
			e.SetText(text)
		}
	}
}

func (m *Menu) shows(t *testing.T, want ...string) {
	t.Helper()
	if _, labels := m.shown(); !slices.Equal(labels, want) {
		t.Errorf("the menu has %q, want %q", labels, want)
	}
}

func TestAFilterIsSavedAsAListThatStaysUpToDate(t *testing.T) {
	m, h, s := opened(t, true)
	const save, change, rename, remove = "Save filter as list…", "Change filter of the list", "Rename list…", "Delete list"
	m.shows(t, save+" off")
	s.By = panel.SetupFilter{Tag: "corner", Verdict: ""}
	s.Type("")
	s.By.Tag = "corner"
	s.Field.SetText("not tag:new or zzz")
	s.Filter()
	if len(s.Shown) != 1 || s.Shown[0] != 1 {
		t.Fatalf("the filter shows %v", s.Shown)
	}
	m.pick(t, save)
	name(h, "Corner work")
	h.Tap(t, "Save")
	if want := []timeline.SavedList{{Name: "Corner work", Search: `tag:="corner" (not tag:new or zzz)`}}; !slices.Equal(h.Model().Document().Lists(), want) {
		t.Fatalf("lists = %v, want %v", h.Model().Document().Lists(), want)
	}
	if s.Field.Text != `list:"Corner work"` || s.By != (panel.SetupFilter{}) || !slices.Equal(s.Shown, []int{1}) {
		t.Errorf("the list shows %v by %q, %v", s.Shown, s.Field.Text, s.By)
	}
	m.shows(t, "Corner work (1)*", "-", save+" off", change, rename, remove)

	setup, _ := h.Model().Document().Setup(2) // another setup comes to have what is asked for
	setup.Tags = []string{"corner"}
	if err := h.Model().Apply("tag", timeline.SetupEdit{Before: setup.Name, Setup: &setup}); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(s.Shown, []int{1, 2}) {
		t.Errorf("after the edit the list shows %v", s.Shown)
	}
	m.shows(t, "Corner work (2)*", "-", save+" off", change, rename, remove)

	m.pick(t, change)
	if s.Field.Text != `tag:="corner" (not tag:new or zzz)` {
		t.Errorf("to be changed: %q", s.Field.Text)
	}
	s.Type("tag:corner")
	m.shows(t, "Corner work (2)", "-", save, "Save filter to “Corner work”")
	m.pick(t, "Save filter to “Corner work”")
	m.shows(t, "Corner work (3)*", "-", save+" off", change, rename, remove)

	s.Type(`not list:"corner work" verdict:safe or verdict:unsafe or verdict:limited`)
	m.pick(t, save)
	name(h, "CORNER WORK")
	h.Tap(t, "Save")
	if !strings.Contains(h.DialogText(), `There is a list "Corner work"`) {
		t.Errorf("a second list of that name: %s", h.DialogText())
	}
	name(h, "Others")
	h.Tap(t, "Save")
	m.pick(t, "Corner work (3)")
	m.pick(t, remove)
	if !strings.Contains(h.DialogText(), `the list "Others" uses the list "Corner work"`) {
		t.Errorf("a list that is used is deleted: %s", h.DialogText())
	}
	h.Tap(t, "Close")
	m.pick(t, rename)
	name(h, "Wall")
	h.Tap(t, "Rename")
	if got := h.Model().Document().Lists(); got[0].Name != "Wall" || !strings.Contains(got[1].Search, `list:"Wall"`) || s.Field.Text != `list:"Wall"` {
		t.Errorf("renamed: %v, the field has %q", got, s.Field.Text)
	}
	for _, l := range []string{"Others", "Wall"} {
		s.Type(timeline.ListSearch(l))
		m.pick(t, remove)
	}
	if len(h.Model().Document().Lists()) != 0 || s.Field.Text != "" || len(s.Shown) != h.Model().Len() {
		t.Errorf("deleted: %v, the field has %q", h.Model().Document().Lists(), s.Field.Text)
	}
	h.Model().Undo()
	if got := h.Model().Document().Lists(); len(got) != 1 || got[0].Name != "Wall" {
		t.Errorf("undone: %v", got)
	}
}

func TestWhatCanNotBeSavedAsAList(t *testing.T) {
	m, h, s := opened(t, true)
	s.By.Verdict = panel.NoVerdict
	s.Filter()
	m.pick(t, "Save filter as list…")
	if !strings.Contains(h.DialogText(), `a list can't ask for "not judged"`) {
		t.Error(h.DialogText())
	}
	h.Tap(t, "Close")
	s.Type("(x")
	m.pick(t, "Save filter as list…")
	if !strings.Contains(h.DialogText(), "expected a closing parenthesis") {
		t.Error(h.DialogText())
	}
	h.Tap(t, "Close")

	m, h, s = opened(t, false)
	s.Type("tag:corner")
	m.pick(t, "Save filter as list…")
	if !strings.Contains(h.DialogText(), model.ListsKeptIn) {
		t.Error(h.DialogText())
	}
}
