package export

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/sheet"
)

// What can be exported, by the words that it is chosen with.
const (
	Screen     = "Strip as shown"
	Strip      = "Strip"
	Lesson     = "Lesson"
	Sweep      = "Delay sweep"
	Playback   = "Playback"
	LessonFilm = "Lesson step by step"
	LessonPage = "Lesson page"
	Words      = "Setup as text"
	Replies    = "Reply table"
	Folder     = "Listed setups: separate files"
	Booklet    = "Listed setups: booklet"
	AllReplies = "Listed setups: reply table"
	CheckList  = "Listed setups: in-game tests"
	Lessons    = "Listed setups: lesson page"
	Found      = "Found setups"
	Enders     = "Found by ender"
	Compared   = "Compare"
	CheatSheet = "Listed setups: cheat sheet"
	Films      = "Listed setups: film"
	Matchup    = "Match-up"
	Mix        = "Mix"
	Cast       = "Cast"
	Finish     = "Finish"
	Captions   = "Captions"
	Glossary   = "Glossary"
)

// kind is one thing that can be exported.
type kind struct {
	name    string
	of      output.Kind
	formats []string
	file    string // what its file is called, after the setup or the project
	make    func(a *order, at context.Context) (*output.Made, error)
}

// listed reports whether it is of the setups that the list shows.
func (k *kind) listed() bool {
	return k.of == output.LessonPage || k.of == output.CheatSheet || k.of == output.Film || k.either()
}

// either reports whether it is of setups listed that may be strips or lessons.
func (k *kind) either() bool {
	return k.of == output.Folder || k.of == output.Booklet || k.of == output.AllReplies || k.of == output.CheckList
}

// target is what is exported in one format; lessons: not strips, where there is
// a choice.
func (k *kind) target(format string, lessons bool) output.Target {
	return output.Target{
		Kind: k.of, Format: format, Play: k.name == Playback,
		Lesson: k.name == Lesson || k.name == LessonFilm || k.either() && lessons,
	}
}

// films are the targets of a film of several setups, by what is chosen of them.
func films(format string) map[string]output.Target {
	return map[string]output.Target{
		Sweep:      {Kind: output.Film, Format: format},
		Playback:   {Kind: output.Film, Format: format, Play: true},
		LessonFilm: {Kind: output.Film, Format: format, Lesson: true},
	}
}

// mayTake reports whether an option means something for the kind, in one of its
// formats.
func (k *kind) mayTake(o output.Option) bool {
	return slices.ContainsFunc(k.formats, func(format string) bool {
		if k.of == output.Film {
			for _, t := range films(format) {
				if t.Takes(o) == nil {
					return true
				}
			}
			return false
		}
		return k.target(format, false).Takes(o) == nil || k.target(format, true).Takes(o) == nil
	})
}

var pictureFormats = []string{"png", "svg", "pdf"}

