package main

import (
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline/words"
	"wakeline/ui/output"
	"wakeline/ui/sheet"
)

// look is how pictures are drawn, as flags say it.
type look struct {
	order       output.Order
	theme, page string
}

// add adds the flags that all pictures have.
func (l *look) add(f *flag.FlagSet, scaled, clear, paged string) {
	l.order = output.Standard()
	o := &l.order
	f.StringVar(&l.theme, "theme", "paper", "`THEME` of pictures: paper or night")
	f.Float64Var(&o.W, "width", o.W, "width of a sheet in units; one unit is one pixel at scale 1")
	f.Float64Var(&o.Scale, "scale", o.Scale, "pixels per unit, for "+scaled)
	f.BoolVar(&o.Clear, "transparent", false, "transparent background, for "+clear)
	f.StringVar(&l.page, "page", "a4", "`SIZE` of a page, for "+paged+": a4, letter or phone")
}

// check checks what those flags say.
func (l *look) check() error {
	o := &l.order
	fail := func(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }
	if !(o.W >= sheet.MinW && o.W <= maxSide) {
		return fail("--width: expected %d to %d units, got %g", sheet.MinW, maxSide, o.W)
	}
	if !(o.Scale >= 0.1 && max(o.W, o.H)*o.Scale <= maxPixels) {
		return fail("--scale: expected at least 0.1, and no side over %d pixels, got %g", maxPixels, o.Scale)
	}
	switch l.theme {
	case "paper":
	case "night":
		o.Theme = sheet.NightTheme
	default:
		return fail("--theme: expected paper or night, got %q", l.theme)
	}
	switch l.page {
	case "a4":
	case "letter":
		o.Page = sheet.Letter
	case "phone":
		o.Page = sheet.Phone
	default:
		return fail("--page: expected a4, letter or phone, got %q", l.page)
	}
	return nil
}

// applies is an error where a flag was said that changes nothing in what is
// written.
func applies(flags *flag.FlagSet, to output.Target) (err error) {
	flags.Visit(func(f *flag.Flag) {
		option, ok := options[f.Name]
		if !ok || err != nil {
			return
		}
		if why := to.Takes(option); why != nil {
			err = usageError{fmt.Sprintf("--%s %v", f.Name, why)}
		}
	})
	return err
}

// answerFile is the file that a command writes its answer to instead of
// printing it.
type answerFile struct {
	*call
	look
	out string
}

// answerMore is what the help of such a command says.
const answerMore = `
With --out FILE the answer is written as a table instead of printed: a picture
named .png or .svg, a .pdf on as many pages as it takes, a .csv, or a .json, which
holds what --json prints. --theme, --width, --scale, --transparent and --page say
how it is drawn.
`

// answerFlags adds the flags of such a file.
func answerFlags(c *call) *answerFile {
	a := &answerFile{call: c}
	c.flags.StringVar(&a.out, "out", "", "write the answer to `FILE` instead of printing it")
	a.add(c.flags, ".png", ".png and .svg", ".pdf")
	return a
}

// format is the file's format.
func (a *answerFile) format() string {
	return strings.TrimPrefix(strings.ToLower(filepath.Ext(a.out)), ".")
}

// check checks what can be checked before the project is read.
func (a *answerFile) check(kind output.Kind, asJSON bool) error {
	if !given(a.flags, "out") {
		for _, name := range []string{"theme", "width", "scale", "transparent", "page"} {
			if given(a.flags, name) {
				return usageError{fmt.Sprintf("--%s: expected --out beside it", name)}
			}
		}
		return nil
	}
	switch {
	case asJSON:
		return usageError{"--json, --out: expected one of them, got them together"}
	case !slices.Contains(output.TableFormats, a.format()):
		return usageError{fmt.Sprintf("--out: expected a file named .%s, got %q", strings.Join(output.TableFormats, ", ."), a.out)}
	}
	if err := a.look.check(); err != nil {
		return err
	}
	return applies(a.flags, output.Target{Kind: kind, Format: a.format()})
}

// write writes the file.
func (a *answerFile) write(made *output.Made, err error) error {
	if err != nil {
		return err
	}
	m := a.meter()
	defer m.end()
	return storage.Replace(a.out, func(w io.Writer) error {
		return made.WriteBy(w, func(i int) error {
			m.tell(func() string { return fmt.Sprintf("wrote %d of %s", i, words.Count(len(made.Sheets), "page")) })
			return a.ctx.Err()
		})
	})
}
