package main

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/output"
	"wakeline/ui/sheet"
)

// The bounds of a picture, in units and in pixels, and of a lesson.
const (
	maxSide       = 8192
	maxPixels     = 16384
	maxNeighbours = 20
	maxSlow       = 100
)

// check checks what can be checked before the project is read.
func (d *drawing) check() error {
	fail := func(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }
	kind, err := d.wants()
	if err != nil {
		return err
	}
	if err := d.checkExchange(); err != nil {
		return err
	}
	o := &d.order
	if n := *d.neighbours; n.Given {
		if n.N < 0 || n.N > maxNeighbours {
			return fail("--neighbours: expected 0 to %d, got %d", maxNeighbours, n.N)
		}
		o.Neighbours = n.N
	}
	if given(d.flags, "play") && (o.Slow < 1 || o.Slow > maxSlow) {
		return fail("--play: expected 1 to %d times slower, got %d", maxSlow, o.Slow)
	}
	if !(o.H >= sheet.MinH && o.H <= maxSide) {
		return fail("--height: expected %d to %d units, got %g", sheet.MinH, maxSide, o.H)
	}
	if err := d.look.check(); err != nil {
		return err
	}
	if given(d.flags, "shape") {
		if o.Shape = sheet.VideoShapeNamed(d.shape); o.Shape == nil {
			return fail("--shape: expected wide, tall, square or band, got %q", d.shape)
		}
	}
	to := output.Target{Kind: kind, Format: d.ext, Lesson: d.neighbours.Given, Play: given(d.flags, "play"), Shape: d.shape}
	if kind == output.Folder {
		to.Format = d.format
	}
	return applies(d.flags, to)
}

// checkExchange checks what says which exchange is shown.
func (d *drawing) checkExchange() error {
	switch {
	case given(d.flags, "late") && (d.late < 0 || d.late > timeline.MaxFrames):
		return usageError{fmt.Sprintf("--late: expected 0 to %d frames, got %d", timeline.MaxFrames, d.late)}
	case given(d.flags, "late") && !given(d.flags, "reply"):
		return usageError{"--late: expected --reply beside it"}
	case given(d.flags, "reply") && d.reply == "":
		return usageError{"--reply: expected the name of a reply, got nothing"}
	case given(d.flags, "rise") && d.rise == "":
		return usageError{"--rise: expected the name of a rise, got nothing"}
	}
	return checkDelay(*d.delay)
}

// wants checks that one thing is asked for, and that its file's ending fits. It
// returns what is written.
func (d *drawing) wants() (output.Kind, error) {
	var asked []string
	ofCast := given(d.flags, "attacker") && !given(d.flags, "rival")
	for _, name := range []string{"setup", "filter", "attacker", "times", "glossary"} {
		if given(d.flags, name) && !(ofCast && name == "filter") {
			asked = append(asked, "--"+name)
		}
	}
	kinds := map[string]output.Kind{
		"--setup": output.OneSetup, "--filter": output.Folder, "--attacker": output.Matchup, "--times": output.Captions, "--glossary": output.Words,
	}
	endings := map[string]string{
		"--setup": strings.Join(slices.Concat(output.Formats, output.FilmFormats, output.SpokenFormats), " "), "--attacker": "png svg pdf csv", "--times": strings.Join(output.CueFormats, " "), "--glossary": "png svg pdf",
	}
	if ofCast {
		kinds["--attacker"], endings["--attacker"] = output.Cast, strings.Join(output.CastFormats, " ")
	}
	switch {
	case len(asked) == 0:
		return 0, usageError{"--setup: expected the name of a setup; or --filter, --attacker (and --rival), --times or --glossary"}
	case len(asked) > 1:
		return 0, usageError{fmt.Sprintf("expected one of %s, got them together", strings.Join(asked, " and "))}
	case asked[0] == "--setup" && d.setup == "":
		return 0, usageError{"--setup: expected the name of a setup"}
	case given(d.flags, "rival") && (d.attacker == "" || d.rival == ""):
		return 0, usageError{"--attacker, --rival: expected both"}
	case ofCast && d.attacker == "":
		return 0, usageError{"--attacker: expected the name of a fighter"}
	case asked[0] == "--times" && d.times == "":
		return 0, usageError{"--times: expected a table of times"}
	case given(d.flags, "neighbours") && given(d.flags, "play"):
		return 0, usageError{"--neighbours, --play: expected one of them, got them together"}
	case d.cheat && asked[0] != "--filter":
		return 0, usageError{"--cheat-sheet: expected --filter beside it"}
	case d.cheat && d.tests:
		return 0, usageError{"--cheat-sheet, --tests: expected one of them, got them together"}
	case d.tests && asked[0] != "--filter":
		return 0, usageError{"--tests: expected --filter beside it"}
	case d.out == "":
		return 0, usageError{"--out: expected a file to write"}
	case asked[0] == "--filter":
		return d.wantsMany()
	case !slices.Contains(strings.Fields(endings[asked[0]]), d.ext):
		names := "a file named ." + strings.Join(strings.Fields(endings[asked[0]]), ", .")
		return 0, usageError{fmt.Sprintf("--out: expected %s, got %q", strings.Replace(names, ", ."+output.Frames, ", a folder named with a / at its end", 1), d.out)}
	}
	return kinds[asked[0]], nil
}

