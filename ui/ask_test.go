package ui

import (
	"errors"
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/patch"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/page/data"
	"wakeline/ui/paint"
)

// every dialog of the window: how it is opened, on a project file, and the
// page that it lies over. What lies over another dialog is said by under.
var everyDialog = []struct {
	name  string
	page  func(w *window) // nil: the setups
	open  func(t *testing.T, w *window)
	under int
}{
	{"an error", nil, func(_ *testing.T, w *window) { w.Dialogs().Fail("It failed", errors.New("because")) }, 0},
	{"an error on a page", (*window).showLesson, func(_ *testing.T, w *window) { w.Dialogs().Fail("It failed", errors.New("because")) }, 0},
	{"lines", (*window).showMatchup, func(_ *testing.T, w *window) { w.Dialogs().Lines("Said", []string{"one", "two"}) }, 0},
	{"a damaged file", nil, func(_ *testing.T, w *window) { w.trouble("a.wakeline", storage.ErrDamaged) }, 0},
	{"a file that is gone", nil, func(_ *testing.T, w *window) { w.openPath("/nowhere/a.wakeline") }, 0},
	{"unsaved edits", nil, func(_ *testing.T, w *window) { w.askEdited("Open another?", func() {}) }, 0},
	{"rename", nil, func(_ *testing.T, w *window) { w.askRename() }, 0},
	{"a new setup", nil, func(_ *testing.T, w *window) { w.askNewSetup() }, 0},
	{"move data lack something", nil, func(_ *testing.T, w *window) { w.tellData("Lack", "Something") }, 0},
	{"timing", nil, func(_ *testing.T, w *window) { w.askTiming() }, 0},
	{"timing on a page", (*window).showDrill, func(_ *testing.T, w *window) { w.askTiming() }, 0},
	{"a test in the game", nil, func(_ *testing.T, w *window) { w.askProof() }, 0},
	{"a reply", nil, func(_ *testing.T, w *window) { w.askReply() }, 0},
	{"open", nil, func(_ *testing.T, w *window) { w.askOpen() }, 0},
	{"a new project", nil, func(_ *testing.T, w *window) { w.askNew() }, 0},
	{"save as", nil, func(_ *testing.T, w *window) { w.askSave() }, 0},
	{"the folder to save in", nil, func(t *testing.T, w *window) { w.askSave(); tap(t, w, "Folder…") }, 1},
	{"salvage", nil, func(_ *testing.T, w *window) { w.askSalvage("/nowhere/a.wakeline") }, 0},
	{"a new fighter", (*window).showData, func(_ *testing.T, w *window) { w.page.(*data.Page).AskFighter() }, 0},
	{"replace", (*window).showExport, func(t *testing.T, w *window) { exportTo(t, w, alreadyThere(t)) }, 0},
	{"the folder to export to", (*window).showExport, func(t *testing.T, w *window) { pressOn(t, w, "Folder…") }, 0},
	{"a picture that was not copied", nil, func(_ *testing.T, w *window) { w.notCopied(&output.Made{}, output.ErrNoClipboard) }, 0},
	{"import of a text", nil, func(t *testing.T, w *window) {
		w.importFrom(write(t, "more.json", timeline.WriteText(sample())))
	}, 0},
	{"import of a table", nil, func(t *testing.T, w *window) {
		w.importFrom(write(t, "moves.csv", []byte("Move,Sort,startup\nnew,strike,6\n")))
	}, 0},
	{"an import that failed", nil, func(t *testing.T, w *window) {
		w.notTaken(w.model.Document(), &model.Import{Path: "a.csv"}, errors.New("line 2"))
	}, 0},
	{"revisions that changed setups", nil, func(t *testing.T, w *window) {
		w.tellChanges(w.model.Document(), &model.Patch{Patch: patch.New(sample(), patched()), From: "a", To: "b"})
	}, 0},
	{"one revision", nil, func(_ *testing.T, w *window) { w.askCompare() }, 0},
	{"the keys", nil, func(_ *testing.T, w *window) { w.showKeys() }, 0},
	{"the keys on a page", (*window).showGlossary, func(_ *testing.T, w *window) { w.showKeys() }, 0},
	{"a task", (*window).showLesson, func(_ *testing.T, w *window) {
		var p *page.Progress
		p = w.Dialogs().NewProgress("Working", page.Counting("setup"), func() { p.Dialog.Hide() })
	}, 0},
	{"the order of the list", nil, func(_ *testing.T, w *window) { w.setups.AskOrder() }, 0},
}

