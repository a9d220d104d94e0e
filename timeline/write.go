package timeline

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
)

// WriteText writes p as a project text that ReadText takes back to an equal
// project. Fields that have their default are left out; the order is fixed,
// so that equal projects give equal bytes.
func WriteText(p *Project) []byte {
	w := &writer{}
	w.WriteString("{\"wakeline\": 1,\n \"ruleset\": ")
	w.ruleset(p.Ruleset)
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

func (w *writer) flag(name string, b, def bool) {
	if b != def {
		w.key(name)
		w.WriteString(strconv.FormatBool(b))
	}
}

func (w *writer) texts(name string, of []string) {
	if len(of) > 0 {
		w.key(name)
		w.list(len(of), func(i int) { w.quote(of[i]) })
	}
}

func (w *writer) places(name string, p Places) {
	if p != (Places{}) {
		w.key(name)
		w.object(func() {
			w.maybe("midscreen", p.Midscreen)
			w.maybe("wall", p.Wall)
		})
	}
}

func (w *writer) ruleset(r Ruleset) {
	w.object(func() {
		w.text("rate", fmt.Sprintf("%d/%d", r.Rate.Num, r.Rate.Den), "")
		w.flag("startup_counts_first_active", r.StartupCountsFirstActive, !r.StartupCountsFirstActive)
		w.always("throw_grace_rise", r.ThrowGraceRise)
		w.always("throw_grace_landing", r.ThrowGraceLanding)
		w.flag("prejump_throw_proof", r.PrejumpThrowProof, !r.PrejumpThrowProof)
		w.always("buffer", r.Buffer)
		w.flag("trades", r.Trades, !r.Trades)
		w.always("health", r.Health)
		w.always("gauge", r.Gauge)
	})
}

func (w *writer) fighter(f *Fighter) {
	w.object(func() {
		w.text("name", f.Name, "")
		w.maybe("body", f.Body)
		w.WriteString(",\n   \"moves\": ")
		w.lines("   ", len(f.Moves), func(i int) { w.move(&f.Moves[i]) })
		w.WriteString(",\n   \"jumps\": ")
		w.lines("   ", len(f.Jumps), func(i int) { w.jump(&f.Jumps[i]) })
		w.WriteString(",\n   \"rises\": ")
		w.lines("   ", len(f.Rises), func(i int) {
			w.object(func() {
				w.text("name", f.Rises[i].Name, "")
				w.always("extra", f.Rises[i].Extra)
				w.number("shift", f.Rises[i].Shift, 0)
			})
		})
	})
}

func (w *writer) jump(j *Jump) {
	w.object(func() {
		w.text("name", j.Name, "")
		w.always("prejump", j.Prejump)
		w.always("airborne", j.Airborne)
		w.always("landing", j.Landing)
		w.number("guard_after", j.GuardAfter, 0)
		w.number("travel", j.Travel, 0)
		w.maybe("apex", j.Apex)
	})
}

func (w *writer) move(m *Move) {
	w.object(func() {
		w.text("name", m.Name, "")
		w.text("kind", string(m.Kind), "")
		w.flag("air", m.Air, false)
		level := ""
		if m.Kind == Throw {
			level = string(LevelThrow)
		}
		w.text("level", string(m.Level), level)
		if m.Hits() {
			w.always("startup", m.Startup)
			w.key("active")
			w.list(len(m.Active), func(i int) { w.WriteString(strconv.Itoa(m.Active[i])) })
			w.number("recovery", m.Recovery, 0)
		} else {
			w.always("total", m.Length)
		}
		w.maybe("on_hit", m.OnHit)
		w.maybe("on_guard", m.OnGuard)
		w.maybe("hitstun", m.Hitstun)
		w.maybe("guardstun", m.Guardstun)
		w.maybe("airborne_from", m.AirborneFrom)
		w.flag("misses_air", m.MissesAir, false)
		w.maybe("deep", m.Deep)
		w.maybe("drop", m.Drop)
		w.maybe("top", m.Top)
		if m.Reach != nil {
			w.key("reach")
			fmt.Fprintf(w, "[%d, %d]", m.Reach.Near, m.Reach.Far)
		}
		if m.Landing != nil {
			w.key("landing")
			w.object(func() {
				w.always("recovery", m.Landing.Recovery)
				w.always("guard_after", m.Landing.GuardAfter)
			})
		}
		w.windows(m)
		w.number("damage", m.Damage, 0)
		w.number("gauge_cost", m.GaugeCost, 0)
		w.number("gauge_gain", m.GaugeGain, 0)
		w.number("travel", m.Travel, 0)
		w.places("knockdown", m.Knockdown)
		w.places("distance", m.Distance)
	})
}

func (w *writer) windows(m *Move) {
	window := func(at Window) {
		w.always("from", at.From)
		w.always("to", at.To)
	}
	if len(m.Immune) > 0 {
		w.key("immune")
		w.list(len(m.Immune), func(i int) {
			w.object(func() {
				window(m.Immune[i].Window)
				switch {
				case !m.Immune[i].Throws:
					w.texts("against", []string{"strike"})
				case !m.Immune[i].Strikes:
					w.texts("against", []string{"throw"})
				}
			})
		})
	}
	if len(m.Armour) > 0 {
		w.key("armour")
		w.list(len(m.Armour), func(i int) {
			w.object(func() {
				window(m.Armour[i].Window)
				w.number("hits", m.Armour[i].Hits, 1)
			})
		})
	}
	if len(m.Parry) > 0 {
		w.key("parry")
		w.list(len(m.Parry), func(i int) { w.object(func() { window(m.Parry[i]) }) })
	}
}

func (w *writer) setup(s *Setup) {
	w.object(func() {
		w.text("name", s.Name, "")
		w.text("attacker", s.Attacker, "")
		w.text("rival", s.Rival, "")
		w.text("ender", s.Ender, "")
		w.text("position", string(s.Position), string(Midscreen))
		w.maybe("advantage", s.Advantage)
		w.texts("fillers", s.Fillers)
		w.number("delay", s.Delay, 0)
		w.text("jump", s.Jump, "")
		w.text("attack", s.Attack, "")
		w.maybe("press", s.Press)
		w.text("landing", s.Landing, DoGuard)
		w.texts("rises", s.Rises)
		if len(s.Replies) > 0 {
			w.WriteString(",\n   \"replies\": ")
			w.lines("   ", len(s.Replies), func(i int) {
				r := s.Replies[i]
				w.object(func() {
					w.text("move", r.Move, "")
					w.text("demand", string(r.Demand), string(Survive))
					w.number("late", r.Late, 0)
				})
			})
		}
		w.texts("tags", s.Tags)
		w.text("note", s.Note, "")
	})
}
