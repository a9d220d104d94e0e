package export

import (
	"bytes"
	"cmp"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
)

// prefFolder is the folder of the last export.
const prefFolder = "export.folder"

// LastFolder is where the last file was exported to, as long as that is there;
// else it is empty.
func LastFolder(prefs fyne.Preferences) string {
	if dir := prefs.String(prefFolder); isThere(dir) {
		return dir
	}
	return ""
}

// FileName is a file's name for a setup, without its ending.
func FileName(setup string) string {
	var b strings.Builder
	gap := false
	for _, r := range setup {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(unicode.ToLower(r))
		if b.Len() >= 60 {
			break
		}
	}
	if b.Len() == 0 {
		return "strip"
	}
	return b.String()
}

// offer offers a path for what is chosen, unless another was typed.
func (e *Page) offer() {
	k := kindNamed(e.kind.Selected)
	name := k.file
	switch {
	case name == "" || name[0] == ' ':
		name = FileName(e.host.Model().Setup().Name) + strings.ReplaceAll(name, " ", "-")
	case k.name == Folder:
	default:
		name = e.projectName() + "-" + name
	}
	if k.name != Folder && e.format.Selected != output.Frames {
		name += "." + e.format.Selected
	}
	dir := cmp.Or(LastFolder(e.host.Preferences()), e.asks.Folder())
	if e.path.Text != e.offered && e.path.Text != "" { // a folder that was typed stays
		dir = filepath.Dir(e.path.Text)
	}
	e.offered = filepath.Join(dir, name)
	e.path.SetText(e.offered)
}

// projectName is what files of a whole project are named after.
func (e *Page) projectName() string {
	name := page.SourceName(e.host.Model())
	return cmp.Or(strings.TrimSuffix(name, filepath.Ext(name)), "wakeline")
}

// goal is the file to write, with its ending, or the folder.
func (e *Page) goal() string {
	path := e.path.Text
	if path == "" || e.last == nil || e.last.inFolder() {
		return path
	}
	if ext := "." + e.last.format; !strings.EqualFold(filepath.Ext(path), ext) {
		path += ext
	}
	return path
}

// sayPath says what stands at the path already.
func (e *Page) sayPath() {
	path := e.goal()
	switch {
	case path == "":
		e.say.SetText("Enter a file name.")
	case e.last != nil && e.last.inFolder():
		e.say.SetText("A folder. Before files with the same names are replaced, you are asked; other files in it stay.")
	case isThere(path):
		e.say.SetText("A file with this name already exists. Before it is replaced, you are asked.")
	case path != e.path.Text:
		e.say.SetText("The file name will be " + filepath.Base(path) + ".")
	default:
		e.say.SetText("")
	}
}

// askFolder asks for another folder.
func (e *Page) askFolder() {
	e.host.Dialogs().PickFile("Choose a folder", "Choose", nil, filepath.Dir(e.path.Text), func(dir string) {
		e.path.SetText(filepath.Join(dir, filepath.Base(e.path.Text)))
	})
}

// ask writes it; where something stands there already, it asks first.
func (e *Page) ask() {
	path := e.goal()
	if path == "" || e.preview.made == nil || e.write.Disabled() || e.asks.Busy() {
		e.sayPath()
		return
	}
	if e.last.kind.name == Folder {
		e.askMany(path)
		return
	}
	if e.last.inFolder() {
		askFrames(e, path)
		return
	}
	if !isThere(path) {
		e.writeOne(path)
		return
	}
	if isFolder(path) {
		e.Note("This is a folder. Enter a file name.")
		return
	}
	e.replace(filepath.Base(path)+" already exists.", func() { e.writeOne(path) })
}

// replace asks whether what is there may be replaced.
func (e *Page) replace(what string, do func()) {
	text := page.Wrapped(what + " It will be replaced as a whole, once the new file is complete.")
	a := e.host.Dialogs().New("Replace it?", text)
	a.Main("Cancel", a.Hide)
	a.Button("Replace", func() {
		a.Hide()
		do()
	})
	a.Closed = func() { e.host.Canvas().Focus(e.path) }
	a.Show(fyne.NewSize(460, 150), nil)
}

