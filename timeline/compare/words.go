package compare

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"wakeline/timeline/words"
)

// Words says how a setup fares under one state, on one line: "safe: window 0 to
// 2".
func (s *State) Words() string {
	if !s.Judged() {
		return "can't be judged: " + s.Reason
	}
	return fmt.Sprintf("%s: %s", s.Word, words.Window(s.Window, s.Uncovered))
}

// sentence says what changed, and by what: "Safe turned unsafe: Millrace's
// startup went from 4 to 3."
func (c *Change) sentence() string {
	if !c.After.Judged() {
		return upper(fmt.Sprintf("%s before, and now it can't be judged (%s)%s.", c.Before.Word, c.After.Reason, c.blame()))
	}
	if !c.Before.Judged() {
		return upper(fmt.Sprintf("%s now, where it could not be judged before (%s)%s.", c.After.Word, c.Before.Reason, c.blame()))
	}
	var say []string
	if c.Turned() {
		say = append(say, fmt.Sprintf("%s turned %s", c.Before.Word, c.After.Word))
	}
	if len(c.Lost) > 0 {
		say = append(say, "no delay covers "+words.List(c.Lost)+" any more")
	}
	if s := c.windowWords(); s != "" {
		say = append(say, s)
	}
	if len(c.Won) > 0 {
		say = append(say, "some delay covers "+words.List(c.Won)+" now")
	}
	return upper(strings.Join(say, ", ") + c.blame() + ".")
}

// windowWords says what the window does, with both.
func (c *Change) windowWords() string {
	switch c.Shift {
	case Kept:
		return ""
	case Closed:
		return fmt.Sprintf("the window closed (it was %s)", words.Bounds(c.Before.Window))
	case Opened:
		return fmt.Sprintf("a window opened (%s)", words.Bounds(c.After.Window))
	}
	return fmt.Sprintf("the window %s (%s, it was %s)", c.Shift, words.Bounds(c.After.Window), words.Bounds(c.Before.Window))
}

// blame names the causes, after a colon.
func (c *Change) blame() string {
	if len(c.By) == 0 {
		return ""
	}
	out := make([]string, len(c.By))
	for i := range c.By {
		out[i] = c.By[i].words()
	}
	lead := ": "
	switch {
	case c.Together:
		lead = ": only together, "
	case len(out) > 1:
		lead = ": each alone, "
	}
	return lead + strings.Join(out, "; ")
}

// Title names the part: "Ishka's Millrace", "the ruleset".
func (c *Cause) Title() string {
	switch c.Kind {
	case RulesetPart:
		return "the ruleset"
	case FighterPart:
		return "the fighter " + c.Fighter
	case BodyPart:
		return c.Fighter
	case RisePart:
		return fmt.Sprintf("%s's %s rise", c.Fighter, c.Name)
	case ReplyPart:
		return fmt.Sprintf("%s's standing reply %s", c.Fighter, c.Name)
	case RoutePart:
		return fmt.Sprintf("%s's route %s", c.Fighter, c.Name)
	}
	return c.Fighter + "'s " + c.Name
}

// Became says what became of the part, after its title: "startup from 4 to 3;
// damage from 50 to 60", "new".
func (c *Cause) Became() string {
	switch {
	case c.New:
		return "new"
	case c.Gone:
		return "gone"
	case len(c.Fields) == 0:
		return "a jump in one revision and a move in the other"
	}
	out := make([]string, len(c.Fields))
	for i, f := range c.Fields {
		out[i] = fmt.Sprintf("%s from %s to %s", f.Noun, f.Before, f.After)
	}
	return strings.Join(out, "; ")
}

// words says what became of a part.
func (c *Cause) words() string {
	name := c.Name
	switch {
	case c.Kind == RulesetPart:
		name = "the ruleset"
	case c.Kind == FighterPart:
		name = "the fighter " + c.Fighter
	case c.Kind == BodyPart:
		name = c.Fighter
	case c.Kind == RisePart:
		name = fmt.Sprintf("%s's rise %q", c.Fighter, c.Name)
	case c.Jump:
		name = fmt.Sprintf("%s's jump %q", c.Fighter, c.Name)
	}
	switch {
	case c.New:
		return name + " is new"
	case c.Gone:
		return name + " is gone"
	case len(c.Fields) == 0:
		return c.Name + " is a jump in one revision and a move in the other"
	}
	out := make([]string, len(c.Fields))
	for i, f := range c.Fields {
		out[i] = f.Noun
		if i == 0 && (c.Kind == MovePart && !c.Jump || c.Kind == BodyPart) {
			out[i] = name + "'s " + out[i]
		} else if i == 0 {
			out[i] += " of " + name
		} else {
			out[i] = "its " + out[i]
		}
		out[i] += fmt.Sprintf(" went from %s to %s", f.Before, f.After)
	}
	return words.List(out)
}

// upper begins s with a capital.
func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(string(r)) + s[n:]
}
