package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Help writes flags as they are typed, and no default that stands for "none".
func TestHelpWritesFlagsWithTwoDashes(t *testing.T) {
	oneDash := regexp.MustCompile(`(?m)(^|[\s(\[])-[a-z]`)
	for _, c := range commands {
		_, out, _ := runIt(t, c.name, "--help")
		if at := oneDash.FindString(out); at != "" {
			t.Errorf("%s --help writes %q:\n%s", c.name, at, out)
		}
		for _, never := range []string{"default -1", "default false", `default ""`, " string\n", " int\n", " float\n", " value\n", "\t"} {
			if strings.Contains(out, never) {
				t.Errorf("%s --help has %q:\n%s", c.name, never, out)
			}
		}
	}
	_, out, _ := runIt(t, "draw", "--help")
	for _, want := range []string{"\n  --delay N\n      ", "\n  --transparent\n      ", "\n  --width N\n      ", "(default 1280)\n", "(default paper)\n", "\n  --out FILE\n      "} {
		if !strings.Contains(out, want) {
			t.Errorf("draw --help lacks %q:\n%s", want, out)
		}
	}
}

func TestFlagsThatAreWrong(t *testing.T) {
	path := write(t, little)
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{"judge", path, "--fast"}, "--fast: expected an option of judge"},
		{[]string{"judge", path, "-fast=3"}, "--fast: expected an option of judge"},
		{[]string{"judge", path, "--setup"}, "--setup: expected a value after it, got nothing"},
		{[]string{"judge", path, "--delay", "x"}, `--delay: expected a whole number, got "x"`},
		{[]string{"judge", path, "--delay", ""}, `--delay: expected a whole number, got ""`},
		{[]string{"judge", path, "--delay", "1.5"}, `--delay: expected a whole number, got "1.5"`},
		{[]string{"judge", path, "--delay", "99999999999999999999"}, `--delay: expected a whole number, got "99999999999999999999"`},
		{[]string{"judge", path, "--delay", "-1"}, "--delay: expected 0 to 511 frames, got -1"},
		{[]string{"judge", path, "--delay", "512"}, "--delay: expected 0 to 511 frames, got 512"},
		{[]string{"judge", path, "--delay", "9000000000000000000"}, "--delay: expected 0 to 511 frames, got 9000000000000000000"},
		{[]string{"judge", path, "--json=perhaps"}, `--json: expected no value, true or false, got "perhaps"`},
		{[]string{"import", path, path, "--map", "x"}, `--map: expected a heading`},
	} {
		code, out, progress := runIt(t, c.args...)
		if code != 2 || out != "" || !strings.Contains(progress, c.say) || strings.Contains(progress, "parse error") {
			t.Errorf("%v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
	for _, args := range [][]string{
		{"judge", "-setup", "good", path}, {"judge", "--setup=good", "--json=true", path}, {"judge", "--setup=good", "--", path}, {"judge", "--setup=good", path, "--"},
	} {
		if code, out, progress := runIt(t, args...); code != 0 || !strings.Contains(out, "good") || progress != "" {
			t.Errorf("%v = %d, %q, %q", args, code, out, progress)
		}
	}
	dash := filepath.Join(t.TempDir(), "-h.json")
	if err := os.WriteFile(dash, []byte(little), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Chdir(filepath.Dir(dash))
	if code, out, progress := runIt(t, "judge", "--setup", "good", "--", "-h.json"); code != 0 || progress != "" {
		t.Errorf("judge of a name with a dash = %d, %q, %q", code, out, progress)
	}
}

// Numbers of a picture that can't be drawn.
func TestDrawRefusesAbsurdNumbers(t *testing.T) {
	out := filepath.Join(t.TempDir(), "a.png")
	for _, c := range []struct{ flag, value, say string }{
		{"width", "NaN", "--width: expected 320 to 8192 units, got NaN"},
		{"width", "+Inf", "--width: expected 320 to 8192 units, got +Inf"},
		{"width", "-1", "--width: expected 320 to 8192 units, got -1"},
		{"width", "wide", `--width: expected a number, got "wide"`},
		{"height", "NaN", "--height: expected"},
		{"height", "1e300", "--height: expected"},
		{"scale", "NaN", "--scale: expected"},
		{"scale", "-1", "--scale: expected"},
		{"scale", "Inf", "--scale: expected"},
		{"delay", "512", "--delay: expected 0 to 511 frames, got 512"},
		{"delay", "-7", "--delay: expected 0 to 511 frames, got -7"},
		{"neighbours", "-1", "--neighbours: expected 0 to 20"},
		{"neighbours", "9999999999", "--neighbours: expected 0 to 20"},
		{"late", "-1", "--late: expected 0 to 512 frames, got -1"},
		{"late", "600", "--late: expected 0 to 512 frames, got 600"},
		{"late", "1", "--late: expected --reply beside it"},
		{"reply", "", "--reply: expected the name of a reply, got nothing"},
		{"rise", "", "--rise: expected the name of a rise, got nothing"},
		{"out", "", "--out: expected a file to write"},
	} {
		args := []string{"draw", sample, "--setup", "Low water", "--out", out, "--" + c.flag, c.value}
		code, said, progress := runIt(t, args...)
		if code != 2 || said != "" || !strings.Contains(progress, c.say) {
			t.Errorf("%v = %d, %q, %q; want 2 and %q", args, code, said, progress, c.say)
		}
		if _, err := os.Stat(out); err == nil {
			t.Fatalf("%v wrote a file", args)
		}
	}
}

// An option that would change nothing in what is written is an error.
func TestDrawRefusesOptionsThatDontApply(t *testing.T) {
	dir := t.TempDir()
	times := named(t, "times.csv", "setup,from,to\nLow water,0,1\n")
	asked := map[string][]string{
		"one": {sample, "--setup", "Low water"}, "many": {sample, "--filter", "Low water"}, "pair": {sample, "--attacker", "Brenno", "--rival", "Ishka"},
		"times": {sample, "--times", times}, "words": {"--glossary"},
	}
	for _, c := range []struct {
		of, out, flag string
		value         []string
		say           string // empty: it is taken
	}{
		{"one", "a.pdf", "transparent", nil, "PNG, SVG, APNG, WEBM and frames"},
		{"one", "a.gif", "transparent", nil, "PNG, SVG, APNG, WEBM and frames"},
		{"one", "a.pdf", "width", []string{"900"}, "PNG, SVG, GIF and films"},
		{"one", "a.svg", "width", []string{"900"}, ""},
		{"one", "a.svg", "scale", []string{"2"}, "PNG, GIF and films"},
		{"one", "a.png", "page", []string{"letter"}, "PDF"},
		{"one", "a.png", "play", []string{"2"}, "GIF, films and captions"},
		{"one", "a.gif", "neighbours", []string{"1"}, "PNG, SVG, PDF, HTML, films and captions"},
		{"one", "a.html", "neighbours", []string{"1"}, ""},
		{"one", "a.html", "delay", []string{"1"}, ""},
		{"one", "a.html", "exercise", nil, ""},
		{"one", "a.html", "theme", []string{"night"}, "PNG, SVG, PDF, GIF and films"},
		{"one", "a.html", "stage", nil, "PNG, SVG, PDF, GIF and films"},
		{"one", "a.html", "reply", []string{"Chaff"}, "PNG, SVG, PDF, GIF, films and captions"},
		{"one", "a.png", "exercise", nil, "HTML"},
		{"many", "some.html", "exercise", nil, ""},
		{"many", "some.html", "neighbours", []string{"1"}, ""},
		{"many", "some.html", "delay", []string{"1"}, "one setup"},
		{"many", "some.html", "names", []string{"{n}"}, "a folder"},
		{"one", "a.md", "theme", []string{"night"}, "PNG, SVG, PDF, GIF and films"},
		{"one", "a.csv", "theme", []string{"paper"}, "PNG, SVG, PDF, GIF and films"},
		{"one", "a.md", "delay", []string{"1"}, ""},
		{"one", "a.csv", "rise", []string{"x"}, "PNG, SVG, PDF, GIF, films and captions"},
		{"one", "a.png", "names", []string{"{n}"}, "a folder"},
		{"one", "a.png", "format", []string{"svg"}, "a folder"},
		{"one", "a.png", "chapters", nil, "VTT and SRT"},
		{"one", "a.txt", "neighbours", []string{"1"}, ""},
		{"one", "a.srt", "rise", []string{"normal"}, "what is said of a lesson"},
		{"one", "a.vtt", "theme", []string{"night"}, "PNG, SVG, PDF, GIF and films"},
		{"one", "a.vtt", "play", []string{"4"}, ""},
		{"one", "a.png", "all-replies", nil, "match-ups"},
		{"many", "some", "delay", []string{"1"}, "one setup"},
		{"many", "some", "reply", []string{"x"}, "one setup"},
		{"many", "some", "page", []string{"letter"}, "PDF"},
		{"many", "some.pdf", "format", []string{"svg"}, "a folder"},
		{"many", "some.pdf", "names", []string{"{n}"}, "a folder"},
		{"many", "some.pdf", "scale", []string{"2"}, "PNG and GIF"},
		{"many", "some.pdf", "page", []string{"letter"}, ""},
		{"many", "some.csv", "theme", []string{"night"}, "PNG, SVG, PDF and GIF"},
		{"many", "names", "names", []string{"{setup}"}, ""},
		{"pair", "a.csv", "width", []string{"900"}, "PNG, SVG and GIF"},
		{"pair", "a.png", "height", []string{"900"}, "setups"},
		{"pair", "a.png", "delay", []string{"1"}, "one setup"},
		{"pair", "a.csv", "all-replies", nil, ""},
		{"times", "a.vtt", "theme", []string{"night"}, "PNG, SVG, PDF and GIF"},
		{"times", "a.vtt", "all-replies", nil, "match-ups"},
		{"times", "a.vtt", "chapters", nil, ""},
		{"words", "a.svg", "delay", []string{"1"}, "one setup"},
		{"words", "a.svg", "width", []string{"900"}, ""},
		{"words", "a.pdf", "transparent", nil, "PNG and SVG"},
	} {
		out := filepath.Join(dir, c.out)
		args := append(append(append([]string{"draw"}, asked[c.of]...), "--out", out, "--"+c.flag), c.value...)
		code, said, progress := runIt(t, args...)
		_, err := os.Stat(out)
		if c.say == "" && (code != 0 || err != nil) {
			t.Errorf("%v = %d, %q, %v; want it to be taken", args, code, progress, err)
		}
		if want := "--" + c.flag + " applies to " + c.say; c.say != "" && (code != 2 || said != "" || err == nil || !strings.Contains(progress, want)) {
			t.Errorf("%v = %d, %q, %q, %v; want 2 and %q", args, code, said, progress, err, want)
		}
		os.RemoveAll(out)
	}
	// A lesson is as high as its steps.
	args := []string{"draw", sample, "--setup", "Low water", "--neighbours", "1", "--height", "700", "--out", filepath.Join(dir, "a.png")}
	if code, _, progress := runIt(t, args...); code != 2 || !strings.Contains(progress, "--height applies to strips only") {
		t.Errorf("%v = %d, %q", args, code, progress)
	}
}
