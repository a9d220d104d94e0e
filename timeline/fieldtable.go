package timeline

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Unit says what a number counts, and with that its range.
type Unit string

// The units of a field.
const (
	Frames   Unit = "frames"   // 0 to MaxFrames
	Units    Unit = "units"    // of distance or height, -MaxUnits to MaxUnits
	Points   Unit = "points"   // of health, 0 to MaxPoints
	Segments Unit = "segments" // of the gauge, 0 to MaxPoints
)

// bounds is the range of a number of that unit whose row gives no other.
func (u Unit) bounds() (least, most int) {
	switch u {
	case Frames:
		return 0, MaxFrames
	case Units:
		return -MaxUnits, MaxUnits
	case Points, Segments:
		return 0, MaxPoints
	}
	return 0, 0
}

// FieldKind says what a field holds.
type FieldKind uint8

// The kinds of a field.
const (
	TextField   FieldKind = iota // any text
	WordField                    // one word of a list
	FlagField                    // yes or no
	NumberField                  // a whole number
	MaybeField                   // a whole number, or nothing
	ListField                    // frames or windows in the trade's writing: "2(5)1", "1-8 strike"
	GroupField                   // its parts
)

// Content is what a field holds: a number, given or not, or else a text. A flag
// is 1 or 0.
type Content struct {
	Maybe
	Text string
}

// Field is one row of the table of fields: everything that the reader and the
// writer of project texts, the checks, move tables, project files, the
// comparison and the window need to know of one value of T. Only a field with
// parts stands in more than one cell.
type Field[T any] struct {
	Name  string   // in the project text, inside the group that it is a part of: "on_hit"
	Label string   // for people: "on hit"
	Noun  string   // in a sentence, after "its": "advantage on hit"
	About string   // what may stand in it
	Card  string   // how the number reads on the card of a move, jump or rise: "%d points". Empty: it isn't shown there by itself
	Unit  Unit     // empty: not a number, or a number without a unit
	Words []string // of a WordField, those that it may hold; filled in

	Min, Max int     // a number's range; where both are 0, its unit's
	Default  Content // filled in from the start value of its table

	Need    func(v *T) string // says what is missing where the field must be given and isn't; empty: it may be left out. nil: it always may
	Not     func(v *T) string // says what was expected where the field may not have a value; empty: it may. nil: it always may
	Unread  func(v *T) string // says what was expected where a value may not be read, though v may hold one that means nothing; empty: it may. nil: it always may
	Fits    func(v *T) bool   // whether the field has a row on v's page while it is empty; nil: always
	StandIn string            // a valid cell, used in place of an empty one while other cells are checked

	Decides bool // a change of it may make a setup that uses the move or jump invalid

	Parts []Field[T] // the cells of a field that has more than one, in order
	Both  bool       // its parts are given together or not at all

	Column  string   // of move tables: "knockdown_wall"; filled in
	Stored  string   // column of project files, where it isn't Column; filled in
	Earlier string   // its name in earlier versions
	Also    []string // headings that others' tables have for it, in small letters
	Care    Care     // which end of a range is taken, where another's table gives one
	Knocks  string   // the column that a knockdown goes to which stands in this one

	kind     FieldKind // filled in
	steps    []Step    // from T on: knockdown, wall; filled in
	at       access[T]
	standard func(v *T) string                        // the default, where it depends on other fields
	within   func(c *checker, v *T) (least, most int) // the range, likewise
	outside  string                                   // what is expected within it, with both ends; empty: a whole number
	rule     func(c *checker, path *Path, v *T)       // what else it must keep
}

// Care says which end of a range is the worse one for who plays the setup: that
// is the one to count on. A field without Why is in no range.
type Care struct {
	Most bool   // the greater end
	Why  string // why it is the worse one
}

// access reads and writes one value of a T.
type access[T any] interface {
	kind() FieldKind
	get(v *T) Content
	set(v *T, c Content) (want string) // what was expected in place of a text
	copy(to, from *T)
}

// inText is an access that reads and writes the project text itself. A field
// without one is written as an object of its parts.
type inText[T any] interface {
	read(f *fields, name string, v *T)
	write(w *writer, v *T)
}

// prepared fills in what follows from the rows; start is a new T.
func prepared[T any](start T, of []Field[T]) []Field[T] {
	for i := range of {
		of[i].prepare(&start, nil)
	}
	return of
}

