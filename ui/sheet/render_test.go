package sheet_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
	"wakeline/ui/sheet/svg"
)

// tool skips the test where a program is not installed, and fails it in
// continuous integration.
func tool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err == nil {
		return
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not installed", name)
	}
	t.Skipf("%s is not installed, so this is not checked here", name)
}

func pngOf(t *testing.T, d *Drawing, th Theme, scale float64) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := raster.PNG(&b, d, th, scale); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func svgOf(t *testing.T, d *Drawing, th Theme) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Render(&b, d, th); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestSameBytes(t *testing.T) {
	for i, d := range Sheets(t)[:4] {
		if !bytes.Equal(pngOf(t, d, PaperTheme, 1), pngOf(t, d, PaperTheme, 1)) {
			t.Errorf("sheet %d: two PNGs of it differ", i)
		}
		if !bytes.Equal(svgOf(t, d, NightTheme), svgOf(t, d, NightTheme)) {
			t.Errorf("sheet %d: two SVGs of it differ", i)
		}
	}
}

func TestPNG(t *testing.T) {
	s, o := SheetOf(t, 0, 800.5, 400.25)
	d := Draw(&s, o)
	for _, scale := range []float64{0.5, 1, 1.5, 2} {
		b := pngOf(t, d, PaperTheme, scale)
		img, err := png.Decode(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		if got, want := img.Bounds().Size(), (image.Point{int(math.Round(800.5 * scale)), int(math.Round(400.25 * scale))}); got != want {
			t.Errorf("scale %v: %v pixels, want %v", scale, got, want)
		}
		for _, part := range []string{"iTXtTitle\x00", "iTXtDescription\x00", d.Title, o.Sentence} {
			if !bytes.Contains(b, []byte(part)) {
				t.Errorf("scale %v: no %q in the file", scale, part)
			}
		}
	}
	for _, scale := range []float64{0, -1, math.NaN(), math.Inf(1), 1e9, 1e-9} {
		if err := raster.PNG(&bytes.Buffer{}, d, PaperTheme, scale); err == nil {
			t.Errorf("scale %v: no error", scale)
		}
	}
}

// TestLackingGlyphs: a letter that the font lacks shows as a box.
func TestLackingGlyphs(t *testing.T) {
	dark := func(s string) (n int) {
		d := &Drawing{W: 200, H: 40, Shapes: []Shape{
			Box{Max: Point{200, 40}, Fill: Paper, Texture: Solid},
			Text{At: Point{10, 30}, Str: s, Size: 20, Role: Ink},
		}}
		img, err := raster.Picture(d, PaperTheme, 1)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] < 128 {
				n++
			}
		}
		return n
	}
	one := dark("跳")
	if one < 20 {
		t.Fatalf("a missing letter shows as %d dark pixels", one)
	}
	for _, s := range []string{"攻撃", "한글", "⛄⛄"} {
		if got := dark(s); got < 3*one/2 {
			t.Errorf("%q shows as %d dark pixels, one missing letter as %d", s, got, one)
		}
	}
}

