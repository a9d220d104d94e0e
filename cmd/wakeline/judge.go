package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"strconv"
	"unicode/utf8"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

const judgeMore = `
A setup that can't be judged, because it runs past the last frame, is reported
in its place. The others are judged all the same, and at the end standard error
names those that can't be.
Exit: 0 done; 1 a setup is unsafe, or with --strict limited; 2 a setup can't be
judged, invalid arguments or bad input.

--json prints one document, {"setups": [...]}. A setup that can't be judged
stands in it as {"setup": "...", "error": "..."}.
`

// judge prints the verdict of one setup or of all.
func judge(c *call) (int, error) {
	setup := c.flags.String("setup", "", "judge the setup `NAME` alone")
	delay := c.delay("judge")
	strict := c.flags.Bool("strict", false, "exit with 1 on a limited verdict too")
	asJSON := c.flags.Bool("json", false, "print JSON")
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	if err := checkDelay(*delay); err != nil {
		return 0, err
	}
	p, err := openSource(path)
	if err != nil {
		return 0, err
	}
	defer p.close()
	each := p.each
	if given(c.flags, "setup") {
		at, one, err := p.find("--setup", *setup)
		if err != nil {
			return 0, err
		}
		each = func(_ context.Context, do func(int, *timeline.Setup) error) error { return do(at, &one) }
	}
	out := newRoll(c.out, false)
	if *asJSON {
		out = newRoll(c.raw, true)
	}
	book := value.NewBook(p.data)
	count, code := 0, exitDone
	var failed []string
	m := c.meter()
	defer m.end()
	err = inOrder(c.ctx, each, func(at int, s *timeline.Setup) (judged, error) {
		var worth value.Answer
		then := ""
		v, err := p.judge(at, *s, *delay, func(m *timeline.Meetings) {
			worth = book.Of(m, value.Gauges{})
			if q := book.Sequel(m, value.Gauges{}, m.Deciding()); q != nil && q.Kind != timeline.Guarded { // the string is told for all
				then = words.Then(q)
			}
		})
		if err != nil && given(c.flags, "setup") {
			return judged{}, err
		}
		if err != nil {
			return judged{failed: s.Name, text: out.failure(s.Name, err)}, nil
		}
		text, err := out.text(&v, &worth, then)
		return judged{word: v.Word, text: text}, err
	}, func(j judged) error {
		if j.word == timeline.Unsafe || *strict && j.word == timeline.Limited {
			code = exitUnsafe
		}
		if j.word == "" {
			failed = append(failed, j.failed)
		}
		count++
		m.tell(func() string { return fmt.Sprintf("judged %d setups", count) })
		return out.add(j.text)
	})
	if err != nil {
		return 0, stopped(c.ctx, err, count, "judged")
	}
	if err := out.end(); err != nil {
		return 0, err
	}
	if len(failed) > 0 {
		return 0, fmt.Errorf("%d of %d setups can't be judged: %s", len(failed), count, some(failed))
	}
	return code, nil
}

// judged is a setup's verdict, and what is printed of it.
type judged struct {
	word   timeline.Word // empty where it can't be judged
	failed string        // its name then
	text   []byte
}

// stopped says how far a command came that Ctrl+C ended; another error is
// returned as it is.
func stopped(ctx context.Context, err error, count int, did string) error {
	if ctx.Err() == nil {
		return err
	}
	return fmt.Errorf("stopped after %d setups were %s: %w", count, did, context.Canceled)
}

// heldBack is how much of an answer is kept until it is known that it comes
// to its end: where a small project can't be read to its end, nothing of it is
// printed.
const heldBack = 1 << 20

// roll prints verdicts one by one, as text or as one JSON document.
type roll struct {
	out    *bufio.Writer
	asJSON bool
	begun  bool
}

func newRoll(out io.Writer, asJSON bool) *roll {
	return &roll{out: bufio.NewWriterSize(out, heldBack), asJSON: asJSON}
}

// text is what is printed of one verdict; it may be called on any goroutine.
func (r *roll) text(v *words.Verdict, worth *value.Answer, then string) ([]byte, error) {
	if r.asJSON {
		return verdictJSON(v, worth), nil
	}
	var b bytes.Buffer
	err := say(&b, v, worth, then)
	return b.Bytes(), err
}

// failure is what is printed in the place of a setup that can't be judged; it
// may be called on any goroutine.
func (r *roll) failure(setup string, why error) []byte {
	if r.asJSON {
		return failureJSON(setup, why.Error())
	}
	return fmt.Appendf(nil, "%s: can't be judged\n  %v\n", setup, why)
}

