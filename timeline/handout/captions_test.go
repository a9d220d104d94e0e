package handout

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

var srtTimes = regexp.MustCompile(`^(\d{2,}):([0-5]\d):([0-5]\d),(\d{3}) --> (\d{2,}):([0-5]\d):([0-5]\d),(\d{3})$`)

// shown is a caption as a reader sees it.
type shown struct {
	from, to int
	lines    []string
}

// readSRT holds a file to what readers of SubRip agree on; there is no
// standard: numbers from 1, times with a comma, one line of text or more, an
// empty line, lines that end with CR LF, and nothing that is taken for markup.
func readSRT(file string) (out []shown, err error) {
	if file == "" {
		return nil, nil
	}
	if strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\n") || strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\r") {
		return nil, fmt.Errorf("a line that doesn't end with CR LF")
	}
	body, ok := strings.CutSuffix(file, "\r\n\r\n")
	if !ok {
		return nil, fmt.Errorf("no empty line at the end")
	}
	for i, block := range strings.Split(body, "\r\n\r\n") {
		rows := strings.Split(block, "\r\n")
		if len(rows) < 3 || rows[0] != strconv.Itoa(i+1) {
			return nil, fmt.Errorf("caption %d: %q", i+1, rows)
		}
		m := srtTimes.FindStringSubmatch(rows[1])
		if m == nil {
			return nil, fmt.Errorf("times %q", rows[1])
		}
		for _, r := range rows[2:] {
			if strings.TrimSpace(r) == "" || strings.ContainsAny(r, "<>{}") {
				return nil, fmt.Errorf("text %q", r)
			}
		}
		out = append(out, shown{milliseconds(m[1:5]), milliseconds(m[5:9]), rows[2:]})
	}
	return out, nil
}

func milliseconds(fields []string) (ms int) {
	for k, unit := range []int{3600000, 60000, 1000, 1} {
		n, _ := strconv.Atoi(fields[k])
		ms += n * unit
	}
	return ms
}

// readVTT reads the captions of a file that vttFaults finds nothing in.
func readVTT(file string) (out []shown) {
	plain := strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">")
	for _, block := range strings.Split(strings.TrimSuffix(file, "\n"), "\n\n")[1:] {
		rows := strings.Split(block, "\n")
		m := vttTimes.FindStringSubmatch(rows[1])
		out = append(out, shown{milliseconds(m[1:5]), milliseconds(m[5:9]), strings.Split(plain.Replace(strings.Join(rows[2:], "\n")), "\n")})
	}
	return out
}

// hold holds captions to their cues: in the cue's time without a gap, at most
// two lines of 42 letters, and together every word of it.
func hold(t *testing.T, got []shown, cues []Cue, change *strings.Replacer) {
	t.Helper()
	at := 0
	for i := range cues {
		c := &cues[i]
		whole, next := "", int(c.From)
		for ; at < len(got) && next < int(c.To); at++ {
			s := got[at]
			if s.from != next || s.to <= s.from || s.to > int(c.To) {
				t.Fatalf("cue %d: caption %d from %d to %d, want it to begin on %d and to end by %d", i+1, at+1, s.from, s.to, next, c.To)
			}
			next = s.to
			if len(s.lines) > 2 {
				t.Errorf("%d lines: %q", len(s.lines), s.lines)
			}
			for _, l := range s.lines {
				n := 0
				for _, r := range l {
					if !unicode.In(r, unicode.Mn, unicode.Me) {
						n++
					}
				}
				if n > 42 {
					t.Errorf("%d letters in %q", n, l)
				}
				whole += l
			}
		}
		if next != int(c.To) {
			t.Errorf("cue %d: its captions end on %d, want %d", i+1, next, c.To)
		}
		bare := func(s string) string {
			return strings.Map(func(r rune) rune {
				if unicode.IsSpace(r) || unicode.IsControl(r) || r == unicode.ReplacementChar {
					return -1
				}
				return r
			}, s)
		}
		want := bare(c.Title)
		if want == "" {
			want = "(noname)"
		}
		if want = change.Replace(want + bare(c.Text)); bare(whole) != want {
			t.Errorf("cue %d says %q, want %q", i+1, bare(whole), want)
		}
	}
	if at != len(got) {
		t.Errorf("%d captions, %d of them in a cue's time", len(got), at)
	}
}