var kinds = []kind{
	{Screen, output.Screen, pictureFormats, "", func(a *order, _ context.Context) (*output.Made, error) {
		if a.screen == nil {
			return nil, errNoSheet
		}
		return a.Of(a.screen, a.format)
	}},
	{Strip, output.OneSetup, pictureFormats, "", (*order).own},
	{Lesson, output.OneSetup, pictureFormats, " lesson", (*order).own},
	{Sweep, output.OneSetup, slices.Concat([]string{"gif"}, output.FilmFormats, output.SpokenFormats), " sweep", (*order).own},
	{Playback, output.OneSetup, slices.Concat([]string{"gif"}, output.FilmFormats, output.SpokenFormats), " playback", (*order).own},
	{LessonFilm, output.OneSetup, slices.Concat(output.FilmFormats, output.SpokenFormats), " lesson", (*order).own},
	{LessonPage, output.OneSetup, []string{"html"}, " lesson", (*order).own},
	{Words, output.OneSetup, []string{"md"}, "", (*order).own},
	{Replies, output.OneSetup, []string{"csv"}, " replies", (*order).own},
	{Folder, output.Folder, output.Formats, "setups", (*order).first},
	{Booklet, output.Booklet, []string{"pdf"}, "setups", (*order).booklet},
	{Films, output.Film, output.SeveralFilmFormats, "film", (*order).film},
	{Lessons, output.LessonPage, []string{"html"}, "lessons", (*order).lessons},
	{AllReplies, output.AllReplies, []string{"csv"}, "replies", func(a *order, at context.Context) (*output.Made, error) {
		return output.MakeReplies(at, a.index(), a.few(repliesLooked))
	}},
	{CheckList, output.CheckList, output.CheckListFormats, "in-game tests", func(a *order, at context.Context) (*output.Made, error) {
		if !a.streamed() {
			return anyFit(a.MakeCheckSheet(at, a.index(), a.every(), a.title, a.format))
		}
		return output.MakeCheckList(at, a.index(), a.few(repliesLooked), a.title)
	}},
	{Found, output.Found, output.TableFormats, "found", asShown("search first: on the page Find setups, Export… takes its answers", nil)},
	{Enders, output.Enders, output.TableFormats, "by-ender", asShown("search first: on the page Find setups, Export… takes what By ender shows", nil)},
	{Compared, output.Compared, output.TableFormats, "compare", asShown("compare first: on the page Compare, Export… takes what changed", nil)},
	{CheatSheet, output.CheatSheet, output.CheatFormats, "cheat-sheet", (*order).cheatSheet},
	{Matchup, output.Matchup, []string{"png", "svg", "pdf", "csv"}, "match-up", (*order).matchup},
	{Mix, output.Mix, output.MixFormats, "mix", asShown("select a setup first: the mix is of its ender's setups", (*order).mix)},
	{Cast, output.Cast, output.CastFormats, "cast", asShown("select a setup first: the cast is of its attacker's setups", (*order).cast)},
	{Finish, output.Rounds, output.FinishFormats, "finish", asShown("select a setup first: the finish begins with it", (*order).finish)},
	{Captions, output.Captions, output.CueFormats, "captions", (*order).cues},
	{Glossary, output.Words, pictureFormats, "glossary", func(a *order, _ context.Context) (*output.Made, error) { return a.MakeGlossary(a.format) }},
}

// streamed reports whether the file is written one setup at a time, and the
// preview holds the first setups alone.
func (a *order) streamed() bool {
	return a.kind.of == output.AllReplies || a.kind.of == output.CheckList && a.format == "md"
}

// asShown makes what its page shows; where none does, own makes it of the
// chosen setup.
// why says what is to be done where neither can be.
func asShown(why string, own func(a *order, at context.Context) (*output.Made, error)) func(a *order, at context.Context) (*output.Made, error) {
	return func(a *order, at context.Context) (*output.Made, error) {
		switch {
		case a.shown != nil:
			return a.shown.Make(at, &a.Order, a.format)
		case own == nil || !a.chosen:
			return nil, errors.New(why)
		}
		return own(a, at)
	}
}

func kindNames() (out []string) {
	for i := range kinds {
		out = append(out, kinds[i].name)
	}
	return out
}

// KindOf is the kind of what a page shows.
func KindOf(shown *page.Shown) string {
	for i := range kinds {
		if kinds[i].of == shown.Kind {
			return kinds[i].name
		}
	}
	return ""
}

func kindNamed(name string) *kind {
	for i := range kinds {
		if kinds[i].name == name {
			return &kinds[i]
		}
	}
	return &kinds[1]
}

// order is what is asked for, with all that making it needs: it may be made
// behind the window.
type order struct {
	output.Order
	kind   *kind
	format string

	screen *sheet.Drawing // as the window shows it; nil: there is none
	setup  timeline.Setup
	chosen bool // there is a setup
	data   *timeline.Project
	each   output.Each
	listed []int // the setups that the list shows
	title  string
	shown  *page.Shown // as another page shows it; nil: it is worked out
	andMix bool        // after a lesson or a booklet: the mix of each ender
	all    bool        // of a match-up: against all that the rival has
	times  string      // of captions
	names  output.Pattern
}

var (
	errNoSheet = errors.New("there is no sheet: select a setup that can be judged first")
	errNoneFit = errors.New("the list of setups has none that can be judged")
)

// repliesLooked is of how many setups a table of all replies is looked at
// before it is written.
const repliesLooked = 20

// index lays the fighters out once for many setups.
func (a *order) index() *timeline.Index {
	return timeline.NewIndex(a.data.Bare())
}

