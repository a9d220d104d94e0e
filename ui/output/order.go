package output

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// Formats are the endings that a setup, and each of many, can be written in.
var Formats = []string{"png", "svg", "pdf", "gif", "html", "md", "csv"}

// Strip, as Order.Neighbours, asks for a strip and no lesson.
const Strip = -1

// Order says what is drawn of a setup, and how.
type Order struct {
	Theme sheet.Theme
	W, H  float64 // of a strip, in units; a lesson's height is its own
	Scale float64 // pixels a unit, of PNG and GIF
	Clear bool    // PNG and SVG without the ground
	Page  sheet.Page

	Shape *sheet.VideoShape // of a strip or a film in a video: it gives W, H and Scale; nil: none

	Rise, Line int  // the exchange; Line words.Breaking: the one that decides
	Neighbours int  // Strip, or a lesson with so many neighbours each way; of html, the frames past both ends of the window
	Stage      bool // the side view with each strip: under it, in a band beside it
	Exercise   bool // of html: the reader looks for the delay first

	// A GIF shows the delay swept through the window, each for Hold hundredths
	// of a second; or, where Slow is above 0, the scrub line playing, so many
	// times slower than the game.
	Hold, Slow int

	Chapters bool // captions by the names of parts, or of setups, alone

	// Mixes is the mix of a setup's ender, which follows a lesson, and all setups
	// of a booklet; nil: none does.
	Mixes func(s *timeline.Setup) (*report.Mix, error)

	Source handout.Source

	whole bool    // H is of the side view too
	sideH float64 // how high a side view is; 0: by what it shows
	told  bool    // under a strip stand its inputs, its note and a key; H is of them too
}

// Standard is a strip on paper, at the size of a wide screen.
func Standard() Order {
	return Order{
		Theme: sheet.PaperTheme, W: 1280, H: 560, Scale: 1, Page: sheet.A4,
		Line: words.Breaking, Neighbours: Strip, Hold: 80,
	}
}

// scene lays an exchange out, with what follows it.
func (o *Order) scene(p *timeline.Plan, d, rise, line int) words.Scene {
	m := p.Meetings(d, nil)
	v := words.VerdictOf(&m)
	e := timeline.Exchange{Rise: rise, Line: line}
	s := words.SceneOf(&m, &v, e)
	s.Follow(value.SequelOf(&m, e))
	return s
}

// exchange is the rise and line to show at delay d.
func (o *Order) exchange(p *timeline.Plan, d int) (rise, line int) {
	if o.Line == words.Breaking {
		return p.Deciding(d)
	}
	return o.Rise, o.Line
}

// Drawing draws the setup at its own delay: a strip, or a lesson.
func (o *Order) Drawing(p *timeline.Plan) *sheet.Drawing {
	d := p.Setup.Delay
	if o.Neighbours >= 0 {
		l := words.LessonAt(p, d, o.Neighbours, o.Rise, o.Line)
		value.TellLesson(&l, p)
		value.FollowLesson(&l, p)
		if o.Stage {
			l.Stage(p)
		}
		return sheet.DrawLesson(&l, o.W)
	}
	rise, line := o.exchange(p, d)
	s, opts := o.scene(p, d, rise, line), o.options(p, d)
	if o.told {
		caption := sheet.DrawCaption(&s, []string{words.InputsSentence(p, d)}, p.Setup.Note, o.W)
		o := *o
		o.told, o.H = false, o.H-caption.H
		return sheet.Under(o.Drawing(p), caption)
	}
	if !o.Stage {
		return o.framed(sheet.Draw(&s, opts))
	}
	v := words.SideViewAt(p, d, rise, line)
	if o.whole {
		opts.H -= sheet.SideHeight(&v, o.W)
	}
	return o.framed(joined(o, sheet.Draw(&s, opts), sheet.DrawSide(&v, o.side(&v, v.Frame))))
}

// joined is a strip with its side view.
func joined(o *Order, d, side *sheet.Drawing) *sheet.Drawing {
	if v := o.shape(); v != nil {
		return v.Joined(d, side)
	}
	return sheet.Under(d, side)
}

// shape is the shape in a video with room for what is drawn; nil: none.
func (o *Order) shape() *sheet.VideoShape {
	if o.Shape == nil || !o.Stage {
		return o.Shape
	}
	v := o.Shape.WithSide()
	return &v
}

// scaled is the order with its shape's scale.
func (o *Order) scaled() Order {
	out := *o
	if v := o.shape(); v != nil {
		out.Scale = v.Scale()
	}
	return out
}

// framed is a drawing in the picture of its shape.
func (o *Order) framed(d *sheet.Drawing) *sheet.Drawing {
	if v := o.shape(); v != nil {
		return v.Framed(d)
	}
	return d
}

// side says how a side view is drawn on frame f.
func (o *Order) side(v *words.SideView, f int) sheet.SideOptions {
	opts := sheet.SideOptions{W: o.W, H: sheet.SideHeight(v, o.W), Frame: f}
	if o.sideH > 0 {
		opts.H = o.sideH
	}
	if v := o.shape(); v != nil {
		return v.FitSide(opts)
	}
	return opts
}

func (o *Order) options(p *timeline.Plan, d int) sheet.Options {
	opts := sheet.Options{W: o.W, H: o.H, Position: string(p.Setup.Position), Sentence: words.VerdictAt(p, d).Because}
	if v := o.shape(); v != nil {
		return v.Fit(opts)
	}
	return opts
}

// forPage is the order with the sizes that fill a page.
func (o Order) forPage() Order {
	o.Shape = nil
	switch {
	case o.Neighbours >= 0 && o.Page == sheet.Phone:
		o.W = sheet.MinLessonW
	case o.Neighbours >= 0:
		o.W = 900 // upright
	default:
		o.W, o.whole = 1050, true
		o.H = o.Page.Across().Fit(o.W)
	}
	return o
}

