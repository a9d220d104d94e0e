package output

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// yard is the sample project, its setups as often as asked for, each of its
// own name.
func yard(t testing.TB, times int) *timeline.Project {
	t.Helper()
	b, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := timeline.ReadText(b)
	if err != nil {
		t.Fatal(err)
	}
	own := p.Setups
	p.Setups = nil
	for n := range times {
		for _, s := range own {
			if n > 0 {
				s.Name += fmt.Sprintf(" %d", n)
			}
			p.Setups = append(p.Setups, s)
		}
	}
	return p
}

// eachOf hands the setups over.
func eachOf(setups []timeline.Setup) Each {
	return func(ctx context.Context, do func(s *timeline.Setup) error) error {
		for i := range setups {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := do(&setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
}

func planOf(t testing.TB, name string) *timeline.Plan {
	t.Helper()
	p := yard(t, 1)
	for _, s := range p.Setups {
		if s.Name == name {
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatal(err)
			}
			return plan
		}
	}
	t.Fatalf("no %q", name)
	return nil
}

func filesIn(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// TestWrite: every format begins as its readers expect, says what it shows, and
// is the same on every run.
func TestWrite(t *testing.T) {
	p := planOf(t, "Counted crossing")
	for format, want := range map[string][2]string{
		"png": {"\x89PNG\r\n", "Counted crossing: safe"}, "svg": {"<?xml", "Counted crossing"}, "pdf": {"%PDF-1.3", "Counted crossing: safe"}, "gif": {"GIF89a", "NETSCAPE2.0"},
		"md": {"# Counted crossing", "## Plan"}, "csv": {"setup,delay", "Counted crossing,1,safe,normal,45,Millrace"},
	} {
		for _, neighbours := range []int{Strip, 1} {
			o := Standard()
			o.Neighbours = neighbours
			var a, b bytes.Buffer
			if err := o.Write(&a, p, format); err != nil {
				t.Fatalf("%s: %v", format, err)
			}
			if err := o.Write(&b, p, format); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s: two runs differ: %v", format, err)
			}
			part := want[1]
			if neighbours > 0 && (format == "png" || format == "pdf") {
				part = "Counted crossing: lesson"
			}
			if format == "pdf" { // a title in UTF-16
				part = "\x00" + strings.Join(strings.Split(part, ""), "\x00")
			}
			if !bytes.HasPrefix(a.Bytes(), []byte(want[0])) || !bytes.Contains(a.Bytes(), []byte(part)) {
				t.Errorf("%s, %d neighbours: begins %q, want %q, and %q in it", format, neighbours, a.Bytes()[:8], want[0], part)
			}
		}
	}
	o := Standard()
	if err := o.Write(&bytes.Buffer{}, p, "bmp"); err == nil {
		t.Error("bmp: no error")
	}
}

// TestSweepGIF: the delays of the window and two past both its ends, the set
// one held twice as long; and the line playing, as long as the scene at that
// speed.
func TestMotions(t *testing.T) {
	p := planOf(t, "Counted crossing") // good at delay 1 and 2, set to 1
	o := Standard()
	o.W, o.H = 640, 400
	var b bytes.Buffer
	if err := o.Write(&b, p, "gif"); err != nil {
		t.Fatal(err)
	}
	g, err := gif.DecodeAll(&b)
	if err != nil {
		t.Fatal(err)
	}
	if want := []int{80, 160, 80, 80, 80}; !slices.Equal(g.Delay, want) {
		t.Errorf("delays shown for %v hundredths, want %v", g.Delay, want)
	}
	o.Slow = 1
	b.Reset()
	if err := o.Write(&b, p, "gif"); err != nil {
		t.Fatal(err)
	}
	if g, err = gif.DecodeAll(&b); err != nil {
		t.Fatal(err)
	}
	rise, line := p.Deciding(1)
	scene := words.SceneAt(p, 1, rise, line)
	met := p.Meetings(1, nil)
	scene.Follow(value.SequelOf(&met, timeline.Exchange{Rise: rise, Line: line}))
	frames := scene.Span.To
	if scene.After == nil {
		t.Error("nothing follows the meeting")
	}
	sum := -100
	for _, d := range g.Delay {
		sum += d
	}
	if want := frames * 100 / 60; sum < want || sum > want+2 {
		t.Errorf("%d frames play for %d hundredths, want %d", frames, sum, want)
	}
}

func TestBooklet(t *testing.T) {
	p := yard(t, 1)
	far := p.Setups[0]
	far.Name, far.Delay = "far too late", 500
	setups := append(slices.Clone(p.Setups), far)
	ix := timeline.NewIndex(p)
	for _, neighbours := range []int{Strip, 1} {
		o := Standard()
		o.Neighbours = neighbours
		var b bytes.Buffer
		made, err := o.MakeBooklet(context.Background(), ix, eachOf(setups), "The yard")
		if err != nil {
			t.Fatal(err)
		}
		if len(made.Skipped) != 1 || !strings.Contains(made.Skipped[0].Error(), "far too late") {
			t.Errorf("left out %q, want the one that doesn't fit", made.Skipped)
		}
		if err := made.Write(&b); err != nil {
			t.Fatal(err)
		}
		contents := 1
		if neighbours == Strip { // its contents take two pages
			contents = 2
		}
		if want := fmt.Sprintf("/Count %d", len(p.Setups)+contents); !bytes.Contains(b.Bytes(), []byte(want)) {
			t.Errorf("%d neighbours: no %q", neighbours, want)
		}
	}
	o := Standard()
	if _, err := o.MakeBooklet(context.Background(), ix, eachOf([]timeline.Setup{far}), "none"); !errors.Is(err, ErrNone) || !strings.Contains(err.Error(), "far too late") {
		t.Errorf("a booklet of nothing: %v", err)
	}
	replies, err := MakeReplies(context.Background(), ix, eachOf(setups))
	if err != nil || len(replies.Skipped) != 1 || strings.Contains(replies.Text, "far too late") {
		t.Errorf("of all replies %q are left out, %v", replies.Skipped, err)
	}
}

// TestBatch writes more than a contact sheet holds, some names alike, one
// setup that can't be laid out.
func TestBatch(t *testing.T) {
	p := yard(t, 2)
	p.Setups[3].Name, p.Setups[4].Name = "a/b", "A:B"
	p.Setups[5].Delay = 511
	dir := filepath.Join(t.TempDir(), "new", "folder")
	told := 0
	b := Batch{Order: Standard(), Folder: dir, Names: "{n} {attacker} {setup}", Format: "png", Title: "All",
		Tell: func(done, of int) {
			if told++; done != told || of != len(p.Setups) {
				t.Errorf("told %d of %d, want %d of %d", done, of, told, len(p.Setups))
			}
		}}
	b.W, b.H = 400, 300
	got, err := b.Run(context.Background(), timeline.NewIndex(p), eachOf(p.Setups))
	if err != nil {
		t.Fatal(err)
	}
	n := len(p.Setups)
	if got.Files != n-1 || got.Pages != contactPages(n-1) || len(got.Skipped) != 1 || told != n {
		t.Errorf("%d files, %d pages, %d told, skipped %v; want %d, %d, %d and one", got.Files, got.Pages, told, got.Skipped, n-1, contactPages(n-1), n)
	}
	if wide := (*timeline.PlanError)(nil); !errors.As(got.Skipped[0], &wide) || wide.Setup != p.Setups[5].Name {
		t.Errorf("skipped %v", got.Skipped[0])
	}
	files := filesIn(t, dir)
	if len(files) != n-1+contactPages(n-1) {
		t.Errorf("%d files in the folder: %q", len(files), files)
	}
	for _, want := range []string{"01 Brenno Plain crossing.png", "04 Brenno a_b.png", "05 Brenno A_B.png", "45 Dovra Nothing to spare 1.png", "contact sheet 1.png", "contact sheet 2.png"} {
		if !slices.Contains(files, want) {
			t.Errorf("no %q in %q", want, files)
		}
	}
	for _, name := range files {
		if strings.HasPrefix(name, ".") {
			t.Errorf("%q was left", name)
		}
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := png.Decode(f); err != nil {
			t.Errorf("%q: %v", name, err)
		}
		f.Close()
	}
}

// TestBatchStops when its context ends: what is written is whole, and nothing
// is left half written.
func TestBatchStops(t *testing.T) {
	p := yard(t, 3)
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	b := Batch{Order: Standard(), Folder: dir, Names: DefaultPattern, Format: "svg", Tell: func(done, of int) {
		if done == 5 {
			stop()
		}
	}}
	got, err := b.Run(ctx, timeline.NewIndex(p), eachOf(p.Setups))
	if !errors.Is(err, context.Canceled) || got.Files < 5 || got.Files > 12 {
		t.Errorf("%d files, %v, want some more than 5, and %v", got.Files, err, context.Canceled)
	}
	files := filesIn(t, dir)
	if len(files) != got.Files {
		t.Errorf("%d files, want %d: %q", len(files), got.Files, files)
	}
	for _, name := range files {
		if text, err := os.ReadFile(filepath.Join(dir, name)); err != nil || !bytes.HasSuffix(text, []byte("</svg>\n")) {
			t.Errorf("%q: %v, ends %q", name, err, text[max(0, len(text)-10):])
		}
	}
}

// TestAFailingBatchIsAnError has the program fail where it works on one setup,
// and where the setups are read: the batch ends, and each file there is whole.
func TestAFailingBatchIsAnError(t *testing.T) {
	note := guard.Note
	guard.Note = func(*guard.Crash) {}
	defer func() { guard.Note = note }()
	p, readings := yard(t, 3), 0
	for name, c := range map[string]struct {
		tell func(done, of int)
		each Each
	}{
		"a worker": {func(done, of int) {
			if done == 5 {
				panic("no such number")
			}
		}, eachOf(p.Setups)},
		"every worker": {func(done, of int) { panic("no such number") }, eachOf(p.Setups)},
		"the reading": {nil, func(ctx context.Context, do func(*timeline.Setup) error) error {
			readings++
			for i := range p.Setups {
				if i == 10 && readings == 2 { // the first is for the names
					panic("no such setup")
				}
				if err := do(&p.Setups[i]); err != nil {
					return err
				}
			}
			return nil
		}},
	} {
		dir := t.TempDir()
		b := Batch{Order: Standard(), Folder: dir, Names: DefaultPattern, Format: "svg", Tell: c.tell}
		_, err := b.Run(context.Background(), timeline.NewIndex(p), c.each)
		if failed := new(guard.Crash); !errors.As(err, &failed) || !strings.HasPrefix(err.Error(), "The batch failed: no such ") {
			t.Errorf("%s: %v, want a failure", name, err)
		}
		for _, f := range filesIn(t, dir) {
			if text, err := os.ReadFile(filepath.Join(dir, f)); err != nil || !bytes.HasSuffix(text, []byte("</svg>\n")) {
				t.Errorf("%s: %q is not whole: %v", name, f, err)
			}
		}
	}
}

// TestBatchErrors: what can't be is told, and leaves nothing.
func TestBatchErrors(t *testing.T) {
	p := yard(t, 1)
	ix := timeline.NewIndex(p)
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(t.TempDir(), "fresh")
	boom := errors.New("boom")
	for name, c := range map[string]struct {
		b    Batch
		each Each
		want string
	}{
		"format":  {Batch{Order: Standard(), Folder: fresh, Names: "{n}", Format: "bmp"}, eachOf(p.Setups), "bmp"},
		"pattern": {Batch{Order: Standard(), Folder: fresh, Names: "{m}", Format: "png"}, eachOf(p.Setups), "{m}"},
		"folder":  {Batch{Order: Standard(), Folder: file, Names: "{n}", Format: "md"}, eachOf(p.Setups), "folder"},
		"each":    {Batch{Order: Standard(), Folder: fresh, Names: "{n}", Format: "md"}, func(context.Context, func(*timeline.Setup) error) error { return boom }, "boom"},
	} {
		if _, err := c.b.Run(context.Background(), ix, c.each); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q in it", name, err, c.want)
		}
	}
	none := Batch{Order: Standard(), Folder: fresh, Names: "{n}", Format: "png"}
	if got, err := none.Run(context.Background(), ix, eachOf(nil)); err != nil || got.Files != 0 {
		t.Errorf("of no setup: %+v, %v", got, err)
	}
	if _, err := os.Stat(fresh); err == nil {
		t.Error("a folder was made for nothing")
	}
	// A folder stands where a file should go: the batch ends, the rest is whole.
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "03.md"), 0o700); err != nil {
		t.Fatal(err)
	}
	bad := Batch{Order: Standard(), Folder: dir, Names: "{n}", Format: "md"}
	if _, err := bad.Run(context.Background(), ix, eachOf(p.Setups)); err == nil || !strings.Contains(err.Error(), "03.md") {
		t.Errorf("a folder in the way: %v", err)
	}
}