func (f *Field[T]) prepare(start *T, in *Field[T]) {
	or := func(s *string, standard string) {
		if *s == "" {
			*s = standard
		}
	}
	steps, column := []Step{{Name: f.Name}}, f.Name
	if in != nil {
		steps, column = []Step{{Name: in.Name}, {Name: f.Name}}, in.Name+"_"+f.Name
	}
	if f.steps == nil {
		f.steps = steps
	}
	or(&f.Column, column)
	or(&f.Stored, f.Column)
	or(&f.Label, strings.ReplaceAll(f.Column, "_", " "))
	or(&f.Noun, strings.ReplaceAll(f.Column, "_", " "))
	if f.Min == 0 && f.Max == 0 {
		f.Min, f.Max = f.Unit.bounds()
	}
	f.kind = GroupField
	if f.at != nil {
		f.Default, f.kind = f.at.get(start), f.at.kind()
	}
	if one, ok := f.at.(interface{ words() []string }); ok {
		f.Words = one.words()
	}
	for i := range f.Parts {
		f.Parts[i].prepare(start, f)
	}
}

// Columns lists the fields with a cell of their own: those of a table, and the
// parts of its groups in place of them.
func Columns[T any](of []Field[T]) (out []*Field[T]) {
	for i := range of {
		if len(of[i].Parts) > 0 {
			out = append(out, Columns(of[i].Parts)...)
		} else {
			out = append(out, &of[i])
		}
	}
	return out
}

// FieldNamed returns the field of that name, nil where there is none.
func FieldNamed[T any](of []Field[T], name string) *Field[T] {
	for i := range of {
		if of[i].Name == name {
			return &of[i]
		}
	}
	return nil
}

// ColumnAt returns the column that holds what a path from a T on says of it:
// reach_near for $.reach[0], immune for $.immune[2].from.
func ColumnAt[T any](of []Field[T], path *Path) string {
	steps := path.Steps()
	for _, f := range Columns(of) {
		n := len(f.steps)
		if len(steps) >= n && slices.Equal(steps[:n], f.steps) && (len(steps) == n || steps[n].Name == "") {
			return f.Column
		}
	}
	return strings.TrimPrefix(path.String(), "$.")
}

// Differing lists the fields of a table in which two values differ: each place
// of a knockdown by itself, a reach or landing as a whole.
func Differing[T any](of []Field[T], a, b *T) (out []*Field[T]) {
	for i := range of {
		f := &of[i]
		switch {
		case f.at == nil:
			out = append(out, Differing(f.Parts, a, b)...)
		case f.at.get(a) != f.at.get(b):
			out = append(out, f)
		}
	}
	return out
}

// Copy gives to what from holds of the field.
func (f *Field[T]) Copy(to, from *T) { f.at.copy(to, from) }

// Path is where the field stands in the project text, from T on:
// "knockdown.wall", "reach[0]".
func (f *Field[T]) Path() string {
	return strings.TrimPrefix((*Path)(nil).in(f.steps).String(), "$.")
}

// IsPart reports whether the field is a part of a group.
func (f *Field[T]) IsPart() bool { return len(f.steps) > 1 }

// Kind says what the field holds.
func (f *Field[T]) Kind() FieldKind { return f.kind }

// Needed reports whether v must give the field.
func (f *Field[T]) Needed(v *T) bool { return f.Need != nil && f.Need(v) != "" }

// Get returns what v holds.
func (f *Field[T]) Get(v *T) Content { return f.at.get(v) }

// Set puts a cell into v. It returns what was expected where its text is not
// written as the field wants, and is empty where all is well.
func (f *Field[T]) Set(v *T, c Content) (want string) { return f.at.set(v, c) }

// Text writes what v holds for people, empty where nothing stands there.
func (f *Field[T]) Text(v *T) string {
	c := f.at.get(v)
	switch {
	case f.Kind() == FlagField && c.N != 0:
		return "yes"
	case f.Kind() == FlagField:
		return "no"
	case c.Given:
		return strconv.Itoa(c.N)
	}
	return c.Text
}

// Cell is Text, and empty for a default that needn't be given.
func (f *Field[T]) Cell(v *T) string {
	if !f.Needed(v) && f.IsDefault(v) {
		return ""
	}
	return f.Text(v)
}

