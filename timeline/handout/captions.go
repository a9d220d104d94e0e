package handout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"wakeline/timeline"
)

// The room of a caption: what is read at a glance.
const (
	CaptionLetters = 42 // of a line; marks on a letter don't count
	CaptionLines   = 2
)

// Part is a part of a film: what is said while it is shown for so many of the
// film's pictures.
type Part struct {
	Section  string // of several films after one another: the one that it begins
	Pictures int
	Title    string
	Text     string // may be empty
}

// Timed are the cues of parts that follow one another, at so many pictures a
// second. Each time is worked out from the film's beginning, in whole numbers,
// and is that thousandth of a second which is nearest to it: nothing adds up.
// A chapter is named by the part's title alone; where there are sections, each
// of them is one chapter.
func Timed(parts []Part, rate timeline.Rate, chapters bool) []Cue {
	var out []Cue
	at := 0
	if chapters && sectioned(parts) {
		parts = sections(parts)
	}
	for _, p := range parts {
		c := Cue{From: thousandths(at, rate), To: thousandths(at+p.Pictures, rate), Title: p.Title}
		if !chapters {
			c.Text = p.Text
		}
		at += p.Pictures
		out = append(out, c)
	}
	return out
}

// sectioned reports whether parts belong to sections.
func sectioned(parts []Part) bool { return len(parts) > 0 && parts[0].Section != "" }

// sections are the parts of each section as one.
func sections(parts []Part) (out []Part) {
	for _, p := range parts {
		if p.Section != "" {
			out = append(out, Part{Section: p.Section, Title: p.Section})
		}
		out[len(out)-1].Pictures += p.Pictures
	}
	return out
}

// thousandths is when picture n begins, in thousandths of a second.
func thousandths(n int, rate timeline.Rate) int64 {
	num, den := int64(rate.Num), int64(rate.Den)
	return (2*int64(n)*1000*den + num) / (2 * num)
}

// caption is what is shown at once.
type caption struct {
	from, to int64
	lines    []string // at most CaptionLines, of at most CaptionLetters
}

// captionsOf are the captions of cues, by when they begin.
func captionsOf(cues []Cue, of func(i int) ([]caption, error)) (out []caption, err error) {
	if err := inOrder(cues); err != nil {
		return nil, err
	}
	for i := range cues {
		shown, err := of(i)
		if err != nil {
			return nil, err
		}
		out = append(out, shown...)
	}
	slices.SortStableFunc(out, func(a, b caption) int { return cmp.Compare(a.from, b.from) }) // cues may lie over one another
	return out, nil
}

// captions are what a cue shows, one after another; n is its place, for an
// error. A new sentence begins a new line, and a new caption where it doesn't
// fit beside the one before. Each stands as long as its letters need of the
// cue's time.
func (c *Cue) captions(n int) (out []caption, err error) {
	var lines []string
	flush := func() {
		if len(lines) > 0 {
			out = append(out, caption{lines: lines})
			lines = nil
		}
	}
	for _, s := range append([]string{c.named()}, sentences(oneLine(c.Text))...) {
		rows := lined(s)
		if len(lines)+len(rows) > CaptionLines {
			flush()
		}
		for _, r := range rows {
			if len(lines) == CaptionLines {
				flush()
			}
			lines = append(lines, r)
		}
	}
	flush()
	if c.To-c.From < int64(len(out)) {
		return nil, fmt.Errorf("cue %d, %q: expected it to last %d thousandths of a second or more, one for each of its captions, got %d", n, c.Title, len(out), c.To-c.From)
	}
	weight := func(s *caption) int64 { return 1 + int64(lettersOf(s.lines...)) }
	whole, before := int64(0), int64(0)
	for i := range out {
		whole += weight(&out[i])
	}
	at := c.From
	for i := range out {
		before += weight(&out[i])
		left := int64(len(out) - 1 - i)
		out[i].from, out[i].to = at, min(max(c.From+(c.To-c.From)*before/whole, at+1), c.To-left)
		at = out[i].to
	}
	return out, nil
}

// named is the cue's title on one line.
func (c *Cue) named() string {
	if title := oneLine(c.Title); title != "" {
		return title
	}
	return "(no name)"
}

// inOrder says which cue begins before the one before it, or doesn't last.
func inOrder(cues []Cue) error {
	last := int64(0)
	for i, c := range cues {
		if c.From < last || c.To <= c.From {
			return fmt.Errorf("cue %d, %q: expected it to begin at %s or later and to end after that, got %s to %s", i+1, c.Title, stamp(last), stamp(c.From), stamp(c.To))
		}
		last = c.From
	}
	return nil
}

// oneLine is text on one line, without controls and what can't be a letter.
func oneLine(s string) string {
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || r == unicode.ReplacementChar {
			return -1
		}
		return r
	}, s)), " ")
}

// sentences cuts a text after each full stop that a capital or a number follows.
func sentences(text string) (out []string) {
	for from := 0; from < len(text); {
		end := len(text)
		for at := from; ; {
			i := strings.Index(text[at:], ". ")
			if i < 0 {
				break
			}
			at += i + 2
			if next := []rune(text[at:min(at+4, len(text))]); len(next) > 0 && (unicode.IsUpper(next[0]) || unicode.IsDigit(next[0])) {
				end = at
				break
			}
		}
		out = append(out, strings.TrimSpace(text[from:end]))
		from = end
	}
	return out
}

// lined breaks a sentence into as few lines as it takes, each as short as that
// allows, so that none is left with a word alone.
func lined(s string) []string {
	out := filled(s, CaptionLetters)
	for most := CaptionLetters - 1; most > 0; most-- {
		shorter := filled(s, most)
		if len(shorter) > len(out) {
			break
		}
		out = shorter
	}
	return out
}

// filled breaks s into lines of at most most letters: between words, and
// within a word that is longer than a line.
func filled(s string, most int) (out []string) {
	line, long := "", 0
	for _, word := range strings.Fields(s) {
		n := lettersOf(word)
		if line != "" && long+1+n <= most {
			line, long = line+" "+word, long+1+n
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		for n > most {
			head := firstLetters(word, most)
			out = append(out, head)
			word = word[len(head):]
			n = lettersOf(word)
		}
		line, long = word, n
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

func isMark(r rune) bool { return unicode.In(r, unicode.Mn, unicode.Me) }

// lettersOf counts letters and spaces, without marks that stand on a letter.
func lettersOf(lines ...string) (n int) {
	for _, s := range lines {
		for _, r := range s {
			if !isMark(r) {
				n++
			}
		}
	}
	return n
}

// firstLetters is the beginning of s, of n letters with their marks.
func firstLetters(s string, n int) string {
	for i, r := range s {
		if isMark(r) {
			continue
		}
		if n == 0 {
			return s[:i]
		}
		n--
	}
	return s
}
