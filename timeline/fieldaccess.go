package timeline

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// The accesses of a table's fields. Each begins with where the value stands;
// a field that the project text leaves out keeps what v holds, its default.

// place is where a V stands in a T.
type place[T, V any] func(v *T) *V

func (p place[T, V]) copy(to, from *T) { *p(to) = *p(from) }

// word is a text, or one word of a list.
type word[T any, S ~string] struct {
	place[T, S]
	list    []S            // nil: any text
	earlier func(string) S // takes words of earlier versions for today's; nil: there are none
}

func textAt[T any, S ~string](p place[T, S]) access[T] { return word[T, S]{place: p} }

func (a word[T, S]) kind() FieldKind {
	if a.list == nil {
		return TextField
	}
	return WordField
}

func (a word[T, S]) get(v *T) Content { return Content{Text: string(*a.place(v))} }

func (a word[T, S]) set(v *T, c Content) string {
	if a.list == nil || c.Text == "" {
		*a.place(v) = S(c.Text)
		return ""
	}
	for _, w := range a.list {
		if strings.EqualFold(c.Text, string(w)) {
			*a.place(v) = w
			return ""
		}
	}
	if a.earlier != nil {
		if w := a.earlier(strings.ToLower(c.Text)); slices.Contains(a.list, w) {
			*a.place(v) = w
			return ""
		}
	}
	words := a.words()
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

func (a word[T, S]) words() (out []string) {
	for _, w := range a.list {
		out = append(out, string(w))
	}
	return out
}

func (a word[T, S]) read(f *fields, name string, v *T) {
	s := f.text(name, string(*a.place(v)))
	if *a.place(v) = S(s); a.earlier != nil {
		*a.place(v) = a.earlier(s)
	}
}

func (a word[T, S]) write(w *writer, v *T) { w.quote(string(*a.place(v))) }

// flag is yes or no.
type flag[T any] struct{ place[T, bool] }

func flagAt[T any](p place[T, bool]) access[T] { return flag[T]{p} }

func flagCell(yes bool) Content {
	if yes {
		return Content{Maybe: Some(1)}
	}
	return Content{Maybe: Some(0)}
}

func (a flag[T]) kind() FieldKind                   { return FlagField }
func (a flag[T]) get(v *T) Content                  { return flagCell(*a.place(v)) }
func (a flag[T]) set(v *T, c Content) string        { *a.place(v) = c.N != 0; return "" }
func (a flag[T]) read(f *fields, name string, v *T) { *a.place(v) = f.flag(name, *a.place(v)) }
func (a flag[T]) write(w *writer, v *T)             { w.WriteString(strconv.FormatBool(*a.place(v))) }

// number is a whole number.
type number[T any] struct{ place[T, int] }

func numberAt[T any](p place[T, int]) access[T] { return number[T]{p} }

func (a number[T]) kind() FieldKind            { return NumberField }
func (a number[T]) get(v *T) Content           { return Content{Maybe: Some(*a.place(v))} }
func (a number[T]) set(v *T, c Content) string { *a.place(v) = c.N; return "" }
func (a number[T]) read(f *fields, name string, v *T) {
	*a.place(v) = f.number(name, *a.place(v))
}
func (a number[T]) write(w *writer, v *T) { w.WriteString(strconv.Itoa(*a.place(v))) }

// length is a whole number above 0, or 0 for none.
type length[T any] struct{ number[T] }

func lengthAt[T any](p place[T, int]) access[T] { return length[T]{number[T]{p}} }

func (a length[T]) get(v *T) Content {
	n := *a.place(v)
	return Content{Maybe: Maybe{n, n != 0}}
}

// maybe is a whole number, or nothing.
type maybe[T any] struct{ place[T, Maybe] }

func maybeAt[T any](p place[T, Maybe]) access[T] { return maybe[T]{p} }

func (a maybe[T]) kind() FieldKind                   { return MaybeField }
func (a maybe[T]) get(v *T) Content                  { return Content{Maybe: *a.place(v)} }
func (a maybe[T]) set(v *T, c Content) string        { *a.place(v) = c.Maybe; return "" }
func (a maybe[T]) read(f *fields, name string, v *T) { *a.place(v) = f.maybe(name) }
func (a maybe[T]) write(w *writer, v *T) {
	if a.place(v).Given {
		w.WriteString(strconv.Itoa(a.place(v).N))
	} else {
		w.WriteString("null")
	}
}

// active is active frames, with the gaps between them.
type active[T any] struct{ place[T, []int] }

func activeAt[T any](p place[T, []int]) access[T] { return active[T]{p} }

func (a active[T]) kind() FieldKind                   { return ListField }
func (a active[T]) get(v *T) Content                  { return Content{Text: ActiveWords(*a.place(v))} }
func (a active[T]) read(f *fields, name string, v *T) { *a.place(v) = f.numbers(name) }

func (a active[T]) set(v *T, c Content) (want string) {
	list, ok := []int(nil), true
	if c.Text != "" {
		list, ok = parseActive(c.Text)
	}
	*a.place(v) = list
	return unless(ok, wantActive)
}

func (a active[T]) write(w *writer, v *T) {
	of := *a.place(v)
	w.list(len(of), func(i int) { w.WriteString(strconv.Itoa(of[i])) })
}

// windows is a list of windows.
type windows[T, W any] struct {
	place[T, []W]
	form *windowForm[W]
}

func windowsAt[T, W any](form *windowForm[W], p place[T, []W]) access[T] {
	return windows[T, W]{p, form}
}

func (a windows[T, W]) kind() FieldKind  { return ListField }
func (a windows[T, W]) get(v *T) Content { return Content{Text: a.form.formatAll(*a.place(v))} }

func (a windows[T, W]) set(v *T, c Content) (want string) {
	list, ok := []W(nil), true
	if c.Text != "" {
		list, ok = a.form.parseAll(c.Text)
	}
	*a.place(v) = list
	return unless(ok, a.form.want)
}

func (a windows[T, W]) read(f *fields, name string, v *T) {
	f.each(name, func(at *Path, item value) {
		g, w := fieldsOf(f.err, at, item), a.form.start
		readFields(g, a.form.fields, &w)
		g.end()
		*a.place(v) = append(*a.place(v), w)
	})
}

func (a windows[T, W]) write(w *writer, v *T) {
	of := *a.place(v)
	w.list(len(of), func(i int) { w.object(func() { writeFields(w, a.form.fields, &of[i], false) }) })
}

// check is a field's rule that asks each window to keep its own.
func (form *windowForm[W]) check(p place[Move, []W], most int) func(c *checker, path *Path, m *Move) {
	return func(c *checker, path *Path, m *Move) {
		if n := len(*p(m)); most > 0 && n > most {
			c.fail(path, fmt.Sprintf("at most %d windows", most), strconv.Itoa(n))
		}
		for i := range *p(m) {
			checkFields(c, path.Item(i), form.fields, &(*p(m))[i])
		}
	}
}

// half is one of two numbers that stand together behind a pointer: both are
// there or neither is.
type half[T, P any] struct {
	of place[T, *P]
	at func(p *P) *int
}

func halfAt[T, P any](of place[T, *P], at func(p *P) *int) access[T] { return half[T, P]{of, at} }

func (a half[T, P]) kind() FieldKind { return MaybeField }

func (a half[T, P]) get(v *T) Content {
	if p := *a.of(v); p != nil {
		return Content{Maybe: Some(*a.at(p))}
	}
	return Content{}
}

func (a half[T, P]) set(v *T, c Content) string {
	p := a.of(v)
	if *p == nil {
		if !c.Given {
			return ""
		}
		*p = new(P)
	}
	*a.at(*p) = c.N
	return ""
}

func (a half[T, P]) copy(to, from *T) { a.set(to, a.get(from)) }
func (a half[T, P]) read(f *fields, name string, v *T) {
	a.set(v, Content{Maybe: Some(f.number(name, 0))})
}
func (a half[T, P]) write(w *writer, v *T) { w.WriteString(strconv.Itoa(a.get(v).N)) }

// pair is both numbers, written with words between them.
type pair[T, P any] struct {
	place[T, *P]
	words string
	one   func(p *P) *int
	two   func(p *P) *int
}

func (a pair[T, P]) kind() FieldKind            { return GroupField }
func (a pair[T, P]) set(v *T, _ Content) string { *a.place(v) = nil; return "" }

func (a pair[T, P]) get(v *T) Content {
	if p := *a.place(v); p != nil {
		return Content{Text: fmt.Sprintf(a.words, *a.one(p), *a.two(p))}
	}
	return Content{}
}

// pairInList is a pair that is a list of two in the project text.
type pairInList[T, P any] struct {
	pair[T, P]
	want string
}

func (a pairInList[T, P]) read(f *fields, name string, v *T) {
	if given, ok := f.take(name); !ok || given == nil {
		return
	}
	n := f.numbers(name)
	if len(n) != 2 {
		f.fail(name, a.want, strconv.Itoa(len(n)))
		return
	}
	p := new(P)
	*a.one(p), *a.two(p) = n[0], n[1]
	*a.place(v) = p
}

func (a pairInList[T, P]) write(w *writer, v *T) {
	p := *a.place(v)
	fmt.Fprintf(w, "[%d, %d]", *a.one(p), *a.two(p))
}