func TestPattern(t *testing.T) {
	s := &timeline.Setup{Name: "N", Attacker: "A", Rival: "R", Ender: "E", Delay: 7}
	for p, want := range map[Pattern]string{"{n} {setup}": "007 N", "{attacker} vs {rival}, {ender}+{delay}": "A vs R, E+7", "plain": "plain", "}{n}": "}007", "{setup}{setup}": "NN"} {
		if got, err := p.name(s, 7, 120); err != nil || got != want {
			t.Errorf("%q = %q, %v, want %q", p, got, err, want)
		}
		if err := p.Check(); err != nil {
			t.Errorf("%q: %v", p, err)
		}
	}
	for _, p := range []Pattern{"", "  ", "{", "{n", "{x}", "{}", "{{n}}"} {
		if err := p.Check(); err == nil {
			t.Errorf("%q: no error", p)
		}
	}
}

func TestGlossary(t *testing.T) {
	for format, start := range map[string]string{"png": "\x89PNG", "svg": "<?xml", "pdf": "%PDF"} {
		o := Standard()
		o.Theme, o.Clear = sheet.NightTheme, true
		var b bytes.Buffer
		made, err := o.MakeGlossary(format)
		if err == nil {
			err = made.Write(&b)
		}
		if err != nil || !strings.HasPrefix(b.String(), start) {
			t.Errorf("%s: %v, begins %q", format, err, b.Bytes()[:8])
		}
	}
}

func BenchmarkBatch1000(b *testing.B) { // 1,000 strips of 1280 by 560 pixels, with contact sheets
	p := yard(b, 53)
	setups := p.Setups[:1000]
	for b.Loop() {
		run := Batch{Order: Standard(), Folder: b.TempDir(), Names: DefaultPattern, Format: "png", Title: "All"}
		if got, err := run.Run(context.Background(), timeline.NewIndex(p), eachOf(setups)); err != nil || got.Files != 1000 {
			b.Fatalf("%+v, %v", got, err)
		}
	}
}
