package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/ui/output"
	"wakeline/ui/sheet"
)

const drawMore = `
FILE's ending says what is written:
  .png .svg .pdf  the strip; with --neighbours N a lesson: the setup and N
                  neighbours each way on one ruler, with a sentence each
  .gif            the delay swept through the window and past both its ends;
                  with --play N the scrub line, N times slower than the game.
                  A GIF counts hundredths of a second and shows nothing for
                  less than two: of frames of 1/60 s (1 2/3 hundredths) at
                  full speed every second one is shown, for 3, 4, 3, 3, ...
                  hundredths, never off by more than half of one
  .md             the setup in words: plan, numbers, replies, verdict, source
  .csv            its replies as a table

--filter TEXT takes all setups that have every word of TEXT in their name,
fighters, ender, note or tags ("" takes all). FILE is then a folder that gets a
--format file for each, named by --names ({n} {setup} {attacker} {rival}
{ender} {delay}), and contact sheets; or a .pdf, a booklet with contents; or a
.csv, all their replies. Files of the same names are replaced, others stay;
a setup that can't be laid out is skipped and named, and the command ends with 2.
--attacker A --rival B writes their match-up, every setup against every reply,
as .csv, .png, .svg or .pdf; with --all-replies against all that B has.
--times TABLE writes .vtt (WebVTT) for a recorded lesson: TABLE is a CSV file
with the columns setup, from and to, in seconds or 1:15.5; where "to" is empty
the cue ends as the next begins. --chapters writes titles alone.
--glossary writes the terms in use, each with a small drawing; no PROJECT.
`

// drawing is what draw was asked for.
type drawing struct {
	*call
	order                                  output.Order
	setup, out, ext                        string
	delay, late                            int
	reply, rise                            string
	filter, format, names, attacker, rival string
	times                                  string
	chapters, allReplies, glossary         bool
}

// draw writes a setup, or many, as pictures or in words.
func draw(c *call) (int, error) {
	d := &drawing{call: c, order: output.Standard()}
	o := &d.order
	c.flags.StringVar(&d.setup, "setup", "", "the setup to draw")
	c.flags.StringVar(&d.out, "out", "", "the file to write, or with --filter a folder")
	c.flags.IntVar(&d.delay, "delay", -1, "draw at this delay, in frames, instead of the setup's own")
	c.flags.StringVar(&d.reply, "reply", "", "show this reply instead of the one that decides")
	c.flags.IntVar(&d.late, "late", 0, "how many frames late that reply is")
	c.flags.StringVar(&d.rise, "rise", "", "show this rise, for --reply")
	c.flags.IntVar(&o.Neighbours, "neighbours", output.Strip, "draw a lesson with so many neighbours each way, 0 to 20")
	c.flags.IntVar(&o.Slow, "play", 0, "for .gif: play the scrub line, so many times slower than the game")
	theme := c.flags.String("theme", "paper", "paper or night")
	c.flags.Float64Var(&o.W, "width", o.W, "of the sheet, in units; one unit is one pixel at scale 1")
	c.flags.Float64Var(&o.H, "height", o.H, "of a strip, in units")
	c.flags.Float64Var(&o.Scale, "scale", o.Scale, "pixels a unit, for .png and .gif")
	c.flags.BoolVar(&o.Clear, "transparent", false, "without the ground, for .png and .svg")
	page := c.flags.String("page", "a4", "a4 or letter, for .pdf")
	c.flags.StringVar(&d.filter, "filter", "", "take all setups that have these words")
	c.flags.StringVar(&d.format, "format", "png", "of the files in a folder: "+strings.Join(output.Formats, ", "))
	c.flags.StringVar(&d.names, "names", string(output.DefaultPattern), "of the files in a folder")
	c.flags.StringVar(&d.attacker, "attacker", "", "write this fighter's match-up")
	c.flags.StringVar(&d.rival, "rival", "", "against this one")
	c.flags.BoolVar(&d.allReplies, "all-replies", false, "in a match-up: against all that the rival has")
	c.flags.StringVar(&d.times, "times", "", "write WebVTT by this table of times")
	c.flags.BoolVar(&d.chapters, "chapters", false, "WebVTT of titles alone")
	c.flags.BoolVar(&d.glossary, "glossary", false, "write the glossary")
	words, err := c.words()
	if err != nil {
		return 0, err
	}
	d.ext = strings.TrimPrefix(strings.ToLower(filepath.Ext(d.out)), ".")
	if err := d.check(*theme, *page); err != nil {
		return 0, err
	}
	if d.glossary {
		if len(words) > 0 {
			return 0, wrongWords{fmt.Sprintf("--glossary: expected no project, got %q", words)}
		}
		return exitDone, d.writeGlossary()
	}
	if len(words) != 1 {
		return 0, wrongWords{fmt.Sprintf("expected one word, a project text or a project file, got %q", words)}
	}
	p, err := openSource(words[0])
	if err != nil {
		return 0, err
	}
	defer p.close()
	if o.Source, err = p.origin(); err != nil {
		return 0, err
	}
	switch {
	case d.times != "":
		return d.cues(p)
	case d.attacker != "" || d.rival != "":
		return d.matchup(p)
	case given(c.flags, "filter"):
		return d.many(p)
	}
	return exitDone, d.one(p)
}

