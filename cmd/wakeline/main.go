// Command wakeline judges setups and draws them; without a command it opens
// the window. Results go to standard output, errors and progress to standard
// error. It exits with 0 when done, with 1 when done and an answer is unsafe,
// and with 2 on wrong words or bad input.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
)

// The exit codes of interfaces.md.
const (
	exitDone   = 0
	exitUnsafe = 1
	exitWrong  = 2
)

// command is one word that wakeline knows.
type command struct {
	name, usage, does string
	run               func(c *call) (int, error)
}

var commands = []command{
	{"judge", "judge PROJECT [--setup NAME] [--delay N] [--strict] [--json]",
		"the verdict of one setup or of all; PROJECT is a project text (.json)", judge},
	{"draw", "draw PROJECT --setup NAME --out FILE [--delay N] [--reply NAME] [--late N] [--rise NAME] [--theme paper|night] [--width N] [--height N] [--scale X]",
		"the strip of a setup as .png or .svg", draw},
}

// call is one use of a command.
type call struct {
	out, progress io.Writer
	flags         *flag.FlagSet
	args          []string
}

// wrongWords is an error in how the program was called.
type wrongWords struct{ what string }

func (e wrongWords) Error() string { return e.what }

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, progress io.Writer) int {
	if len(args) > 0 {
		switch args[0] {
		case "help", "--help", "-h", "-help":
			help(out)
			return exitDone
		}
		for _, c := range commands {
			if c.name == args[0] {
				return c.call(args[1:], out, progress)
			}
		}
	}
	return window(args, progress)
}

// call reads the flags and runs the command.
func (c command) call(args []string, out, progress io.Writer) int {
	flags := flag.NewFlagSet(c.name, flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	code, err := c.run(&call{out: out, progress: progress, flags: flags, args: args})
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprintf(out, "wakeline %s\n    %s\n\n", c.usage, c.does)
		flags.SetOutput(out)
		flags.PrintDefaults()
		return exitDone
	case err != nil:
		fmt.Fprintf(progress, "wakeline %s: %v\n", c.name, err)
		if errors.As(err, &wrongWords{}) {
			fmt.Fprintf(progress, "use: wakeline %s\n", c.usage)
		}
		return exitWrong
	}
	return code
}

// parse reads flags and the words between them, in any order, and returns the
// one word the command asks for.
func (c *call) parse(what string) (string, error) {
	var words []string
	rest := c.args
	for {
		if err := c.flags.Parse(rest); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return "", err
			}
			return "", wrongWords{err.Error()}
		}
		if rest = c.flags.Args(); len(rest) == 0 {
			break
		}
		words = append(words, rest[0])
		rest = rest[1:]
	}
	switch len(words) {
	case 0:
		return "", wrongWords{"expected " + what}
	case 1:
		return words[0], nil
	}
	return "", wrongWords{fmt.Sprintf("expected one word, %s, got %q", what, words)}
}

func help(out io.Writer) {
	fmt.Fprint(out, "Wakeline judges safe jumps and other setups to the frame.\n\n",
		"wakeline [PROJECT]\n    opens the window on a project text (.json), or on the sample\n\n")
	for _, c := range commands {
		fmt.Fprintf(out, "wakeline %s\n    %s\n\n", c.usage, c.does)
	}
	names := []string{}
	for _, c := range commands {
		names = append(names, c.name)
	}
	fmt.Fprintf(out, "wakeline %s --help tells more. Exit: 0 done, 1 done and an answer is unsafe, 2 wrong words or bad input.\n", strings.Join(names, "|"))
}