// widestGIF is how many pixels a GIF is wide at most: all its pictures are in
// memory together.
const widestGIF = 2560

// fits says why a format does not go with the size, or can't be made here; nil
// where it can.
func (a *order) fits() error {
	if a.format == "gif" && a.Shape == nil && a.W*a.Scale > widestGIF {
		return fmt.Errorf("a GIF can be at most %d pixels wide: choose a smaller width or scale", widestGIF)
	}
	if (a.format == "mp4" || a.format == "webm") && !output.HasFFmpeg() {
		return output.ErrNoFFmpeg
	}
	return nil
}

// own makes the chosen setup.
func (a *order) own(ctx context.Context) (*output.Made, error) {
	if !a.chosen {
		return nil, errNoSheet
	}
	if err := a.fits(); err != nil {
		return nil, err
	}
	plan, err := timeline.Compile(a.data, a.setup)
	if err != nil {
		return nil, err
	}
	a.weigh(ctx)
	return a.Make(plan, a.format)
}

// weigh has the mixes follow that are asked for.
func (a *order) weigh(ctx context.Context) {
	if !a.andMix {
		return
	}
	pairs := map[[2]string]model.Pair{}
	a.Mixes = func(s *timeline.Setup) (*report.Mix, error) {
		key := [2]string{s.Attacker, s.Rival}
		pair, ok := pairs[key]
		if !ok {
			var err error
			if pair, err = model.PairOf(ctx, a.each, s.Attacker, s.Rival); err != nil {
				return nil, err
			}
			pairs[key] = pair
		}
		return pair.Weigh(ctx, a.data.Bare(), s.Ender, s.Position)
	}
}

// anyFit says where no setup of the list could be made.
func anyFit(made *output.Made, err error) (*output.Made, error) {
	if errors.Is(err, output.ErrNone) {
		err = errNoneFit
	}
	return made, err
}

// few hands over the first n of the setups listed, in the project's order.
func (a *order) few(n int) output.Each {
	places := slices.Sorted(slices.Values(a.listed))
	places = places[:min(n, len(places))]
	return func(ctx context.Context, do func(s *timeline.Setup) error) error {
		at, next := 0, 0
		err := a.each(ctx, func(s *timeline.Setup) error {
			if next == len(places) {
				return io.EOF
			}
			at++
			if at-1 != places[next] {
				return nil
			}
			next++
			return do(s)
		})
		if errors.Is(err, io.EOF) {
			return nil
		}
		return err
	}
}

// every hands over all setups listed.
func (a *order) every() output.Each { return a.few(len(a.listed)) }

// first makes the first of many files.
func (a *order) first(ctx context.Context) (made *output.Made, err error) {
	if err := a.fits(); err != nil {
		return nil, err
	}
	index := a.index()
	err = a.every()(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		if err != nil || a.Refuses(plan, a.format) != nil { // skipped when they are written, too
			return nil
		}
		if made, err = a.Make(plan, a.format); err == nil {
			err = io.EOF
		}
		return err
	})
	if errors.Is(err, io.EOF) {
		err = nil
	}
	if err == nil && made == nil {
		err = errNoneFit
	}
	return made, err
}

// booklet makes all setups listed into one document; what doesn't fit is left
// out.
func (a *order) booklet(ctx context.Context) (*output.Made, error) {
	if n := len(a.listed); n > output.MostPages {
		return nil, fmt.Errorf("a booklet can hold at most %d setups, and the list has %d: filter it", output.MostPages, n)
	}
	a.weigh(ctx)
	return anyFit(a.MakeBooklet(ctx, a.index(), a.every(), a.title))
}

// film makes all setups listed into one film; what doesn't fit is left out.
func (a *order) film(ctx context.Context) (*output.Made, error) {
	if n := len(a.listed); n > output.MostFilmed {
		return nil, fmt.Errorf("a film can have at most %d setups, and the list has %d: filter it", output.MostFilmed, n)
	}
	if err := a.fits(); err != nil {
		return nil, err
	}
	made, err := a.MakeFilm(ctx, a.index(), a.every(), a.title, a.format)
	if errors.Is(err, output.ErrNone) {
		err = errNoneFit
	}
	return made, err
}

