package output

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// changes are the options that an order holds, each with a change of it.
var changes = []struct {
	name   string
	option Option
	change func(o *Order)
}{
	{"exchange", Exchange, func(o *Order) { o.Rise, o.Line = 0, 1 }},
	{"neighbours", Neighbours, func(o *Order) { o.Neighbours = 2 }},
	{"speed", Speed, func(o *Order) { o.Slow *= 2 }},
	{"hold", Hold, func(o *Order) { o.Hold *= 2 }},
	{"theme", ThemeOption, func(o *Order) { o.Theme = sheet.NightTheme }},
	{"width", Width, func(o *Order) { o.W += 320 }},
	{"height", Height, func(o *Order) { o.H += 60 }},
	{"scale", Scale, func(o *Order) { o.Scale *= 2 }},
	{"side view", SideView, func(o *Order) { o.Stage = true }},
	{"transparent", Transparent, func(o *Order) { o.Clear = true }},
	{"chapters", ChapterTitles, func(o *Order) { o.Chapters = true }},
	{"shape", Shape, func(o *Order) { o.Shape = sheet.VideoShapeNamed("band") }},
	{"mix", WithMix, func(o *Order) {
		o.Mixes = func(*timeline.Setup) (*report.Mix, error) {
			p, err := timeline.ReadText(samples.Text)
			if err != nil {
				return nil, err
			}
			m, err := value.NewBook(p).Mix(context.Background(), timeline.NewIndex(p), p.Setups[:1], value.MixOptions{})
			return &report.Mix{Mix: m, Gauge: p.Ruleset.Gauge}, err
		}
	}},
	{"paper", Paper, func(o *Order) { o.Page = sheet.Letter }},
	{"exercise", AsExercise, func(o *Order) { o.Exercise = true }},
}

// bytesOf writes what a target asks for of p, with a change of the order; of several
// pictures the first few, where most is above 0.
func bytesOf(t *testing.T, p *timeline.Project, at Target, most int, change func(o *Order)) string {
	t.Helper()
	o := Standard()
	o.W, o.H, o.Scale = 640, 360, 0.2
	if at.Lesson {
		o.Neighbours = 1
	}
	if at.Play {
		o.Slow = 2
	}
	change(&o)
	plan, err := timeline.Compile(p, p.Setups[1])
	if err != nil {
		t.Fatal(err)
	}
	ctx, index, each := context.Background(), timeline.NewIndex(p), eachOf(p.Setups)
	var m *Made
	switch at.Kind {
	case OneSetup:
		m, err = o.Make(plan, at.Format)
	case Screen:
		s := words.SceneAt(plan, plan.Setup.Delay, 0, 0)
		m, err = o.Of(sheet.Draw(&s, sheet.Options{W: 640, H: 360}), at.Format)
	case Folder:
		dir := t.TempDir()
		b := Batch{Order: o, Folder: dir, Names: DefaultPattern, Format: at.Format}
		if _, err := b.Run(ctx, index, each); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(filepath.Join(dir, filesIn(t, dir)[0]))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	case Booklet:
		m, err = o.MakeBooklet(ctx, index, each, "Setups")
	case LessonPage:
		m, err = o.MakeLessonPage(ctx, index, each, "Setups")
	case AllReplies:
		m, err = MakeReplies(ctx, index, each)
	case Matchup:
		var all *compare.Matchup
		if all, err = compare.NewMatchup(p, p.Setups[0].Attacker, p.Setups[0].Rival, false); err == nil {
			err = all.Add(p.Setups[0])
		}
		if err != nil {
			t.Fatal(err)
		}
		g := all.Grid()
		m, err = o.MakeGrid(&g, p.Setups[0].Attacker, p.Setups[0].Rival, at.Format)
	case Cast:
		m, err = o.MakeCast(sampleCast(t, asIs), at.Format)
	case CheatSheet:
		m, err = o.MakeCheatSheet(ctx, index, eachOf(p.Setups), "Setups", at.Format)
	case Found:
		told, _ := sampleFound(t, 2, 0, asIs)
		m, err = o.MakeFound(told, at.Format)
	case Enders:
		_, enders := sampleFound(t, 0, 2, asIs)
		m, err = o.MakeEnders(enders, at.Format)
	case Compared:
		m, err = o.MakeCompared(sampleDay(t, 2, asIs), "1.0", "1.1", at.Format)
	case Rounds:
		m, err = o.MakeFinish(sampleFinish(t), at.Format)
	case Captions:
		m, err = MakeCues([]Spoken{{p.Setups[0].Name, 0, 1000}}, at.Format, o.Chapters, func(string) (words.Verdict, error) { return words.VerdictAt(plan, 0), nil })
	case Words:
		m, err = o.MakeGlossary(at.Format)
	}
	if err == nil && most > 0 {
		few(m, most)
	}
	var b bytes.Buffer
	if err == nil {
		err = m.Write(&b)
	}
	if err != nil {
		t.Fatalf("%+v: %v", at, err)
	}
	return b.String()
}

// few leaves the first pictures of a film or a GIF.
func few(m *Made, most int) {
	if m.film != nil {
		m.film.shots = m.film.shots[:min(most, len(m.film.shots))]
	}
	if m.Format == "gif" {
		m.Sheets, m.Times = m.Sheets[:min(most, len(m.Sheets))], m.Times[:min(most, len(m.Times))]
	}
}