// one writes one setup.
func (d *drawing) one(p *source) error {
	at, setup, err := p.find(d.setup)
	if err != nil {
		return err
	}
	made, err := p.plan(at, setup, d.delay)
	if err != nil {
		return err
	}
	if d.reply != "" || d.rise != "" {
		verdict := made.Verdict(made.Setup.Delay)
		r, line := made.Deciding(made.Setup.Delay)
		if d.order.Rise, d.order.Line, err = shown(&verdict, d.rise, d.reply, d.late, r, line); err != nil {
			return err
		}
	}
	file, err := d.order.Make(made, d.ext)
	if err != nil {
		return err
	}
	return storage.Replace(d.out, func(w io.Writer) error {
		return file.WriteBy(w, func(int) error { return d.ctx.Err() })
	})
}

// The bounds of a picture, in units and in pixels, and of a lesson.
const (
	maxSide       = 8192
	maxPixels     = 16384
	maxNeighbours = 20
)

// check checks what can be checked before the project is read.
func (d *drawing) check(theme, page string) error {
	fail := func(format string, args ...any) error { return wrongWords{fmt.Sprintf(format, args...)} }
	o := &d.order
	if err := d.wants(); err != nil {
		return err
	}
	if given(d.flags, "delay") && d.delay < 0 {
		return fail("--delay: expected 0 frames or more, got %d", d.delay)
	}
	if given(d.flags, "neighbours") && (o.Neighbours < 0 || o.Neighbours > maxNeighbours) {
		return fail("--neighbours: expected 0 to %d, got %d", maxNeighbours, o.Neighbours)
	}
	if given(d.flags, "play") && (o.Slow < 1 || o.Slow > 100) {
		return fail("--play: expected 1 to 100 times slower, got %d", o.Slow)
	}
	if o.W < sheet.MinW || o.W > maxSide || o.H < sheet.MinH || o.H > maxSide {
		return fail("--width, --height: expected %d to %d by %d to %d units, got %g by %g", sheet.MinW, maxSide, sheet.MinH, maxSide, o.W, o.H)
	}
	if !(o.Scale >= 0.1) || max(o.W, o.H)*o.Scale > maxPixels {
		return fail("--scale: expected at least 0.1, and no side over %d pixels, got %g", maxPixels, o.Scale)
	}
	switch theme {
	case "paper":
	case "night":
		o.Theme = sheet.NightTheme
	default:
		return fail("--theme: expected paper or night, got %q", theme)
	}
	switch page {
	case "a4":
	case "letter":
		o.Page = sheet.Letter
	default:
		return fail("--page: expected a4 or letter, got %q", page)
	}
	return nil
}

// wants checks that one thing is asked for, and that its file's ending fits.
func (d *drawing) wants() error {
	var asked []string
	for _, name := range []string{"setup", "filter", "attacker", "times", "glossary"} {
		if given(d.flags, name) {
			asked = append(asked, "--"+name)
		}
	}
	endings := map[string]string{
		"--setup": strings.Join(output.Formats, " "), "--filter": "", "--attacker": "png svg pdf csv", "--times": "vtt", "--glossary": "png svg pdf",
	}
	switch {
	case len(asked) == 0:
		return wrongWords{"--setup: expected the name of a setup; or --filter, --attacker and --rival, --times or --glossary"}
	case len(asked) > 1:
		return wrongWords{fmt.Sprintf("expected one of %s, got them together", strings.Join(asked, " and "))}
	case asked[0] == "--setup" && d.setup == "":
		return wrongWords{"--setup: expected the name of a setup"}
	case (d.attacker == "") != (d.rival == ""):
		return wrongWords{"--attacker, --rival: expected both"}
	case d.out == "":
		return wrongWords{"--out: expected a file to write"}
	case asked[0] != "--filter" && !slices.Contains(strings.Fields(endings[asked[0]]), d.ext):
		return wrongWords{fmt.Sprintf("--out: expected a file named .%s, got %q", strings.Join(strings.Fields(endings[asked[0]]), ", ."), d.out)}
	}
	return nil
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
			from.Revision, from.Date = r.Name, r.Date
		}
	}
	return from, err
}

// shown finds the rise and reply that were asked for; what was not keeps its
// place.
func shown(v *timeline.Verdict, rise, reply string, late, r, line int) (int, int, error) {
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
			return 0, 0, wrongWords{fmt.Sprintf("--rise: expected a rise that the setup claims, got %q; there are: %s", rise, strings.Join(names, ", "))}
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
		name := fmt.Sprintf("%q", got.Reply)
		if got.Late > 0 {
			name += fmt.Sprintf(" late %d", got.Late)
		}
		names = append(names, name)
	}
	return 0, 0, wrongWords{fmt.Sprintf("--reply: expected a reply of the setup, got %q late %d; there are: %s", reply, late, strings.Join(names, ", "))}
}