// TestEscapeClosesTheTopmostDialogAlone types Escape in every dialog, with the
// keys on each of its controls and on none.
func TestEscapeClosesTheTopmostDialogAlone(t *testing.T) {
	for _, c := range everyDialog {
		t.Run(c.name, func(t *testing.T) {
			w := openFile(t, sample())
			canvas := w.Canvas()
			if c.page != nil {
				c.page(w)
			}
			was := w.page
			c.open(t, w)
			if n := len(canvas.Overlays().List()); n != c.under+1 {
				t.Fatalf("%d things lie over the window, want %d", n, c.under+1)
			}
			first := canvas.Focused()
			if first == nil {
				t.Error("nothing of it has the keys")
			}
			for tabs := 0; ; tabs++ {
				if canvas.Overlays().Top() == nil {
					c.open(t, w)
				}
				if tabs > 0 {
					canvas.Unfocus()
				}
				for range tabs - 1 { // the first round keeps what it was given, the second has nothing focused
					canvas.FocusNext()
				}
				at := canvas.Focused()
				if tabs > 2 && (at == nil || testing.Short()) || tabs > 40 {
					break
				}
				typeEscape(w)
				if n := len(canvas.Overlays().List()); n != c.under {
					t.Fatalf("Escape with the keys on %T: %d things lie over the window, want %d", at, n, c.under)
				}
				if w.page != was {
					t.Fatalf("Escape with the keys on %T left the page", at)
				}
				for range c.under {
					typeEscape(w)
				}
				if w.busy() || w.Dialogs().Count() != 0 {
					t.Fatalf("%d dialogs are left", w.Dialogs().Count())
				}
				if canvas.Focused() == nil {
					t.Errorf("Escape with the keys on %T: nothing has the keys afterwards", at)
				}
				if tabs > 2 && at == first {
					break
				}
			}
			if n := edits0(w); n != 0 {
				t.Errorf("%d steps came of it", n)
			}
		})
	}
}

// typeEscape types as the driver does: for what has the keys, or the canvas.
func typeEscape(w *window) { typeKey(w, fyne.KeyEscape) }

func typeKey(w *window, name fyne.KeyName) {
	ev := &fyne.KeyEvent{Name: name}
	if f := w.Canvas().Focused(); f != nil {
		f.TypedKey(ev)
	} else {
		w.Canvas().OnTypedKey()(ev)
	}
}

// edits0 is how many steps the file's history has.
func edits0(w *window) int {
	steps, err := w.model.Document().File().Steps(100)
	if err != nil {
		return -1
	}
	return len(steps)
}

// TestEnterDoesTheDefault presses Enter where each dialog puts the keys first.
func TestEnterDoesTheDefault(t *testing.T) {
	dir, mine := t.TempDir(), alreadyThere(t)
	for _, c := range []struct {
		name string
		open func(w *window)
		done func(w *window) bool
	}{
		{"an error", func(w *window) { w.Dialogs().Fail("It failed", errors.New("because")) }, func(w *window) bool { return true }},
		{"rename", func(w *window) { w.askRename(); w.Canvas().Focused().(*paint.PageEntry).SetText("renamed") },
			func(w *window) bool { return w.model.Setup().Name == "renamed" }},
		{"rename, from no control", func(w *window) {
			w.askRename()
			w.Canvas().Focused().(*paint.PageEntry).SetText("renamed")
			w.Canvas().Unfocus()
		}, func(w *window) bool { return w.model.Setup().Name == "renamed" }},
		{"a new setup, from a choice", func(w *window) { w.askNewSetup(); w.Canvas().FocusPrevious() },
			func(w *window) bool { return w.model.Len() == len(sample().Setups)+1 }},
		{"a file to write", func(w *window) {
			w.askPath(asked{title: "Save", dir: dir, name: "a.txt", ext: ".txt"}, func(path string) { os.WriteFile(path, nil, 0o600) })
		}, func(w *window) bool { return there(filepath.Join(dir, "a.txt")) }},
		{"replace", func(w *window) {
			w.showExport()
			exportTo(t, w, mine)
		}, func(w *window) bool { b, err := os.ReadFile(mine); return err == nil && string(b) == "mine" }},
		{"a reply", func(w *window) { w.model.Choose(1); w.askReply() }, func(w *window) bool { return len(w.model.Setup().Replies) == len(sample().Setups[1].Replies)+1 }},
	} {
		w := openFile(t, sample())
		c.open(w)
		typeKey(w, fyne.KeyReturn)
		if w.busy() || !c.done(w) {
			t.Errorf("%s: Enter left %q", c.name, overlayText(w))
		}
	}
}

