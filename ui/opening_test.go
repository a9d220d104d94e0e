package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
)

func TestTheFirstStartShowsTheSample(t *testing.T) {
	w := start(t, Start{Sample: sample()})
	if got := w.title(); got != "sample — Wakeline" {
		t.Errorf("title %q", got)
	}
	dragDelay(t, w, 1)
	if got := w.title(); got != "sample · edited — Wakeline" {
		t.Errorf("title after an edit %q", got)
	}
	path := filepath.Join(t.TempDir(), "mine"+storage.Ext)
	w.model.Choose(1)
	w.keepAsFile(path)
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	if got := w.title(); got != "mine.wakeline · saved — Wakeline" || w.model.Chosen() != 1 {
		t.Errorf("kept as a file: title %q, setup %d", got, w.model.Chosen())
	}
	if got, steps := onDisk(t, w); got.Setups[0].Delay != 4 || len(steps) != 0 {
		t.Errorf("the file holds delay %d and %d steps", got.Setups[0].Delay, len(steps))
	}
	item(t, w, "Open the sample").Action()
	if got := w.title(); got != "sample — Wakeline" || w.delay() != 3 {
		t.Errorf("the sample again: title %q, delay %d", got, w.delay())
	}
}

// TestTheFirstStartAsksWhatToBeginWith once, and nothing else.
func TestTheFirstStartAsksWhatToBeginWith(t *testing.T) {
	w := start(t, Start{Sample: sample()})
	w.askBeginning()
	if got := overlayText(w); !strings.Contains(got, "Begin with the sample") {
		t.Fatalf("the first start asks %q", got)
	}
	tap(t, w, "Empty project")
	if got := overlayText(w); got != "" || w.model.Len() != 0 || !w.empty.Box.Visible() {
		t.Errorf("an empty project has %d setups, and asks %q", w.model.Len(), got)
	}
	item(t, w, "Open the sample").Action()
	if w.askBeginning(); overlayText(w) != "" || w.model.Len() == 0 {
		t.Errorf("it asks again: %q", overlayText(w))
	}

	for _, button := range []string{"Sample", ""} {
		w = start(t, Start{Sample: sample()})
		w.askBeginning()
		if button == "" {
			w.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		} else {
			tap(t, w, button)
		}
		if w.askBeginning(); overlayText(w) != "" || w.title() != "sample — Wakeline" {
			t.Errorf("%q: shows %s, and asks %q", button, w.title(), overlayText(w))
		}
	}

	w = start(t, Start{Path: kept(t, sample()), Sample: sample()})
	if w.askBeginning(); overlayText(w) != "" {
		t.Errorf("who opens a file is asked %q", overlayText(w))
	}
}

func TestTheNextStartOpensWhatWasOpenLast(t *testing.T) {
	a := test.NewTempApp(t)
	path := kept(t, sample())
	first := newWindow(a, Start{Path: path, Sample: sample(), inline: true})
	first.end()
	next := newWindow(a, Start{Sample: sample(), inline: true})
	if got := next.title(); got != "tides.wakeline · saved — Wakeline" {
		t.Errorf("title %q", got)
	}
	next.end()
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	last := newWindow(a, Start{Sample: sample(), inline: true})
	if got := last.title(); got != "sample — Wakeline" || overlayText(last) != "" {
		t.Errorf("when it is gone: title %q, dialog %q", got, overlayText(last))
	}
}

func TestRecentFiles(t *testing.T) {
	w := open(t, nil, laptop)
	if got := w.menu.recent.ChildMenu.Items; len(got) != 1 || !got[0].Disabled {
		t.Errorf("at first the list is %v", got)
	}
	dir := t.TempDir()
	var paths []string
	for i := range 10 {
		path := filepath.Join(dir, fmt.Sprintf("p%d.json", i))
		if err := storage.WriteText(path, sample()); err != nil {
			t.Fatal(err)
		}
		w.openPath(path)
		paths = append(paths, path)
	}
	w.openPath(paths[5])
	want := []string{paths[5], paths[9], paths[8], paths[7], paths[6], paths[4], paths[3], paths[2]}
	if got := w.recent(); !reflect.DeepEqual(got, want) {
		t.Errorf("recent files %q, want %q", got, want)
	}
	if err := os.Remove(paths[8]); err != nil {
		t.Fatal(err)
	}
	w.menu.update()
	items := w.menu.recent.ChildMenu.Items
	if len(items) != 10 || !items[2].Disabled || !strings.Contains(items[2].Label, "gone") || items[1].Disabled {
		t.Errorf("the list is %+v", items)
	}
	items[1].Action()
	if got := w.title(); got != "p9.json — Wakeline" {
		t.Errorf("the second opens %q", got)
	}
	w.menu.recent.ChildMenu.Items[9].Action()
	if got := w.recent(); len(got) != 0 {
		t.Errorf("emptied it lists %q", got)
	}
}

