package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/output"
)

const drawMore = `
FILE's ending says what is written:
  .png .svg .pdf  the strip; with --neighbours N a lesson: the setup and N
                  neighbours each way on one ruler, with a sentence each
  .gif            the delay sweep: each delay of the window, and those past both
                  its ends; with --play N the exchange, N times slower than the
                  game. GIF times are whole hundredths of a second, at least
                  two: at full speed every second frame is shown, for 3, 4, 3,
                  3, ... hundredths, never off by more than half of one
  .html           a lesson as one page for a browser: every delay of the window
                  and some past both its ends (8, or --neighbours N), each reply,
                  and a slider; with --exercise the reader finds the delay first
  .apng .mp4 .webm, or FOLDER/ with a / at its end
                  a film of the delay sweep; with --play N of the exchange, with
                  --neighbours N of the lesson step by step. .mp4 and .webm need
                  the program ffmpeg. A folder gets numbered PNGs, and a list
                  with their exact rate
  .md             the setup as text: plan, numbers, replies, verdict, source
  .csv            its replies as a table
  .vtt .srt       captions of the delay sweep; with --play of the exchange, with
                  --neighbours of the lesson step by step: two lines of at most
                  42 letters; with --chapters its parts by name alone
  .txt            the same as a script for the voice: sentences with their times
An option that would change nothing in FILE is an error.
--shape makes a picture for a video, with type that is read in it and with free
margins: wide (1920 by 1080), tall (1080 by 1920), square (1080 by 1080), or band
(1920 by 360, the lowest third of a wide one).

--filter TEXT takes all setups that TEXT finds ("" takes all): every word of it
is looked for in their name, fighters, moves, jumps, replies, position, note and
tags; ender:, reply:, verdict: and others look into one part; or, not and
parentheses join them, quotes hold words together. FILE is then a folder that
gets one --format file each, named by --names ({n} {setup} {attacker} {rival}
{ender} {delay}), and contact sheets; or a .pdf, a booklet with contents; an .html,
a lesson page with contents; a .csv, all their replies; a .gif, .apng, .mp4 or
.webm (or with --format frames a folder of numbered PNGs), one film of them, each
after a title, of the delay sweeps or with --play or --neighbours; a .vtt, .srt or
.txt, captions or a script of that film, with --chapters one chapter a setup; or
a .md, what to test of each in the game; with --tests that list as .pdf, .png or
.svg too, to print.
Files of the same names are replaced, others stay.
--mix adds to a lesson, or to a booklet, the mix of the setup's ender, of each once.
--cheat-sheet with --filter writes what to keep in mind of them, as .pdf, .png,
.svg or .csv: inputs, what to read in the game, what beats each; --page a4, letter
or phone is its shape. Unsafe setups are left out.
--attacker A --rival B writes their match-up, every setup against every reply,
as .csv, .png, .svg or .pdf; with --all-replies against every reply that B has.
--attacker A without --rival writes A's cast, each of its setups (with --filter
those that TEXT finds) against every rival, as .png, .svg, .pdf, .csv or .json.
--times TABLE writes captions, .vtt or .srt, for a recorded lesson: TABLE is a
CSV file with the columns setup, from and to, in seconds or 1:15.5; where "to"
is empty the cue ends as the next begins. --chapters writes the setups' names
alone.
--glossary writes the glossary, each word with a small drawing. It takes no
PROJECT.
A setup of several that can't be judged is skipped and named on standard error.
Exit: 0 done; 2 a setup was skipped, invalid arguments or bad input.
`

// drawing is what draw was asked for.
type drawing struct {
	*call
	look
	setup, out, ext                         string
	late                                    int
	delay, neighbours                       *timeline.Maybe
	reply, rise, shape                      string
	filter, format, names, attacker, rival  string
	times                                   string
	allReplies, cheat, glossary, tests, mix bool
}

// drawFlags adds the flags of draw.
func drawFlags(c *call) *drawing {
	d := &drawing{call: c, delay: c.delay("draw"), neighbours: &timeline.Maybe{}}
	o, f := &d.order, c.flags
	d.add(f, ".png, .gif and films", ".png, .svg and films but .mp4", ".pdf, and of a cheat sheet")
	f.StringVar(&d.setup, "setup", "", "draw the setup `NAME`")
	f.StringVar(&d.out, "out", "", "write `FILE`, or with --filter a folder")
	f.StringVar(&d.reply, "reply", "", "show the reply `NAME` instead of the deciding one")
	f.IntVar(&d.late, "late", 0, "with --reply: the one that is `N` frames late")
	f.StringVar(&d.rise, "rise", "", "show the rise `NAME` instead of the deciding one")
	f.Var(maybe{d.neighbours}, "neighbours", "draw a lesson with `N` neighbours each way, 0 to 20; for .html past both ends of the window")
	f.IntVar(&o.Slow, "play", 0, "play the scrub line, `N` times slower than the game, instead of the delay sweep")
	f.Float64Var(&o.H, "height", o.H, "height of a strip in units")
	f.BoolVar(&d.mix, "mix", false, "after a lesson or a booklet: the mix of each ender")
	f.BoolVar(&o.Stage, "stage", false, "draw with each strip where both stand, seen from the side")
	f.BoolVar(&o.Exercise, "exercise", false, "for .html: the reader looks for a safe delay first, with hints")
	f.StringVar(&d.shape, "shape", "", "a picture for a video, of `SHAPE` wide, tall, square or band")
	f.BoolVar(&d.cheat, "cheat-sheet", false, "with --filter: write a cheat sheet")
	f.StringVar(&d.filter, "filter", "", "take all setups that have every word of `TEXT`")
	f.BoolVar(&d.tests, "tests", false, "with --filter: what to test of each setup in the game")
	f.StringVar(&d.format, "format", "png", "`FORMAT` of the files in a folder: "+strings.Join(output.Formats, ", ")+", or "+output.Frames+" for the pictures of one film")
	f.StringVar(&d.names, "names", string(output.DefaultPattern), "`PATTERN` of the names of the files in a folder")
	f.StringVar(&d.attacker, "attacker", "", "write the cast of the fighter `NAME`, or with --rival its match-up")
	f.StringVar(&d.rival, "rival", "", "with --attacker: against the fighter `NAME`")
	f.BoolVar(&d.allReplies, "all-replies", false, "in a match-up: against every reply that the rival has")
	f.StringVar(&d.times, "times", "", "write captions by the times in `TABLE`")
	f.BoolVar(&o.Chapters, "chapters", false, "captions that are the names of the setups, or of the parts, alone")
	f.BoolVar(&d.glossary, "glossary", false, "write the glossary")
	return d
}

