package main

import (
	"encoding/csv"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage"
)

// TestAnswersAreWrittenAsFiles: of find, of its table of enders, of mix and of
// compare, in each format; the json is what --json prints, the csv has a row a thing, and
// nothing is printed besides.
func TestAnswersAreWrittenAsFiles(t *testing.T) {
	patched := patchedSample(t)
	for _, c := range []struct {
		args []string
		code int
		head string // of the csv
		has  []string
	}{
		{[]string{"find", sample, "--setup", "Plain crossing", "--most", "30"}, 0, "Rank,Setup,Fillers,Wait,Jump,Attack,Jumps on,Chance by hand,To spare,Gauge,Verdict", []string{"1,\"Keel Scrape, forward Leeboard\",", ",safe\n"}},
		{[]string{"find", sample, "--setup", "One frame under", "--jump", "forward", "--attack", "Leeboard", "--wait", "0", "--fillers", "1"}, 0, "Rank,Setup,Fillers,Wait,Jump,Attack,Jumps on,Chance by hand,To spare,Gauge,Verdict", nil},
		{[]string{"find", sample, "--setup", "Plain crossing", "--enders"}, 0, "Ender,Position,Knockdown advantage,\"forward, Leeboard\"", []string{"Keel Scrape,midscreen,44,safe: at once", ",none: "}},
		{[]string{"mix", sample, "--setup", "Plain crossing"}, 0, "setup,share,against,worst,", []string{"Plain crossing,", "\nvalue,"}},
		{[]string{"compare", patched, storage.FirstRevision, "1.1"}, 1, "Section,Changed,Before,Now,Why", []string{
			"Move data (2),Ishka's Millrace,startup 3; damage 1300,startup 2; damage 1350,\n", "Move data (2),Dovra's " + unusedMove + ",,gone,\n",
			"Plain crossing,safe: window 0 to 1,safe: window 0,\"The window shrank (0, it was 0 to 1): Millrace's startup went from 3 to 2.\"\n", "\nMixes moved ("}},
		{[]string{"compare", patched, "1.1", "1.1"}, 0, "Changed,Before,Now,Why", nil},
	} {
		dir := t.TempDir()
		at := func(ext string) string { return filepath.Join(dir, "answer."+ext) }
		read := func(ext string) string {
			t.Helper()
			code, out, progress := runIt(t, append(c.args[:len(c.args):len(c.args)], "--out", at(ext))...)
			if code != c.code || out != "" || progress != "" {
				t.Fatalf("%q, %s = %d, %q, %q", c.args, ext, code, out, progress)
			}
			b, err := os.ReadFile(at(ext))
			if err != nil {
				t.Fatal(err)
			}
			return string(b)
		}
		_, printed, _ := runIt(t, append(c.args[:len(c.args):len(c.args)], "--json")...)
		if got := read("json"); got != printed {
			t.Errorf("%q: the json file differs from --json", c.args)
		}
		text := read("csv")
		if head, _, _ := strings.Cut(text, "\n"); !strings.HasPrefix(strings.TrimSuffix(head, "\r"), c.head) {
			t.Errorf("%q: headed %q, want %q", c.args, head, c.head)
		}
		for _, want := range c.has {
			if !strings.Contains(strings.ReplaceAll(text, "\r", ""), want) {
				t.Errorf("%q: the csv lacks %q:\n%s", c.args, want, text)
			}
		}
		if rows, err := csv.NewReader(strings.NewReader(text)).ReadAll(); err != nil || c.has == nil && len(rows) != 1 {
			t.Errorf("%q: %d rows, %v", c.args, len(rows), err)
		}
		if img, err := png.Decode(strings.NewReader(read("png"))); err != nil || img.Bounds().Dx() < 1280 {
			t.Errorf("%q: png: %v", c.args, err)
		}
		if d := xml.NewDecoder(strings.NewReader(read("svg"))); true {
			for {
				if _, err := d.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%q: svg: %v", c.args, err)
				}
			}
		}
		if text := read("pdf"); !strings.HasPrefix(text, "%PDF-") {
			t.Errorf("%q: pdf: %.20q", c.args, text)
		}
	}
}

