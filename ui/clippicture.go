package ui

import (
	"bytes"
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/page/export"
)

// copyPicture puts what is shown on the clipboard as a picture: of a page what
// it shows, else the sheet as it is seen.
func (w *window) copyPicture() {
	var m *output.Made
	switch p, can := w.page.(page.Copied); {
	case can:
		m = p.Picture()
	case w.page == nil && w.sheet.Drawing() != nil:
		m = page.Picture(w.sheet.Drawing())
	}
	if m == nil {
		w.Note("There is no picture to copy here")
		return
	}
	w.Task("Copying the picture", nil, func(at page.Work) error {
		var png bytes.Buffer
		if err := m.Write(&png); err != nil {
			return err
		}
		return output.ToClipboard(at.Context, png.Bytes())
	}, func(err error) {
		if err != nil {
			w.notCopied(m, err)
			return
		}
		w.Note("The picture is on the clipboard")
	})
}

// notCopied says plainly why a picture is not on the clipboard, and offers to
// save it as a file.
func (w *window) notCopied(m *output.Made, err error) {
	why := "The helper program that should have put it on the clipboard failed (" + err.Error() + ")."
	if errors.Is(err, output.ErrNoClipboard) {
		why = "The window's own clipboard holds text only. For a picture it asks a helper program: xclip, or wl-copy under Wayland. None of them was found on this machine."
	}
	a := w.Dialogs().Told("The picture was not copied", why+" The picture can be saved as a file instead.")
	a.Button("Close", a.Hide)
	a.Main("Save it as a file…", func() {
		a.Hide()
		w.askPath(asked{title: "Save the picture", dir: export.LastFolder(w.Preferences()), name: export.FileName(w.model.Setup().Name) + ".png", ext: ".png"}, func(path string) {
			if err := storage.Replace(path, m.Write); err != nil {
				w.Dialogs().Fail("The picture could not be saved", err)
				return
			}
			w.Note("Saved " + path)
		})
	})
	a.Show(fyne.NewSize(520, 220), nil)
}

// ownPlan is the chosen setup compiled as it stands; nil where it can't be.
func (w *window) ownPlan() *timeline.Plan {
	plan, err := timeline.Compile(w.model.Data(), w.model.Setup())
	if err != nil {
		return nil
	}
	return plan
}

// copyText puts what is shown on the clipboard in words: of a page its words,
// else the setup as Markdown.
func (w *window) copyText() {
	text := ""
	switch p, can := w.page.(page.Copied); {
	case can:
		text = p.Text()
	case w.page == nil && w.model.Plan() != nil:
		o := output.Standard()
		o.Source.Project = page.SourceName(w.model)
		if m, err := o.Make(w.ownPlan(), "md"); err == nil {
			text = m.Text
		}
	}
	if text == "" {
		w.Note("There are no words to copy here")
		return
	}
	w.app.Clipboard().SetContent(text)
	w.Note(model.CountOf(strings.Count(strings.TrimRight(text, "\n"), "\n")+1, "line") + " of text are on the clipboard")
}

// Note says something in passing: on a page that has a place for it there,
// else at the foot of the window.
func (w *window) Note(text string) {
	if p, ok := w.page.(page.Noting); ok {
		p.Note(text)
		return
	}
	w.status.Hint(text)
}
