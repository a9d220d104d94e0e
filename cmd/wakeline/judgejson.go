package main

import (
	"bytes"
	"encoding/json"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// verdictJSON is a verdict as interfaces.md's `judge --json` has it, indented
// as an item of "setups", its innermost objects a line each. It writes what
// encoding/json would, many times as fast: a project file may hold a hundred
// thousand setups.
func verdictJSON(v *words.Verdict, worth *value.Answer) []byte {
	const head, row = 1024, 256 // about as long as they come
	size := head
	for i := range v.Rises {
		size += row * len(v.Rises[i].Replies)
	}
	w := jsonWriter{b: make([]byte, 0, size), indent: "  "}
	w.object(func() {
		w.text("setup", v.Setup)
		w.number("advantage", v.Advantage)
		w.maybe("distance", v.Distance)
		w.maybe("room", v.Room)
		w.number("delay", v.Delay)
		w.text("verdict", string(v.Word))
		w.text("because", v.Because)
		w.maybe("jump_on", v.JumpOn)
		w.maybe("touchdown", v.Touchdown)
		w.maybe("guards_from", v.GuardsFrom)
		w.number("acts_from", v.ActsFrom)
		w.bounds("window", v.Window)
		w.list("uncovered", len(v.Uncovered), func(i int) { w.quote(v.Uncovered[i]) })
		w.neighbour("earlier", v.Earlier)
		w.neighbour("later", v.Later)
		w.bounds("holds_advantage", v.HoldsAdvantage)
		if v.HoldsDistance == nil {
			w.null("holds_distance")
		} else {
			w.bounds("holds_distance", v.HoldsDistance)
		}
		w.maybe("holds_startup", v.HoldsStartup)
		w.maybe("forgone", worth.Forgone)
		w.maybe("kills_on_hit", worth.KillsOnHit)
		w.string(worth.String)
		w.list("rises", len(v.Rises), func(i int) { w.rise(&v.Rises[i], worth.Rises[i]) })
	})
	return w.b
}

// failureJSON is what stands in a verdict's place where a setup can't be
// judged.
func failureJSON(setup, why string) []byte {
	w := jsonWriter{indent: "  "}
	w.object(func() {
		w.text("setup", setup)
		w.text("error", why)
	})
	return w.b
}

// jsonWriter appends JSON, indented by one space a level.
type jsonWriter struct {
	b      []byte
	indent string // of the value being written
	comma  bool   // something stands before in it
	flat   bool   // it stands on one line
}

// deeper writes what is inside brackets, and returns whether anything was.
func (w *jsonWriter) deeper(inside func()) {
	outer := *w
	w.indent, w.comma = w.indent+" ", false
	inside()
	some := w.comma
	w.indent, w.comma = outer.indent, outer.comma
	if some && !w.flat {
		w.line()
	}
}

func (w *jsonWriter) line() { w.b = append(append(w.b, '\n'), w.indent...) }

// next begins the next field or item.
func (w *jsonWriter) next() {
	switch {
	case w.comma && w.flat:
		w.b = append(w.b, ", "...)
	case w.comma:
		w.b = append(w.b, ',')
	}
	w.comma = true
	if !w.flat {
		w.line()
	}
}

func (w *jsonWriter) object(fields func()) {
	w.b = append(w.b, '{')
	w.deeper(fields)
	w.b = append(w.b, '}')
}

// row is an object on one line.
func (w *jsonWriter) row(fields func()) {
	w.flat = true
	w.object(fields)
	w.flat = false
}

func (w *jsonWriter) list(name string, n int, item func(i int)) {
	w.key(name)
	w.b = append(w.b, '[')
	w.deeper(func() {
		for i := range n {
			w.next()
			item(i)
		}
	})
	w.b = append(w.b, ']')
}

// bounds writes runs of numbers, a row each.
func (w *jsonWriter) bounds(name string, of []timeline.Bounds) {
	w.list(name, len(of), func(i int) {
		w.row(func() {
			w.number("from", of[i].From)
			w.number("to", of[i].To)
		})
	})
}

func (w *jsonWriter) null(name string) {
	w.key(name)
	w.b = append(w.b, "null"...)
}

// key begins a field; its name needs no escapes.
func (w *jsonWriter) key(name string) {
	w.next()
	w.b = append(append(append(w.b, '"'), name...), `": `...)
}

func (w *jsonWriter) number(name string, n int) {
	w.key(name)
	w.b = strconv.AppendInt(w.b, int64(n), 10)
}

func (w *jsonWriter) maybe(name string, m timeline.Maybe) {
	w.key(name)
	w.b = appendMaybe(w.b, m)
}

func (w *jsonWriter) text(name, s string) {
	w.key(name)
	w.quote(s)
}

// quote writes a text; what needs care is encoding/json's to write.
func (w *jsonWriter) quote(s string) {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' {
			w.b = append(w.b, quoted(s)...)
			return
		}
	}
	w.b = append(append(append(w.b, '"'), s...), '"')
}

