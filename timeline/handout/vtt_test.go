package handout

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"wakeline/timeline/words"
)

var (
	vttTimes = regexp.MustCompile(`^(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})[ \t]+-->[ \t]+(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})$`)
	vttChar  = regexp.MustCompile(`&(?:amp|lt|gt|lrm|rlm|nbsp);`)
)

// vttFaults holds a file to the syntax of the W3C's "WebVTT: The Web Video Text
// Tracks Format", section 4.1 (file structure) and 4.2.1 (cue text), of what
// this program may write: no settings, no tags, no comments, no regions. Cues
// are sorted by their begin.
func vttFaults(file string) (out []string, cues int) {
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	lines := strings.Split(file, "\n")
	if lines[0] != "WEBVTT" && !strings.HasPrefix(lines[0], "WEBVTT ") && !strings.HasPrefix(lines[0], "WEBVTT\t") {
		fault("first line %q", lines[0])
	}
	if !strings.HasSuffix(file, "\n") {
		fault("no line terminator at the end")
	}
	if strings.ContainsAny(file, "\x00\r") {
		fault("a NUL or CR")
	}
	blocks := strings.Split(strings.TrimSuffix(file, "\n"), "\n\n")
	if strings.Contains(blocks[0], "\n") {
		fault("no empty line after the first")
	}
	last := 0
	for _, block := range blocks[1:] {
		rows := strings.Split(strings.TrimSuffix(block, "\n"), "\n")
		if len(rows) > 1 && !strings.Contains(rows[0], "-->") { // an identifier
			if rows[0] == "" {
				fault("an empty line too many before %q", rows[1])
			}
			rows = rows[1:]
		}
		m := vttTimes.FindStringSubmatch(rows[0])
		if m == nil {
			fault("timings %q", rows[0])
			continue
		}
		cues++
		at := func(i int) (ms int) {
			for k, unit := range []int{3600000, 60000, 1000, 1} {
				var n int
				fmt.Sscanf(m[i+k], "%d", &n)
				ms += n * unit
			}
			return ms
		}
		if at(5) <= at(1) || at(1) < last {
			fault("timings %q, after a cue that begins at %d", rows[0], last)
		}
		last = at(1)
		if len(rows) == 1 {
			fault("no text after %q", rows[0])
		}
		for _, text := range rows[1:] {
			if text == "" || strings.Contains(text, "-->") || strings.ContainsAny(vttChar.ReplaceAllString(text, ""), "&<") {
				fault("cue text %q", text)
			}
		}
	}
	return out, cues
}

func TestWebVTT(t *testing.T) {
	var cues []Cue
	at := int64(0)
	for _, p := range plans(t, asTheyAre) {
		v := words.VerdictAt(p, p.Setup.Delay)
		cues = append(cues, CueOf(&v, at, at+4500, len(cues)%2 == 1))
		at += 4500
	}
	for i, name := range []string{"a --> b", "<i>x</i> & y", "two\n\nlines", "NOTE x", "\x00\x07", "", "&lt;", "00:01.000 --> 00:02.000", "STYLE"} {
		cues = append(cues, Cue{at, at + 2 + int64(i)*7200000, name, name})
	}
	got, err := WebVTT(cues)
	if err != nil {
		t.Fatal(err)
	}
	faults, n := vttFaults(got)
	if len(faults) > 0 || n <= len(cues) {
		t.Errorf("%d captions of %d cues; %q in\n%s", n, len(cues), faults, got)
	}
	for _, want := range []string{"WEBVTT\n\n1\n00:00:00.000 --> 00:00:00.527\nPlain crossing: safe\n\n2\n00:00:00.527 --> ", "\n00:00:04.500 --> 00:00:09.000\nOne frame over\n\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if empty, err := WebVTT(nil); err != nil || empty != "WEBVTT\n" {
		t.Errorf("no cues: %q, %v", empty, err)
	}
	for _, bad := range [][]Cue{{{5, 5, "x", ""}}, {{-1, 5, "x", ""}}, {{10, 20, "x", ""}, {9, 30, "y", ""}}} {
		if _, err := WebVTT(bad); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("cue %d", len(bad))) {
			t.Errorf("%v: %v", bad, err)
		}
	}
}

// TestVTTFaultsAreSeen holds the checker to its word.
func TestVTTFaultsAreSeen(t *testing.T) {
	for _, file := range []string{
		"WEBVT\n", "WEBVTT", "WEBVTT\n00:00.000 --> 00:01.000\nx\n", "WEBVTT\n\n00:00.000 -> 00:01.000\nx\n", "WEBVTT\n\n00:00.00 --> 00:01.000\nx\n",
		"WEBVTT\n\n00:02.000 --> 00:01.000\nx\n", "WEBVTT\n\n00:60.000 --> 02:01.000\nx\n", "WEBVTT\n\n1\n00:00.000 --> 00:01.000\n", "WEBVTT\n\n00:00.000 --> 00:01.000\na & b\n",
		"WEBVTT\n\n00:00.000 --> 00:01.000\na <b\n", "WEBVTT\n\n\n1\n00:00.000 --> 00:01.000\nx\n", "WEBVTT\r\n\r\n",
		"WEBVTT\n\n00:05.000 --> 00:06.000\nx\n\n00:04.000 --> 00:07.000\ny\n",
	} {
		if faults, _ := vttFaults(file); len(faults) == 0 {
			t.Errorf("no fault seen in %q", file)
		}
	}
}

func TestReadTime(t *testing.T) {
	for s, want := range map[string]int64{"0": 0, "75": 75000, "75.5": 75500, "1:15.5": 75500, "0:01:15.0009": 75000, " 2:00:00 ": 7200000, "12.345678": 12345, "100:00:00": 360000000} {
		if got, err := ReadTime(s); err != nil || got != want {
			t.Errorf("ReadTime(%q) = %d, %v, want %d", s, got, err, want)
		}
	}
	for _, s := range []string{"", "-1", "1.", ".5", "1:5", "1:60", "1:2:3:4", "x", "1e3", "1.x", "+1", "1:+5", "99999999999"} {
		if got, err := ReadTime(s); err == nil {
			t.Errorf("ReadTime(%q) = %d, want an error", s, got)
		}
	}
}
