package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/output"
)

// filterOf reads the search of --filter, for setups of p.
func filterOf(p *source, text string) (passes func(s *timeline.Setup) bool, err error) {
	of, err := timeline.ReadSearch(text, p.lists...)
	if err != nil {
		return nil, usageError{fmt.Sprintf("--filter: %v", err)}
	}
	for _, t := range of.Terms() {
		if t.Part == timeline.TestPart {
			return nil, usageError{"--filter: in-game tests can be filtered in the window alone"}
		}
	}
	return func(s *timeline.Setup) bool {
		return of.Match(func(t timeline.Term) bool { return p.index.Has(s, t) })
	}, nil
}

// many writes all setups that pass the filter.
func (d *drawing) many(p *source) (int, error) {
	passes, err := filterOf(p, d.filter)
	if err != nil {
		return 0, err
	}
	each := func(ctx context.Context, do func(s *timeline.Setup) error) error {
		return p.each(ctx, func(_ int, s *timeline.Setup) error {
			if !passes(s) {
				return nil
			}
			return do(s)
		})
	}
	title := "All setups"
	if d.filter != "" {
		title = "Setups with “" + strings.Join(strings.Fields(d.filter), " ") + "”"
	}
	if d.cheat || d.tests || slices.Contains([]string{"pdf", "html", "csv", "md"}, d.ext) {
		return d.together(p, each, title)
	}
	if slices.Contains(output.SeveralFilmFormats, d.ext) {
		return d.film(p, each, title)
	}
	m := d.meter()
	defer m.end()
	b := output.Batch{
		Order: d.order, Folder: d.out, Names: output.Pattern(d.names), Format: d.format, Title: title,
		Tell: func(done, of int) { m.tell(func() string { return fmt.Sprintf("wrote %d of %d setups", done, of) }) },
	}
	did, err := b.Run(d.ctx, p.index, each)
	m.end()
	if err != nil {
		return 0, stopped(d.ctx, err, did.Files, "written")
	}
	if did.Files+len(did.Skipped) == 0 {
		return 0, d.noneFound()
	}
	code := d.leftOut(did.Skipped)
	say := fmt.Sprintf("wrote %s into %s", words.Count(did.Files, "setup"), d.out)
	if did.Pages > 0 {
		say += ", and " + words.Count(did.Pages, "contact sheet")
	}
	if _, err := fmt.Fprintln(d.call.out, say); err != nil {
		return 0, err
	}
	return code, nil
}

func (d *drawing) noneFound() error {
	return fmt.Errorf("--filter: expected words that a setup has, got %q", d.filter)
}

// together writes all setups into one file: a booklet, a lesson page, or a
// table of replies.
func (d *drawing) together(p *source, each output.Each, title string) (int, error) {
	m := d.meter()
	defer m.end()
	n := 0
	counted := func(ctx context.Context, do func(s *timeline.Setup) error) error {
		return each(ctx, func(s *timeline.Setup) error {
			n++
			return do(s)
		})
	}
	var skipped []error
	err := storage.Replace(d.out, func(w io.Writer) (err error) {
		if d.ext == "csv" && !d.cheat {
			if skipped, err = output.WriteReplies(d.ctx, w, p.index, counted); err == nil && n == 0 {
				err = d.noneFound()
			}
			return err
		}
		if d.ext == "md" {
			if skipped, err = output.WriteCheckList(d.ctx, w, p.index, counted, title); err == nil && n == 0 {
				err = d.noneFound()
			}
			return err
		}
		makeAll := d.order.MakeBooklet
		switch {
		case d.cheat:
			makeAll = func(ctx context.Context, index *timeline.Index, each output.Each, title string) (*output.Made, error) {
				return d.order.MakeCheatSheet(ctx, index, each, title, d.ext)
			}
		case d.tests:
			makeAll = func(ctx context.Context, index *timeline.Index, each output.Each, title string) (*output.Made, error) {
				return d.order.MakeCheckSheet(ctx, index, each, title, d.ext)
			}
		case d.ext == "html":
			makeAll = d.order.MakeLessonPage
		}
		made, err := makeAll(d.ctx, p.index, counted, title)
		if err != nil {
			if n == 0 && errors.Is(err, output.ErrNone) {
				err = d.noneFound()
			}
			return err
		}
		skipped = made.Skipped
		return made.WriteBy(w, func(i int) error {
			m.tell(func() string { return fmt.Sprintf("wrote %d of %d pages", i, len(made.Sheets)) })
			return d.ctx.Err()
		})
	})
	m.end()
	if err != nil {
		return 0, err
	}
	return d.leftOut(skipped), nil
}