func (w *jsonWriter) neighbour(name string, n *words.Neighbour) {
	w.key(name)
	if n == nil {
		w.b = append(w.b, "null"...)
		return
	}
	w.row(func() {
		w.number("delay", n.Delay)
		w.text("verdict", string(n.Word))
		w.text("because", n.Because)
	})
}

// string writes what follows a guarded attack, a step a line.
func (w *jsonWriter) string(s *value.String) {
	if s == nil {
		w.null("string")
		return
	}
	w.key("string")
	w.object(func() {
		w.list("steps", len(s.Steps), func(i int) {
			step := &s.Steps[i]
			w.row(func() {
				w.text("move", step.Move)
				w.maybe("advantage_before", step.Before)
				w.maybe("touches", step.Touches)
				w.maybe("gap", step.Gap)
				w.textOrNull("beaten_by", step.BeatenBy)
				w.list("replies", len(step.Exchanges), func(k int) {
					w.object(func() {
						w.text("reply", step.Exchanges[k].Reply)
						w.text("outcome", step.Exchanges[k].Outcome.String())
					})
				})
			})
		})
		w.maybe("advantage", s.Advantage)
		w.textOrNull("punished_by", s.PunishedBy)
	})
}

// textOrNull writes null for an empty text.
func (w *jsonWriter) textOrNull(name, s string) {
	if s == "" {
		w.null(name)
		return
	}
	w.text(name, s)
}

func (w *jsonWriter) rise(r *timeline.RiseVerdict, worth []value.Worth) {
	w.object(func() {
		w.text("rise", r.Rise)
		w.number("wake", r.Wake)
		w.list("replies", len(r.Replies), func(i int) { w.reply(&r.Replies[i], &worth[i]) })
	})
}

// reply writes an exchange on one line. Most of the document are these: they
// go the short way.
func (w *jsonWriter) reply(r *timeline.ReplyVerdict, worth *value.Worth) {
	w.b = append(w.b, `{"reply": `...)
	w.quote(r.Reply)
	w.b = strconv.AppendInt(append(w.b, `, "late": `...), int64(r.Late), 10)
	w.b = append(append(w.b, `, "demand": "`...), r.Demand...)
	w.b = append(append(w.b, `", "outcome": "`...), r.Outcome.String()...)
	w.b = appendMaybe(append(w.b, `", "meeting": `...), r.Meeting)
	w.b = appendMaybe(append(w.b, `, "spare": `...), r.Spare)
	w.b = appendMaybe(append(w.b, `, "after_wake": `...), r.AfterWake)
	w.b = appendMaybe(append(w.b, `, "advantage": `...), r.Advantage)
	w.b = appendMaybe(append(w.b, `, "to_punish": `...), r.ToPunish)
	w.b = appendMaybe(append(w.b, `, "apart": `...), r.Apart)
	side, _ := r.Side.MarshalJSON()
	w.b = append(append(w.b, `, "side": `...), side...)
	w.b = append(appendMaybe(append(w.b, `, "points": `...), worth.Points), `, "route": `...)
	if worth.Route == "" {
		w.b = append(w.b, "null"...)
	} else {
		w.quote(worth.Route)
	}
	w.b = append(appendMaybe(append(w.b, `, "kills_from": `...), worth.Kills), '}')
}

func appendMaybe(b []byte, m timeline.Maybe) []byte {
	if !m.Given {
		return append(b, "null"...)
	}
	return strconv.AppendInt(b, int64(m.N), 10)
}

// quoted writes a text as JSON, its < and > and & as they are, and every control
// character as an escape.
func quoted(s string) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(s); err != nil {
		panic(err) // a text always encodes
	}
	return plain(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
}
