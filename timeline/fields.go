package timeline

import "encoding/json"

// fields reads the fields of one JSON object, strictly: a field asked for has
// its type, and end finds those that nobody asked for. The first error of the
// document is kept; after it every read answers with nothing.
type fields struct {
	err  *error
	at   *Path
	obj  *object
	used map[string]bool
}

// fieldsOf opens v, which must be an object.
func fieldsOf(err *error, at *Path, v value) *fields {
	f := &fields{err: err, at: at, obj: &object{}, used: map[string]bool{}}
	if obj, ok := v.(*object); ok {
		f.obj = obj
	} else {
		f.failAt(at, "an object", describe(v))
	}
	return f
}

func (f *fields) failAt(at *Path, want, got string) {
	if *f.err == nil {
		*f.err = &FieldError{Path: at, Want: want, Got: got}
	}
}

func (f *fields) fail(name, want, got string) {
	f.failAt(f.at.At(name), want, got)
}

// take returns the field and whether it stands there.
func (f *fields) take(name string) (value, bool) {
	f.used[name] = true
	v, ok := f.obj.values[name]
	return v, ok
}

// has reports whether the field stands there.
func (f *fields) has(name string) bool {
	_, ok := f.obj.values[name]
	return ok
}

// need asks that the fields stand there.
func (f *fields) need(what string, names ...string) {
	for _, name := range names {
		if _, ok := f.obj.values[name]; !ok {
			f.fail(name, what, "nothing")
		}
	}
}

// end fails on the first field that was not asked for.
func (f *fields) end() {
	for _, name := range f.obj.names {
		if !f.used[name] {
			f.fail(name, "no field of that name", "one")
			return
		}
	}
}

// text returns a text, or def where the field is left out.
func (f *fields) text(name, def string) string {
	v, ok := f.take(name)
	if !ok {
		return def
	}
	s, ok := v.(string)
	if !ok {
		f.fail(name, "a text", describe(v))
	}
	return s
}

// textOrNull returns a text, empty where the field is left out or null.
func (f *fields) textOrNull(name string) string {
	v, ok := f.take(name)
	if !ok || v == nil {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		f.fail(name, "a text or null", describe(v))
	} else if s == "" {
		f.fail(name, "a name or null", "an empty text")
	}
	return s
}

func (f *fields) flag(name string, def bool) bool {
	v, ok := f.take(name)
	if !ok {
		return def
	}
	b, ok := v.(bool)
	if !ok {
		f.fail(name, "true or false", describe(v))
	}
	return b
}

func (f *fields) number(name string, def int) int {
	v, ok := f.take(name)
	if !ok {
		return def
	}
	return f.wholeAt(f.at.At(name), v, "a whole number")
}

func (f *fields) wholeAt(at *Path, v value, want string) int {
	if n, ok := v.(json.Number); ok {
		if i, ok := whole(n); ok {
			return i
		}
	}
	f.failAt(at, want, describe(v))
	return 0
}

// maybe returns a number, absent where the field is left out or null.
func (f *fields) maybe(name string) Maybe {
	v, ok := f.take(name)
	if !ok || v == nil {
		return Maybe{}
	}
	return Some(f.wholeAt(f.at.At(name), v, "a whole number or null"))
}

// each calls do for every item of a list; a field left out has none.
func (f *fields) each(name string, do func(at *Path, v value)) {
	v, ok := f.take(name)
	if !ok {
		return
	}
	here := f.at.At(name)
	list, ok := v.([]value)
	if !ok {
		f.failAt(here, "a list", describe(v))
	}
	for i, item := range list {
		if *f.err != nil {
			return
		}
		do(here.Item(i), item)
	}
}

// texts returns a list of texts, nil where it is empty or left out.
func (f *fields) texts(name string) (out []string) {
	f.each(name, func(at *Path, v value) {
		s, ok := v.(string)
		if !ok {
			f.failAt(at, "a text", describe(v))
		}
		out = append(out, s)
	})
	return out
}

// numbers returns a list of whole numbers, nil where it is empty or left out.
func (f *fields) numbers(name string) (out []int) {
	f.each(name, func(at *Path, v value) {
		out = append(out, f.wholeAt(at, v, "a whole number"))
	})
	return out
}

// inner returns the fields of the object in that field, nil where it is left
// out or null.
func (f *fields) inner(name string) *fields {
	v, ok := f.take(name)
	if !ok || v == nil {
		return nil
	}
	return fieldsOf(f.err, f.at.At(name), v)
}
