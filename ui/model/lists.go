package model

import (
	"wakeline/storage"
	"wakeline/timeline"
)

// ListsKeptIn says where lists are kept, for a project in memory.
const ListsKeptIn = "Saved lists are stored in a project file. File, Save as project file… makes one of this project."

// Lists are the saved lists, in their order.
func (d *Document) Lists() []timeline.SavedList { return d.lists }

// ReadSearch reads a search, which may name the saved lists.
func (d *Document) ReadSearch(text string) (timeline.Search, error) {
	return timeline.ReadSearch(text, d.lists...)
}

// EditLists does an edit of the saved lists as one step, where the document
// keeps lists.
func (m *Model) EditLists(what string, do func(s *storage.Step) error) error {
	m.Commit()
	d, ok := m.doc.OnDisk()
	if !ok || !m.MayEdit() {
		return ErrHeld
	}
	err := d.file.Edit(what, do)
	d.AskReadOnly()
	if err == nil {
		err = d.Reload()
	}
	m.Named = m.Named[:0]
	m.Tell(ListChanged | StateChanged)
	return err
}
