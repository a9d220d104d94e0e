package timeline

import (
	"bytes"
	"encoding/json"
	"strconv"
)

// WriteText writes p as a project text that ReadText takes back to an equal
// project. Fields that have their default are left out; the order is fixed,
// so that equal projects give equal bytes.
func WriteText(p *Project) []byte {
	w := &writer{}
	w.WriteString("{\"wakeline\": 1,\n \"ruleset\": ")
	w.object(func() { writeFields(w, RulesetFields, &p.Ruleset, true) })
	w.WriteString(",\n \"fighters\": ")
	w.lines(" ", len(p.Fighters), func(i int) { w.fighter(&p.Fighters[i]) })
	w.WriteString(",\n \"setups\": ")
	w.lines(" ", len(p.Setups), func(i int) { w.setup(&p.Setups[i]) })
	w.WriteString("}\n")
	return w.Bytes()
}

// writer writes objects on one line and lists of them a line each.
type writer struct {
	bytes.Buffer
	comma bool // the object being written has a field already
}

func (w *writer) object(fields func()) {
	outer := w.comma
	w.comma = false
	w.WriteByte('{')
	fields()
	w.WriteByte('}')
	w.comma = outer
}

// lines writes a list with a line an item, indented one more than indent.
func (w *writer) lines(indent string, n int, item func(i int)) {
	w.WriteByte('[')
	for i := range n {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteString("\n" + indent + " ")
		item(i)
	}
	w.WriteByte(']')
}

// list writes a list on one line.
func (w *writer) list(n int, item func(i int)) {
	w.WriteByte('[')
	for i := range n {
		if i > 0 {
			w.WriteString(", ")
		}
		item(i)
	}
	w.WriteByte(']')
}

func (w *writer) key(name string) {
	if w.comma {
		w.WriteString(", ")
	}
	w.comma = true
	w.quote(name)
	w.WriteString(": ")
}

func (w *writer) quote(s string) {
	enc := json.NewEncoder(&w.Buffer)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(s); err != nil {
		panic(err) // a text always encodes
	}
	w.Truncate(w.Len() - 1) // the encoder's line break
}

// text writes the field unless it has its default.
func (w *writer) text(name, s, def string) {
	if s != def {
		w.key(name)
		w.quote(s)
	}
}

func (w *writer) number(name string, n, def int) {
	if n != def {
		w.key(name)
		w.WriteString(strconv.Itoa(n))
	}
}

func (w *writer) always(name string, n int) { w.number(name, n, n-1) }

func (w *writer) maybe(name string, m Maybe) {
	if m.Given {
		w.always(name, m.N)
	}
}

func (w *writer) texts(name string, of []string) {
	if len(of) > 0 {
		w.key(name)
		w.list(len(of), func(i int) { w.quote(of[i]) })
	}
}

func (w *writer) fighter(f *Fighter) {
	w.object(func() {
		writeFields(w, FighterFields, f, false)
		w.WriteString(",\n   \"moves\": ")
		writeLines(w, MoveFields, f.Moves)
		w.WriteString(",\n   \"jumps\": ")
		writeLines(w, JumpFields, f.Jumps)
		w.WriteString(",\n   \"rises\": ")
		writeLines(w, RiseFields, f.Rises)
		if len(f.Replies) > 0 {
			w.replies(f.Replies)
		}
		if len(f.Routes) > 0 {
			w.WriteString(",\n   \"routes\": ")
			w.lines("   ", len(f.Routes), func(i int) { w.route(&f.Routes[i]) })
		}
	})
}

// writeLines writes the things of a fighter, a line each.
func writeLines[T any](w *writer, of []Field[T], list []T) {
	w.lines("   ", len(list), func(i int) { w.object(func() { writeFields(w, of, &list[i], false) }) })
}

func (w *writer) setup(s *Setup) {
	w.object(func() {
		w.text("name", s.Name, "")
		w.text("attacker", s.Attacker, "")
		w.text("rival", s.Rival, "")
		w.text("ender", s.Ender, "")
		w.text("position", string(s.Position), string(Midscreen))
		w.maybe("advantage", s.Advantage)
		w.maybe("distance", s.Distance)
		w.maybe("room", s.Room)
		w.texts("fillers", s.Fillers)
		w.number("delay", s.Delay, 0)
		w.text("jump", s.Jump, "")
		w.text("attack", s.Attack, "")
		w.maybe("press", s.Press)
		w.text("landing", s.Landing, DoGuard)
		w.texts("rises", s.Rises)
		if s.Replies != nil {
			w.replies(s.Replies)
		}
		w.text("on_hit", s.OnHit, "")
		w.texts("punish", s.Punish)
		if len(s.Follow) > 0 {
			w.key("follow")
			w.list(len(s.Follow), func(i int) { w.object(func() { writeFields(w, FollowFields, &s.Follow[i], false) }) })
		}
		w.number("pressure", s.Pressure, 0)
		w.texts("tags", s.Tags)
		w.text("note", s.Note, "")
	})
}

// replies writes a list of replies, a line each.
func (w *writer) replies(of []Reply) {
	w.WriteString(",\n   \"replies\": ")
	w.lines("   ", len(of), func(i int) {
		r := of[i]
		w.object(func() {
			w.text("move", r.Move, "")
			w.text("demand", string(r.Demand), string(Survive))
			w.number("late", r.Late, 0)
			w.maybe("costs", r.Costs)
		})
	})
}

func (w *writer) route(r *Route) {
	w.object(func() {
		writeFields(w, RouteFields, r, false)
		w.key("steps")
		w.list(len(r.Steps), func(i int) { w.object(func() { writeFields(w, RouteStepFields, &r.Steps[i], false) }) })
	})
}