// TestAnswerFilesThatCanNotBe: what is asked for and can't be is said, and
// nothing is written.
func TestAnswerFilesThatCanNotBe(t *testing.T) {
	patched := patchedSample(t)
	out := filepath.Join(t.TempDir(), "answer")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--out", out + ".gif"}, "--out: expected a file named .png, .svg, .pdf, .csv, .json, got "},
		{[]string{"--out", out}, "--out: expected a file named "},
		{[]string{"--out", ""}, "--out: expected a file named "},
		{[]string{"--out", out + ".json", "--json"}, "--json, --out: expected one of them"},
		{[]string{"--theme", "night"}, "--theme: expected --out beside it"},
		{[]string{"--out", out + ".csv", "--theme", "night"}, "--theme applies to PNG, SVG, PDF and GIF only"},
		{[]string{"--out", out + ".svg", "--page", "letter"}, "--page applies to PDF only"},
		{[]string{"--out", out + ".png", "--theme", "dusk"}, "--theme: expected paper or night"},
		{[]string{"--out", out + ".png", "--width", "1"}, "--width: expected "},
	} {
		for _, command := range [][]string{{"find", sample, "--setup", "Plain crossing"}, {"find", sample, "--setup", "Plain crossing", "--enders"}, {"mix", sample, "--setup", "Plain crossing"}, {"compare", patched, storage.FirstRevision, "1.1"}} {
			code, printed, progress := runIt(t, append(command, c.args...)...)
			if code != 2 || printed != "" || !strings.Contains(progress, c.want) {
				t.Errorf("%q, %q = %d, %q, want %q", command, c.args, code, progress, c.want)
			}
		}
	}
	if left, _ := filepath.Glob(out + "*"); len(left) > 0 {
		t.Errorf("%q were written", left)
	}
}

// TestAnswerFilesHoldNoFormula: a name that begins as one is guarded in each
// column of a csv, as everywhere.
func TestAnswerFilesHoldNoFormula(t *testing.T) {
	path := filepath.Join(t.TempDir(), "p.json")
	text, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	renamed := string(text)
	for was, is := range map[string]string{`"Keel Scrape"`: `"=Keel Scrape"`, `"Millrace"`: `"@Millrace"`, `"forward"`: `"+forward"`, `"Leeboard"`: `"-Leeboard"`, `"Plain crossing"`: `"=Plain crossing"`} {
		renamed = strings.ReplaceAll(renamed, was, is)
	}
	if err := os.WriteFile(path, []byte(renamed), 0o666); err != nil {
		t.Fatal(err)
	}
	file, out := filepath.Join(t.TempDir(), "p.wakeline"), filepath.Join(t.TempDir(), "a.csv")
	patch := filepath.Join(t.TempDir(), "patch.json")
	for _, args := range [][]string{{"new", file}, {"import", file, path}} {
		if code, _, progress := runIt(t, args...); code != 0 {
			t.Fatalf("%q: %s", args, progress)
		}
	}
	inFile(t, file, func(f *storage.File) {
		p, err := f.Project()
		if err != nil {
			t.Fatal(err)
		}
		p.Fighter("Ishka").Move("@Millrace").Startup--
		if err := storage.WriteText(patch, p); err != nil {
			t.Fatal(err)
		}
	})
	if code, _, progress := runIt(t, "import", file, patch, "--revision", "1.1"); code != 0 {
		t.Fatal(progress)
	}
	for _, args := range [][]string{
		{"find", path, "--setup", "=Plain crossing", "--out", out}, {"find", path, "--setup", "=Plain crossing", "--enders", "--out", out},
		{"compare", file, storage.FirstRevision, "1.1", "--out", out},
	} {
		if code, _, progress := runIt(t, args...); code == 2 {
			t.Fatalf("%q: %s", args, progress)
		}
		b, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(strings.NewReader(string(b))).ReadAll()
		if err != nil || len(rows) < 2 {
			t.Fatalf("%q: %d rows, %v", args, len(rows), err)
		}
		guarded := false
		for _, row := range rows {
			for _, cell := range row {
				if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
					t.Errorf("%q: a cell begins with %q", args, cell)
				}
				guarded = guarded || strings.HasPrefix(cell, "'=") || strings.HasPrefix(cell, "'+") || strings.HasPrefix(cell, "'-") || strings.HasPrefix(cell, "'@")
			}
		}
		if !guarded {
			t.Errorf("%q: no name begins as a formula: the test proves nothing", args)
		}
	}
}
