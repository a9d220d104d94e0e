package main

import (
	"bytes"
	"encoding/csv"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// countedPictures is the progress of a film or a moving picture.
var countedPictures = regexp.MustCompile(`(?m)^wrote \d+ of \d+ pictures\n`)

// TestDrawWritesEveryFormat: what --out's ending asks for.
func TestDrawWritesEveryFormat(t *testing.T) {
	dir := t.TempDir()
	times := filepath.Join(dir, "times.csv")
	if err := os.WriteFile(times, []byte("setup,from,to\r\nPlain crossing,0,\r\nOne frame over,1:02.5,75\r\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	one := []string{"--setup", "Counted crossing"}
	for _, c := range []struct {
		name        string
		args        []string
		start, part string
	}{
		{"a.png", one, "\x89PNG", "Counted crossing: safe"},
		{"a.svg", append(one, "--neighbours", "1"), "<?xml", "1 frame later · delay 2"},
		{"a.pdf", append(one, "--page", "letter"), "%PDF-1.3", "/MediaBox [0 0 792.00 612.00]"},
		{"a.gif", append(one, "--width", "480", "--height", "320"), "GIF89a", "Counted crossing: delay 0 to 4\nDelay 0, unsafe: "},
		{"b.gif", append(one, "--width", "480", "--height", "320", "--play", "4"), "GIF89a", "NETSCAPE2.0"},
		{"a.md", one, "# Counted crossing\n", "Source: sample.json"},
		{"a.csv", one, "setup,delay,verdict", "Counted crossing,1,safe,normal,45,Millrace,0,beat,reply blocked,47,1"},
		{"a.html", one, "<!DOCTYPE html>", "Source: sample.json."},
		{"b.html", append(one, "--exercise"), "<!DOCTYPE html>", "Which delay makes this safe?"},
		{"some.html", []string{"--filter", "PARRY"}, "<!DOCTYPE html>", "Setups with “PARRY”"},
		{"all.csv", []string{"--filter", ""}, "setup,delay,verdict", "Nothing to spare,0,safe"},
		{"some.pdf", []string{"--filter", "PARRY"}, "%PDF-1.3", "/Count "},
		{"tests.md", []string{"--filter", "PARRY", "--tests"}, "# Setups with “PARRY”: in-game tests\n", "Record "},
		{"tests.pdf", []string{"--filter", "PARRY", "--tests"}, "%PDF-1.3", "/MediaBox"},
		{"tests.svg", []string{"--filter", "PARRY", "--tests"}, "<?xml", "] unclear"},
		{"m.csv", []string{"--attacker", "Brenno", "--rival", "Ishka"}, "setup,delay,verdict,guard high", "Plain crossing,0,safe"},
		{"m.png", []string{"--attacker", "Brenno", "--rival", "Ishka", "--all-replies", "--theme", "night"}, "\x89PNG", "Brenno vs Ishka: match-up"},
		{"c.csv", []string{"--attacker", "Brenno", "--filter", "crossing"}, "setup,rival,holds_against,Brenno,Dovra,Ishka\r\nPlain crossing,Ishka,", "Counted crossing,Ishka,"},
		{"c.pdf", []string{"--attacker", "Brenno", "--page", "letter"}, "%PDF-1.3", "/MediaBox"},
		{"c.svg", []string{"--attacker", "Brenno"}, "<?xml", "Brenno vs all"},
		{"n.svg", append(one, "--neighbours", "0", "--mix"), "<?xml", "The rival does"},
		{"k.csv", []string{"--filter", "crossing", "--cheat-sheet"}, "setup,fighters,after,verdict,inputs,read,beaten_by\r\n", "press Leeboard on air frame 27 (frame 32)"},
		{"k.pdf", []string{"--filter", "", "--cheat-sheet", "--page", "phone"}, "%PDF-1.3", "/MediaBox [0 0 510.24 1105.51]"},
		{"x.vtt", []string{"--times", times}, "WEBVTT\n\n1\n00:00:00.000 --> 00:00:07.332\nPlain crossing: safe\n", "\n00:01:02.500 --> 00:01:0"},
		{"y.vtt", []string{"--times", times, "--chapters"}, "WEBVTT\n\n1\n00:00:00.000 --> 00:01:02.500\nPlain crossing\n\n2\n", "One frame over\n"},
		{"z.srt", []string{"--times", times}, "1\r\n00:00:00,000 --> ", "One frame over: unsafe"},
		{"a.srt", append(one, "--neighbours", "1"), "1\r\n00:00:00,000 --> ", "1 frame later, delay 2\r\n"},
		{"a.apng", append(one, "--shape", "band", "--transparent"), "\x89PNG", "acTL"},
		{"a.vtt", append(one, "--chapters"), "WEBVTT\n\n1\n00:00:00.000 --> 00:00:00.800\nDelay 0, unsafe\n", "\n00:00:00.800 --> 00:00:02.400\nDelay 1, safe\n"},
		{"a.txt", append(one, "--play", "10"), "# Counted crossing: safe\n", "Millrace touches on frame 47 and is blocked"},
		{"some.gif", []string{"--filter", "crossing", "--width", "480", "--height", "320", "--scale", "0.2"}, "GIF89a", "Setups with “crossing”\n"},
		{"some.srt", []string{"--filter", "crossing", "--play", "10", "--chapters"}, "1\r\n00:00:00,000 --> ", "\r\nPlain crossing\r\n\r\n2\r\n"},
		{"some.txt", []string{"--filter", "crossing", "--neighbours", "1"}, "# Setups with “crossing”\n", " Counted crossing\n\nFor "},
		{"g.svg", []string{"--glossary"}, "<?xml", "wake-up"},
	} {
		path := filepath.Join(dir, c.name)
		args := append([]string{"draw", "--out", path}, c.args...)
		if c.name != "g.svg" {
			args = append(args, sample)
		}
		code, out, progress := runIt(t, args...)
		progress = countedPictures.ReplaceAllString(progress, "") // where the machine is slow
		got, err := os.ReadFile(path)
		if code != 0 || out != "" || progress != "" || err != nil {
			t.Errorf("%v = %d, %q, %q, %v", args, code, out, progress, err)
			continue
		}
		if !bytes.HasPrefix(got, []byte(c.start)) || !bytes.Contains(got, []byte(c.part)) {
			t.Errorf("%s begins %q, want %q, and %q in it", c.name, got[:min(len(got), 60)], c.start, c.part)
		}
	}
}

// TestDrawFrames: a / at the end asks for a folder of pictures.
func TestDrawFrames(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	if code, out, progress := runIt(t, "draw", sample, "--setup", "Low water", "--out", dir+"/", "--width", "480", "--height", "320"); code != 0 || out != "" {
		t.Fatal(out, progress)
	}
	list, err := os.ReadFile(filepath.Join(dir, "frames.ffconcat"))
	if err != nil || !strings.HasPrefix(string(list), "ffconcat version 1.0\n# 100/80 pictures per second") {
		t.Errorf("%v: %s", err, list)
	}
	dir += "2"
	if code, out, progress := runIt(t, "draw", sample, "--filter", "crossing", "--format", "frames", "--out", dir, "--width", "480", "--height", "320", "--scale", "0.2"); code != 0 || out != "" {
		t.Fatal(out, progress)
	}
	if list, err := os.ReadFile(filepath.Join(dir, "frames.ffconcat")); err != nil || !strings.Contains(string(list), "file 0020.png\n") {
		t.Errorf("of several setups: %v: %s", err, list)
	}
	if code, _, progress := runIt(t, "draw", sample, "--setup", "Low water", "--out", dir+"/", "--page", "letter"); code != 2 || !strings.Contains(progress, "--page applies to PDF only") {
		t.Errorf("= %d, %q", code, progress)
	}
}

// TestDrawTransparent: scale, and no ground.
func TestDrawTransparent(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.png")
	if code, _, progress := runIt(t, "draw", sample, "--setup", "Low water", "--out", path, "--transparent", "--scale", "1.5", "--width", "640", "--height", "400"); code != 0 {
		t.Fatal(progress)
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if size := img.Bounds().Size(); size.X != 960 || size.Y != 600 {
		t.Errorf("%v pixels, want 960 by 600", size)
	}
	if _, _, _, a := img.At(2, 2).RGBA(); a != 0 {
		t.Errorf("the corner's alpha is %d, want 0", a)
	}
}

// TestDrawManyIntoAFolder: what passes the filter, under safe names, with a
// contact sheet; no match leaves nothing.
func TestDrawManyIntoAFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	code, out, progress := runIt(t, "draw", sample, "--filter", "WALL mitre", "--out", dir, "--names", "{setup} ({rival})", "--format", "svg")
	if code != 0 || out != "wrote 2 setups into "+dir+", and 1 contact sheet\n" || progress != "" {
		t.Errorf("= %d, %q, %q", code, out, progress)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if want := []string{"Against the gate (Brenno).svg", "Out in the yard (Brenno).svg", "contact sheet 1.svg"}; !slices.Equal(names, want) {
		t.Errorf("files %q, want %q", names, want)
	}
	if code, out, progress = runIt(t, "draw", sample, "--filter", "nobody", "--out", dir+"2"); code != 2 || out != "" || !strings.Contains(progress, `"nobody"`) {
		t.Errorf("no match = %d, %q, %q", code, out, progress)
	}
	if _, err := os.Stat(dir + "2"); err == nil {
		t.Error("no match made a folder")
	}
	wide := write(t, wide)
	code, out, progress = runIt(t, "draw", wide, "--filter", "", "--out", dir+"3", "--format", "md")
	if code != 2 || !strings.Contains(out, "wrote 2 setups") || !strings.Contains(progress, `skipped: delay: setup "bad"`) {
		t.Errorf("one that doesn't fit = %d, %q, %q", code, out, progress)
	}
	for name, part := range map[string]string{"some.pdf": "/Count 3", "some.csv": "\npart,"} { // contents, good, part
		path := filepath.Join(filepath.Dir(dir), name)
		code, out, progress = runIt(t, "draw", wide, "--filter", "", "--out", path)
		got, err := os.ReadFile(path)
		if code != 2 || out != "" || !strings.Contains(progress, `skipped: delay: setup "bad"`) || err != nil || !bytes.Contains(got, []byte(part)) {
			t.Errorf("%s with one that doesn't fit = %d, %q, %q, %v", name, code, out, progress, err)
		}
		if code, _, progress = runIt(t, "draw", wide, "--filter", "zz", "--out", path); code != 2 || !strings.Contains(progress, `"zz"`) {
			t.Errorf("%s of none = %d, %q", name, code, progress)
		}
	}
}

// TestDrawLeavesWhatItCantReplace: on an error the file stays as it was.
func TestDrawLeavesWhatItCantReplace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.png")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if code, _, _ := runIt(t, "draw", sample, "--setup", "Low water", "--out", path, "--reply", "Jig"); code != 2 {
		t.Errorf("= %d, want 2", code)
	}
	if b, err := os.ReadFile(path); err != nil || string(b) != "mine" {
		t.Errorf("the file is %q now, %v", b, err)
	}
}

func TestDrawWrongWords(t *testing.T) {
	dir := t.TempDir()
	table := func(text string) string {
		path := filepath.Join(t.TempDir(), "t.csv")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	out := filepath.Join(dir, "o.png")
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{sample, "--setup", "a", "--filter", "b", "--out", out}, "--setup and --filter"},
		{[]string{sample, "--setup", "Low water", "--mix", "--out", out}, "--mix applies to lessons and booklets only"},
		{[]string{sample, "--setup", "Low water", "--cheat-sheet", "--out", out}, "--cheat-sheet: expected --filter"},
		{[]string{sample, "--filter", "a", "--neighbours", "1", "--out", filepath.Join(dir, "o.gif")}, "--neighbours applies to"},
		{[]string{sample, "--filter", "no such setup", "--out", filepath.Join(dir, "o.apng")}, "expected words that a setup has"},
		{[]string{sample, "--filter", "", "--cheat-sheet", "--out", filepath.Join(dir, "o.md")}, ".pdf, .png, .svg, .csv"},
		{[]string{sample, "--filter", "", "--cheat-sheet", "--neighbours", "2", "--out", out}, "--neighbours applies to"},
		{[]string{sample, "--filter", "a", "--tests", "--out", "o.gif"}, "with --tests expected a file named .md, .pdf, .png, .svg"},
		{[]string{sample, "--filter", "no such setup", "--tests", "--out", out}, "expected words that a setup has"},
		{[]string{sample, "--setup", "Low water", "--tests", "--out", out}, "--tests: expected --filter beside it"},
		{[]string{sample, "--attacker", "", "--out", out}, "--attacker: expected the name of a fighter"},
		{[]string{sample, "--attacker", "Nobody", "--out", out}, `"Nobody"`},
		{[]string{sample, "--attacker", "Brenno", "--filter", "(", "--out", out}, "--filter"},
		{[]string{sample, "--rival", "Ishka", "--attacker", "Brenno", "--filter", "a", "--out", out}, "expected one of --filter and --attacker"},
		{[]string{sample, "--attacker", "", "--rival", "", "--out", out}, "--attacker, --rival: expected both"},
		{[]string{sample, "--setup", "Low water", "--rival", "Ishka", "--out", out}, "--attacker, --rival: expected both"},
		{[]string{sample, "--times", "", "--out", "o.vtt"}, "--times: expected a table"},
		{[]string{sample, "--attacker", "Brenno", "--rival", "Nobody", "--out", out}, `"Nobody"`},
		{[]string{sample, "--setup", "Low water", "--out", out, "--neighbours", "21"}, "--neighbours: expected 0 to 20"},
		{[]string{sample, "--setup", "Low water", "--out", out, "--neighbours", "-1"}, "--neighbours"},
		{[]string{sample, "--setup", "Low water", "--out", out, "--play", "0"}, "--play"},
		{[]string{sample, "--setup", "Low water", "--out", out, "--page", "a5"}, "--page"},
		{[]string{sample, "--setup", "Low water", "--out", "o.srt", "--neighbours", "1", "--play", "2"}, "--neighbours, --play: expected one of them"},
		{[]string{sample, "--setup", "Low water", "--out", "o.wav"}, "--out: expected a file named .png, .svg"},
		{[]string{sample, "--setup", "Low water", "--out", "o.wav"}, "a folder named with a / at its end, .vtt"},
		{[]string{sample, "--filter", "", "--out", dir, "--format", "bmp"}, "--format"},
		{[]string{sample, "--filter", "", "--out", out}, "expected a folder, a film (.gif, .apng, .mp4 or .webm), its captions"},
		{[]string{sample, "--filter", "nobody", "--out", filepath.Join(dir, "a.csv")}, `"nobody"`},
		{[]string{sample, "--filter", "nobody", "--out", filepath.Join(dir, "a.pdf")}, `"nobody"`},
		{[]string{sample, "--filter", "", "--out", dir, "--names", "{who}"}, "--names"},
		{[]string{sample, "--glossary", "--out", out}, "expected no project"},
		{[]string{"--setup", "Low water", "--out", out}, "expected one argument"},
		{[]string{sample, "--times", table("a,b\n"), "--out", "o.vtt"}, "line 1: expected the columns"},
		{[]string{sample, "--times", table("setup,from,to\nLow water,x,2\n"), "--out", "o.vtt"}, "line 2, from: expected a time"},
		{[]string{sample, "--times", table("setup,from,to\nLow water,1,x\n"), "--out", "o.vtt"}, "line 2, to: expected a time"},
		{[]string{sample, "--times", table("setup,from,to\nLow water,1,\n"), "--out", "o.vtt"}, "the last row"},
		{[]string{sample, "--times", table("setup,from,to\nLow tide,1,2\n"), "--out", "o.vtt"}, `"Low tide"`},
		{[]string{sample, "--times", table("setup,from,to\nLow water,3,2\n"), "--out", "o.vtt"}, "cue 1"},
		{[]string{sample, "--times", table("setup,from,to\nLow water\n"), "--out", "o.vtt"}, "line 2"},
		{[]string{sample, "--times", filepath.Join(dir, "none.csv"), "--out", "o.vtt"}, "no such file"},
	} {
		code, said, progress := runIt(t, append([]string{"draw"}, c.args...)...)
		if code != 2 || said != "" || !strings.Contains(progress, c.say) {
			t.Errorf("%v = %d, %q, %q; want 2 and %q", c.args, code, said, progress, c.say)
		}
	}
}

// TestDrawOfAProjectFile: its setups are found on disk, and the handout names
// the latest revision.
func TestDrawOfAProjectFile(t *testing.T) {
	dir := t.TempDir()
	project := filepath.Join(dir, "yard.wakeline")
	if code, _, progress := runIt(t, "new", project, "--sample"); code != 0 {
		t.Fatal(progress)
	}
	path := filepath.Join(dir, "a.md")
	if code, _, progress := runIt(t, "draw", project, "--setup", "Low water", "--out", path); code != 0 {
		t.Fatal(progress)
	}
	if b, err := os.ReadFile(path); err != nil || !strings.Contains(string(b), "Source: yard.wakeline, revision first, of 2") {
		t.Errorf("%v: %s", err, b)
	}
	if code, out, progress := runIt(t, "draw", project, "--filter", "classic", "--out", filepath.Join(dir, "many"), "--format", "md"); code != 0 || !strings.HasPrefix(out, "wrote 3 setups") {
		t.Errorf("= %d, %q, %q", code, out, progress)
	}
}

// TestDrawCountsWhatJudgeCounts: the replies' table and `judge` agree.
func TestDrawCountsWhatJudgeCounts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.csv")
	if code, _, progress := runIt(t, "draw", sample, "--setup", "Plain crossing", "--out", path); code != 0 {
		t.Fatal(progress)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	_, said, _ := runIt(t, "judge", sample, "--setup", "Plain crossing")
	for _, r := range rows[1:] {
		name := r[5]
		if r[6] != "0" {
			name += " late " + r[6]
		}
		found := false
		for line := range strings.Lines(said) {
			fields := strings.Fields(line)
			if strings.HasPrefix(strings.TrimSpace(line), name+" ") && strings.Contains(line, " "+r[8]+" ") && (r[9] == "" || slices.Contains(fields, r[9])) {
				found = true
			}
		}
		if !found {
			t.Errorf("judge doesn't say %q:\n%s", r, said)
		}
	}
}

// TestDrawStage: the side view under a strip, in a lesson and in a GIF.
func TestDrawStage(t *testing.T) {
	dir := t.TempDir()
	project := filepath.Join(dir, "p.json")
	if err := os.WriteFile(project, []byte(`{"wakeline": 1, "fighters": [{"name": "Ada", "moves": [
		{"name": "Sweep", "kind": "strike", "level": "low", "startup": 8, "active": [3], "recovery": 20, "knockdown": {"midscreen": 42}, "distance": {"midscreen": 230}},
		{"name": "Kick", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [6], "hitstun": 20, "deep": 4, "reach": [-18, 62]}],
		"jumps": [{"name": "forward", "prejump": 4, "airborne": 39, "landing": 3, "travel": 190, "apex": 200}]}],
		"setups": [{"name": "one", "attacker": "Ada", "rival": "Ada", "ender": "Sweep", "jump": "forward", "attack": "Kick", "landing": "guard"}]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		part string
	}{
		{"a.svg", nil, "45 apart"},
		{"b.svg", []string{"--neighbours", "0"}, "45 apart"},
		{"c.png", nil, "45 apart"},
		{"d.gif", []string{"--play", "20", "--width", "480", "--height", "300", "--scale", "0.5"}, "GIF89a"},
		{"e.gif", []string{"--width", "480", "--height", "300", "--scale", "0.5"}, "GIF89a"},
		{"f.pdf", nil, "%PDF-1.3"},
	} {
		size := map[bool]int{}
		for _, stage := range []bool{true, false} {
			path := filepath.Join(dir, c.name)
			args := append([]string{"draw", project, "--setup", "one", "--out", path}, c.args...)
			if stage {
				args = append(args, "--stage")
			}
			code, out, progress := runIt(t, args...)
			got, err := os.ReadFile(path)
			if code != 0 || err != nil {
				t.Fatalf("%v = %d, %q, %q, %v", args, code, out, progress, err)
			}
			if has := bytes.Contains(got, []byte(c.part)); has != (stage || !strings.Contains(c.part, "apart")) {
				t.Errorf("%v: %q in it is %v", args, c.part, has)
			}
			size[stage] = len(got)
		}
		if size[true] <= size[false] {
			t.Errorf("%s with a side view has %d bytes, want more than the %d without", c.name, size[true], size[false])
		}
	}
	if code, _, progress := runIt(t, "draw", project, "--setup", "one", "--out", filepath.Join(dir, "x.md"), "--stage"); code != 2 || !strings.Contains(progress, "--stage applies to") {
		t.Errorf("--stage for text = %d, %q, want 2 and why", code, progress)
	}
}
