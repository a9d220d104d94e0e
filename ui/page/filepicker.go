package page

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// FilePicker asks for a file or a folder that is there: a field with its path,
// and under it what lies in the path's folder and has the letters typed after
// it. The arrow keys go through the list while the field is typed in.
type FilePicker struct {
	paint.PageEntry

	wrapper    paint.Wrapper
	extensions []string // of the files that may be picked; none: a folder is picked
	take       func(path string)

	dir    string // whose entries are listed
	all    []fileEntry
	shown  []fileEntry
	at     int // marked, -1: none
	list   *paint.PageList
	note   *widget.Label // why nothing is listed
	listed *fyne.Container
}

// Listed names what is listed, and which of it is marked (-1: none); why says
// why nothing is.
func (p *FilePicker) Listed() (names []string, marked int, why string) {
	for i := range p.shown {
		names = append(names, p.shown[i].name)
	}
	return names, p.at, p.note.Text
}

// fileEntry is a file, or a folder that leads on.
type fileEntry struct {
	name string
	dir  bool
	date string
}

const mostFiles = 5000 // that are listed of a folder

func newFilePicker(w paint.KeyTaker, extensions []string, take func(path string)) *FilePicker {
	p := &FilePicker{PageEntry: paint.PageEntry{W: w}, wrapper: paint.Wrapper{Size: paint.TextSize},
		extensions: extensions, take: take, at: -1, note: widget.NewLabel("")}
	p.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	p.ExtendBaseWidget(p)
	p.note.Wrapping, p.note.Importance = fyne.TextWrapWord, widget.LowImportance
	p.list = paint.NewPageList(w, func() int { return len(p.shown) },
		func() fyne.CanvasObject { return newFileRow(p) }, paint.SetRow)
	p.list.HideSeparators = true
	p.list.OnSelected = func(i widget.ListItemID) { p.at = i }
	p.listed = container.NewStack(p.list, p.note)
	p.OnChanged = paint.GuardedOf("The files", func(string) { p.look() })
	return p
}

// folders reports whether a folder is asked for.
func (p *FilePicker) folders() bool { return len(p.extensions) == 0 }

// goTo lists a folder.
func (p *FilePicker) goTo(dir string) {
	if !strings.HasSuffix(dir, string(filepath.Separator)) {
		dir += string(filepath.Separator)
	}
	p.SetText(dir)
	p.CursorColumn = len([]rune(dir))
	p.Refresh()
	p.look()
}

// up lists the folder around the one listed.
func (p *FilePicker) up() { p.goTo(filepath.Dir(p.dir)) }

// home lists the person's own folder.
func (p *FilePicker) home() {
	if dir, err := os.UserHomeDir(); err == nil {
		p.goTo(dir)
	}
}

// typedPath is the path that is typed, whole.
func (p *FilePicker) typedPath() string {
	path := p.Text
	if rest, ok := strings.CutPrefix(path, "~"); ok && (rest == "" || os.IsPathSeparator(rest[0])) {
		if home, err := os.UserHomeDir(); err == nil {
			path = home + rest
		}
	}
	if whole, err := filepath.Abs(path); err == nil && !strings.HasSuffix(path, string(filepath.Separator)) {
		return whole
	}
	return path
}

// look lists what fits what is typed, and marks the first file of it.
func (p *FilePicker) look() {
	dir, begun := filepath.Split(p.typedPath())
	if dir = filepath.Clean(dir); dir != p.dir || p.all == nil {
		p.read(dir)
	}
	begun = strings.ToLower(begun)
	p.shown = p.shown[:0]
	for _, e := range p.all {
		if hidden := strings.HasPrefix(e.name, "."); strings.Contains(strings.ToLower(e.name), begun) && (!hidden || strings.HasPrefix(begun, ".")) {
			p.shown = append(p.shown, e)
		}
	}
	if len(p.shown) == 0 && p.note.Text == "" || p.note.Text == nothingHere {
		p.say("")
		if len(p.shown) == 0 {
			p.say(nothingHere)
		}
	}
	p.list.UnselectAll()
	p.list.Refresh()
	p.at = -1
	if !p.folders() {
		p.mark(max(0, slices.IndexFunc(p.shown, func(e fileEntry) bool { return !e.dir })))
	}
}

const nothingHere = "Nothing here fits."

func (p *FilePicker) say(text string) {
	p.note.SetText(text)
	if text == "" {
		p.note.Hide()
	} else {
		p.note.Show()
	}
}