func isThere(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// writeOne writes the file that the preview shows.
func (e *Page) writeOne(path string) {
	a, made := e.last, e.preview.made
	var skipped []error
	e.host.Task("Exporting "+filepath.Base(path), page.Counting(a.counted()), func(at page.Work) (err error) {
		skipped, err = writeFile(at, path, a, made)
		return err
	}, func(err error) {
		e.wrote(path, "Exported to "+path, err)
		if err == nil {
			e.leftOut("Exported to "+path, skipped)
		}
	})
}

// leftOut names the setups that were left out, and why.
func (e *Page) leftOut(said string, skipped []error) {
	if len(skipped) == 0 {
		return
	}
	lines := []string{said + ". Not exported:"}
	for _, err := range skipped {
		lines = append(lines, err.Error())
	}
	e.host.Dialogs().Lines("Some setups were not exported", lines)
}

// counted is what is counted while one file is written.
func (a *order) counted() string {
	switch {
	case a.streamed():
		return "setup"
	case a.format == "pdf":
		return "page"
	}
	return "picture"
}

// writeFile writes one file, whole or not at all, and returns why what is left
// out of it is.
func writeFile(at page.Work, path string, a *order, made *output.Made) (skipped []error, err error) {
	if a.inFolder() {
		return made.Skipped, made.WriteFolder(at.Context, path, func(i int) error {
			at.Tell(i, len(made.Sheets))
			return at.Context.Err()
		})
	}
	skipped = made.Skipped
	err = storage.Replace(path, func(out io.Writer) (err error) {
		w := &endingWriter{at.Context, out}
		if a.streamed() {
			n := 0
			every := a.every()
			counted := func(ctx context.Context, do func(s *timeline.Setup) error) error {
				return every(ctx, func(s *timeline.Setup) error {
					n++
					at.Tell(n, len(a.listed))
					return do(s)
				})
			}
			if a.kind.of == output.CheckList {
				skipped, err = output.WriteCheckList(at.Context, w, a.index(), counted, a.title)
			} else {
				skipped, err = output.WriteReplies(at.Context, w, a.index(), counted)
			}
		} else {
			err = made.WriteBy(w, func(i int) error {
				at.Tell(i, len(made.Sheets))
				return at.Context.Err()
			})
		}
		if err == nil {
			err = at.Context.Err()
		}
		return err
	})
	return skipped, err
}

// endingWriter writes until its context ends.
type endingWriter struct {
	ctx context.Context
	out io.Writer
}

func (w *endingWriter) Write(b []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	return w.out.Write(b)
}

// inFolder reports whether it is written as a folder of files.
func (a *order) inFolder() bool { return a.kind.name == Folder || a.format == output.Frames }

// sameIn are those of names that stand in a folder already.
func sameIn(folder string, names []string) (same []string) {
	for _, name := range names {
		if isThere(filepath.Join(folder, name)) {
			same = append(same, name)
		}
	}
	return same
}

// askSame asks before files of a folder are replaced.
func askSame(e *Page, folder string, same []string, do func()) {
	if len(same) == 0 {
		do()
		return
	}
	e.replace(fmt.Sprintf("%s in %s: %s.", plural(len(same), "file already exists", "files already exist"), filepath.Base(folder), model.Listed(same)), do)
}

// askFrames writes a film as a folder of pictures, after it was asked about the
// files that it would replace.
func askFrames(e *Page, folder string) {
	if isThere(folder) && !isFolder(folder) {
		e.Note("This is a file. Enter another name for the folder.")
		return
	}
	askSame(e, folder, sameIn(folder, e.preview.made.Files()), func() { e.writeOne(folder) })
}

// askMany writes all setups listed into a folder, after it was asked about the
// files that it would replace.
func (e *Page) askMany(folder string) {
	a := e.last
	if err := a.names.Check(); err != nil {
		e.Note(model.Sentence(err.Error()))
		return
	}
	if isThere(folder) && !isFolder(folder) {
		e.Note("This is a file. Enter another name for the folder.")
		return
	}
	var same []string
	e.host.Task("Looking at "+filepath.Base(folder), page.Counting("setup"), func(at page.Work) error {
		names, err := a.batch(folder, nil).Files(at.Context, a.every())
		same = sameIn(folder, names)
		return err
	}, func(err error) {
		if err != nil {
			e.wrote(folder, "", err)
			return
		}
		askSame(e, folder, same, func() { e.writeMany(folder) })
	})
}

// plural counts with a verb.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// writeMany writes all setups listed into a folder.
func (e *Page) writeMany(folder string) {
	a := e.last
	var did output.Written
	e.host.Task("Exporting to "+filepath.Base(folder), page.Counting("setup"), func(at page.Work) (err error) {
		did, err = a.batch(folder, at.Tell).Run(at.Context, a.index(), a.every())
		return err
	}, func(err error) {
		said := "Exported " + model.CountOf(did.Files, "setup") + " to " + folder
		if did.Pages > 0 {
			said += ", and " + model.CountOf(did.Pages, "contact sheet")
		}
		if errors.Is(err, context.Canceled) {
			e.Note("Cancelled: " + model.CountOf(did.Files, "setup") + " exported to " + folder + ", each file complete")
			return
		}
		e.wrote(folder, said, err)
		if err == nil {
			e.leftOut(said, did.Skipped)
		}
	})
}

// wrote says what came of writing.
func (e *Page) wrote(path, said string, err error) {
	switch {
	case errors.Is(err, context.Canceled):
		e.Note("Nothing was exported")
	case err != nil:
		e.host.Dialogs().Fail("The file could not be exported", err)
	default:
		e.host.Preferences().SetString(prefFolder, filepath.Dir(path))
		e.Note(said)
	}
}

// secondsEach is how long a recorded lesson speaks of a setup, until other
// times are typed.
const secondsEach = 30

// mostTimes is of how many setups times are offered.
const mostTimes = 50

// firstTimes offers the setups listed as a table of times.
func firstTimes(host page.Host) string {
	var b bytes.Buffer
	rows := csv.NewWriter(&b)
	rows.Write([]string{"setup", "from", "to"})
	listed, _ := host.Listed()
	for n, i := range listed[:min(mostTimes, len(listed))] {
		at := func(n int) string { return fmt.Sprintf("%d:%02d", n*secondsEach/60, n*secondsEach%60) }
		rows.Write([]string{host.Model().Document().Head(i).Name, at(n), at(n + 1)})
	}
	rows.Flush()
	return b.String()
}