// add prints what text or failure made.
func (r *roll) add(text []byte) error {
	between := "\n"
	switch {
	case r.asJSON && r.begun:
		between = ",\n  "
	case r.asJSON:
		between = "{\n \"setups\": [\n  "
	case !r.begun:
		between = ""
	}
	r.begun = true
	r.out.WriteString(between)
	_, err := r.out.Write(text) // a bufio.Writer keeps its first error
	return err
}

// end prints what comes after the last verdict. Without it a JSON document
// stays open, so that nobody takes a part for the whole.
func (r *roll) end() error {
	switch {
	case r.asJSON && r.begun:
		r.out.WriteString("\n ]\n}\n")
	case r.asJSON:
		r.out.WriteString("{\n \"setups\": []\n}\n")
	}
	return r.out.Flush()
}

// say writes one verdict for people: the answer first, then why, then the
// replies.
func say(out io.Writer, v *words.Verdict, worth *value.Answer, then string) error {
	fmt.Fprintf(out, "%s: %s\n", v.Setup, v.Word)
	fmt.Fprintf(out, "  %s\n", v.Because)
	if v.Earlier != nil {
		fmt.Fprintf(out, "  One frame earlier, %s: %s\n", v.Earlier.Word, v.Earlier.Because)
	}
	if v.Later != nil {
		fmt.Fprintf(out, "  One frame later, %s: %s\n", v.Later.Word, v.Later.Because)
	}
	ground := ""
	if v.Distance.Given {
		ground = fmt.Sprintf(", distance %v", v.Distance)
	}
	if v.Room.Given {
		ground += fmt.Sprintf(", room %v", v.Room)
	}
	fmt.Fprintf(out, "  knockdown advantage %d%s, delay %d, %s\n", v.Advantage, ground, v.Delay, words.Window(v.Window, v.Uncovered))
	if v.JumpOn.Given {
		fmt.Fprintf(out, "  jumps on %v, lands on %v, guards from %v, acts from %d\n", v.JumpOn, v.Touchdown, v.GuardsFrom, v.ActsFrom)
	} else {
		fmt.Fprintf(out, "  acts from %d\n", v.ActsFrom)
	}
	for _, line := range words.Holds(&v.Verdict) {
		fmt.Fprintf(out, "  %s\n", line)
	}
	if then != "" {
		fmt.Fprintf(out, "  %s\n", then)
	}
	sayWorth(out, worth)
	_, err := out.Write(replyTable(v))
	return err
}

// replyTable lays the exchanges out in columns, a block a rise. The last one,
// where both stand, is there where the distance is known.
func replyTable(v *words.Verdict) []byte {
	const most, between = 9, 2
	columns := most
	if !v.Distance.Given {
		columns--
	}
	var rows [][most]string
	for _, rise := range v.Rises {
		rows = append(rows, [most]string{fmt.Sprintf("  %s rise, wake-up on %d", rise.Rise, rise.Wake), "demand", "outcome", "meeting", "to spare", "after wake-up", "advantage", "to punish", "place"})
		for _, r := range rise.Replies {
			name := "    " + r.Reply
			if r.Late > 0 {
				name += " late " + strconv.Itoa(r.Late)
			}
			place := words.Place(&r)
			if place == "" {
				place = "-"
			}
			rows = append(rows, [most]string{name, string(r.Demand), r.Outcome.String(),
				number(r.Meeting), number(r.Spare), number(r.AfterWake), signed(r.Advantage), signed(r.ToPunish), place})
		}
	}
	var widths [most]int
	size := 0
	for i := range rows {
		for k, cell := range rows[i][:columns] {
			widths[k] = max(widths[k], utf8.RuneCountInString(cell)+between)
			size += len(cell)
		}
	}
	out := make([]byte, 0, size+len(rows)*columns*12)
	for i := range rows {
		for k, cell := range rows[i][:columns] {
			out = append(out, cell...)
			for n := utf8.RuneCountInString(cell); k < columns-1 && n < widths[k]; n++ {
				out = append(out, ' ')
			}
		}
		out = append(out, '\n')
	}
	return out
}

func number(m timeline.Maybe) string {
	if !m.Given {
		return "-"
	}
	return strconv.Itoa(m.N)
}

func signed(m timeline.Maybe) string {
	if !m.Given {
		return "-"
	}
	if m.N < 0 {
		return strconv.Itoa(m.N)
	}
	return "+" + strconv.Itoa(m.N)
}
