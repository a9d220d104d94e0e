package ui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/storage/importer"
	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	comparepage "wakeline/ui/page/compare"
	"wakeline/ui/page/intake"
	"wakeline/ui/paint"
)

// patched is the sample after a patch of the game: rising gale bites two
// frames earlier, and the ender keeps its rival down one frame longer.
func patched() *timeline.Project {
	p := sample()
	p.Fighters[1].Moves[0].Startup -= 2
	p.Fighters[0].Moves[0].Knockdown.Midscreen.N++
	return p
}

func write(t *testing.T, name string, text []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// take takes a file in as the dialog's button does.
func take(t *testing.T, w *window, path, revision string) {
	t.Helper()
	d := w.model.Document()
	in, err := model.NewImport(path, w.mapped)
	if err != nil {
		t.Fatal(err)
	}
	in.Revision = revision
	w.takeIn(d, in)
}

func TestImportIsOneStep(t *testing.T) {
	w := openFile(t, sample())
	p := patched()
	p.Setups = append(p.Setups, p.Setups[0])
	p.Setups[3].Name, p.Setups[3].Delay = "another", 6
	path := write(t, "patch.json", timeline.WriteText(p))
	w.importFrom(path)
	if got := overlayText(w); !strings.Contains(got, path) || !strings.Contains(got, "in one step") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Import")
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	got, steps := onDisk(t, w)
	if !reflect.DeepEqual(got, p) || len(steps) != 1 || steps[0].What != "import patch.json" {
		t.Errorf("the file holds another project, with the history %+v", steps)
	}
	if w.model.Len() != 4 || len(w.setups.Shown) != 4 || w.model.Plan().K != 59 {
		t.Errorf("the window shows %d setups, advantage %d", w.model.Len(), w.model.Plan().K)
	}
	w.model.Choose(3)
	w.undo()
	if got, _ := onDisk(t, w); !reflect.DeepEqual(got, sample()) {
		t.Error("undo leaves another project in the file")
	}
	if w.model.Len() != 3 || w.model.Chosen() < 0 || w.model.Plan() == nil || w.model.Plan().K != 58 && w.model.Chosen() == 0 {
		t.Errorf("after undo the window shows %d setups, number %d", w.model.Len(), w.model.Chosen())
	}
	w.redo()
	if w.model.Len() != 4 {
		t.Errorf("after redo the window shows %d setups", w.model.Len())
	}
}

func TestImportErrorsSayWhere(t *testing.T) {
	w := openFile(t, sample())
	wrong := strings.Replace(string(timeline.WriteText(sample())), `"kind": "dash"`, `"kind": "dish"`, 1)
	take(t, w, write(t, "wrong.json", []byte(wrong)), "")
	if got := overlayText(w); !strings.Contains(got, "Nothing of wrong.json was imported") || !strings.Contains(got, "fighter 1, move 2, kind") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Close")
	take(t, w, write(t, "wrong.csv", []byte("fighter,name,kind,startup,active,level\nOstrel,a,strike,six,3,mid\nOstrel,b,strike,6,3,mud\n")), "")
	if got := overlayText(w); !strings.Contains(got, "line 2, column 4 (startup)") || !strings.Contains(got, "line 3, column 6 (level)") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Back to the import")
	if got := overlayText(w); !strings.Contains(got, "Import into tides.wakeline") {
		t.Errorf("back it says %q", got)
	}
	tap(t, w, "Cancel")
	if _, steps := onDisk(t, w); len(steps) != 0 {
		t.Errorf("the history is %+v", steps)
	}
	take(t, w, write(t, "fine.json", timeline.WriteText(patched())), storage.FirstRevision)
	if got := overlayText(w); !strings.Contains(got, "called first already") {
		t.Errorf("a revision of a name that is taken: %q", got)
	}
}

func TestImportOfATableRemembersItsHeadings(t *testing.T) {
	w := openFile(t, sample())
	path := write(t, "moves.csv", []byte("Move,Sort,startup,active,recovery,level,Frame data by\nnew oar,strike,6,3,14,mid,me\nlow reed,strike,4,3,9,low,me\nbad,strike,x,3,1,mid,me\n"))
	in, err := model.NewImport(path, w.mapped)
	if err != nil {
		t.Fatal(err)
	}
	if got := in.Strange(); !reflect.DeepEqual(got, []string{"Move", "Sort", "Frame data by"}) {
		t.Errorf("strange headings %q", got)
	}
	if in.SaysWhose() {
		t.Error("the table says whose its moves are")
	}
	if in.Mapping["move"] != "name" || in.Mapping["sort"] != model.LeftOut || table.Guess("on-guard") != "on_guard" || table.Guess("") != model.LeftOut {
		t.Errorf("it guesses %v", in.Mapping)
	}
	in.Mapping["sort"] = "kind"
	in.Fighter, in.SkipBad = "Ostrel", true
	w.takeIn(w.model.Document(), in)
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	if got := w.status.Hinted; got != "Imported 2 moves, 1 bad row skipped" {
		t.Errorf("it says %q", got)
	}
	got, steps := onDisk(t, w)
	f := got.Fighter("Ostrel")
	if len(steps) != 1 || len(f.Moves) != 6 || f.Move("low reed").Startup != 4 || f.Move("new oar") == nil {
		t.Errorf("the file holds %d moves after %d steps", len(f.Moves), len(steps))
	}
	again, err := model.NewImport(path, w.mapped)
	if err != nil || again.Mapping["move"] != "name" || again.Mapping["sort"] != "kind" {
		t.Errorf("the next time the headings stand for %v, %v", again.Mapping, err)
	}
}

// previewIn is the preview of the dialog on top.
func previewIn(t *testing.T, w *window) *intake.Preview {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if g, ok := o.(*grid.Grid); ok {
			return g.Shown().(*intake.Preview)
		}
	}
	t.Fatal("no preview in the dialog")
	return nil
}