// SetText reads what Text writes, and other common writings: a plus sign, a
// typographic minus, true for yes, capitals. It returns what was expected where
// it can't read the text. The caller decides what an empty text means: the
// default, or a missing value.
func (f *Field[T]) SetText(v *T, text string) (want string) {
	switch f.Kind() {
	case NumberField, MaybeField:
		n, ok := ParseWhole(text)
		f.at.set(v, Content{Maybe: Some(n)})
		return unless(ok, wantWhole)
	case FlagField:
		yes, ok := ParseFlag(text)
		f.at.set(v, flagCell(yes))
		return unless(ok, wantFlag)
	}
	return f.at.set(v, Content{Text: text})
}

// Reset puts the default into v.
func (f *Field[T]) Reset(v *T) { f.at.set(v, f.Default) }

func (f *Field[T]) IsDefault(v *T) bool {
	if f.at == nil {
		for i := range f.Parts {
			if !f.Parts[i].IsDefault(v) {
				return false
			}
		}
		return true
	}
	if f.standard != nil {
		return f.at.get(v).Text == f.standard(v)
	}
	return f.at.get(v) == f.Default
}

// read reads the field of a project text into v, which holds its default.
func (f *Field[T]) read(g *fields, v *T) {
	form, ok := f.at.(inText[T])
	if !ok {
		if inner := g.inner(f.Name); inner != nil {
			for i := range f.Parts {
				if f.Both {
					inner.need("both numbers of a "+f.Name, f.Parts[i].Name)
				}
			}
			readFields(inner, f.Parts, v)
			inner.end()
		}
		return
	}
	form.read(g, f.Name, v)
	if f.Earlier != "" && g.has(f.Earlier) {
		if !f.IsDefault(v) {
			g.fail(f.Earlier, "no windows under the earlier name beside those of "+f.Name, "some")
		}
		form.read(g, f.Earlier, v)
	}
}

// readFields reads the fields of one object, and asks that those stand there
// which always must.
func readFields[T any](g *fields, of []Field[T], v *T) {
	for i := range of {
		if f := &of[i]; f.Needed(v) {
			g.need(f.Need(v), f.Name)
		}
	}
	for i := range of {
		of[i].read(g, v)
	}
}

// writeFields writes the fields of one object, those with their default only
// where they must stand there, or all is asked for.
func writeFields[T any](w *writer, of []Field[T], v *T, all bool) {
	for i := range of {
		f := &of[i]
		if !all && !f.Needed(v) && f.IsDefault(v) {
			continue
		}
		w.key(f.Name)
		if form, ok := f.at.(inText[T]); ok {
			form.write(w, v)
		} else {
			w.object(func() { writeFields(w, f.Parts, v, f.Both) })
		}
	}
}

// checkFields checks every field of v; path is where v stands.
func checkFields[T any](c *checker, path *Path, of []Field[T], v *T) {
	for i := range of {
		of[i].check(c, path, v)
	}
}

func (f *Field[T]) check(c *checker, path *Path, v *T) {
	if c.err != nil {
		return
	}
	if f.at == nil || f.Both {
		checkFields(c, path, f.Parts, v)
		return
	}
	switch kind := f.Kind(); kind {
	case NumberField, MaybeField:
		cell := f.at.get(v)
		if kind == MaybeField && cell.Given || kind == NumberField && (cell.Maybe != f.Default.Maybe || f.Needed(v)) {
			f.checkRange(c, path, v, cell.N)
		}
	}
	if f.Not != nil {
		if want := f.Not(v); want != "" && !f.IsDefault(v) {
			c.fail(path.in(f.steps), want, f.got(v))
		}
	}
	if f.rule != nil {
		f.rule(c, path.in(f.steps), v)
	}
}

func (f *Field[T]) checkRange(c *checker, path *Path, v *T, n int) {
	least, most := f.Min, f.Max
	if f.within != nil {
		least, most = f.within(c, v)
	}
	if n < least || n > most {
		c.fail(path.in(f.steps), fmt.Sprintf(cmp.Or(f.outside, "a whole number from %d to %d"), least, most), strconv.Itoa(n))
	}
}

// got shows what stands there in an error.
func (f *Field[T]) got(v *T) string {
	switch f.Kind() {
	case TextField, WordField:
		return quote(f.Text(v))
	}
	return f.Text(v)
}

// Helpers for the rows of the tables.

func always[T any](what string) func(*T) string { return func(*T) string { return what } }

const wantGuardAfter = "a whole number from %d to the landing recovery, %d"