// draw writes a setup, or many, as pictures or as text.
func draw(c *call) (int, error) {
	d := drawFlags(c)
	args, err := c.arguments()
	if err != nil {
		return 0, err
	}
	d.ext = strings.TrimPrefix(strings.ToLower(filepath.Ext(d.out)), ".")
	if given(c.flags, "setup") && d.out != "" && os.IsPathSeparator(d.out[len(d.out)-1]) {
		d.ext = output.Frames
	}
	if err := d.check(); err != nil {
		return 0, err
	}
	if d.glossary {
		if len(args) > 0 {
			return 0, usageError{fmt.Sprintf("--glossary: expected no project, got %q", args)}
		}
		return exitDone, d.writeGlossary()
	}
	if len(args) != 1 {
		return 0, usageError{fmt.Sprintf("expected one argument, a project text or a project file, got %q", args)}
	}
	p, err := openSource(args[0])
	if err != nil {
		return 0, err
	}
	defer p.close()
	if d.order.Source, err = p.origin(); err != nil {
		return 0, err
	}
	if d.mix {
		d.order.Mixes = func(s *timeline.Setup) (*report.Mix, error) { return weighed(d.ctx, p, s) }
	}
	switch {
	case d.times != "":
		return d.cues(p)
	case d.rival != "":
		return d.matchup(p)
	case d.attacker != "":
		return exitDone, d.cast(p)
	case given(c.flags, "filter"):
		return d.many(p)
	}
	return exitDone, d.one(p)
}

// one writes one setup.
func (d *drawing) one(p *source) error {
	at, setup, err := p.find("--setup", d.setup)
	if err != nil {
		return err
	}
	made, err := p.plan(at, setup, *d.delay)
	if err != nil {
		return err
	}
	if d.reply != "" || d.rise != "" {
		verdict := words.VerdictAt(made, made.Setup.Delay)
		r, line := made.Deciding(made.Setup.Delay)
		if d.order.Rise, d.order.Line, err = shown(&verdict, d.rise, d.reply, d.late, r, line); err != nil {
			return err
		}
	}
	file, err := d.order.Make(made, d.ext)
	if err != nil {
		return err
	}
	return d.put(file)
}

// put writes a file of one setup, or a film, and tells how far it is.
func (d *drawing) put(file *output.Made) error {
	m := d.meter()
	defer m.end()
	step := func(i int) error {
		m.tell(func() string { return fmt.Sprintf("wrote %d of %s", i, words.Count(len(file.Sheets), "picture")) })
		return d.ctx.Err()
	}
	if d.ext == output.Frames {
		return file.WriteFolder(d.ctx, d.out, step)
	}
	return storage.Replace(d.out, func(w io.Writer) error { return file.WriteBy(w, step) })
}

// origin is what a handout says of where it comes from.
func (s *source) origin() (handout.Source, error) {
	from := handout.Source{Project: filepath.Base(s.path)}
	if s.file == nil {
		return from, nil
	}
	list, err := s.file.Revisions()
	for _, r := range list {
		if r.Latest {
			from.Revision, from.Date, from.Note = r.Name, r.Date, r.Note
		}
	}
	return from, err
}

// shown finds the rise and reply that were asked for; what was not keeps its
// place.
func shown(v *words.Verdict, rise, reply string, late, r, line int) (int, int, error) {
	var names []string
	if rise != "" {
		r = -1
		for i := range v.Rises {
			names = append(names, fmt.Sprintf("%q", v.Rises[i].Rise))
			if v.Rises[i].Rise == rise {
				r = i
			}
		}
		if r < 0 {
			return 0, 0, usageError{fmt.Sprintf("--rise: expected a rise that the setup claims, got %q; there are: %s", rise, strings.Join(names, ", "))}
		}
	}
	if reply == "" {
		return r, line, nil
	}
	names = nil
	for i, got := range v.Rises[r].Replies {
		if got.Reply == reply && got.Late == late {
			return r, i, nil
		}
		names = append(names, lateWords(got.Reply, got.Late))
	}
	return 0, 0, usageError{fmt.Sprintf("--reply: expected a reply of the setup, got %s; there are: %s", lateWords(reply, late), strings.Join(names, ", "))}
}

// lateWords names a reply, and how late it is where it is.
func lateWords(reply string, late int) string {
	if late == 0 {
		return fmt.Sprintf("%q", reply)
	}
	return fmt.Sprintf("%q late %d", reply, late)
}