func TestImportShowsWhatWillBeTaken(t *testing.T) {
	w := openFile(t, sample())
	path := write(t, "moves.csv", []byte("Move,Sort,startup,active,recovery,level,Seen by\nhook,strike,6,2(3)1,14,mid,\"by\nme\"\nlow reed,strike,600,3,9,low,me\nbad,strike,x,3,1,mid,me\nshort,strike,5\nfine,dash,,,,,me\n"))
	w.importFrom(path)
	p := previewIn(t, w)
	if got := p.Count.Text; !strings.Contains(got, "fighter") {
		t.Errorf("without a column for the fighter it says %q", got)
	}
	in, err := model.NewImport(path, func([]string) map[string]string { return map[string]string{"sort": "kind"} })
	if err != nil {
		t.Fatal(err)
	}
	tap(t, w, "Cancel")
	w.showImport(w.model.Document(), in)
	p = previewIn(t, w)
	if in.Mapping["move"] != "name" || in.Mapping["sort"] != "kind" {
		t.Errorf("the dialog maps %v", in.Mapping)
	}
	if got := p.Count.Text; !strings.Contains(got, "fighter") {
		t.Errorf("without a fighter it says %q", got)
	}
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if e, ok := o.(*paint.PickEntry); ok {
			e.SetText("Ostrel")
		}
	}
	if got := p.Count.Text; got != "1 row to import, 4 bad" {
		t.Errorf("it counts %q", got)
	}
	if got := strings.Join(p.Heads(), " "); got != "name fighter kind level startup active recovery" {
		t.Errorf("it shows %q", got)
	}
	for i, want := range []struct {
		label, cells, why string
		wrong             int
	}{
		{"2", "hook|Ostrel|strike|mid|6|2(3)1|14", "", -1},
		{"4 bad", "low reed||strike|low|600|3|9", "line 4, column 3 (startup): expected a whole number from 1 to 512, got 600", 4},
		{"5 bad", "bad||strike|mid|x|3|1", `line 5, column 3 (startup): expected a whole number, got "x"`, 4},
		{"6 bad", "short||strike||5||", "line 6, column 4 (active): expected 7 fields, as in the header, got 3", 5},
		{"7 bad", "fine||dash||||", "line 7 (total): expected the total of a dash, got nothing", -1},
	} {
		r := p.Shown.Rows[i]
		if got := strings.Join(r.Cells, "|"); p.Label(i) != want.label || got != want.cells || r.Why != want.why || r.At != want.wrong {
			t.Errorf("row %d is %q %q %q, wrong at %d", i, p.Label(i), got, r.Why, r.At)
		}
	}
	if p.Grid.At() != (grid.Place{Row: 1, Col: 4}) || p.Why.Text != p.Shown.Rows[1].Why || p.Look(1, 4) != grid.Wrong || p.Look(0, 4) != grid.Plain {
		t.Errorf("it begins at %v and says %q", p.Grid.At(), p.Why.Text)
	}
	tap(t, w, "Cancel")
	if _, steps := onDisk(t, w); len(steps) != 0 {
		t.Error("a preview takes something in")
	}
}

