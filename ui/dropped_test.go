package ui

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/data"
	"wakeline/ui/page/export"
	findpage "wakeline/ui/page/find"
	"wakeline/ui/page/history"
)

// The toolkit drops the renderer of a widget that was not on screen for the
// time that FYNE_CACHE says at the start of the program, or for a minute. It
// looks when a canvas is captured, the first time and then every ten seconds.
// Here it drops all of them, on screen or not.
const (
	dropEnv  = "FYNE_CACHE=1ns"
	dropInto = "WAKELINE_DROPPED" // the folder for the pictures of the other process
)

// TestViewsComeBack paints every view, then again in a process in which the
// toolkit has dropped all renderers in between, and finds the same pictures.
func TestViewsComeBack(t *testing.T) {
	dir := t.TempDir()
	c := exec.Command(os.Args[0], "-test.run=^TestPaintDroppedViews$", "-test.v")
	c.Env = append(os.Environ(), dropEnv, dropInto+"="+dir)
	var said bytes.Buffer
	c.Stdout, c.Stderr = &said, &said
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	r := openForViews(t)
	for _, v := range r.views {
		r.show(t, v)
	}
	want := map[string]image.Image{}
	for _, v := range r.views {
		r.show(t, v)
		want[v.name] = r.w.Canvas().Capture()
	}
	if err := c.Wait(); err != nil {
		t.Fatalf("the other process: %v\n%s", err, said.String())
	}
	for _, v := range r.views {
		got := load(t, filepath.Join(dir, v.name+".png"))
		if n, where := unlike(got, want[v.name]); n > 0 {
			t.Errorf("%s: %d pixels are unlike after the renderers were dropped, in %v", v.name, n, where)
			if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
				save(t, filepath.Join(dir, "dropped-"+v.name+".png"), got)
				save(t, filepath.Join(dir, "painted-"+v.name+".png"), want[v.name])
			}
		}
	}
}

// TestPaintDroppedViews is the other process of TestViewsComeBack.
func TestPaintDroppedViews(t *testing.T) {
	dir := os.Getenv(dropInto)
	if dir == "" {
		t.Skip("TestViewsComeBack runs it in a process of its own")
	}
	r := openForViews(t)
	for _, v := range r.views {
		r.show(t, v)
	}
	probe := newDropProbe()
	probe.MinSize()
	first := r.w.Canvas().Capture()
	if probe.dropped == 0 {
		t.Fatal("the toolkit dropped no renderer")
	}
	if n, _ := unlike(first, image.NewNRGBA(first.Bounds())); n == 0 {
		t.Fatal("the first picture is empty")
	}
	for _, v := range r.views {
		r.show(t, v)
		var got image.Image
		for again := true; again; { // where it drops them again, it does so before it paints
			probe.MinSize()
			before := probe.dropped
			settleAll(r.w.Canvas())
			got = r.w.Canvas().Capture()
			again = probe.dropped != before
		}
		save(t, filepath.Join(dir, v.name+".png"), got)
	}
}

// dropProbe counts how often its renderer was dropped.
type dropProbe struct {
	widget.BaseWidget
	dropped int
}

func newDropProbe() *dropProbe {
	p := &dropProbe{}
	p.ExtendBaseWidget(p)
	return p
}

func (p *dropProbe) CreateRenderer() fyne.WidgetRenderer {
	return &dropProbeRenderer{WidgetRenderer: widget.NewSimpleRenderer(canvas.NewRectangle(nil)), p: p}
}

type dropProbeRenderer struct {
	fyne.WidgetRenderer
	p *dropProbe
}

func (r *dropProbeRenderer) Destroy() { r.p.dropped++ }

// view is one thing that the window can show.
type view struct {
	name string
	show func()
}

// viewed is a window with long lists, and all that it can show.
type viewed struct {
	w     *window
	views []view
}