// film writes all setups as one film, or what is said to it.
func (d *drawing) film(p *source, each output.Each, title string) (int, error) {
	n := 0
	file, err := d.order.MakeFilm(d.ctx, p.index, func(ctx context.Context, do func(s *timeline.Setup) error) error {
		return each(ctx, func(s *timeline.Setup) error {
			n++
			return do(s)
		})
	}, title, d.ext)
	if err != nil {
		if n == 0 && errors.Is(err, output.ErrNone) {
			err = d.noneFound()
		}
		return 0, err
	}
	if err := d.put(file); err != nil {
		return 0, err
	}
	return d.leftOut(file.Skipped), nil
}

// leftOut names what was left out, and returns how the command then ends.
func (d *drawing) leftOut(skipped []error) int {
	for _, err := range skipped {
		fmt.Fprintf(d.progress, "wakeline draw: skipped: %v\n", err)
	}
	if len(skipped) > 0 {
		return exitInvalid
	}
	return exitDone
}

// matchup writes a match-up, without the setups that can't be judged.
func (d *drawing) matchup(p *source) (int, error) {
	m, err := compare.NewMatchup(p.data, d.attacker, d.rival, d.allReplies)
	if err != nil {
		return 0, fmt.Errorf("--attacker, --rival: %w", err)
	}
	var skipped []error
	setups := map[string]timeline.Setup{}
	if err := p.each(d.ctx, func(_ int, s *timeline.Setup) error {
		if s.Attacker != d.attacker || s.Rival != d.rival {
			return nil
		}
		setups[s.Name] = *s
		if err := m.Add(*s); err != nil {
			skipped = append(skipped, err)
		}
		return nil
	}); err != nil {
		return 0, err
	}
	g := m.Grid()
	book := value.NewBook(p.data)
	if err := g.Weigh(d.ctx, func(setup string, replies []timeline.Reply) ([]string, [][]words.Worth) {
		return book.Against(p.index, setups[setup], replies)
	}); err != nil {
		return 0, err
	}
	made, err := d.order.MakeGrid(&g, d.attacker, d.rival, d.ext)
	if err != nil {
		return 0, err
	}
	if err := storage.Replace(d.out, made.Write); err != nil {
		return 0, err
	}
	return d.leftOut(skipped), nil
}

// weighed is the mix of a setup's ender, with full gauges.
func weighed(ctx context.Context, p *source, s *timeline.Setup) (*report.Mix, error) {
	var setups, pair []timeline.Setup
	if err := p.each(ctx, func(_ int, next *timeline.Setup) error {
		if next.Attacker != s.Attacker || next.Rival != s.Rival {
			return nil
		}
		pair = append(pair, *next)
		if next.Ender == s.Ender && next.Position == s.Position {
			setups = append(setups, *next)
		}
		return nil
	}); err != nil {
		return nil, err
	}
	m, err := value.NewBook(p.data).Mix(ctx, p.index, setups, value.MixOptions{Carry: p.data.Ruleset.Carry, Pair: pair})
	if err != nil {
		return nil, err
	}
	return &report.Mix{Mix: m, Gauge: p.data.Ruleset.Gauge}, nil
}

// cast writes the cast of a fighter.
func (d *drawing) cast(p *source) error {
	cast, rows, err := d.judgeCast(p, d.attacker, d.filter)
	if err != nil {
		return err
	}
	made, err := d.order.MakeCast(&compare.CastTable{Cast: cast, Rows: rows, Fewest: compare.FewestOfCast(len(cast.Rivals), rows, compare.CoverLimit)}, d.ext)
	if err != nil {
		return err
	}
	return storage.Replace(d.out, func(w io.Writer) error {
		return made.WriteBy(w, func(int) error { return d.ctx.Err() })
	})
}

// cues writes captions, without the setups that can't be judged.
func (d *drawing) cues(p *source) (int, error) {
	f, err := storage.OpenRegular(d.times)
	if err != nil {
		return 0, fmt.Errorf("--times: %w", err)
	}
	defer f.Close()
	spoken, err := output.ReadTimes(f)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", d.times, err)
	}
	verdicts := map[string]words.Verdict{}
	var skipped []error
	var kept []output.Spoken
	for _, s := range spoken {
		at, setup, err := p.find(d.times, s.Setup)
		if err != nil {
			return 0, err
		}
		v, err := p.judge(at, setup, timeline.Maybe{}, func(*timeline.Meetings) {})
		if err != nil {
			skipped = append(skipped, err)
			continue
		}
		verdicts[s.Setup] = v
		kept = append(kept, s)
	}
	made, err := output.MakeCues(kept, d.ext, d.order.Chapters, func(name string) (words.Verdict, error) { return verdicts[name], nil })
	if err != nil {
		return 0, fmt.Errorf("%s: %w", d.times, err)
	}
	if err := storage.Replace(d.out, made.Write); err != nil {
		return 0, err
	}
	return d.leftOut(skipped), nil
}

// writeGlossary writes the words in use.
func (d *drawing) writeGlossary() error {
	made, err := d.order.MakeGlossary(d.ext)
	if err != nil {
		return err
	}
	return storage.Replace(d.out, made.Write)
}