// Write writes the setup of p in one of Formats, without the point.
func (o *Order) Write(w io.Writer, p *timeline.Plan, format string) error {
	m, err := o.Make(p, format)
	if err != nil {
		return err
	}
	return m.Write(w)
}

// Make makes the setup of p in one of Formats, FilmFormats or
// SpokenFormats, without the point.
func (o *Order) Make(p *timeline.Plan, format string) (*Made, error) {
	switch format {
	case "png", "svg":
		at := *o
		if o.Neighbours == Strip {
			at = o.scaled()
		}
		d, err := withMix(o, o.Drawing(p), p)
		if err != nil {
			return nil, err
		}
		return at.Of(d, format)
	case "pdf":
		onPage := o.forPage()
		m, err := o.Of(onPage.Drawing(p), format)
		if err == nil && mixed(o) {
			err = addMix(&onPage, m, &p.Setup)
		}
		return m, err
	case "html":
		return o.lesson(p)
	case "md":
		m := p.Meetings(p.Setup.Delay, nil)
		return written(format, handout.Markdown(p, value.OfPlan(p).Rises, value.SequelOf(&m, m.Deciding()), o.Source)), nil
	case "csv":
		var b strings.Builder
		v := words.VerdictAt(p, p.Setup.Delay)
		t, err := table.NewReplies(&b)
		if err == nil {
			err = t.Add(&v.Verdict, value.OfPlan(p).Rises)
		}
		return written(format, b.String()), err
	}
	if slices.Contains(SeveralFilmFormats, format) {
		at := forFilm(o, format)
		return madeOf(&at, filmed(&at, p), format)
	}
	return nil, fmt.Errorf("expected one of %s, got %q", strings.Join(slices.Concat(Formats, FilmFormats, SpokenFormats), ", "), format)
}

// ErrNone says that there is no setup to make a booklet of.
var ErrNone = errors.New("expected at least one setup that can be judged")

// MostPages is how many setups a booklet takes: all of it is in memory.
const MostPages = 2000

// laidOut lays out all setups that each hands over, at most most of them for what
// is made. skipped says why others can't be; ErrNone is among the errors where
// none can.
func laidOut(ctx context.Context, index *timeline.Index, each Each, most int, what string) (plans []*timeline.Plan, skipped []error, err error) {
	if err := each(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		switch {
		case err != nil:
			skipped = append(skipped, err)
		case len(plans) == most:
			return fmt.Errorf("%s: expected at most %d setups", what, most)
		default:
			plans = append(plans, plan)
		}
		return ctx.Err()
	}); err != nil {
		return nil, nil, err
	}
	if len(plans) == 0 {
		return nil, nil, errors.Join(append([]error{ErrNone}, skipped...)...)
	}
	return plans, skipped, nil
}

// MakeBooklet makes all setups that each hands over into one PDF: contents,
// then a page each; those that can't be laid out are left out.
func (o *Order) MakeBooklet(ctx context.Context, index *timeline.Index, each Each, title string) (*Made, error) {
	plans, skipped, err := laidOut(ctx, index, each, MostPages, "booklet")
	if err != nil {
		return nil, err
	}
	onPage := o.forPage()
	onPage.told = o.Neighbours < 0
	var entries []sheet.Entry
	var drawings []*sheet.Drawing
	for _, p := range plans {
		s := &p.Setup
		entries = append(entries, sheet.Entry{Name: s.Name, About: s.Attacker + " vs " + s.Rival + ", " + string(s.Position), Answer: words.AnswerAt(p, s.Delay), Word: p.Called(s.Delay)})
		drawings = append(drawings, onPage.Drawing(p))
	}
	mixes, pages, bad := mixesOf(&onPage, plans)
	entries, drawings, skipped = append(entries, mixes...), append(drawings, pages...), append(skipped, bad...)
	contents := sheet.Contents(title, entries, 1050, o.Page.Across().Fit(1050))
	if o.Neighbours >= 0 {
		contents = sheet.Contents(title, entries, onPage.W, o.Page.Fit(onPage.W))
	}
	subject := fmt.Sprintf("%d setups", len(plans))
	if len(plans) == 1 {
		subject = "1 setup"
	}
	m := o.drawn("pdf", slices.Concat(contents, drawings)...)
	m.title, m.desc, m.Skipped = title, subject, skipped
	return m, nil
}

// MakeGlossary makes the words in use, each with a small drawing, as png, svg or
// pdf.
func (o *Order) MakeGlossary(format string) (*Made, error) {
	const title = "Glossary"
	terms := words.Glossary()
	if format != "pdf" {
		return o.Of(sheet.DrawGlossary(terms, title, o.W), format)
	}
	m := o.drawn(format)
	m.Sheets = glossaryPages(terms, title, o.Page)
	m.title, m.desc = title, fmt.Sprintf("%d terms", len(terms))
	return m, nil
}

// glossaryPages are upright pages of terms, each with as many rows as it has
// room for.
func glossaryPages(terms []words.Term, title string, page sheet.Page) (out []*sheet.Drawing) {
	const wide, row = 900, 2 // a row of cards
	high := page.Fit(wide)
	for len(terms) > 0 {
		n := min(row, len(terms))
		d := sheet.DrawGlossary(terms[:n], title, wide)
		for n < len(terms) {
			more := min(n+row, len(terms))
			next := sheet.DrawGlossary(terms[:more], title, wide)
			if next.H > high {
				break
			}
			n, d = more, next
		}
		d.H = max(d.H, high)
		out, terms = append(out, d), terms[n:]
	}
	return out
}
