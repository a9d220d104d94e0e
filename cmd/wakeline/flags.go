package main

import (
	"cmp"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// given reports whether the flag of that name was said.
func given(flags *flag.FlagSet, name string) (said bool) {
	flags.Visit(func(f *flag.Flag) { said = said || f.Name == name })
	return said
}

// maybe is the value of a flag that is a whole number or is left out.
type maybe struct{ to *timeline.Maybe }

func (m maybe) String() string {
	if m.to == nil || !m.to.Given {
		return ""
	}
	return m.to.String()
}

// Set reads a whole number.
func (m maybe) Set(text string) error {
	n, err := strconv.Atoi(text)
	*m.to = timeline.Maybe{N: n, Given: err == nil}
	return err
}

// Get is for a flag.Getter, which says what kind of value is read.
func (m maybe) Get() any { return m.to.N }

// maxDelay is the longest delay that a plan may have, in frames.
const maxDelay = timeline.MaxFrames - 1

// delay adds the flag of another delay than the setup's own.
func (c *call) delay(does string) *timeline.Maybe {
	to := &timeline.Maybe{}
	c.flags.Var(maybe{to}, "delay", does+" at a delay of `N` frames instead of the setup's own")
	return to
}

// checkDelay is an error where no setup can have that delay.
func checkDelay(d timeline.Maybe) error {
	if d.Given && (d.N < 0 || d.N > maxDelay) {
		return usageError{fmt.Sprintf("--delay: expected 0 to %d frames, got %d", maxDelay, d.N)}
	}
	return nil
}

// arguments reads flags and returns what stands between them. After "--"
// nothing is a flag.
func (c *call) arguments() (out []string, err error) {
	for rest := c.args; len(rest) > 0; {
		word := rest[0]
		rest = rest[1:]
		switch {
		case word == "--":
			return append(out, rest...), nil
		case word == "--help" || word == "-help" || word == "-h":
			return nil, flag.ErrHelp
		case len(word) < 2 || word[0] != '-':
			out = append(out, word)
		default:
			if rest, err = c.flag(word, rest); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// flag reads a flag, with its value where that is the next argument, and returns
// what comes after it.
func (c *call) flag(word string, rest []string) ([]string, error) {
	name, value, joined := strings.Cut(strings.TrimPrefix(word[1:], "-"), "=")
	f := c.flags.Lookup(name)
	if f == nil {
		return nil, usageError{fmt.Sprintf("--%s: expected an option of %s", name, c.flags.Name())}
	}
	if !joined {
		switch _, alone := kindOf(f).(bool); {
		case alone:
			value = "true"
		case len(rest) == 0:
			return nil, usageError{fmt.Sprintf("--%s: expected a value after it, got nothing", name)}
		default:
			value, rest = rest[0], rest[1:]
		}
	}
	if err := c.flags.Set(name, value); err != nil {
		switch kindOf(f).(type) {
		case bool:
			err = fmt.Errorf("expected no value, true or false, got %q", value)
		case int:
			err = fmt.Errorf("expected a whole number, got %q", value)
		case float64:
			err = fmt.Errorf("expected a number, got %q", value)
		}
		return nil, usageError{fmt.Sprintf("--%s: %v", name, err)}
	}
	return rest, nil
}

// kindOf is a value of the kind that a flag reads; nil where it reads its value
// by itself.
func kindOf(f *flag.Flag) any {
	if get, ok := f.Value.(flag.Getter); ok {
		return get.Get()
	}
	return nil
}

// parse reads flags and the one argument that the command asks for.
func (c *call) parse(what string) (string, error) {
	got, err := c.arguments()
	switch {
	case err != nil:
		return "", err
	case len(got) == 0:
		return "", usageError{"expected " + what}
	case len(got) > 1:
		return "", usageError{fmt.Sprintf("expected one argument, %s, got %q", what, got)}
	}
	return got[0], nil
}

// writeFlags lists the flags of a command for its help. The default of a flag
// that is off, empty or 0 without it is not told.
func writeFlags(out io.Writer, flags *flag.FlagSet) {
	kinds := map[string]string{"int": "N", "float": "N", "string": "TEXT"}
	before := "\n"
	flags.VisitAll(func(f *flag.Flag) {
		value, does := flag.UnquoteUsage(f)
		if value != "" {
			value = " " + cmp.Or(kinds[value], value)
		}
		if f.DefValue != "" && f.DefValue != "0" && f.DefValue != "false" {
			does += fmt.Sprintf(" (default %s)", f.DefValue)
		}
		fmt.Fprintf(out, "%s  --%s%s\n      %s\n", before, f.Name, value, does)
		before = ""
	})
}