var (
	unchanged = strings.NewReplacer()
	noMarkup  = strings.NewReplacer("<", "‹", ">", "›", "{", "(", "}", ")")
)

func both(t *testing.T, cues []Cue) {
	t.Helper()
	srt, err := SRT(cues)
	if err != nil {
		t.Fatal(err)
	}
	got, err := readSRT(srt)
	if err != nil {
		t.Fatalf("%v in\n%q", err, srt)
	}
	hold(t, got, cues, noMarkup)
	vtt, err := WebVTT(cues)
	if err != nil {
		t.Fatal(err)
	}
	if faults, _ := vttFaults(vtt); len(faults) > 0 {
		t.Fatalf("%q in\n%s", faults, vtt)
	}
	hold(t, readVTT(vtt), cues, unchanged)
}

// TestCaptionsSayAll: every verdict of the sample, in captions of both kinds.
func TestCaptionsSayAll(t *testing.T) {
	var cues []Cue
	at := int64(0)
	for _, p := range plans(t, asTheyAre) {
		v := words.VerdictAt(p, p.Setup.Delay)
		cues = append(cues, CueOf(&v, at, at+7003, false))
		at += 7003
	}
	both(t, cues)
}

// TestCaptionsReadWell: sentences aren't torn, and no line is left with a word.
func TestCaptionsReadWell(t *testing.T) {
	srt, err := SRT([]Cue{{0, 9000, "1 frame later", "Lands on 48 and guards; the reversal is active on 50 and is blocked, with 2 frames to spare. That is safe."}})
	want := "1\r\n00:00:00,000 --> 00:00:01,058\r\n1 frame later\r\n\r\n" +
		"2\r\n00:00:01,058 --> 00:00:05,521\r\nLands on 48 and guards; the\r\nreversal is active on 50 and is\r\n\r\n" +
		"3\r\n00:00:05,521 --> 00:00:09,000\r\nblocked, with 2 frames to spare.\r\nThat is safe.\r\n\r\n"
	if err != nil || srt != want {
		t.Errorf("%v\n%q, want\n%q", err, srt, want)
	}
	over := []Cue{{0, 9000, "a", strings.Repeat("long word ", 30)}, {100, 9000, "b", "c"}} // both are spoken at once
	vtt, err := WebVTT(over)
	if faults, n := vttFaults(vtt); err != nil || len(faults) > 0 || n < 4 {
		t.Errorf("cues over one another: %v, %q, %d captions", err, faults, n)
	}
	if _, err := SRT([]Cue{{0, 2, "a", strings.Repeat("long word ", 30)}}); err == nil || !strings.Contains(err.Error(), "cue 1") {
		t.Errorf("too short a time: %v", err)
	}
}

// TestTimesDontDrift: after any number of parts a time is that which its
// picture has, to half a thousandth of a second, also at 60000/1001 a second.
func TestTimesDontDrift(t *testing.T) {
	for _, rate := range []timeline.Rate{{Num: 60, Den: 1}, {Num: 60000, Den: 1001}, {Num: 2, Den: 1}, {Num: 100, Den: 150}, {Num: 7, Den: 3}} {
		parts := make([]Part, 5000)
		for i := range parts {
			parts[i] = Part{Pictures: 1 + i%3, Title: "x", Text: "y"}
		}
		pictures := int64(0)
		for i, c := range Timed(parts, rate, false) {
			if off := 2 * (c.From*int64(rate.Num) - pictures*1000*int64(rate.Den)); off > int64(rate.Num) || off < -int64(rate.Num) {
				t.Fatalf("%v: part %d begins at %d ms, picture %d", rate, i, c.From, pictures)
			}
			pictures += int64(parts[i].Pictures)
		}
	}
	got := Timed([]Part{{Pictures: 1001, Title: "a", Text: "b"}, {Pictures: 59, Title: "c"}}, timeline.Rate{Num: 60000, Den: 1001}, true)
	if len(got) != 2 || got[0] != (Cue{0, 16700, "a", ""}) || got[1] != (Cue{16700, 17684, "c", ""}) {
		t.Errorf("chapters %v", got)
	}
}

