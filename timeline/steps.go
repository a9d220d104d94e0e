package timeline

import (
	"fmt"
	"strconv"
	"strings"
)

// stepSign is what stands before step i of a route or string.
func stepSign(by By, i int) string {
	switch {
	case by == Cancel && i == 0:
		return "> "
	case by == Cancel:
		return " > "
	case i > 0:
		return ", "
	}
	return ""
}

// StepsText writes the steps of a route as a person types them: "jab, jab >
// sweep". A comma stands before a link, a > before a cancel; before the first
// step a > counts after a hit.
func StepsText(steps []RouteStep) string {
	var b strings.Builder
	for i, s := range steps {
		b.WriteString(stepSign(s.By, i))
		b.WriteString(s.Move)
	}
	return b.String()
}

// wantSteps is what is expected of the steps of a route.
const wantSteps = "moves done on the ground, such as jab, jab > sweep: a comma before a link, > before a cancel"

// ReadSteps reads what StepsText writes, of the moves of f, in any case of
// letters. A move's own name may hold a comma or a >. Where the text can't be
// read, want says what was expected, and got what stands there.
func ReadSteps(f *Fighter, text string) (steps []RouteStep, want, got string) {
	rest := strings.TrimSpace(text)
	by := Link
	if cut, ok := strings.CutPrefix(rest, ">"); ok {
		by, rest = Cancel, strings.TrimSpace(cut)
	}
	if rest == "" {
		return nil, wantSteps, "nothing"
	}
	for {
		name, after := firstMove(f, rest)
		m := f.Move(name)
		switch {
		case name == "":
			return nil, wantSteps, "nothing after the last , or >"
		case m == nil:
			return nil, "a move of " + f.Name, quote(name)
		case m.Air:
			return nil, "a move done on the ground", quote(name) + ", an air move"
		}
		steps = append(steps, RouteStep{Move: m.Name, By: by})
		if after == "" {
			return steps, "", ""
		}
		by = Link
		if after[0] == '>' {
			by = Cancel
		}
		rest = strings.TrimSpace(after[1:])
	}
}

// firstMove is the longest beginning of a text that is a move of f and ends
// where a step may; else the text up to the first such end. What comes after
// begins with a comma or a >, or is empty.
func firstMove(f *Fighter, text string) (name, after string) {
	first := len(text)
	for at := len(text); at > 0; at-- {
		if at < len(text) && text[at] != ',' && text[at] != '>' {
			continue
		}
		first = at
		if m := f.typedMove(strings.TrimSpace(text[:at])); m != nil {
			return m.Name, text[at:]
		}
	}
	if text != "" && (text[0] == ',' || text[0] == '>') {
		first = 0
	}
	return strings.TrimSpace(text[:first]), text[first:]
}

// typedMove is the move of f that a person names so, without spaces around it
// and in any case of letters: the one of just that name before others.
func (f *Fighter) typedMove(part string) *Move {
	var like *Move
	for i := range f.Moves {
		switch m := &f.Moves[i]; {
		case m.Name == part:
			return m
		case like == nil && strings.EqualFold(strings.TrimSpace(m.Name), part):
			like = m
		}
	}
	return like
}

// FollowText writes the steps of a string as StepsText does those of a route,
// with the frames that are waited before one: "jab, wait 3 jab > sweep".
func FollowText(steps []FollowStep) string {
	var b strings.Builder
	for i, s := range steps {
		b.WriteString(stepSign(s.By, i))
		if s.Wait > 0 {
			fmt.Fprintf(&b, "wait %d ", s.Wait)
		}
		b.WriteString(s.Move)
	}
	return b.String()
}

// ReadFollow reads what FollowText writes, as ReadSteps does the steps of a
// route; an empty text is no string.
func ReadFollow(f *Fighter, text string) (steps []FollowStep, want, got string) {
	rest := strings.TrimSpace(text)
	if rest == "" {
		return nil, "", ""
	}
	by := Link
	if cut, ok := strings.CutPrefix(rest, ">"); ok {
		by, rest = Cancel, strings.TrimSpace(cut)
	}
	for {
		wait := 0
		if name, _ := firstMove(f, rest); f.Move(name) == nil {
			wait, rest = waited(rest)
		}
		name, after := firstMove(f, rest)
		if f.Move(name) != nil {
			rest = name
		} else {
			rest = strings.TrimSuffix(rest, after)
		}
		one, want, got := ReadSteps(f, rest)
		if want != "" {
			return nil, want, got
		}
		steps = append(steps, FollowStep{Move: one[0].Move, Wait: wait, By: by})
		if after == "" {
			return steps, "", ""
		}
		by = Link
		if after[0] == '>' {
			by = Cancel
		}
		rest = strings.TrimSpace(after[1:])
	}
}

// waited takes "wait 3" off the front of a text.
func waited(text string) (frames int, rest string) {
	word, after, _ := strings.Cut(text, " ")
	number, after, _ := strings.Cut(strings.TrimSpace(after), " ")
	n, err := strconv.Atoi(number)
	if !strings.EqualFold(word, "wait") || err != nil {
		return 0, text
	}
	return n, strings.TrimSpace(after)
}
