package handout

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Source says which data a handout was made from; empty parts are left out.
type Source struct {
	Project  string // the file's name
	Revision string // of the move data
	Date     string // of the revision, 2006-01-02
	Note     string // of the revision, such as where its numbers are from
}

// Markdown writes the setup of a plan, at its own delay, as CommonMark with
// the tables of GitHub Flavored Markdown: the plan, its numbers, every reply,
// the verdict with what it loses to and its neighbours, and the source; worth is
// what its exchanges come to, rise by rise, then what follows the deciding one; both are left out where they tell
// nothing. Names are escaped, so that
// no letter of them is taken for markup.
func Markdown(p *timeline.Plan, worth [][]words.Worth, then *timeline.Sequel, from Source) string {
	s := &p.Setup
	v := words.VerdictAt(p, s.Delay)
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n**%s.** %s\n", escape(s.Name), title(string(v.Called)), escape(v.Because))
	if lost := words.GivesUpAt(p, s.Delay); lost != "" {
		fmt.Fprintf(&b, "\n%s\n", escape(lost))
	}
	if say := words.Then(then); say != "" {
		fmt.Fprintf(&b, "\n%s\n", escape(say))
	}
	if v.Called != timeline.Blank {
		neighbours(&b, &v)
	}
	plan(&b, s, &v)
	numbers(&b, &v)
	for i := range v.Rises {
		if words.Tells(worth) {
			replies(&b, &v.Rises[i], worth[i])
		} else {
			replies(&b, &v.Rises[i], nil)
		}
	}
	if note := strings.TrimSpace(s.Note); note != "" {
		fmt.Fprintf(&b, "\n## Note\n\n%s\n", escape(note))
	}
	source(&b, from)
	return b.String()
}

// neighbours writes the verdicts one frame earlier and one frame later.
func neighbours(b *strings.Builder, v *words.Verdict) {
	lead := "\n"
	for _, n := range []struct {
		when string
		*words.Neighbour
	}{{"earlier", v.Earlier}, {"later", v.Later}} {
		if n.Neighbour != nil {
			fmt.Fprintf(b, "%s- One frame %s, %s: %s\n", lead, n.when, n.Word, escape(n.Because))
			lead = ""
		}
	}
}

// plan writes what the attacker does, in order.
func plan(b *strings.Builder, s *timeline.Setup, v *words.Verdict) {
	fmt.Fprintf(b, "\n## Plan\n\n%s vs %s, %s.\n\n", escape(s.Attacker), escape(s.Rival), s.Position)
	n := 0
	step := func(form string, args ...any) {
		n++
		fmt.Fprintf(b, "%d. %s\n", n, fmt.Sprintf(form, args...))
	}
	if s.Ender != "" {
		step("Ender: %s", escape(s.Ender))
	}
	for _, f := range s.Fillers {
		step("Filler: %s", escape(f))
	}
	if s.Delay > 0 {
		step("Wait %s", words.Frames(s.Delay))
	}
	if s.Jump != "" {
		step("Jump: %s, on frame %v", escape(s.Jump), v.JumpOn)
	}
	if s.Attack != "" {
		press := "as early as it is still active on the last air frame"
		if s.Press.Given {
			press = fmt.Sprintf("on air frame %d", s.Press.N)
		}
		step("Attack: %s, pressed %s", escape(s.Attack), press)
	}
	step("Then: %s, from frame %d", escape(s.Landing), landing(s, v))
}

// landing is the frame that the landing action is there from.
func landing(s *timeline.Setup, v *words.Verdict) int {
	if s.Landing == timeline.DoGuard || s.Landing == timeline.DoParry {
		return v.GuardsFrom.Or(v.ActsFrom)
	}
	return v.ActsFrom
}

