package lists

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// Filter is what narrows the list of setups.
type Filter interface {
	Typed() (string, error)                    // as it could be typed
	Type(text string)                          // in place of it
	Finds(of timeline.Search) (n int, ok bool) // how many setups a search finds, where that is known
}

// Menu is the menu of the saved lists.
type Menu struct {
	Host   page.Host
	Filter Filter

	changing string // the list whose filter was put into the field to be changed
}

// nameShown is how many letters of a list's name the menu shows.
const nameShown = 50

// Ask shows the menu at a place of the canvas, once what the lists find is
// counted.
func (m *Menu) Ask(at fyne.Position) {
	if page.Busy(m.Host) {
		return
	}
	doc := m.Host.Model().Document()
	all := doc.Lists()
	counted := make([]timeline.Search, 0, len(all)) // those of the first lists
	terms := 0
	for _, l := range all {
		of, err := doc.ReadSearch(timeline.ListSearch(l.Name))
		if terms += len(of.Terms()); err != nil || terms > model.MostWords {
			break
		}
		counted = append(counted, of)
	}
	find, keep := doc.Ahead(counted...)
	m.Host.Run(func() {
		find()
		m.Host.Later(func() {
			if m.Host.Model().Document() != doc || page.Busy(m.Host) {
				return
			}
			keep()
			widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", m.items(all, counted)...), m.Host.Canvas(), at)
		})
	})
}

// items are the lists, and what can be done with the filter and with the list
// that it is.
func (m *Menu) items(all []timeline.SavedList, counted []timeline.Search) (out []*fyne.MenuItem) {
	typed, err := m.Filter.Typed()
	chosen := ""
	for i, l := range all {
		label := model.CutText(l.Name, nameShown)
		if i < len(counted) {
			if n, known := m.Filter.Finds(counted[i]); known {
				label = fmt.Sprintf("%s (%d)", label, n)
			}
		}
		item := paint.MenuItem(label, func() { m.Filter.Type(timeline.ListSearch(l.Name)) })
		if item.Checked = typed == timeline.ListSearch(l.Name); item.Checked {
			chosen = l.Name
		}
		out = append(out, item)
	}
	if len(out) > 0 {
		out = append(out, fyne.NewMenuItemSeparator())
	}
	save := paint.MenuItem("Save filter as list…", func() { m.askSave(typed, err) })
	save.Disabled = typed == "" && err == nil || chosen != ""
	out = append(out, save)
	if l, there := timeline.FindList(all, m.changing); there && chosen == "" && typed != "" {
		out = append(out, paint.MenuItem(fmt.Sprintf("Save filter to “%s”", model.CutText(l.Name, nameShown)), func() { m.saveTo(l.Name, typed, err) }))
	}
	if chosen != "" {
		l, _ := timeline.FindList(all, chosen)
		out = append(out,
			paint.MenuItem("Change filter of the list", func() { m.changing = l.Name; m.Filter.Type(l.Search) }),
			paint.MenuItem("Rename list…", func() { m.askRename(l) }),
			paint.MenuItem("Delete list", func() { m.remove(l) }))
	}
	return out
}

// kept reports whether lists can be edited, and says why not.
func (m *Menu) kept() bool {
	if _, ok := m.Host.Model().Document().OnDisk(); !ok {
		m.Host.Dialogs().Lines("Lists can't be saved here", []string{model.ListsKeptIn})
		return false
	}
	return m.Host.Model().MayEdit()
}

// askSave asks for the name of a list with that filter.
func (m *Menu) askSave(typed string, err error) {
	if !m.kept() || !m.Host.Done("The filter can't be saved", err) {
		return
	}
	m.askName("Save filter as list", "Save", "", typed, func(name string) error {
		return m.edit("list "+name, func(s *storage.Step) error {
			return s.PutList("", timeline.SavedList{Name: name, Search: typed})
		}, name)
	})
}

// askRename asks for another name of a list.
func (m *Menu) askRename(l timeline.SavedList) {
	if !m.kept() {
		return
	}
	m.askName("Rename list", "Rename", l.Name, l.Search, func(name string) error {
		return m.edit("rename list "+l.Name, func(s *storage.Step) error {
			return s.PutList(l.Name, timeline.SavedList{Name: name, Search: l.Search})
		}, name)
	})
}

// askName asks for a name that no other list than before has.
func (m *Menu) askName(title, button, before, search string, do func(name string) error) {
	entry := paint.NewPageEntry(m.Host)
	entry.SetPlaceHolder("Name of the list")
	entry.SetText(before)
	entry.CursorColumn = len([]rune(before))
	about := page.Wrapped("Filter: " + search)
	m.Host.Dialogs().Form(title, button, container.NewVBox(entry, about), entry, func() error {
		name := strings.TrimSpace(entry.Text)
		if name == "" {
			return errors.New("expected a name")
		}
		if l, there := timeline.FindList(m.Host.Model().Document().Lists(), name); there && l.Name != before {
			return fmt.Errorf("there is a list %q: choose another name", l.Name)
		}
		return do(name)
	})
}

// saveTo gives a list the filter that is typed.
func (m *Menu) saveTo(name, typed string, err error) {
	if !m.kept() || !m.Host.Done("The filter can't be saved", err) {
		return
	}
	m.Host.Done("The filter can't be saved", m.edit("filter of list "+name, func(s *storage.Step) error {
		return s.PutList(name, timeline.SavedList{Name: name, Search: typed})
	}, name))
}

// remove deletes a list, and shows all setups.
func (m *Menu) remove(l timeline.SavedList) {
	if m.kept() && m.Host.Done("The list can't be deleted", m.edit("delete list "+l.Name, func(s *storage.Step) error { return s.RemoveList(l.Name) }, "")) {
		m.Host.Note("List deleted; its setups stay. Ctrl+Z brings it back")
	}
}

// edit does an edit of the lists, and then shows the list of that name, or all
// setups.
func (m *Menu) edit(what string, do func(s *storage.Step) error, show string) error {
	if err := m.Host.Model().EditLists(what, do); err != nil {
		return err
	}
	m.changing = ""
	if show != "" {
		show = timeline.ListSearch(show)
	}
	m.Filter.Type(show)
	return nil
}