// TestOptionsThatAreTakenChangeTheFile: of every target, an option is taken if,
// and only if, the bytes written are others with it.
func TestOptionsThatAreTakenChangeTheFile(t *testing.T) {
	var targets []Target
	add := func(k Kind, formats string) {
		for _, f := range strings.Fields(formats) {
			at := Target{Kind: k, Format: f}
			targets = append(targets, at)
			if k == OneSetup || k == Folder || k == Booklet || k == LessonPage {
				lesson := at
				if lesson.Lesson = true; f != "gif" && f != "md" && f != "csv" {
					targets = append(targets, lesson)
				}
				play := at
				if play.Play = true; f == "gif" || f == "apng" || slices.Contains(SpokenFormats, f) {
					targets = append(targets, play)
				}
			}
		}
	}
	add(OneSetup, strings.Join(Formats, " ")+" apng "+strings.Join(SpokenFormats, " "))
	add(Screen, "png svg pdf")
	add(Folder, "svg html md csv")
	add(LessonPage, "html")
	add(Booklet, "pdf")
	add(AllReplies, "csv")
	add(Matchup, "png svg pdf csv")
	add(Cast, strings.Join(CastFormats, " "))
	add(CheatSheet, strings.Join(CheatFormats, " "))
	add(Found, strings.Join(TableFormats, " "))
	add(Enders, "svg csv")
	add(Compared, "svg csv")
	add(Rounds, strings.Join(FinishFormats, " "))
	add(Captions, "vtt srt")
	add(Words, "png svg pdf")
	p := yard(t, 1)
	p.Setups = p.Setups[:2]
	for _, at := range targets {
		all := bytesOf(t, p, at, 0, func(*Order) {})
		changed := func(change func(o *Order)) bool { return bytesOf(t, p, at, 0, change) != all }
		var idle []int // of changes, the options that are not taken
		for i, c := range changes {
			switch why := at.Takes(c.option); {
			case c.option == Exchange && (at.Kind == Folder || at.Kind == Booklet): // the rise and reply of one setup mean nothing in the next
			case (c.option == Speed && !at.Play || c.option == Neighbours && !at.Lesson) && why != nil: // to change it would be to ask for another target
			case why != nil:
				idle = append(idle, i)
			case c.option == Shape && bytesOf(t, p, at, 1, c.change) == bytesOf(t, p, at, 1, func(*Order) {}), // its pictures are large
				c.option != Shape && !changed(c.change):
				t.Errorf("%+v takes %s, but the file stays as it is", at, c.name)
			}
		}
		if !changed(func(o *Order) { // together first: mostly nothing changes
			for _, i := range idle {
				changes[i].change(o)
			}
		}) {
			continue
		}
		for _, i := range idle {
			if c := &changes[i]; changed(c.change) {
				t.Errorf("%+v: the file changes with %s, but it is said that this %v", at, c.name, at.Takes(c.option))
			}
		}
		t.Errorf("%+v: the file changes with options that it doesn't take", at)
	}
}

// TestWhyAnOptionIsNotTaken: in words.
func TestWhyAnOptionIsNotTaken(t *testing.T) {
	for _, c := range []struct {
		at   Target
		o    Option
		want string
	}{
		{Target{Format: "svg"}, Scale, "applies to PNG, GIF and films only"},
		{Target{Format: "mp4"}, Transparent, "applies to PNG, SVG, APNG, WEBM and frames only"},
		{Target{Kind: Matchup, Format: "svg"}, Scale, "applies to PNG and GIF only"},
		{Target{Format: "pdf"}, Width, "applies to PNG, SVG, GIF and films only"},
		{Target{Format: "png"}, Paper, "applies to PDF only"},
		{Target{Format: "gif", Play: true}, Hold, "applies to a delay sweep only"},
		{Target{Format: "gif"}, Speed, "applies to playback only"},
		{Target{Format: "png"}, Neighbours, "applies to lessons only"},
		{Target{Format: "png", Lesson: true}, Height, "applies to strips only: a lesson is as high as its steps"},
		{Target{Format: "png", Shape: "tall"}, Width, "applies to pictures without a shape only"},
		{Target{Format: "png", Lesson: true}, Shape, "applies to strips only: a lesson is as high as its steps"},
		{Target{Kind: Matchup, Format: "png"}, Delay, "applies to one setup only"},
		{Target{Kind: Matchup, Format: "png"}, ChapterTitles, "applies to captions only"},
		{Target{Kind: Booklet, Format: "pdf"}, FileNames, "applies to a folder of files only"},
		{Target{Format: "txt"}, ChapterTitles, "applies to VTT and SRT only"},
		{Target{Format: "vtt"}, Exchange, "applies to what is said of a lesson or a playback only"},
		{Target{Format: "srt", Lesson: true}, Hold, "applies to a delay sweep only"},
		{Target{Kind: Captions, Format: "vtt"}, EveryReply, "applies to match-ups only"},
	} {
		if err := c.at.Takes(c.o); err == nil || err.Error() != c.want {
			t.Errorf("%+v, %d: %v, want %s", c.at, c.o, err, c.want)
		}
	}
	for _, c := range []struct {
		at Target
		o  Option
	}{{Target{Format: "md"}, Delay}, {Target{Kind: Folder, Format: "md"}, FileNames}, {Target{Kind: Matchup, Format: "csv"}, EveryReply}, {Target{Kind: Captions, Format: "vtt"}, ChapterTitles}} {
		if err := c.at.Takes(c.o); err != nil {
			t.Errorf("%+v, %d: %v", c.at, c.o, err)
		}
	}
}