// numbers writes the frames that matter.
func numbers(b *strings.Builder, v *words.Verdict) {
	fmt.Fprintf(b, "\n## Numbers\n\n| | |\n|---|---:|\n")
	row := func(name string, n timeline.Maybe) {
		if n.Given {
			fmt.Fprintf(b, "| %s | %d |\n", name, n.N)
		}
	}
	row("Knockdown advantage", timeline.Some(v.Advantage))
	row("Delay", timeline.Some(v.Delay))
	row("Jumps on", v.JumpOn)
	row("Lands on", v.Touchdown)
	row("Guards from", v.GuardsFrom)
	row("Acts from", timeline.Some(v.ActsFrom))
	window := "none"
	if len(v.Window) > 0 {
		var runs []string
		for _, w := range v.Window {
			runs = append(runs, timeline.Window(w).String())
		}
		window = strings.Join(runs, ", ")
	}
	fmt.Fprintf(b, "| Window | %s |\n", window)
	if len(v.Uncovered) > 0 {
		fmt.Fprintf(b, "\nNo timing covers: %s.\n", escape(strings.Join(v.Uncovered, ", ")))
	}
}

// replies writes one rise's exchanges, with what they come to where that is
// given.
func replies(b *strings.Builder, r *timeline.RiseVerdict, worth []words.Worth) {
	more, line := "", ""
	if worth != nil {
		more, line = " Points | Route |", "---:|---|"
	}
	fmt.Fprintf(b, "\n## %s rise, wake-up on %d\n\n| Reply | Demand | Outcome | Meeting | To spare | After wake-up | Advantage | To punish |%s\n|---|---|---|---:|---:|---:|---:|---:|%s\n", title(escape(r.Rise)), r.Wake, more, line)
	for i, c := range r.Replies {
		name := escape(c.Reply)
		if c.Late > 0 {
			name += " late " + strconv.Itoa(c.Late)
		}
		if worth != nil {
			more = fmt.Sprintf(" %s | %s |", number(worth[i].Points), escape(worth[i].Route))
		}
		fmt.Fprintf(b, "| %s | %s | %s | %s | %s | %s | %s | %s |%s\n", name, c.Demand, c.Outcome,
			number(c.Meeting), number(c.Spare), number(c.AfterWake), signed(c.Advantage), signed(c.ToPunish), more)
	}
}

// source says what the handout was made from.
func source(b *strings.Builder, from Source) {
	var say []string
	if from.Project != "" {
		say = append(say, escape(from.Project))
	}
	if from.Revision != "" {
		say = append(say, "revision "+escape(from.Revision))
	}
	if from.Date != "" {
		say = append(say, "of "+escape(from.Date))
	}
	if from.Note != "" {
		say = append(say, escape(from.Note))
	}
	if len(say) > 0 {
		fmt.Fprintf(b, "\n---\n\nSource: %s. Frames are counted from 0, the first on which the attacker may act after the ender.\n", strings.Join(say, ", "))
	}
}

// escape makes text plain in Markdown: one line, with a backslash before what
// could be markup there, and before what could begin a block.
func escape(s string) string {
	var b strings.Builder
	for _, r := range strings.Join(strings.Fields(s), " ") {
		switch {
		case unicode.IsControl(r):
			continue
		case strings.ContainsRune("\\`*_[]<|~&", r), b.Len() == 0 && strings.ContainsRune("#>+-=:", r):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	out := b.String()
	if n := len(out) - len(strings.TrimLeft(out, "0123456789")); n > 0 && n < len(out) && (out[n] == '.' || out[n] == ')') {
		out = out[:n] + "\\" + out[n:] // "1." begins a list
	}
	return out
}

// title is text with its first letter a capital.
func title(s string) string {
	for i, r := range s {
		if i == 0 {
			return string(unicode.ToUpper(r)) + s[len(string(r)):]
		}
	}
	return s
}

func number(m timeline.Maybe) string {
	if !m.Given {
		return ""
	}
	return strconv.Itoa(m.N)
}

func signed(m timeline.Maybe) string {
	if m.Given && m.N >= 0 {
		return "+" + strconv.Itoa(m.N)
	}
	return number(m)
}
