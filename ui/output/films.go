package output

import (
	"context"
	"fmt"
	"slices"
	"unicode/utf8"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// MostFilmed is how many setups one film takes: all its drawings are in memory.
const MostFilmed = 100

// SeveralFilmFormats are the endings of a film of several setups, and of what is
// said to one.
var SeveralFilmFormats = slices.Concat([]string{"gif"}, FilmFormats, SpokenFormats)

// MakeFilm makes one film of all setups that each hands over, one after another,
// each under a title; or what is said to it. Its format is one of
// SeveralFilmFormats. Those that can't be laid out are left out.
func (o *Order) MakeFilm(ctx context.Context, index *timeline.Index, each Each, title, format string) (*Made, error) {
	if !slices.Contains(SeveralFilmFormats, format) {
		return nil, fmt.Errorf("expected one of %v, got %q", SeveralFilmFormats, format)
	}
	plans, skipped, err := laidOut(ctx, index, each, MostFilmed, "film")
	if err != nil {
		return nil, err
	}
	at := forFilm(o, format)
	sideRoom(&at, plans)
	all := &film{title: title}
	for i, p := range plans {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f := filmed(&at, p)
		all.rate, all.shown = f.rate, f.shown // the same of all: they are of one project
		all.shots = append(append(all.shots, titled(&at, p, i+1, len(plans), f.rate)), f.shots...)
		all.desc += p.Setup.Name + "\n"
	}
	m, err := madeOf(&at, all, format)
	if err == nil {
		m.Skipped = skipped
	}
	return m, err
}

// How long a title is shown, at least, and at what pace it is read.
const (
	titleSeconds = 3
	titleRest    = 7 // letters
)

// titled is the title of setup n of so many.
func titled(o *Order, p *timeline.Plan, n, of int, rate timeline.Rate) shot {
	s := &p.Setup
	about := fmt.Sprintf("%s vs %s, %s.", s.Attacker, s.Rival, s.Position)
	letters := max(titleSeconds*spokenLetters, utf8.RuneCountInString(s.Name+about)+titleRest)
	pictures := (letters*rate.Num + spokenLetters*rate.Den - 1) / (spokenLetters * rate.Den)
	opts := sheet.Options{W: o.W, H: o.H + o.sideH}
	if v := o.shape(); v != nil {
		opts = v.FitTitle(opts)
	}
	lines := []string{s.Attacker + " vs " + s.Rival + " · " + string(s.Position), fmt.Sprintf("%d of %s", n, words.Count(of, "setup"))}
	return shot{base: finished(o, sheet.Title(s.Name, lines, opts)), pictures: pictures, section: s.Name, name: s.Name, say: about}
}

// sideRoom has the side views of all setups take the same height, so that all
// pictures of a film have one size.
func sideRoom(o *Order, plans []*timeline.Plan) {
	if !o.Stage || o.Shape != nil {
		return
	}
	for _, p := range plans {
		rise, line := o.exchange(p, p.Setup.Delay)
		v := words.SideViewAt(p, p.Setup.Delay, rise, line)
		o.sideH = max(o.sideH, sheet.SideHeight(&v, o.W))
	}
}
