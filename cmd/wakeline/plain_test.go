package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// raw is the first control character of a text but its line ends.
func raw(text string) string {
	for _, r := range text {
		if r != '\n' && unicode.IsControl(r) {
			return string(r)
		}
	}
	return ""
}

// What a terminal would obey is written as an escape: whatever a name, a path
// or an argument holds.
func TestNoControlCharacterReachesATerminal(t *testing.T) {
	const evil = "a\x1b]0;x\x07\u009b2J\x7f\rb"
	dir := filepath.Join(t.TempDir(), evil)
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	project := filepath.Join(dir, "p.json")
	if err := os.WriteFile(project, []byte(little), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"judge", filepath.Join(dir, "none.json")}, {"judge", project, "--fast" + evil}, {"judge", project, "--setup", evil}, {"judge", project, "--delay", evil},
		{"new", filepath.Join(dir, "n.wakeline")}, {"export", project, filepath.Join(dir, "out")},
		{"draw", project, "--filter", "", "--out", filepath.Join(dir, "many"), "--format", "md"}, {"check", filepath.Join(dir, "none.wakeline")},
		{evil}, {evil + ".json", evil}, {"import", filepath.Join(dir, "n.wakeline"), filepath.Join(dir, "t.csv")},
	} {
		_, out, progress := runIt(t, args...)
		if at := raw(out + progress); at != "" {
			t.Errorf("%q: %q is written: %q, %q", args, at, out, progress)
		}
		if !strings.Contains(out+progress, "u001b") && !strings.Contains(out+progress, "x1b") {
			t.Errorf("%q: the name is not there: %q, %q", args, out, progress)
		}
	}
}

// Nor does one of a name in the project.
func TestNamesOfAProjectAreWrittenPlain(t *testing.T) {
	path := write(t, strings.NewReplacer(`"name": "good"`, `"name": "\u001b[2J\u009bgood"`, `"Rise"`, `"Rise\u007f\u001b"`, `"Turn"`, `"Tu\u0090rn"`).Replace(little))
	for _, args := range [][]string{
		{"judge", path}, {"judge", path, "--json"}, {"judge", path, "--setup", "x"}, {"find", path, "--setup", "part"}, {"find", path, "--setup", "part", "--enders"},
		{"draw", path, "--setup", "x", "--out", "x.png"}, {"draw", path, "--setup", "part", "--out", "x.png", "--reply", "x"}, {"export", path, t.TempDir()},
	} {
		code, out, progress := runIt(t, args...)
		if at := raw(out + progress); at != "" || code > 2 || out+progress == "" {
			t.Errorf("%q = %d, %q is written: %q, %q", args, code, at, out, progress)
		}
	}
}

// The JSON of judge is plain by itself.
func TestJudgeJSONIsPlain(t *testing.T) {
	const evil = "a\x1b\u009b\x7f\u0080b\n"
	v := words.Verdict{Because: evil, Verdict: timeline.Verdict{Setup: evil, Uncovered: []string{evil}, Rises: []timeline.RiseVerdict{{Rise: evil, Replies: []timeline.ReplyVerdict{{Reply: evil}}}}}}
	for _, text := range [][]byte{verdictJSON(&v, worthless(&v.Verdict)), failureJSON(evil, evil)} {
		var got struct{ Setup string }
		if err := json.Unmarshal(text, &got); err != nil || got.Setup != evil || raw(string(text)) != "" {
			t.Errorf("JSON %s, read as %q, %v", text, got.Setup, err)
		}
	}
}

func TestPlainWriter(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""}, {"plain\n", "plain\n"}, {"é嵐🌀\n", "é嵐🌀\n"}, {"a\tb", `a\u0009b`}, {"\r\x1b[2K", `\u000d\u001b[2K`}, {"\x7f", `\u007f`},
		{"\u0080\u009b\u009f\u00a0\n", `\u0080\u009b\u009f` + "\u00a0\n"}, {"\x00", `\u0000`},
	} {
		for cut := range len(c.text) + 1 {
			var b bytes.Buffer
			w := &plainWriter{to: &b}
			for _, part := range []string{c.text[:cut], c.text[cut:]} {
				if n, err := w.Write([]byte(part)); n != len(part) || err != nil {
					t.Errorf("%q: wrote %d, %v", part, n, err)
				}
			}
			if b.String() != c.want {
				t.Errorf("%q cut at %d = %q, want %q", c.text, cut, b.String(), c.want)
			}
		}
	}
	if text := string(plain([]byte("\"a\u009b\x7f\""))); !json.Valid([]byte(text)) || text != `"a\u009b\u007f"` {
		t.Errorf("a JSON text turned to %s", text)
	}
	w := &plainWriter{to: failing{}}
	if n, err := w.Write([]byte("x")); n != 0 || err == nil {
		t.Errorf("a full disk: %d, %v", n, err)
	}
}

func TestMeterWritesNamesPlain(t *testing.T) {
	for _, terminal := range []bool{false, true} {
		var out bytes.Buffer
		now := time.Unix(0, 0)
		m := &meter{out: &out, terminal: terminal, now: func() time.Time { return now.Add(time.Hour) }, start: now}
		m.tell(func() string { return "reading \x1b[2J\u009b" })
		if got := out.String(); !strings.Contains(got, `reading \u001b[2J\u009b`) {
			t.Errorf("the meter writes %q", got)
		}
	}
}

// worthless is an answer as long as the verdict.
func worthless(v *timeline.Verdict) *value.Answer {
	out := &value.Answer{}
	for _, r := range v.Rises {
		out.Rises = append(out.Rises, make([]value.Worth, len(r.Replies)))
	}
	return out
}