func TestSRTFaultsAreSeen(t *testing.T) {
	for _, file := range []string{
		"1\n00:00:00,000 --> 00:00:01,000\nx\n\n", "1\r\n00:00:00.000 --> 00:00:01,000\r\nx\r\n\r\n", "2\r\n00:00:00,000 --> 00:00:01,000\r\nx\r\n\r\n",
		"1\r\n00:00:00,000 --> 00:00:01,000\r\n\r\n", "1\r\n00:00:00,000 --> 00:00:01,000\r\n<i>x\r\n\r\n", "1\r\n00:00:00,000 --> 00:00:01,000\r\nx\r\n",
		"1\r\n00:61:00,000 --> 00:00:01,000\r\nx\r\n\r\n",
	} {
		if _, err := readSRT(file); err == nil {
			t.Errorf("no fault seen in %q", file)
		}
	}
}

// TestScript: the sentences in order, each part under its time.
func TestScript(t *testing.T) {
	got := Script("Tide *and* heel", []Part{{Pictures: 3, Title: "1 frame earlier", Text: "It is short. That loses."}, {Pictures: 150, Title: "As it is", Text: "It meets."}}, timeline.Rate{Num: 2, Den: 1})
	want := "# Tide \\*and\\* heel\n\n1:16.5 in all.\n\n## 0:00 1 frame earlier\n\nFor 1.5 s.\n\nIt is short.\nThat loses.\n\n## 0:01.5 As it is\n\nFor 75 s.\n\nIt meets.\n"
	if got != want {
		t.Errorf("%q, want\n%q", got, want)
	}
}

// TestSections: each is one chapter, and in a script a heading with its parts
// under it.
func TestSections(t *testing.T) {
	parts := []Part{{Section: "One", Pictures: 3, Title: "One", Text: "First."}, {Pictures: 4, Title: "a", Text: "It meets."}, {Section: "Two", Pictures: 1, Title: "Two"}, {Pictures: 2, Title: "b"}}
	rate := timeline.Rate{Num: 2, Den: 1}
	if got := Timed(parts, rate, true); len(got) != 2 || got[0] != (Cue{0, 3500, "One", ""}) || got[1] != (Cue{3500, 5000, "Two", ""}) {
		t.Errorf("chapters %v", got)
	}
	if got := Timed(parts, rate, false); len(got) != 4 || got[1] != (Cue{1500, 3500, "a", "It meets."}) {
		t.Errorf("cues %v", got)
	}
	want := "# Both\n\n0:05 in all.\n\n## 0:00 One\n\nFor 1.5 s.\n\nFirst.\n\n### 0:01.5 a\n\nFor 2 s.\n\nIt meets.\n\n## 0:03.5 Two\n\nFor 0.5 s.\n\n\n### 0:04 b\n\nFor 1 s.\n\n"
	if got := Script("Both", parts, rate); got != want {
		t.Errorf("%q, want\n%q", got, want)
	}
}

func FuzzCaptions(f *testing.F) {
	for _, s := range []string{"", "a --> b", "<i>x</i> & {\\an8}", "two\n\nlines", "\x00\x07", "e\u0301\u0301\u0301", "\u0301", "\u202e x", "a. B. 3. c", strings.Repeat("ü", 100), "&amp;", "WEBVTT", "1", "00:00:01,000 --> 00:00:02,000"} {
		f.Add(s, "It meets. "+s, uint16(5000))
	}
	f.Fuzz(func(t *testing.T, title, text string, took uint16) {
		const most = 2000
		title, text = title[:min(len(title), most)], text[:min(len(text), most)]
		if strings.TrimSpace(oneLine(text)) == "" {
			text = "x"
		}
		long := int64(took) + 2*most
		both(t, []Cue{{0, long, title, text}, {long, 2 * long, text, title + "."}})
	})
}
