package output

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/output/webpage"
)

// MostLessons is how many setups a lesson page takes: all of it is in memory,
// here and in the browser.
const MostLessons = 100

// lessonPage is a page without a setup yet.
func (o *Order) lessonPage(title string) *webpage.Page {
	past := webpage.Past
	if o.Neighbours >= 0 {
		past = o.Neighbours
	}
	return &webpage.Page{Title: title, Source: sourceLine(o), Past: past, Exercise: o.Exercise}
}

// sourceLine says what a page was made from.
func sourceLine(o *Order) string {
	say := []string{}
	if o.Source.Project != "" {
		say = append(say, o.Source.Project)
	}
	if o.Source.Revision != "" {
		say = append(say, "revision "+o.Source.Revision)
	}
	if o.Source.Date != "" {
		say = append(say, "of "+o.Source.Date)
	}
	if o.Source.Note != "" {
		say = append(say, o.Source.Note)
	}
	if len(say) == 0 {
		return ""
	}
	return "Source: " + strings.Join(say, ", ") + "."
}

// lesson is the setup of p as a page for a browser.
func (o *Order) lesson(p *timeline.Plan) (*Made, error) {
	if err := o.Refuses(p, "html"); err != nil {
		return nil, err
	}
	title := p.Setup.Name
	if o.Exercise { // the name may tell the answer
		title = "Exercise: " + p.Setup.Attacker + " vs " + p.Setup.Rival
	}
	page := o.lessonPage(title)
	page.Add(p)
	return o.madePage(page, p)
}

// Refuses says why a setup that can be judged is left out of many in that
// format; nil where it isn't.
func (o *Order) Refuses(p *timeline.Plan, format string) error {
	if format == "html" && o.Exercise && p.Blank() {
		return fmt.Errorf("setup %q: there is nothing to judge yet, so it can't be an exercise", p.Setup.Name)
	}
	return nil
}

// madePage is the file of a page; its first setup is what a preview shows.
func (o *Order) madePage(page *webpage.Page, first *timeline.Plan) (*Made, error) {
	text, err := page.HTML()
	if err != nil {
		return nil, err
	}
	shown := *o
	shown.Neighbours = 1
	m := o.drawn("html", shown.Drawing(first))
	m.Text = text
	return m, nil
}

// MakeLessonPage makes all setups that each hands over into one page for a
// browser, contents first; those that can't be laid out are left out, and of
// exercises those with nothing to judge.
func (o *Order) MakeLessonPage(ctx context.Context, index *timeline.Index, each Each, title string) (*Made, error) {
	page := o.lessonPage(title)
	var first *timeline.Plan
	var skipped []error
	if err := each(ctx, func(s *timeline.Setup) error {
		plan, err := index.Compile(*s)
		if err == nil {
			err = o.Refuses(plan, "html")
		}
		switch {
		case err != nil:
			skipped = append(skipped, err)
		case page.Len() == MostLessons:
			return fmt.Errorf("lesson page: expected at most %d setups", MostLessons)
		default:
			if page.Add(plan); first == nil {
				first = plan
			}
		}
		return ctx.Err()
	}); err != nil {
		return nil, err
	}
	if first == nil {
		return nil, errors.Join(append([]error{ErrNone}, skipped...)...)
	}
	m, err := o.madePage(page, first)
	if err == nil {
		m.Skipped = skipped
	}
	return m, err
}
