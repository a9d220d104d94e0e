package timeline

import (
	"fmt"
	"reflect"
	"strings"
	"unicode"
)

// fieldOf is one field of a part's struct, found by reflection so that a new
// field of a move is compared without a word here.
type fieldOf struct {
	name  string // as in the project text
	index []int
}

// textNames are the fields that the project text calls otherwise than their
// Go name in small letters.
var textNames = map[string]string{"Length": "total"}

// equal reports whether two parts, pointers or nil, hold the same.
func equal(a, b any) bool { return reflect.DeepEqual(a, b) }

// changedFields lists what differs between two parts of one type, in the
// order of its struct. It is empty where one is nil or they are of two types,
// and for a body, which is a number.
func changedFields(before, after any) (out []fieldOf) {
	a, b := reflect.ValueOf(before), reflect.ValueOf(after)
	if before == nil || after == nil || a.Type() != b.Type() {
		return nil
	}
	if _, ok := before.(*Maybe); ok {
		return []fieldOf{{name: "body"}}
	}
	for _, f := range fieldsOfType(a.Type().Elem(), "", nil) {
		if !reflect.DeepEqual(a.Elem().FieldByIndex(f.index).Interface(), b.Elem().FieldByIndex(f.index).Interface()) {
			out = append(out, f)
		}
	}
	return out
}

// fieldsOfType lists the fields of a struct, each place of a Places by itself.
func fieldsOfType(t reflect.Type, prefix string, index []int) (out []fieldOf) {
	for i := range t.NumField() {
		f := t.Field(i)
		name := prefix + textName(f.Name)
		at := append(append([]int(nil), index...), i)
		if f.Type == reflect.TypeFor[Places]() {
			out = append(out, fieldsOfType(f.Type, name+".", at)...)
			continue
		}
		out = append(out, fieldOf{name, at})
	}
	return out
}

// textName writes a Go name as the project text does: OnHit, on_hit.
func textName(name string) string {
	if out, ok := textNames[name]; ok {
		return out
	}
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// mix is a copy of before with those fields of after.
func mix(before, after any, fields []fieldOf) any {
	out := reflect.New(reflect.TypeOf(before).Elem())
	out.Elem().Set(reflect.ValueOf(before).Elem())
	for _, f := range fields {
		out.Elem().FieldByIndex(f.index).Set(reflect.ValueOf(after).Elem().FieldByIndex(f.index))
	}
	return out.Interface()
}

// say writes the field of a part as people write it: active frames and
// windows as the trade does, "none" where nothing stands there.
func (f fieldOf) say(part any) string {
	switch v := reflect.ValueOf(part).Elem().FieldByIndex(f.index).Interface().(type) {
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case Rate:
		return fmt.Sprintf("%d/%d", v.Num, v.Den)
	case []int:
		return sayActive(v)
	case []Immunity:
		return sayEach(v, func(w Immunity) string {
			switch {
			case !w.Throws:
				return sayWindow(w.Window) + " strike"
			case !w.Strikes:
				return sayWindow(w.Window) + " throw"
			}
			return sayWindow(w.Window)
		})
	case []Armour:
		return sayEach(v, func(w Armour) string {
			if w.Hits == 1 {
				return sayWindow(w.Window)
			}
			return fmt.Sprintf("%s %d hits", sayWindow(w.Window), w.Hits)
		})
	case []Window:
		return sayEach(v, sayWindow)
	case *Interval:
		if v == nil {
			return "none"
		}
		return fmt.Sprintf("%d to %d", v.Near, v.Far)
	case *Landing:
		if v == nil {
			return "none"
		}
		return fmt.Sprintf("%d with a guard after %d", v.Recovery, v.GuardAfter)
	default:
		if s := fmt.Sprint(v); s != "" {
			return s
		}
		return "none"
	}
}

func sayWindow(w Window) string { return fmt.Sprintf("%d-%d", w.From, w.To) }

func sayEach[W any](of []W, say func(W) string) string {
	if len(of) == 0 {
		return "none"
	}
	out := make([]string, len(of))
	for i, w := range of {
		out[i] = say(w)
	}
	return strings.Join(out, "; ")
}

// sayActive writes active frames with their gaps in brackets: 2(5)1.
func sayActive(active []int) string {
	if len(active) == 0 {
		return "none"
	}
	var b strings.Builder
	for i, n := range active {
		if i%2 == 0 {
			fmt.Fprint(&b, n)
		} else {
			fmt.Fprintf(&b, "(%d)", n)
		}
	}
	return b.String()
}