// read takes in what lies in a folder: folders first, by name.
func (p *FilePicker) read(dir string) {
	p.dir, p.all = dir, []fileEntry{}
	p.say("")
	entries, err := os.ReadDir(dir)
	if err != nil {
		p.say(fmt.Sprintf("The folder %s can't be read.", dir))
		return
	}
	for _, e := range entries[:min(len(entries), mostFiles)] {
		info, err := os.Stat(filepath.Join(dir, e.Name())) // of what a link leads to
		if err != nil || !info.IsDir() && (p.folders() || !info.Mode().IsRegular() || !slices.Contains(p.extensions, strings.ToLower(filepath.Ext(e.Name())))) {
			continue
		}
		p.all = append(p.all, fileEntry{e.Name(), info.IsDir(), info.ModTime().Format("2006-01-02 15:04")})
	}
	slices.SortFunc(p.all, func(a, b fileEntry) int {
		if a.dir != b.dir {
			if a.dir {
				return -1
			}
			return 1
		}
		return strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name))
	})
}

// mark marks a line.
func (p *FilePicker) mark(i int) {
	if p.at = min(max(i, 0), len(p.shown)-1); p.at >= 0 {
		p.list.Select(p.at)
	}
}

// confirm takes the file that is typed or marked, or the folder that is
// listed; a marked folder is listed.
func (p *FilePicker) confirm() {
	typed := p.typedPath()
	info, err := os.Stat(typed)
	switch {
	case err == nil && info.Mode().IsRegular() && !p.folders():
		p.take(typed)
	case p.at >= 0 && p.at < len(p.shown):
		p.open(p.at)
	case err == nil && info.IsDir() && p.folders():
		p.take(filepath.Clean(typed))
	case err == nil && info.IsDir():
		p.goTo(typed)
	default:
		p.say(fmt.Sprintf("There is no %s here.", filepath.Base(typed)))
	}
}

// open takes a line's file, or lists its folder.
func (p *FilePicker) open(i int) {
	path := filepath.Join(p.dir, p.shown[i].name)
	if p.shown[i].dir {
		p.goTo(path)
		return
	}
	p.take(path)
}

// TypedKey goes through the list, and leaves the rest to the field.
func (p *FilePicker) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The list of files")
	const page = 10
	switch ev.Name {
	case fyne.KeyUp:
		p.mark(p.at - 1)
	case fyne.KeyDown:
		p.mark(p.at + 1)
	case fyne.KeyPageUp:
		p.mark(p.at - page)
	case fyne.KeyPageDown:
		p.mark(p.at + page)
	default:
		p.PageEntry.TypedKey(ev)
	}
}

// fileRow is a line of the list. A click marks it, another opens it.
type fileRow struct {
	paint.Row
	p *FilePicker
}

func newFileRow(p *FilePicker) *fileRow {
	r := &fileRow{p: p}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(120, fileRowHeight) })
	return r
}

// The measures of a line, in units.
const (
	fileRowHeight = 25
	fileRowDate   = 130
)

func (r *fileRow) paint(p *paint.Pen, size fyne.Size) {
	if r.At < 0 || r.At >= len(r.p.shown) {
		return
	}
	e := &r.p.shown[r.At]
	name, role := e.name, sheet.Ink
	if e.dir {
		name += string(filepath.Separator)
	} else {
		date := paint.ColumnText(e.date, size.Width-fileRowDate, fileRowHeight-8, sheet.Soft)
		date.Size = paint.CaptionSize
		p.Text(&date)
	}
	t := paint.ColumnText(r.p.wrapper.Fit(name, size.Width-fileRowDate-16), 8, fileRowHeight-8, role)
	t.Bold = e.dir
	p.Text(&t)
}

// Tapped marks the line, and opens the one that is marked.
func (r *fileRow) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The list of files")
	if r.At < 0 || r.At >= len(r.p.shown) {
		return
	}
	if r.At == r.p.at {
		r.p.open(r.At)
	} else {
		r.p.mark(r.At)
	}
	paint.FocusOn(r.p)
}

// PickFile asks for a file of one of those extensions that is there, or for a
// folder where there are none.
func (d *Dialogs) PickFile(title, button string, extensions []string, dir string, do func(path string)) {
	var a *Dialog
	p := newFilePicker(d, extensions, func(path string) {
		a.Hide()
		do(path)
	})
	places := container.NewHBox(paint.NewPageButton(d, "Up", nil, p.up), paint.NewPageButton(d, "Home", nil, p.home))
	a = d.New(title, container.NewBorder(container.NewBorder(nil, nil, nil, places, p), nil, nil, nil, p.listed))
	a.Button("Cancel", a.Hide)
	a.Main(button, p.confirm)
	p.goTo(dir)
	a.Show(d.Size(), p)
}