// wantsMany is wants of all setups that pass a filter.
func (d *drawing) wantsMany() (output.Kind, error) {
	switch {
	case d.cheat && !slices.Contains(output.CheatFormats, d.ext):
		return 0, usageError{fmt.Sprintf("--out: with --cheat-sheet expected a file named .%s, got %q", strings.Join(output.CheatFormats, ", ."), d.out)}
	case d.cheat:
		return output.CheatSheet, nil
	case d.tests && !slices.Contains(output.CheckListFormats, d.ext):
		return 0, usageError{fmt.Sprintf("--out: with --tests expected a file named .%s, got %q", strings.Join(output.CheckListFormats, ", ."), d.out)}
	case d.tests:
		return output.CheckList, nil
	case d.ext == "pdf":
		return output.Booklet, nil
	case d.ext == "html":
		return output.LessonPage, nil
	case d.ext == "csv":
		return output.AllReplies, nil
	case d.ext == "md":
		return output.CheckList, nil
	case d.ext != output.Frames && slices.Contains(output.SeveralFilmFormats, d.ext):
		return output.Film, nil
	case d.ext == "png" || d.ext == "svg":
		return 0, usageError{fmt.Sprintf("--out: with --filter expected a folder, a film (.gif, .apng, .mp4 or .webm), its captions (.vtt, .srt or .txt), a .pdf, an .html, a .csv or a .md, got %q", d.out)}
	case d.format == output.Frames:
		d.ext = output.Frames
		return output.Film, nil
	case !slices.Contains(output.Formats, d.format):
		return 0, usageError{fmt.Sprintf("--format: expected one of %s, or %s for the pictures of one film, got %q", strings.Join(output.Formats, ", "), output.Frames, d.format)}
	}
	if err := output.Pattern(d.names).Check(); err != nil {
		return 0, usageError{"--names: " + err.Error()}
	}
	d.ext = "" // whatever the folder is called
	return output.Folder, nil
}

// options are the flags that some files have no use for.
var options = map[string]output.Option{
	"reply": output.Exchange, "late": output.Exchange, "rise": output.Exchange, "delay": output.Delay,
	"neighbours": output.Neighbours, "play": output.Speed, "theme": output.ThemeOption, "width": output.Width, "height": output.Height,
	"scale": output.Scale, "transparent": output.Transparent, "stage": output.SideView, "mix": output.WithMix, "shape": output.Shape, "page": output.Paper, "names": output.FileNames, "format": output.FileFormat,
	"all-replies": output.EveryReply, "exercise": output.AsExercise, "chapters": output.ChapterTitles,
}