func TestAnImportIsGivenUpWhole(t *testing.T) {
	w := openFile(t, sample())
	var text strings.Builder
	text.WriteString("fighter,name,kind,total\n")
	for i := range 3 * importer.StoredAtOnce {
		fmt.Fprintf(&text, "New,m%d,dash,9\n", i)
	}
	in, err := model.NewImport(write(t, "many.csv", []byte(text.String())), nil)
	if err != nil {
		t.Fatal(err)
	}
	d := w.model.Document()
	ctx, cancel := context.WithCancel(context.Background())
	got, err := in.Read(ctx, d.Data(), func(done, of int) {})
	if err != nil || got.Moves() != 3*importer.StoredAtOnce {
		t.Fatal(err)
	}
	told := 0
	err = in.Store(ctx, d.File(), got, func(done, of int) {
		if told++; told == 2 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || told != 2 && told != 3 {
		t.Errorf("given up after %d words of progress: %v", told, err)
	}
	if p, steps := onDisk(t, w); len(steps) != 0 || p.Fighter("New") != nil {
		t.Error("a part of it was taken")
	}
	if _, err := in.Read(ctx, d.Data(), func(done, of int) {}); !errors.Is(err, context.Canceled) {
		t.Errorf("the reading goes on: %v", err)
	}
	if err := in.Store(context.Background(), d.File(), got, func(done, of int) {}); err != nil {
		t.Fatal(err)
	}
	if p, steps := onDisk(t, w); len(steps) != 1 || len(p.Fighter("New").Moves) != 3*importer.StoredAtOnce {
		t.Errorf("%d steps", len(steps))
	}
}

// TestImportIntoAProjectInMemory takes JSON and a table into a project that no
// file holds yet: each is one step, which undo takes back, and is to be saved.
func TestImportIntoAProjectInMemory(t *testing.T) {
	w := open(t, &timeline.Project{Ruleset: timeline.DefaultRuleset()}, laptop)
	if w.menu.intake.Disabled || w.menu.paste.Disabled {
		t.Fatal("a project in memory offers no import")
	}
	w.importFrom(write(t, "fine.json", timeline.WriteText(patched())))
	if got := overlayText(w); !strings.Contains(got, "Import into this project") || !strings.Contains(got, "only in a project file") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Import")
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	whole := func() *timeline.Project {
		t.Helper()
		p, err := w.model.Document().Whole()
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	if got := whole(); !reflect.DeepEqual(got, patched()) || w.model.Len() != 3 || w.model.Plan() == nil {
		t.Errorf("the window shows %d setups of another project", w.model.Len())
	}
	if !strings.Contains(w.title(), "edited") {
		t.Errorf("the title is %q", w.title())
	}
	w.app.Clipboard().SetContent("name\tkind\tstartup\tactive\trecovery\tlevel\nlow reed\tstrike\t4\t3\t9\tlow\n")
	w.importPasted()
	typeIn := w.Canvas().Overlays().Top()
	for _, o := range test.LaidOutObjects(typeIn) {
		if e, ok := o.(*paint.PickEntry); ok {
			e.SetText("Ostrel")
		}
	}
	tap(t, w, "Import")
	if got := whole().Fighter("Ostrel").Move("low reed"); got == nil || got.Startup != 4 {
		t.Errorf("the pasted move is %+v", got)
	}
	w.undo()
	if got := whole(); !reflect.DeepEqual(got, patched()) {
		t.Error("undo leaves another project than the first import")
	}
	w.undo()
	if got := whole(); len(got.Fighters) != 0 || w.model.Len() != 0 {
		t.Errorf("undo of both leaves %d fighters, %d setups", len(got.Fighters), w.model.Len())
	}
	w.redo()
	path := filepath.Join(t.TempDir(), "saved.json")
	if !w.saveTo(path) || strings.Contains(w.title(), "edited") {
		t.Errorf("after saving the title is %q", w.title())
	}
	if got, err := storage.ReadText(path); err != nil || !reflect.DeepEqual(got, patched()) {
		t.Errorf("the saved text holds another project, error %v", err)
	}
}

func TestARevisionOffersWhatItChanged(t *testing.T) {
	w := openFile(t, sample())
	w.model.SetDelay(4)
	take(t, w, write(t, "same.json", timeline.WriteText(func() *timeline.Project { p := sample(); p.Setups = nil; return p }())), "1.1")
	if got := overlayText(w); !strings.Contains(got, "Nothing changed") {
		t.Errorf("after an import of the same: %q", got)
	}
	tap(t, w, "Close")
	p := patched()
	p.Setups = nil
	take(t, w, write(t, "patch.json", timeline.WriteText(p)), "1.2")
	if got := overlayText(w); !strings.Contains(got, "3 setups changed from 1.1 to 1.2") || !strings.Contains(got, "turned: ") {
		t.Fatalf("after the patch: %q", got)
	}
	tap(t, w, "Show")
	from, to := w.page.(*comparepage.Page).Revisions()
	if w.main.Visible() || from != "1.1" || to != "1.2" {
		t.Fatalf("the page is of %s and %s", from, to)
	}
	if p := w.page.(*comparepage.Page); !strings.HasPrefix(p.Answer(), "1 setup turned: 1 safe to unsafe. ") {
		t.Errorf("the page answers %q", p.Answer())
	}
	undone := w.delay()
	w.undo() // not under the page
	if w.delay() != undone || w.model.Len() != 3 {
		t.Error("undo works behind the page")
	}
	w.Close()
	if !w.main.Visible() || w.page != nil {
		t.Error("the setups are not shown again")
	}
	item(t, w, "Compare revisions").Action()
	if from, to := w.page.(*comparepage.Page).Revisions(); from != "1.1" || to != "1.2" {
		t.Error("the menu doesn't compare the last two")
	}
	w.show(inMemory(t, nil))
	if w.page != nil {
		t.Error("another project leaves the page open")
	}
}

func mustData(t *testing.T, w *window, revision string) *timeline.Project {
	t.Helper()
	p, err := w.model.Document().File().DataOf(revision)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestOneRevisionHasNothingToCompare(t *testing.T) {
	w := openFile(t, sample())
	item(t, w, "Compare revisions").Action()
	if got := overlayText(w); !strings.Contains(got, "one revision") || w.page != nil {
		t.Errorf("it says %q", got)
	}
}

func TestGuessedHeadingsStandInTheForm(t *testing.T) {
	w := open(t, sample(), laptop)
	in := &model.Import{Headings: []string{"Move", "Hue"}, Mapping: map[string]string{"move": "name"}}
	intake.Mapping(w, in, func() {})
	if got := in.Mapping["move"]; got != "name" {
		t.Errorf("once the form is made Move stands for %q, want name", got)
	}
}

// TestRoutesAreImported takes a table of routes in the window, which asks for no
// headings, and says where one is wrong.
func TestRoutesAreImported(t *testing.T) {
	w := openFile(t, sample())
	take(t, w, write(t, "wrong.csv", []byte("fighter,name,steps\nOstrel,a,\"low reed, high reed\"\n")), "")
	if got := overlayText(w); !strings.Contains(got, "line 2, column 3 (steps): expected a move of Ostrel") {
		t.Errorf("the dialog says %q", got)
	}
	tap(t, w, "Back to the import")
	tap(t, w, "Cancel")
	take(t, w, write(t, "routes.csv", []byte("fighter,name,steps\nOstrel,a,\"low reed > tide sweep\"\n")), "")
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	if f := w.model.Data().Fighter("Ostrel"); len(f.Routes) != 1 || timeline.StepsText(f.Routes[0].Steps) != "low reed > tide sweep" || w.status.Hinted != "Imported 1 route" {
		t.Errorf("routes %+v; it says %q", f.Routes, w.status.Hinted)
	}
	w.undo()
	if len(w.model.Data().Fighter("Ostrel").Routes) != 0 {
		t.Error("undone they are still there")
	}
}

// TestAPastedTableIsImported pastes a table of three fighters into an empty project,
// goes through its notes and takes it in.
func TestAPastedTableIsImported(t *testing.T) {
	w := openFile(t, &timeline.Project{Ruleset: timeline.DefaultRuleset()})
	w.app.Clipboard().SetContent("Character\tMove\tType\tStart-up (f)\tActive\tRecovery\tOn hit\tOn block\n" +
		"Marl\tsweep\tL\t8\t3\t20-24\tKD +31\t-12\nOrla\tkick\tM\t12+3\t2(5)1\t14\t+4\t-4~-2\nNess\tdrop\tO\tsoon\t3\t16\t+3\t-\n")
	item(t, w, "Import copied table…").Action()
	p := previewIn(t, w)
	if got := p.Count.Text; got != "2 rows to import, 1 bad" {
		t.Errorf("it counts %q", got)
	}
	if got := strings.Join(p.Tabs.Row.Names, ", "); got != "Rows, Not understood: 1, Notes: 10" {
		t.Errorf("the tabs are %q", got)
	}
	if p.Look(0, 4) != grid.Plain || p.Look(1, 4) != grid.Found || p.Look(2, 4) != grid.Wrong {
		t.Errorf("the cells look %v %v %v", p.Look(0, 4), p.Look(1, 4), p.Look(2, 4))
	}
	p.Tabs.Show(1)
	if want := `Line 4, Start-up (f): "soon": expected a whole number`; p.Why.Text != want {
		t.Errorf("it says %q, want %q", p.Why.Text, want)
	}
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if g, ok := o.(*grid.Grid); ok && strings.Join(g.Shown().Heads(), " ") == "Column Says Expected" {
			g.Place(grid.Place{Row: 0, Col: 1})
			g.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}
	}
	if p.Tabs.At != 0 || p.Grid.At() != (grid.Place{Row: 2, Col: 4}) {
		t.Errorf("Enter leads to tab %d, %v", p.Tabs.At, p.Grid.At())
	}
	p.Tabs.Show(2)
	if p.Why.Text == "" {
		t.Error("nothing is said of the first note")
	}
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if tick, ok := o.(*paint.PageTick); ok {
			tick.SetChecked(true)
		}
	}
	tap(t, w, "Import")
	if got := overlayText(w); got != "" {
		t.Fatal(got)
	}
	got, steps := onDisk(t, w)
	if len(got.Fighters) != 2 || len(steps) != 1 || steps[0].What != "import the copied table" || got.Fighter("Marl").Moves[0].Knockdown.Midscreen != timeline.Some(31) || got.Fighter("Orla").Moves[0].Startup != 15 {
		t.Errorf("the file holds %+v after %+v", got.Fighters, steps)
	}
	if known := w.headingSets().Of([]string{"Character", "Move", "Type", "Start-up (f)", "Active", "Recovery", "On hit", "On block"}); known["on block"] != "on_guard" {
		t.Errorf("of its headings it remembers %v", known)
	}
	w.app.Clipboard().SetContent(" ")
	item(t, w, "Import copied table…").Action()
	if got := overlayText(w); !strings.Contains(got, "expected a copied table") {
		t.Errorf("of nothing it says %q", got)
	}
}
