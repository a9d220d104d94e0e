package output

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Kind is what an export is of.
type Kind uint8

// The kinds.
const (
	OneSetup   Kind = iota // one setup: its strip, lesson, GIF, text or replies
	Screen                 // the sheet as the window shows it
	Folder                 // many setups, one file each
	Booklet                // many setups in one PDF
	AllReplies             // the replies of many setups in one table
	Matchup                // every setup of two fighters against every reply
	Captions               // for a recording, by a table of times
	Words                  // the glossary
	CheckList              // what to test in the game, of many setups
	Mix                    // several setups of one ender, weighed together
	Cast                   // the setups of one fighter against every rival
	LessonPage             // many setups as one page for a browser
	Rounds                 // the fewest rounds to a knock-out
	Found                  // the answers of a search, in a table
	Enders                 // what a search found by ender, in a table
	Compared               // what changed between two revisions, in a table
	CheatSheet             // what to keep in mind of many setups, on one page
	Film                   // many setups in one film, or what is said to it
)

// Target is the file, or the folder of files, that an export writes.
type Target struct {
	Kind   Kind
	Format string // its ending, without the point
	Lesson bool   // of one setup or many: lessons instead of strips
	Shape  string // of a video; empty: none
	Play   bool   // of a film: the exchange played instead of the delay sweep
}

// Option is a choice that some targets have no use for.
type Option uint8

// The options.
const (
	Exchange      Option = iota // the rise and reply that are shown, and how late
	Delay                       // another delay than the setup's own
	Neighbours                  // the steps before and after, of a lesson
	Speed                       // how many times slower a film plays
	Hold                        // how long a film shows each delay
	ThemeOption                 // paper or night
	Width                       // in units
	Height                      // in units
	Scale                       // pixels per unit
	Transparent                 // without the background
	SideView                    // where both stand, with each strip
	Shape                       // of a picture in a video
	Paper                       // the page's size
	FileNames                   // the pattern of the names in a folder
	FileFormat                  // the format of the files in a folder
	EveryReply                  // of a match-up: all that the rival has
	ChapterTitles               // of captions: the titles alone
	WithMix                     // the mix of the setup's ender, after a lesson or a booklet
	AsExercise                  // of a page for a browser: the reader looks for the delay
)

// use is where an option has an effect.
type use struct {
	formats string // with a blank between; empty: all
	kinds   []Kind // empty: all
	of      string // the kinds in words
}

var (
	many   = []Kind{OneSetup, Folder, Film}
	drawn  = "png svg pdf gif"
	spoken = strings.Join(SpokenFormats, " ")
	moved  = strings.Join(FilmFormats, " ")
	films  = "gif " + moved + " " + spoken // that are, or go with, a moving picture
)

var uses = [...]use{
	Exchange:      {drawn + " " + moved + " " + spoken, []Kind{OneSetup}, "one setup"},
	Delay:         {"", []Kind{OneSetup}, "one setup"},
	Neighbours:    {"png svg pdf html " + moved + " " + spoken, []Kind{OneSetup, Folder, Booklet, LessonPage, Film}, "setups"},
	Speed:         {films, many, "setups"},
	Hold:          {films, many, "setups"},
	ThemeOption:   {formats: drawn + " " + moved},
	Width:         {"png svg gif " + moved, []Kind{OneSetup, Folder, Film, Matchup, Words, Mix, Cast, Rounds, Found, Enders, Compared, CheatSheet, CheckList}, "pictures that are drawn anew"},
	Height:        {"png svg gif " + moved, many, "setups"},
	Scale:         {formats: "png gif " + moved},
	Transparent:   {formats: "png svg apng webm frames"},
	SideView:      {drawn + " " + moved, []Kind{OneSetup, Folder, Booklet, Film}, "setups"},
	Shape:         {"png svg gif " + moved, many, "setups"},
	Paper:         {formats: "pdf"},
	FileNames:     {kinds: []Kind{Folder}, of: "a folder of files"},
	FileFormat:    {kinds: []Kind{Folder}, of: "a folder of files"},
	EveryReply:    {kinds: []Kind{Matchup}, of: "match-ups"},
	ChapterTitles: {"vtt srt", []Kind{Captions, OneSetup, Film}, "captions"},
	WithMix:       {"png svg pdf", []Kind{OneSetup, Booklet}, "lessons and booklets"},
	AsExercise:    {formats: "html"},
}

// Takes reports whether o changes what is written for the target: nil, or an
// error that says what the option applies to.
func (t Target) Takes(o Option) error {
	u := &uses[o]
	formats := strings.Fields(u.formats)
	if t.Kind != OneSetup && t.Kind != Film {
		formats = slices.DeleteFunc(formats, func(f string) bool {
			return slices.Contains(FilmFormats, f) || t.Kind != Captions && slices.Contains(SpokenFormats, f)
		})
	}
	switch {
	case o == FileFormat && t.Kind == Film && t.Format == Frames: // it asks for them
		return nil
	case o == Paper && t.Kind == CheatSheet && t.Format != "csv": // its shape
		return nil
	case len(u.kinds) > 0 && !slices.Contains(u.kinds, t.Kind):
		return fmt.Errorf("applies to %s only", u.of)
	case len(formats) > 0 && !slices.Contains(formats, t.Format):
		return fmt.Errorf("applies to %s only", inWords(formats))
	case o == Exchange && !t.Lesson && !t.Play && slices.Contains(SpokenFormats, t.Format):
		return errors.New("applies to what is said of a lesson or a playback only")
	case t.Shape != "" && (o == Width || o == Height || o == Scale):
		return errors.New("applies to pictures without a shape only")
	case o == Shape && t.Lesson && slices.Contains([]string{"png", "svg"}, t.Format):
		return errors.New("applies to strips only: a lesson is as high as its steps")
	case o == Hold && (t.Play || t.Lesson && t.Format != "gif"):
		return errors.New("applies to a delay sweep only")
	case o == Speed && !t.Play:
		return errors.New("applies to playback only")
	case o == WithMix && t.Kind == OneSetup && !t.Lesson:
		return errors.New("applies to lessons and booklets only")
	case o == Neighbours && !t.Lesson:
		return errors.New("applies to lessons only")
	case o == Height && t.Lesson && slices.Contains([]string{"png", "svg", "pdf"}, t.Format):
		return errors.New("applies to strips only: a lesson is as high as its steps")
	}
	return nil
}

// inWords lists formats: "PNG, SVG and GIF"; those of films and of what is said
// together, as "films" and "captions".
func inWords(formats []string) string {
	var names []string
	groups := [...]struct {
		name string
		of   []string
	}{{"films", FilmFormats}, {"captions", SpokenFormats}}
	in := func(f string) bool { return slices.Contains(formats, f) }
	for _, f := range formats {
		name := strings.ToUpper(f)
		for _, g := range groups {
			if slices.Contains(g.of, f) && !slices.ContainsFunc(g.of, func(f string) bool { return !in(f) }) {
				name = g.name
			}
		}
		if name == "FRAMES" {
			name = "frames"
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	all := strings.Join(names, ", ")
	if i := strings.LastIndex(all, ", "); i >= 0 {
		return all[:i] + " and " + all[i+2:]
	}
	return all
}