// openForViews opens a project file of two revisions.
func openForViews(t *testing.T) *viewed {
	p := crowd(60)
	for i := len(p.Setups); i < 60; i++ {
		s := p.Setups[0]
		s.Name, s.Delay = fmt.Sprintf("%s, no. %d", s.Name, i), i%9
		p.Setups = append(p.Setups, s)
	}
	w := openFile(t, p)
	d := w.model.Document()
	later := patched()
	later.Setups, later.Fighters = nil, later.Fighters[:1]
	if err := d.File().Edit("import", func(s *storage.Step) error {
		if err := s.BeginRevision("1.2", "import"); err != nil {
			return err
		}
		return s.Take(later)
	}); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	w.model.Reread()
	w.model.Choose(50)
	w.keepNumbers("shown")
	r := &viewed{w: w}
	add := func(name string, show func()) { r.views = append(r.views, view{name, show}) }
	// page shows a page, and the next time that page again.
	page := func(name string, open, then func()) {
		var kept page.Page
		add(name, func() {
			if kept == nil {
				w.Close()
				open()
				kept = w.page
			} else {
				w.showPage(kept)
			}
			if kept == nil {
				t.Fatalf("%s opens no page", name)
			}
			if then != nil {
				then()
			}
		})
	}
	main := func(name string, show func()) { add(name, func() { w.Close(); show() }) }
	main("setups-replies", func() { w.left.Show(0); w.showReplies() })
	main("setups-lanes", func() { w.left.Show(0); w.showLanes(); w.readMeeting() })
	main("blocks-numbers", func() { w.left.Show(1); w.showReplies() })
	for i, title := range []string{"Moves", "Jumps", "Rises", "Routes", "Replies", "Fighters", "Ruleset"} {
		page("data-"+title, w.showData, func() {
			w.page.(*data.Page).Reveal(model.DataRow{Owner: p.Fighters[0].Name, Kind: model.RowKind(i)})
		})
	}
	page("match-up", w.showMatchup, nil)
	var search *findpage.Page
	page("find", func() {
		w.showFind()
		search = w.page.(*findpage.Page)
		for range 40 {
			typeKey(w, fyne.KeyDown)
		}
	}, func() { search.ShowTab(0) })
	times := 0
	add("find-enders", func() {
		w.showPage(search)
		search.ShowTab(1)
		search.ShowEnders(manyEnders())
		switch times++; {
		case times == 1:
			settleAll(w.Canvas())
			tableOn(t, search).ScrollToOffset(fyne.NewPos(300, 900))
		case os.Getenv(dropInto) == "": // dropped, it begins at its top
			tableOn(t, search).ScrollToTop()
			tableOn(t, search).ScrollToLeading()
		}
	})
	page("drill", w.showDrill, nil)
	page("lesson", w.showLesson, nil)
	page("glossary", w.showGlossary, nil)
	page("compare", w.askCompare, nil)
	page("in-game-tests", w.showTests, nil)
	page("history", func() {
		w.showHistory()
		for steps, i := w.page.(*history.Page).Steps(), 0; i < len(steps); i++ { // Done at one time, whenever the process runs
			steps[i].Date = "2026-11-28T12:00:00Z"
		}
	}, nil)
	for _, kind := range []string{export.Strip, export.Lesson, export.Replies, export.Folder} {
		page("export-"+kind, func() { w.showExportOf(kind) }, func() { pathOn(w).SetText("a path") })
	}
	return r
}

// scrolledTable is a table of the toolkit, as far as it scrolls.
type scrolledTable interface {
	ScrollToOffset(at fyne.Position)
	ScrollToTop()
	ScrollToLeading()
}

// tableOn is the one table on a page.
func tableOn(t *testing.T, p page.Page) scrolledTable {
	t.Helper()
	for _, o := range test.LaidOutObjects(p.Content()) {
		if g, ok := o.(scrolledTable); ok {
			return g
		}
	}
	t.Fatal("no table on the page")
	return nil
}

// manyEnders is more of a table of enders than there is room for.
func manyEnders() *find.ToldEnders {
	rows := make([]find.Row, 60)
	for i := range rows {
		rows[i] = find.Row{Ender: fmt.Sprintf("ender %d", i), Position: timeline.Midscreen, Advantage: 40 + i, Cells: make([]find.Cell, 8)}
	}
	return &find.ToldEnders{Rows: rows}
}

// show shows a view, and has the toolkit lay it out.
func (r *viewed) show(t *testing.T, v view) {
	t.Helper()
	v.show()
	c := r.w.Canvas()
	c.Unfocus()
	settleAll(c)
}

// settleAll lays out what is on a canvas as the real driver does before each
// frame, which the tests' driver does not: a container or widget is laid out
// when the least size of something in it is another than the frame before,
// and so when what is in it is new.
func settleAll(c fyne.Canvas) {
	for range 3 {
		settle(c.Content())
		for _, o := range c.Overlays().List() {
			settle(o)
		}
	}
}

func settle(o fyne.CanvasObject) {
	if !o.Visible() {
		return
	}
	var in []fyne.CanvasObject
	lay := func() {}
	switch o := o.(type) {
	case *fyne.Container:
		in = o.Objects
		lay = func() {
			if o.Layout != nil {
				o.Layout.Layout(o.Objects, o.Size())
			}
		}
	case fyne.Widget:
		r := test.WidgetRenderer(o)
		in = r.Objects()
		lay = func() { r.Layout(o.Size()) }
	}
	seen := false
	for _, o := range in {
		settle(o)
		seen = seen || o.Visible()
	}
	if seen {
		lay()
	}
}

// unlike counts the pixels that differ, and says where they lie.
func unlike(a, b image.Image) (n int, where image.Rectangle) {
	if a.Bounds() != b.Bounds() {
		return 1, a.Bounds().Union(b.Bounds())
	}
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r0, g0, b0, a0 := a.At(x, y).RGBA()
			r1, g1, b1, a1 := b.At(x, y).RGBA()
			if r0>>8 != r1>>8 || g0>>8 != g1>>8 || b0>>8 != b1>>8 || a0>>8 != a1>>8 {
				n++
				where = where.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return n, where
}

func load(t *testing.T, path string) image.Image {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return img
}
