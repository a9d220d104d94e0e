// Command wakeline judges setups and draws them, and keeps them in project
// files; without a command it opens the window. Results go to standard
// output, errors and progress to standard error. It exits with 0 when done,
// with 1 when done and an answer is unsafe, changed or damaged, with 2 on
// invalid arguments or bad input, and with 130 when it was interrupted.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"wakeline/storage"
)

// The exit codes of interfaces.md, and the one by which shells know an
// interrupted program.
const (
	exitDone    = 0
	exitUnsafe  = 1
	exitChanged = 1
	exitDamaged = 1
	exitInvalid = 2
	exitStopped = 130
)

// command is a command of wakeline.
type command struct {
	name, usage, does string
	more              string // what --help says after the flags
	run               func(c *call) (int, error)
}

var commands = []command{
	{"new", "new PROJECT [--sample]",
		"creates an empty project file, named .wakeline", "", newProject},
	{"import", "import PROJECT FILE... [--revision NAME] [--fighter NAME] [--map THEIRS=OURS]... [--skip-bad]",
		"imports project texts (.json) and tables (.csv, .xlsx, .ods) into a project file: all of them or nothing, as one undo step", importMore, importFiles},
	{"export", "export PROJECT FILE",
		"exports the project text, where FILE is named .json; else one move table per fighter, into the folder FILE", exportMore, export},
	{"judge", "judge PROJECT [--setup NAME] [--delay N] [--strict] [--json]",
		"judges one setup or all; PROJECT is a project file (.wakeline) or a project text (.json)", judgeMore, judge},
	{"find", "find PROJECT --setup NAME [--most N] [--fillers M] [--enders] [--json | --out FILE]",
		"searches fillers, a counted wait, a jump and an attack that make a safe jump of that setup's ender on its rival", findMore, findSetups},
	{"cast", "cast PROJECT --attacker NAME [--filter TEXT] [--json]",
		"judges each setup of one fighter against every rival", castMore, castSetups},
	{"mix", "mix PROJECT --setup NAME [--setup NAME]... [--gauge N] [--rival-gauge N] [--hand] [--spread MS] [--carry C] [--json | --out FILE]",
		"weighs several setups of one ender: how often to play each, and the points that a round is worth", mixMore, mixSetups},
	{"finish", "finish PROJECT --setup NAME --reply NAME [--health N] [--gauge N] [--json]",
		"finds the fewest rounds to a knock-out, from a setup on, against one reply", finishMore, finish},
	{"draw", "draw PROJECT (--setup NAME | --filter TEXT | --attacker A --rival B | --times TABLE | --glossary) --out FILE|FOLDER [--neighbours N] [--theme paper|night] [--scale N] [--page a4|letter] ...",
		"draws a setup as .png, .svg, .pdf, .gif, .md or .csv; many setups into a folder or a booklet; a match-up; the glossary; captions for a recorded lesson", drawMore, draw},
	{"compare", "compare PROJECT REVISION REVISION [--json | --out FILE]",
		"lists the setups whose verdict or window changed between two revisions, and by which move", compareMore, compareRevisions},
	{"check", "check PROJECT [--salvage NEW | --restore NEW | --copies]",
		"checks the integrity of the project file", checkMore, check},
}

// call is one use of a command.
type call struct {
	ctx           context.Context // ends on Ctrl+C, and when the system asks the program to end
	out, progress io.Writer       // both write control characters as escapes
	raw           io.Writer       // out as it is, for what is plain already
	meters        io.Writer       // what a meter writes to as it is
	flags         *flag.FlagSet
	args          []string
}

// usageError says which argument of the command line is invalid.
type usageError struct{ what string }

func (e usageError) Error() string { return e.what }

func main() {
	if !opensWindow(os.Args[1:]) {
		useConsole()
	}
	if folder, err := storage.StateFolder(); err == nil {
		storage.Begin(folder)
	}
	code := run(os.Args[1:], os.Stdout, os.Stderr)
	if err := storage.End(patienceAtEnd); err != nil {
		fmt.Fprintf(&plainWriter{to: os.Stderr}, "wakeline: %v\n", err)
	}
	os.Exit(code)
}

// patienceAtEnd is how long the program goes on after its work to keep copies
// of the project files it edited.
const patienceAtEnd = 20 * time.Second

// endings are the signals that ask the program to end.
func endings() []os.Signal {
	all := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) { // as nohup has it
		all = append(all, syscall.SIGHUP)
	}
	return all
}

func run(args []string, out, progress io.Writer) int {
	if len(args) > 0 {
		switch args[0] {
		case "help", "--help", "-h", "-help":
			help(out)
			return exitDone
		case "--version", "-version":
			return version(out, progress)
		case "--licences", "-licences":
			return licences(out, progress)
		}
		for _, c := range commands {
			if c.name == args[0] {
				// The first signal asks the command to end; a second one ends
				// the program.
				ctx, stop := signal.NotifyContext(context.Background(), endings()...)
				context.AfterFunc(ctx, stop)
				defer stop()
				return c.call(ctx, args[1:], out, progress)
			}
		}
	}
	return window(args, progress)
}

// call reads the flags and runs the command.
func (c command) call(ctx context.Context, args []string, out, progress io.Writer) int {
	flags := flag.NewFlagSet(c.name, flag.ContinueOnError)
	meters := progress
	if isTerminal(out) && isTerminal(progress) {
		meters = io.Discard // results that come on a terminal are progress enough
	}
	raw := out
	out, progress = &plainWriter{to: raw}, &plainWriter{to: progress}
	code, err := c.run(&call{ctx: ctx, out: out, progress: progress, raw: raw, meters: meters, flags: flags, args: args})
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprintf(out, "wakeline %s\n    %s\n", c.usage, c.does)
		writeFlags(out, flags)
		fmt.Fprint(out, c.more)
		return exitDone
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(progress, "wakeline %s: %v\n", c.name, err)
		return exitStopped
	case err != nil:
		fmt.Fprintf(progress, "wakeline %s: %v\n", c.name, err)
		if errors.As(err, &usageError{}) {
			fmt.Fprintf(progress, "use: wakeline %s\n", c.usage)
		}
		return exitInvalid
	}
	return code
}

func help(out io.Writer) {
	fmt.Fprint(out, "Wakeline judges safe jumps and other setups to the frame.\n\n",
		"wakeline [PROJECT]\n    opens the window on a project file (.wakeline) or a project text (.json); without one it opens the last project, or the sample\n\n")
	for _, c := range commands {
		fmt.Fprintf(out, "wakeline %s\n    %s\n\n", c.usage, c.does)
	}
	fmt.Fprint(out, "wakeline --version\n    prints the version\n\n",
		"wakeline --licences\n    prints the licences of all that the program is built of\n\n",
		"wakeline COMMAND --help tells more about a command.\n",
		"Exit: 0 done; 1 done, and an answer is unsafe, changed or damaged;\n2 invalid arguments or bad input; 130 interrupted.\n")
}
