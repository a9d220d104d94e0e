package sheet_test

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
)

var update = flag.Bool("update", false, "write the pictures in testdata anew; look at them before you keep them")

// goldens are pictures as they are meant to be.
func goldens(t *testing.T) map[string]*Drawing {
	t.Helper()
	strip := func(setup int, w, h float64) *Drawing {
		s, o := SheetOf(t, setup, w, h)
		return Draw(&s, o)
	}
	l := words.LessonAt(Plans(t, Demo())[0], 2, 1, 0, words.Breaking)
	side := func(setup int, w float64, earlier int) *Drawing {
		v := SideOf(t, Spaced(), setup)
		return DrawSide(&v, SideOptions{W: w, H: SideHeight(&v, w), Frame: v.Frame - earlier})
	}
	plan := Plans(t, Spaced())[0]
	stood := words.LessonAt(plan, 0, 0, 0, words.Breaking)
	stood.Stage(plan)
	long := SideOf(t, NamedLong(), 0)
	then := func(line int, w, h float64) *Drawing {
		s, o := FollowedSheet(t, line, w, h)
		return Draw(&s, o)
	}
	cells := func(name string, look TableLook, lines ...string) []TableCell {
		return []TableCell{{Lines: []string{name}, Look: look}, {Lines: []string{"1 of 2"}}, {Lines: []string{"no replies"}, Look: SoftCell}, {Lines: lines, Marked: true, Mark: timeline.JudgedSafe}}
	}
	table, err := DrawTable(&Table{Heading: "Ada vs all", Answer: "2 setups of Ada: some setup holds against 1 of 2 rivals.", Notes: []string{"No setup is known to hold against Bea."},
		Columns: []TableColumn{{Head: "Setup", Least: 9, Most: 16}, {Head: "Holds against", Least: 4, Most: 5, AtEnd: true}, {Head: "Bea", Least: 5, Most: 11}, {Head: "A rival with a long name", Least: 5, Most: 11}},
		Rows:    []TableRow{{Section: "Sweep (midscreen)", Cells: cells("Plain", UnderCell, "0 to 2", "4 frames or slower")}, {Section: "Sweep (midscreen)", Cells: cells("A setup with a name that has no room on one line", BoldCell, "no delay")}},
		Key:     append(MarkKeys(timeline.JudgedSafe), TableKey{Sample: "Setup", Look: UnderCell, Means: "in the minimum set"})}, 640, 0)
	if err != nil {
		t.Fatal(err)
	}
	shaped := func(name string, setup int) *Drawing {
		v := VideoShapeNamed(name)
		s, o := SheetOf(t, setup, 0, 0)
		return v.Framed(Draw(&s, v.Fit(o)))
	}
	staged := func(name string) *Drawing {
		v := VideoShapeNamed(name).WithSide()
		s, o := SheetOf(t, 0, 0, 0)
		view := SideOf(t, Spaced(), 0)
		return v.Framed(v.Joined(Draw(&s, v.Fit(o)), DrawSide(&view, v.FitSide(SideOptions{Frame: view.Frame}))))
	}
	return map[string]*Drawing{
		"video-wide": shaped("wide", 0), "video-tall": shaped("tall", 1), "video-square": shaped("square", 0), "video-band": shaped("band", 0),
		"video-clear": shaped("tall", 2).Clear(), "video-wide-side": staged("wide"), "video-tall-side": staged("tall"),
		"video-square-side": staged("square"), "video-band-side": staged("band"),
		"table": table[0],
		"safe":  strip(0, 480, 320), "unsafe": strip(1, 640, 400), "chain": strip(2, 640, 400), "lesson": DrawLesson(&l, 640),
		"side": side(0, 480, 0), "side-wall": side(1, 1000, 0), "side-over": side(2, 1000, 0), "side-air": side(1, 480, 24),
		"side-far": side(3, 3840, 0), "side-unknown": side(4, 480, 0), "side-wide": side(0, 3840, 0), "side-lesson": DrawLesson(&stood, 640),
		"punish": then(timeline.FirstReply, 900, 420), "hit": then(timeline.LineNothing, 900, 420),
		"string": then(timeline.LineGuardHigh, 900, 420), "string-small": then(timeline.LineGuardHigh, 480, 320),
		"side-long": DrawSide(&long, SideOptions{W: 480, H: 190, Frame: long.Frame}),
	}
}

// TestGoldenSVG: to the byte, as an SVG holds nothing that a machine could
// round otherwise.
func TestGoldenSVG(t *testing.T) {
	for name, d := range goldens(t) {
		path := filepath.Join("testdata", name+".svg")
		got := svgOf(t, d, PaperTheme)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			a, b := bytes.Split(got, []byte("\n")), bytes.Split(want, []byte("\n"))
			for i := range min(len(a), len(b)) {
				if !bytes.Equal(a[i], b[i]) {
					t.Errorf("%s: line %d is\n%s\nwant\n%s", path, i+1, a[i], b[i])
					break
				}
			}
			t.Errorf("%s: %d lines, want %d; go test ./ui/sheet -run Golden -update writes it anew", path, len(a), len(b))
		}
	}
}

// TestGoldenPNG: within a little of the pixels kept, as smooth edges may be
// rounded otherwise on another processor.
func TestGoldenPNG(t *testing.T) {
	const tolerance, patch = 0.0005, 0.01 // mean of all channels, and of any 16 by 16 pixels
	all := goldens(t)
	for name, th := range map[string]Theme{
		"table": NightTheme, "video-wide": NightTheme, "video-tall": PaperTheme, "video-square": PaperTheme, "video-band": PaperTheme,
		"safe": PaperTheme, "unsafe": NightTheme, "punish": PaperTheme, "hit": NightTheme, "string": NightTheme, "string-small": PaperTheme, "side": PaperTheme, "side-wall": NightTheme, "side-over": PaperTheme, "side-far": NightTheme,
	} {
		d := all[name]
		path := filepath.Join("testdata", name+".png")
		if *update {
			if err := os.WriteFile(path, pngOf(t, d, th, 1), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		want, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		got, err := raster.Picture(d, th, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got.Bounds() != want.Bounds() {
			t.Fatalf("%s: %v, want %v", path, got.Bounds(), want.Bounds())
		}
		if mean, most, at := difference(got, want); mean > tolerance || most > patch {
			t.Errorf("%s: mean difference %.5f, want at most %v; %.3f around %v, want at most %v", path, mean, tolerance, most, at, patch)
		}
	}
}
