package ui

import (
	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// emptyWords say what to do with a document without setups, or with one
// whose chosen setup can't be judged.
func (w *window) emptyWords() (heading, text string, buttons []*paint.PushButton) {
	button := func(label string, do func()) {
		buttons = append(buttons, paint.NewButton(label, func() {
			if !w.busy() {
				do()
			}
		}))
	}
	data := func() {
		if w.openData != nil {
			button("Move data", w.openData)
		}
	}
	_, first := model.FightersWithEnder(w.model.Data())
	file, isFile := w.model.Document().OnDisk()
	switch {
	case w.model.Chosen() >= 0 && w.model.Err() == nil:
		return "", "", nil
	case w.model.Chosen() >= 0:
		return "This setup can't be judged", model.Sentence(model.Refusal(w.model.Err())), nil
	case isFile && file.ReadOnly() != "":
		return "There are no setups here yet", "Nothing can be edited now: " + file.ReadOnly() + ".", nil
	case first != "":
		button("New setup…", w.askNewSetup)
		data()
		return "There are no setups here yet", "There are fighters and moves. Create the first setup: it begins with an ender.", buttons
	case len(w.model.Data().Fighters) > 0:
		data()
		button("Import…", w.askImport)
		return "There is no ender yet", "A setup begins with a move that knocks down. Give one a knockdown advantage in the move data, midscreen or at the wall.", buttons
	}
	data()
	button("Import…", w.askImport)
	button("Import copied table…", w.importPasted)
	if isFile {
		return "This project is empty", "Begin with a fighter and its moves in the move data; or import a project as JSON (.json), or a table of moves: a file (.csv, .xlsx, .ods), or what was copied in a spreadsheet.", buttons
	}
	button("Open…", w.askOpen)
	if w.sample != nil {
		button("Open the sample", w.askSample)
	}
	return "There are no setups here yet", "Begin with a fighter and its moves in the move data; import a table of moves: a file (.csv, .xlsx, .ods), or what was copied in a spreadsheet; open a project file (" + storage.Ext + ") or JSON (.json), or drop it on this window; or look at an invented game in the sample.", buttons
}