// TestEveryDialogIsMadeInOnePlace finds dialogs that are made elsewhere: they
// would not know Escape.
func TestEveryDialogIsMadeInOnePlace(t *testing.T) {
	var files []string
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".go") {
			files = append(files, filepath.ToSlash(path))
		}
		return err
	})
	if err != nil || len(files) < 300 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range f.Imports {
			if strings.Contains(i.Path.Value, "fyne/v2/dialog") && name != "page/dialog.go" {
				t.Errorf("%s makes dialogs of its own", name)
			}
		}
	}
}

// TestTheFilePicker goes by keys from a folder to a file in another.
func TestTheFilePicker(t *testing.T) {
	w := open(t, sample(), laptop)
	dir := t.TempDir()
	for _, name := range []string{"one.json", "two.json", "three.txt", "inner/four.json", ".hidden.json"} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	got := ""
	show := func(ext ...string) *page.FilePicker {
		got = ""
		w.Dialogs().PickFile("Open", "Open", ext, dir, func(path string) { got, _ = filepath.Rel(dir, path) })
		return w.Canvas().Focused().(*page.FilePicker)
	}
	listed := func(p *page.FilePicker) string {
		names, at, _ := p.Listed()
		return fmt.Sprint(names, " ", at)
	}
	p := show(".json")
	if s := listed(p); s != "[inner one.json two.json] 1" {
		t.Errorf("it lists %s", s)
	}
	typeKey(w, fyne.KeyDown)
	typeKey(w, fyne.KeyReturn)
	if got != "two.json" || w.busy() {
		t.Errorf("Down, Enter took %q", got)
	}
	p = show(".json")
	typeKey(w, fyne.KeyUp)
	typeKey(w, fyne.KeyReturn)
	if s := listed(p); s != "[four.json] 0" || got != "" {
		t.Errorf("in the folder within it lists %s, took %q", s, got)
	}
	tap(t, w, "Up")
	for _, r := range "TW" {
		p.TypedRune(r)
	}
	if s := listed(p); s != "[two.json] 0" {
		t.Errorf("after two letters it lists %s", s)
	}
	tap(t, w, "Open")
	if got != "two.json" {
		t.Errorf("Open took %q", got)
	}
	p = show(".json")
	p.SetText(filepath.Join(dir, "none.json"))
	typeKey(w, fyne.KeyReturn)
	if _, _, why := p.Listed(); !strings.Contains(why, "none.json") || got != "" || !w.busy() {
		t.Errorf("of a file that is not there it says %q, took %q", why, got)
	}
	p.SetText("/no such folder/")
	if _, _, why := p.Listed(); !strings.Contains(why, "can't be read") {
		t.Errorf("of a folder that is not there it says %q", why)
	}
	typeEscape(w)
	p = show()
	if s := listed(p); s != "[inner] -1" {
		t.Errorf("of folders it lists %s", s)
	}
	typeKey(w, fyne.KeyReturn)
	if got != "." || w.busy() {
		t.Errorf("Enter took the folder %q", got)
	}
}

// TestATextBoxCannotBeTypedIn types and cuts in a box of words.
func TestATextBoxCannotBeTypedIn(t *testing.T) {
	w := open(t, sample(), laptop)
	w.Dialogs().Fail("It failed", errors.New("some words"))
	w.Canvas().FocusNext()
	w.Canvas().Unfocus()
	w.Canvas().FocusNext()
	b, ok := w.Canvas().Focused().(*paint.TextBox)
	if !ok {
		t.Fatalf("the keys are with %T", w.Canvas().Focused())
	}
	clip := w.app.Clipboard()
	clip.SetContent("other")
	b.TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, k := range []fyne.KeyName{fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyX} {
		b.TypedKey(&fyne.KeyEvent{Name: k})
	}
	b.TypedRune('x')
	b.TypedShortcut(&fyne.ShortcutCut{Clipboard: clip})
	b.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	if b.Text != "some words" || clip.Content() != "other" {
		t.Errorf("it holds %q, the clipboard %q", b.Text, clip.Content())
	}
	b.TypedShortcut(&fyne.ShortcutCopy{Clipboard: clip})
	if clip.Content() != "some words" {
		t.Errorf("copied %q", clip.Content())
	}
}