// lessons makes all setups listed into one page for a browser; what doesn't fit
// is left out.
func (a *order) lessons(ctx context.Context) (*output.Made, error) {
	if n := len(a.listed); n > output.MostLessons {
		return nil, fmt.Errorf("a lesson page can hold at most %d setups, and the list has %d: filter it", output.MostLessons, n)
	}
	return anyFit(a.MakeLessonPage(ctx, a.index(), a.every(), a.title))
}

// cheatSheet makes what to keep in mind of the setups listed.
func (a *order) cheatSheet(ctx context.Context) (*output.Made, error) {
	if n := len(a.listed); n > 10*output.MostCheats {
		return nil, fmt.Errorf("a cheat sheet can hold at most %d setups, and the list has %d: filter it", output.MostCheats, n)
	}
	return anyFit(a.MakeCheatSheet(ctx, a.index(), a.every(), a.title, a.format))
}

// matchup makes the chosen setup's match-up.
func (a *order) matchup(ctx context.Context) (*output.Made, error) {
	if !a.chosen {
		return nil, errors.New("select a setup first: the match-up is of its two fighters")
	}
	of := model.MatchupQuery{Attacker: a.setup.Attacker, Rival: a.setup.Rival, All: a.all}
	got, err := of.Judge(ctx, a.each, a.data, func(int, int) {})
	if err != nil {
		return nil, err
	}
	return a.MakeGrid(&got.Grid, a.setup.Attacker, a.setup.Rival, a.format)
}

// mix makes that of the chosen setup's ender.
func (a *order) mix(ctx context.Context) (*output.Made, error) {
	pair, err := model.PairOf(ctx, a.each, a.setup.Attacker, a.setup.Rival)
	if err != nil {
		return nil, err
	}
	got, err := pair.Weigh(ctx, a.data.Bare(), a.setup.Ender, a.setup.Position)
	if err != nil {
		return nil, err
	}
	return a.MakeMix(got, a.format)
}

// cast makes that of the chosen setup's attacker.
func (a *order) cast(ctx context.Context) (*output.Made, error) {
	q := model.CastQuery{Attacker: a.setup.Attacker}
	table, err := q.Table(ctx, a.each, a.data.Bare(), a.format == "json")
	if err != nil {
		return nil, err
	}
	return a.MakeCast(&table, a.format)
}

// finish makes that from the chosen setup on, against the first reply that it is
// asked, from full health.
func (a *order) finish(ctx context.Context) (*output.Made, error) {
	got, q, err := model.FinishFrom(ctx, a.each, a.data.Bare(), a.setup)
	if err != nil {
		return nil, err
	}
	told := report.Finish{Finish: &got.Finish}
	return a.MakeFinish(&output.Finish{Finish: told, Scenes: got.Scenes, Begin: q.Begin.Name, Attacker: q.Begin.Attacker, Rival: q.Begin.Rival,
		Health: q.Health.N, Costs: told.Costs(&q, a.data.Ruleset)}, a.format)
}

// cues makes captions by the table of times.
func (a *order) cues(ctx context.Context) (*output.Made, error) {
	spoken, err := output.ReadTimes(strings.NewReader(a.times))
	if err != nil {
		return nil, err
	}
	wanted := map[string]*timeline.Setup{}
	for _, s := range spoken {
		wanted[s.Setup] = nil
	}
	if err := a.each(ctx, func(s *timeline.Setup) error {
		if _, ok := wanted[s.Name]; ok {
			kept := *s
			wanted[s.Name] = &kept
		}
		return nil
	}); err != nil {
		return nil, err
	}
	index := a.index()
	return output.MakeCues(spoken, a.format, a.Chapters, func(name string) (words.Verdict, error) {
		s := wanted[name]
		if s == nil {
			return words.Verdict{}, fmt.Errorf("expected the name of a setup, got %q", name)
		}
		return words.Judge(index, *s)
	})
}

// batch is what writes all setups listed into a folder.
func (a *order) batch(folder string, tell func(done, of int)) *output.Batch {
	return &output.Batch{Order: a.Order, Folder: folder, Names: a.names, Format: a.format, Title: a.title, Tell: tell}
}