func TestPNGByPngcheck(t *testing.T) {
	tool(t, "pngcheck")
	dir := t.TempDir()
	for i, d := range Sheets(t) {
		name := filepath.Join(dir, "sheet.png")
		if i%3 == 2 {
			d = d.Clear()
		}
		if err := os.WriteFile(name, pngOf(t, d, Themes[i%2], 1), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("pngcheck", "-q", name).CombinedOutput(); err != nil || len(out) > 0 {
			t.Fatalf("sheet %d: pngcheck: %v: %s", i, err, out)
		}
	}
}

// TestSVG: well-formed by Go's reader too, every text in it as text.
func TestSVG(t *testing.T) {
	for i, d := range Sheets(t) {
		b := svgOf(t, d, PaperTheme)
		var doc struct {
			Title string   `xml:"title"`
			Desc  string   `xml:"desc"`
			Texts []string `xml:"text"`
		}
		if err := xml.Unmarshal(b, &doc); err != nil {
			t.Fatalf("sheet %d: %v", i, err)
		}
		texts, _ := TextsOf(d)
		if doc.Title != d.Title || doc.Desc != d.Desc || len(doc.Texts) != len(texts) {
			t.Fatalf("sheet %d: title %q, description %q, %d texts; want %q, %q, %d", i, doc.Title, doc.Desc, len(doc.Texts), d.Title, d.Desc, len(texts))
		}
		for k, s := range doc.Texts {
			if s != texts[k].Str {
				t.Errorf("sheet %d: text %q, want %q", i, s, texts[k].Str)
			}
		}
		if bytes.Contains(b, []byte("NaN")) || bytes.Contains(b, []byte("Inf")) {
			t.Errorf("sheet %d: a number that is none", i)
		}
	}
}

func TestSVGByXmllint(t *testing.T) {
	tool(t, "xmllint")
	for i, d := range Sheets(t) {
		cmd := exec.Command("xmllint", "--noout", "-")
		cmd.Stdin = bytes.NewReader(svgOf(t, d, PaperTheme))
		if out, err := cmd.CombinedOutput(); err != nil || len(out) > 0 {
			t.Fatalf("sheet %d: xmllint: %v: %s", i, err, out)
		}
	}
}

// TestSVGLooksLikePNG draws the SVG with a program of others, on a machine
// without any font, and compares it with our own picture.
func TestSVGLooksLikePNG(t *testing.T) {
	const (
		tolerance = 0.013 // mean difference of a channel, 1 is black against white; a lesson, which is mostly text, comes to 0.012
		patch     = 0.09  // of any 16 by 16 pixels: full of text they come to 0.08, as letters are smoothed otherwise; without the text to 0.15
	)
	tool(t, "rsvg-convert")
	dir := t.TempDir()
	env := noFonts(t, dir)
	worst := 0.0
	for i, d := range append(Sheets(t)[5:15], Pages(t)...) { // some in letters that the font lacks
		th := Themes[i%2]
		if i%3 == 1 {
			d = d.Clear()
		}
		cmd := exec.Command("rsvg-convert", "--format", "png")
		cmd.Env = append(os.Environ(), env)
		cmd.Stdin = bytes.NewReader(svgOf(t, d, th))
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("sheet %d: rsvg-convert: %v", i, err)
		}
		theirs, err := png.Decode(bytes.NewReader(out))
		if err != nil {
			t.Fatal(err)
		}
		ours, err := raster.Picture(d, th, 1)
		if err != nil {
			t.Fatal(err)
		}
		if theirs.Bounds() != ours.Bounds() {
			t.Fatalf("sheet %d: %v by rsvg-convert, %v here", i, theirs.Bounds(), ours.Bounds())
		}
		mean, most, at := difference(ours, theirs)
		worst = math.Max(worst, mean)
		if mean > tolerance || most > patch {
			t.Errorf("sheet %d: mean difference %.4f, want at most %v; %.3f around %v, want at most %v", i, mean, tolerance, most, at, patch)
		}
	}
	t.Logf("largest mean difference %.4f", worst)
}

// noFonts writes a fontconfig file that names no font, and returns the setting
// that points to it.
func noFonts(t *testing.T, dir string) string {
	t.Helper()
	path := filepath.Join(dir, "fonts.conf")
	conf := `<?xml version="1.0"?><fontconfig><dir>` + filepath.Join(dir, "none") + `</dir><cachedir>` + dir + `</cachedir></fontconfig>`
	if err := os.WriteFile(path, []byte(conf), 0o600); err != nil {
		t.Fatal(err)
	}
	return "FONTCONFIG_FILE=" + path
}

// difference is the mean over all channels of all pixels, and the largest
// mean of a 16 by 16 patch with its place.
func difference(a *image.RGBA, b image.Image) (mean, most float64, at image.Point) {
	const side = 16
	size := a.Bounds().Size()
	patches := make([]float64, (size.X/side+1)*(size.Y/side+1))
	for y := range size.Y {
		for x := range size.X {
			r, g, bl, _ := b.At(x, y).RGBA()
			c := a.RGBAAt(x, y)
			d := math.Abs(float64(c.R)-float64(r>>8)) + math.Abs(float64(c.G)-float64(g>>8)) + math.Abs(float64(c.B)-float64(bl>>8))
			mean += d
			patches[y/side*(size.X/side+1)+x/side] += d
		}
	}
	for i, p := range patches {
		if p /= side * side * 3 * 255; p > most {
			most, at = p, image.Point{i % (size.X/side + 1) * side, i / (size.X/side + 1) * side}
		}
	}
	return mean / float64(size.X*size.Y*3*255), most, at
}

func TestRenderErrors(t *testing.T) {
	s, o := SheetOf(t, 0, 400, 300)
	d := Draw(&s, o)
	if err := svg.Render(broken{}, d, PaperTheme); err == nil || !strings.Contains(err.Error(), "svg") {
		t.Errorf("RenderSVG to a broken writer: %v", err)
	}
	if err := raster.PNG(broken{}, d, PaperTheme, 1); err == nil || !strings.Contains(err.Error(), "png") {
		t.Errorf("RenderPNG to a broken writer: %v", err)
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, os.ErrClosed }

// TestPNGBytesOnAnyCores: the bytes don't depend on how many cores pack.
func TestPNGBytesOnAnyCores(t *testing.T) {
	s, o := SheetOf(t, 0, 640, 400)
	d := Draw(&s, o)
	many := pngOf(t, d, PaperTheme, 1)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if one := pngOf(t, d, PaperTheme, 1); !bytes.Equal(one, many) {
		t.Errorf("%d bytes on one core, %d on several, and they differ", len(one), len(many))
	}
}