func TestNewProject(t *testing.T) {
	w := open(t, sample(), laptop)
	path := filepath.Join(t.TempDir(), "new"+storage.Ext)
	w.newProject(path)
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	if w.model.Len() != 0 || !strings.Contains(w.empty.Text.Text, "import") || w.title() != "new.wakeline · saved — Wakeline" {
		t.Errorf("shows %d setups, %q, %q", w.model.Len(), w.empty.Text.Text, w.title())
	}
	w.newProject(path)
	if got := overlayText(w); !strings.Contains(got, "could not be created") || !strings.Contains(got, "exist") {
		t.Errorf("over a file that is there: %q", got)
	}
	tap(t, w, "Close")
	take(t, w, write(t, "all.json", timeline.WriteText(sample())), "1.0")
	if w.model.Len() != 3 || !w.upDown.Visible() || overlayText(w) != "" {
		t.Errorf("after an import it shows %d setups, and %q", w.model.Len(), overlayText(w))
	}
	if got := w.model.Document().Latest.Name; got != "1.0" {
		t.Errorf("the first revision is %q", got)
	}
}

func TestTheSameFileIsNotOpenedTwice(t *testing.T) {
	w := openFile(t, sample())
	w.openPath(w.model.Path())
	if w.model.ReadOnly() != "" || !strings.Contains(w.status.Hinted, "open here already") {
		t.Errorf("read-only %q, says %q", w.model.ReadOnly(), w.status.Hinted)
	}
}

func TestTroubleSaysWhich(t *testing.T) {
	dir := t.TempDir()
	w := openFile(t, sample())
	for _, tt := range []struct {
		name string
		make func(path string) error
		want string
	}{
		{"foreign", func(p string) error { return os.WriteFile(p, []byte(strings.Repeat("no database ", 40)), 0o644) }, "is not a Wakeline project"},
		{"absent", func(string) error { return nil }, "is not there"},
		{"newer", func(p string) error { return spoil(p, func(b []byte) { b[63] = 200 }) }, "needs a newer Wakeline"},
		{"damaged", func(p string) error { return spoil(p, func(b []byte) { clear(b[4096:8192]) }) }, "is damaged"},
	} {
		path := filepath.Join(dir, tt.name+storage.Ext)
		if err := tt.make(path); err != nil {
			t.Fatal(err)
		}
		w.openPath(path)
		if got := overlayText(w); !strings.Contains(got, tt.name+".wakeline "+tt.want) {
			t.Errorf("%s: the dialog says %q", tt.name, got)
		}
		tap(t, w, "Close")
		if w.title() != "tides.wakeline · saved — Wakeline" {
			t.Errorf("%s: the window shows %q", tt.name, w.title())
		}
	}
}

// spoil makes a project file at path and has change work on its bytes.
func spoil(path string, change func(b []byte)) error {
	f, err := storage.Create(path, sample())
	if err != nil {
		return err
	}
	f.Close()
	b, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	change(b)
	return os.WriteFile(path, b, 0o644)
}

func TestWhatCanBeReadOfADamagedFileIsSaved(t *testing.T) {
	w := open(t, nil, laptop)
	dir := t.TempDir()
	path, to := filepath.Join(dir, "hurt"+storage.Ext), filepath.Join(dir, "saved"+storage.Ext)
	if err := spoil(path, func(b []byte) { clear(b[len(b)-4096:]) }); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	if got := overlayText(w); !strings.Contains(got, "is damaged") {
		t.Fatalf("the dialog says %q", got)
	}
	tap(t, w, "Save what can be read…")
	tap(t, w, "Cancel")
	w.salvage(path, to)
	if got := w.model.Path(); got != to {
		t.Errorf("the window shows %q: %s", got, overlayText(w))
	}
	if got := overlayText(w); !strings.Contains(got, "Some of it is lost") || !strings.Contains(got, "saved.wakeline") {
		t.Errorf("it says %q", got)
	}
}

