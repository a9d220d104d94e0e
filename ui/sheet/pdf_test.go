package sheet_test

import (
	"bytes"
	"fmt"
	"html"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"wakeline/timeline/words"
	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/pdf"
	"wakeline/ui/sheet/raster"
)

// booklet is the demo's setups with their contents, as page-sized drawings.
func booklet(t *testing.T) (out []*Drawing) {
	t.Helper()
	const w = 1050
	h := A4.Across().Fit(w)
	var entries []Entry
	for i, p := range Plans(t, Demo()) {
		d := p.Setup.Delay
		rise, line := p.Deciding(d)
		s := words.SceneAt(p, d, rise, line)
		out = append(out, Draw(&s, Options{W: w, H: h, Sentence: words.VerdictAt(p, d).Because}))
		if i == 1 {
			l := words.LessonAt(p, d, 1, 0, words.Breaking)
			out[i] = DrawLesson(&l, 900)
		}
		entries = append(entries, Entry{Name: s.Setup, About: s.Attacker + " vs " + s.Rival, Word: s.Verdict})
	}
	return append(Contents("Evening class", entries, w, h), out...)
}

func pdfOf(t *testing.T, ds []*Drawing, page Page, th Theme) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Render(&b, ds, page, th, "Evening class (2) \\ Übung", "Ten setups", noStep); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// written is a file of those bytes in a folder of its own.
func written(t *testing.T, name string, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// said is what a program prints; that it ends with an error, or complains on
// standard error, fails the test.
func said(t *testing.T, name string, args ...string) string {
	t.Helper()
	var out, complaint bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if err := cmd.Run(); err != nil || complaint.Len() > 0 {
		t.Fatalf("%s %v: %v: %s", name, args, err, complaint.String())
	}
	return out.String()
}

// TestPDFSameBytes: on another day, and elsewhere on earth, too.
func TestPDFSameBytes(t *testing.T) {
	ds := booklet(t)[:3]
	one := pdfOf(t, ds, A4, PaperTheme)
	defer func(zone *time.Location) { time.Local = zone }(time.Local)
	time.Local = time.FixedZone("far", 5*3600+30*60)
	if two := pdfOf(t, ds, A4, PaperTheme); !bytes.Equal(one, two) {
		t.Errorf("%d and %d bytes, and they differ", len(one), len(two))
	}
	for begun := time.Now().Unix(); time.Now().Unix() == begun; { // a date counts seconds
		time.Sleep(20 * time.Millisecond)
	}
	if three := pdfOf(t, ds, A4, PaperTheme); !bytes.Equal(one, three) {
		t.Error("a second later the same drawings are another document")
	}
}

// TestPDFOffsets: every offset of the table points to its object (ISO 32000-1,
// 7.5.4), and every object that is spoken of is there.
func TestPDFOffsets(t *testing.T) {
	for _, n := range []int{1, 4} {
		b := pdfOf(t, booklet(t)[:n], Letter, NightTheme)
		if bytes.Count(b, []byte("\nxref\n")) != 1 {
			t.Fatalf("%d tables", bytes.Count(b, []byte("\nxref\n")))
		}
		at := bytes.LastIndex(b, []byte("\nxref\n")) + 1
		rows := regexp.MustCompile(`(?m)^(\d{10}) 00000 n $`).FindAllSubmatch(b[at:], -1)
		if len(rows) < 8 {
			t.Fatalf("%d objects", len(rows))
		}
		spoken := map[string]bool{}
		for i, row := range rows {
			var off int
			fmt.Sscan(strings.TrimLeft(string(row[1]), "0"), &off)
			if want := fmt.Sprintf("%d 0 obj\n", i+1); !bytes.HasPrefix(b[off:], []byte(want)) {
				t.Errorf("object %d is said to stand at %d, where %q stands", i+1, off, b[off:off+12])
			}
			text, _, _ := bytes.Cut(b[off:], []byte("stream"))
			text, _, _ = bytes.Cut(text, []byte("endobj"))
			for _, ref := range regexp.MustCompile(`(\d+) 0 R`).FindAllSubmatch(text, -1) {
				spoken[string(ref[1])] = true
			}
		}
		for ref := range spoken {
			if number, _ := strconv.Atoi(ref); number < 1 || number > len(rows) {
				t.Errorf("object %s is spoken of; there are %d", ref, len(rows))
			}
		}
		var start int
		tail := b[bytes.LastIndex(b, []byte("startxref")):]
		if fmt.Sscanf(string(tail), "startxref\n%d", &start); start != at {
			t.Errorf("startxref %d, the table stands at %d", start, at)
		}
		if want := fmt.Sprintf("/Size %d\n", len(rows)+1); !bytes.Contains(b[at:], []byte(want)) {
			t.Errorf("no %q in the trailer", want)
		}
	}
}

func TestPDFErrors(t *testing.T) {
	if err := pdf.Render(&bytes.Buffer{}, nil, A4, PaperTheme, "", "", noStep); err == nil {
		t.Error("a PDF without a page: no error")
	}
	if err := pdf.Render(broken{}, booklet(t)[:1], A4, PaperTheme, "", "", noStep); err == nil || !strings.Contains(err.Error(), "pdf") {
		t.Errorf("to a broken writer: %v", err)
	}
}

// TestPDFByPoppler asks the programs of poppler-utils about the document: its
// numbers, that all of its fonts are in it, and that names can be found in it.
func TestPDFByPoppler(t *testing.T) {
	for _, name := range []string{"pdfinfo", "pdffonts", "pdftotext"} {
		tool(t, name)
	}
	ds := booklet(t)
	for _, c := range []struct {
		page Page
		size string
	}{{A4, "841.89 x 595.28 pts (A4)"}, {Letter, "792 x 612 pts (letter)"}} {
		path := written(t, "b.pdf", pdfOf(t, ds, c.page, PaperTheme))
		info := said(t, "pdfinfo", path)
		for _, want := range []string{"Evening class (2) \\ Übung", "Subject:         Ten setups", fmt.Sprintf("Pages:           %d\n", len(ds)), c.size, "JavaScript:      no"} {
			if !strings.Contains(info, want) {
				t.Errorf("pdfinfo doesn't say %q:\n%s", want, info)
			}
		}
		fonts := strings.Split(strings.TrimSpace(said(t, "pdffonts", path)), "\n")[2:]
		if len(fonts) != 2 {
			t.Errorf("%d fonts, want the regular and the bold one: %q", len(fonts), fonts)
		}
		for _, f := range fonts {
			if !strings.Contains(f, "notosans") || !regexp.MustCompile(` yes +(yes|no) +yes +\d`).MatchString(f) {
				t.Errorf("a font that isn't embedded with its letters: %q", f)
			}
		}
		text := said(t, "pdftotext", "-layout", path, "-")
		for i, page := range strings.Split(strings.TrimSuffix(text, "\f"), "\f") {
			if want := fmt.Sprint(i + 1); !strings.HasSuffix(strings.TrimSpace(page), want) {
				t.Errorf("page %d doesn't end with its number: %q", i+1, page[max(0, len(page)-40):])
			}
		}
		for _, want := range []string{"Contents", "sweep into kite", "three frames too late", "Juno Marsh", "rising lantern", "mirror palm", "1 frame earlier · delay 2"} {
			if !strings.Contains(text, want) {
				t.Errorf("pdftotext doesn't find %q", want)
			}
		}
	}
}

// TestPDFLeadsThrough asks pdftohtml for bookmarks and links: the contents lead
// to the page that they name.
func TestPDFLeadsThrough(t *testing.T) {
	tool(t, "pdftohtml")
	ds := booklet(t)
	path := written(t, "b.pdf", pdfOf(t, ds, A4, PaperTheme))
	got := said(t, "pdftohtml", "-xml", "-i", "-stdout", path)
	_, outline, _ := strings.Cut(got, "<outline>")
	items := regexp.MustCompile(`<item page="(\d+)">([^<]*)</item>`).FindAllStringSubmatch(outline, -1)
	if len(items) != len(ds) {
		t.Fatalf("%d bookmarks, want %d:\n%s", len(items), len(ds), outline)
	}
	for i, it := range items {
		if it[1] != fmt.Sprint(i+1) || html.UnescapeString(it[2]) != ds[i].Title {
			t.Errorf("bookmark %d = %q, want page %d, %q", i, it[1:], i+1, ds[i].Title)
		}
	}
	for i, d := range ds[1:] {
		name, _, _ := strings.Cut(d.Title, ":")
		if want := regexp.MustCompile(`<a href="[^"]*#` + fmt.Sprint(i+2) + `">(<b>)?` + regexp.QuoteMeta(name)); !want.MatchString(got) {
			t.Errorf("the contents don't lead from %q to page %d", name, i+2)
		}
	}
}

// TestPDFOfRareLetters: letters past the basic plane in titles, marks on letters,
// and letters that the font has in several forms.
func TestPDFOfRareLetters(t *testing.T) {
	tool(t, "pdfinfo")
	tool(t, "pdftotext")
	tool(t, "pdftoppm")
	const title = "a \U0001f600 b: safe"
	d := &Drawing{W: 400, H: 340, Title: title, Shapes: []Shape{Box{Max: Point{X: 400, Y: 340}, Fill: Paper, Texture: Solid}}}
	texts := []string{"AVATo Wave (1) \\ 2", "Ñandú Łódź", "q\u0323\u0301 x\u0301 I\u0328\u0301 d\u030c", "Ψηλό Прыжок", "Їжак і їхній"}
	for i, s := range texts {
		d.Shapes = append(d.Shapes, Text{At: Point{X: 20, Y: 60 * float64(i+1)}, Str: s, Size: 40, Bold: i == 1, Role: Ink})
	}
	path := written(t, "r.pdf", pdfOf(t, []*Drawing{d, d}, A4, PaperTheme))
	if got := said(t, "pdftotext", "-layout", path, "-"); !strings.Contains(got, texts[0]) || !strings.Contains(got, texts[1]) || !strings.Contains(got, texts[3]) || !strings.Contains(got, texts[4]) {
		t.Errorf("pdftotext finds %q, want %q", got, texts)
	}
	tool(t, "pdftohtml")
	if got := said(t, "pdftohtml", "-xml", "-i", "-stdout", path); !strings.Contains(html.UnescapeString(got), title) {
		t.Errorf("no bookmark %q in %s", title, got)
	}
	if mean, most, at := asDrawn(t, path, d, PaperTheme); mean > 0.02 || most > 0.2 {
		t.Errorf("mean difference %.4f, %.3f around %v", mean, most, at)
	}
}

// asDrawn is how far the first page of a document of d's, on A4 and drawn by
// pdftoppm, is off our own picture.
func asDrawn(t *testing.T, path string, d *Drawing, th Theme) (mean, most float64, where image.Point) {
	t.Helper()
	theirs, err := png.Decode(strings.NewReader(said(t, "pdftoppm", "-r", "127", "-png", "-singlefile", path)))
	if err != nil {
		t.Fatal(err)
	}
	page := A4
	if theirs.Bounds().Dx() > theirs.Bounds().Dy() {
		page = A4.Across()
	}
	s := min(0.5, (page.W-2*PageMargin)/d.W, (page.H-2*PageMargin)/d.H) // millimetres a unit
	const dots = 5                                                      // a millimetre, so that margins are whole pixels
	ours, err := raster.Picture(d, th, s*dots)
	if err != nil {
		t.Fatal(err)
	}
	at := image.Pt(int((page.W-s*d.W)/2*dots+0.5), int(math.Round(PageMargin*dots)))
	part := theirs.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(ours.Bounds().Add(at))
	return difference(ours, shifted{part, at})
}

// TestPDFLooksLikePNG lets pdftoppm draw pages and compares them with our own
// pictures of them.
func TestPDFLooksLikePNG(t *testing.T) {
	const (
		tolerance = 0.025 // mean difference of a channel, 1 is black against white; a lesson, which is mostly text, comes to 0.023
		patch     = 0.24  // of any 16 by 16 pixels
	)
	tool(t, "pdftoppm")
	for i, d := range booklet(t)[:3] {
		th := Themes[i%2]
		path := written(t, "p.pdf", pdfOf(t, []*Drawing{d}, A4, th))
		mean, most, where := asDrawn(t, path, d, th)
		t.Logf("page %d: %.4f", i, mean)
		if mean > tolerance || most > patch {
			t.Errorf("page %d: mean difference %.4f, want at most %v; %.3f around %v, want at most %v", i, mean, tolerance, most, where, patch)
		}
	}
}

// shifted is an image whose pixels are found at their place less by.
type shifted struct {
	image.Image
	by image.Point
}

// At is the pixel that stands by further on.
func (s shifted) At(x, y int) color.Color { return s.Image.At(x+s.by.X, y+s.by.Y) }