// TestACopyOfADamagedFileIsRestored spoils the first bytes of a file, of which
// nothing can be read then.
func TestACopyOfADamagedFileIsRestored(t *testing.T) {
	storage.Begin(t.TempDir())
	defer storage.Begin("")
	w := open(t, nil, laptop)
	dir := t.TempDir()
	path := filepath.Join(dir, "hurt"+storage.Ext)
	f, err := storage.Create(path, sample())
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	w.openPath(path)
	dragDelay(t, w, 2)
	delay := w.model.Setup().Delay
	w.newProject(filepath.Join(dir, "other"+storage.Ext)) // closes the file
	if err := storage.End(time.Minute); err != nil {
		t.Fatal(err)
	}
	copies := storage.Copies(path)
	if len(copies) != 2 {
		t.Fatalf("%d copies, want those of before the drag and after it", len(copies))
	}
	if err := os.WriteFile(path, make([]byte, 9999), 0o644); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	got := overlayText(w)
	for _, want := range []string{"hurt.wakeline is damaged", "Copies of the project", copies[0].Of.Local().Format(copyDate), "Save what can be read…"} {
		if !strings.Contains(got, want) {
			t.Errorf("the dialog says %q, want %q", got, want)
		}
	}
	if strings.Contains(got, "other program") || strings.Contains(got, "something else") {
		t.Errorf("the dialog blames another program: %q", got)
	}
	tap(t, w, "Restore a copy…")
	if got := overlayText(w); !strings.Contains(got, copies[0].Of.Local().Format(copyDate)) {
		t.Errorf("the dialog doesn't name the newest copy: %q", got)
	}
	tap(t, w, "Choose a file…")
	tap(t, w, "Save")
	if to := filepath.Join(dir, "hurt-restored"+storage.Ext); w.model.Path() != to || w.model.Setup().Delay != delay {
		t.Errorf("the window shows %q with delay %d, want %q with %d: %s", w.model.Path(), w.model.Setup().Delay, to, delay, overlayText(w))
	}
}

func TestCopyExportAndCompact(t *testing.T) {
	w := openFile(t, sample())
	dragDelay(t, w, 2)
	dir := t.TempDir()
	w.copyTo(w.model.Document(), filepath.Join(dir, "copy"+storage.Ext))
	w.export(filepath.Join(dir, "text.json"))
	w.compact()
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	if !strings.Contains(w.status.Hinted, "tides.wakeline takes") {
		t.Errorf("it says %q", w.status.Hinted)
	}
	want, _ := onDisk(t, w)
	text, err := storage.ReadText(filepath.Join(dir, "text.json"))
	if err != nil || !reflect.DeepEqual(text, want) {
		t.Errorf("the text holds another project, %v", err)
	}
	copied := start(t, Start{Path: filepath.Join(dir, "copy"+storage.Ext)})
	if got, steps := onDisk(t, copied); !reflect.DeepEqual(got, want) || len(steps) != 1 {
		t.Errorf("the copy holds another project, or %d steps", len(steps))
	}
	w.copyTo(w.model.Document(), w.model.Path())
	if got := overlayText(w); !strings.Contains(got, "the file itself") {
		t.Errorf("a copy over itself: %q", got)
	}
}

func TestSaveKeepsItsMeaningForTexts(t *testing.T) {
	w := openFile(t, sample())
	w.save()
	if !strings.Contains(w.status.Hinted, "already") || !w.menu.save.Disabled || w.menu.saveAs.Label != "Export JSON…" {
		t.Errorf("it says %q, the menu offers %q", w.status.Hinted, w.menu.saveAs.Label)
	}
	w.show(inMemory(t, sample()))
	if w.menu.save.Disabled || w.menu.saveAs.Label != "Save JSON as…" || w.menu.keep.Disabled {
		t.Errorf("for a text the menu offers %q", w.menu.saveAs.Label)
	}
}
