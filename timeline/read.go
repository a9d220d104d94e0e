package timeline

import (
	"fmt"
	"strconv"
	"strings"
)

// ReadText reads a project text (interfaces.md, "Project text"). It is strict:
// an unknown field, a wrong type, a name that nothing bears or a number out of
// range is a *FieldError with its JSON path; what is not JSON is a
// *SyntaxError with line and column.
func ReadText(data []byte) (*Project, error) {
	doc, err := parse(data)
	if err != nil {
		return nil, err
	}
	p := readProject(&err, doc)
	if err == nil {
		err = p.Check()
	}
	if err != nil {
		return nil, err
	}
	return p, nil
}

func readProject(err *error, doc value) *Project {
	p := &Project{Ruleset: DefaultRuleset()}
	f := fieldsOf(err, nil, doc)
	f.need("the version of the project text, 1", "wakeline")
	if v := f.number("wakeline", 1); v != 1 {
		f.fail("wakeline", "version 1 of the project text", strconv.Itoa(v))
	}
	if v, ok := f.take("ruleset"); ok {
		p.Ruleset = readRuleset(fieldsOf(err, &path{name: "ruleset"}, v))
	}
	byDefault := map[string]bool{} // the fighters who were given no rises
	f.each("fighters", func(at *path, v value) {
		g := fieldsOf(err, at, v)
		p.Fighters = append(p.Fighters, readFighter(g, p.Ruleset))
		_, given := g.obj.values["rises"]
		byDefault[p.Fighters[len(p.Fighters)-1].Name] = !given
	})
	f.each("setups", func(at *path, v value) {
		p.Setups = append(p.Setups, readSetup(fieldsOf(err, at, v)))
	})
	f.end()
	p.readEarlier(byDefault)
	return p
}

func readRuleset(f *fields) Ruleset {
	r := DefaultRuleset()
	if text := f.text("rate", "60/1"); text != "60/1" {
		num, den, _ := strings.Cut(text, "/")
		var err1, err2 error
		r.Rate.Num, err1 = strconv.Atoi(num)
		r.Rate.Den, err2 = strconv.Atoi(den)
		if err1 != nil || err2 != nil || text != fmt.Sprintf("%d/%d", r.Rate.Num, r.Rate.Den) {
			f.fail("rate", "a text such as \"60/1\"", strconv.Quote(text))
		}
	}
	r.StartupCountsFirstActive = f.flag("startup_counts_first_active", r.StartupCountsFirstActive)
	r.ThrowGraceRise = f.number("throw_grace_rise", r.ThrowGraceRise)
	r.ThrowGraceLanding = f.number("throw_grace_landing", r.ThrowGraceLanding)
	r.PrejumpThrowProof = f.flag("prejump_throw_proof", r.PrejumpThrowProof)
	r.Buffer = f.number("buffer", r.Buffer)
	r.Trades = f.flag("trades", r.Trades)
	r.Health = f.number("health", r.Health)
	r.Gauge = f.number("gauge", r.Gauge)
	f.end()
	return r
}

func readFighter(f *fields, rules Ruleset) Fighter {
	f.need("a name", "name")
	out := Fighter{Name: f.text("name", ""), Body: f.maybe("body")}
	f.each("moves", func(at *path, v value) {
		out.Moves = append(out.Moves, readMove(fieldsOf(f.err, at, v), rules))
	})
	f.each("jumps", func(at *path, v value) {
		out.Jumps = append(out.Jumps, readJump(fieldsOf(f.err, at, v)))
	})
	if _, given := f.obj.values["rises"]; !given {
		out.Rises = DefaultRises()
	}
	f.each("rises", func(at *path, v value) {
		g := fieldsOf(f.err, at, v)
		g.need("a name", "name")
		g.need("the frames after the quickest rise", "extra")
		out.Rises = append(out.Rises, Rise{g.text("name", ""), g.number("extra", 0), g.number("shift", 0)})
		g.end()
	})
	f.end()
	return out
}

func readJump(f *fields) Jump {
	f.need("a name", "name")
	f.need("a number of frames", "prejump", "airborne", "landing")
	j := Jump{
		Name: f.text("name", ""), Prejump: f.number("prejump", 0), Airborne: f.number("airborne", 0),
		Landing: f.number("landing", 0), GuardAfter: f.number("guard_after", 0),
		Travel: f.number("travel", 0), Apex: f.maybe("apex"),
	}
	f.end()
	return j
}

func readMove(f *fields, rules Ruleset) Move {
	f.need("a name", "name")
	f.need("strike, throw, parry, evade or dash", "kind")
	m := Move{
		Name: f.text("name", ""), Kind: KindOf(f.text("kind", "")), Air: f.flag("air", false),
		Startup: f.number("startup", 0), Active: f.numbers("active"), Recovery: f.number("recovery", 0),
		OnHit: f.maybe("on_hit"), OnGuard: f.maybe("on_guard"), Hitstun: f.maybe("hitstun"), Guardstun: f.maybe("guardstun"),
		AirborneFrom: f.maybe("airborne_from"), MissesAir: f.flag("misses_air", false),
		Deep: f.maybe("deep"), Drop: f.maybe("drop"), Top: f.maybe("top"),
		Damage: f.number("damage", 0), GaugeCost: f.number("gauge_cost", 0), GaugeGain: f.number("gauge_gain", 0),
		Travel: f.number("travel", 0), Knockdown: readPlaces(f, "knockdown"), Distance: readPlaces(f, "distance"),
	}
	level := ""
	if m.Kind == Throw {
		level = string(LevelThrow)
	}
	m.Level = Level(f.text("level", level))
	if _, given := f.take("level"); given && m.Level == "" {
		f.fail("level", "a level, or none given", "an empty text")
	}
	readReach(f, &m)
	if g := f.inner("landing"); g != nil {
		g.need("both numbers of a landing", "recovery", "guard_after")
		m.Landing = &Landing{g.number("recovery", 0), g.number("guard_after", 0)}
		g.end()
	}
	readWindows(f, &m)
	readLengths(f, &m, rules)
	f.end()
	return m
}

// readLengths asks for what the kind needs: active frames, or a total.
func readLengths(f *fields, m *Move, rules Ruleset) {
	total := f.number("total", 0)
	_, given := f.obj.values["total"]
	switch m.Kind {
	case Strike, Throw:
		f.need("a "+string(m.Kind)+"'s startup and active frames", "startup", "active")
		if m.Kind == Strike {
			f.need("mid, low or overhead for a strike", "level")
		}
		if given && *f.err == nil && total != m.Total(rules) {
			f.fail("total", fmt.Sprintf("no total, or what startup, active and recovery come to, %d", m.Total(rules)), strconv.Itoa(total))
		}
	case Parry, Evade, Dash:
		what := "a " + string(m.Kind)
		f.need("the total of "+what, "total")
		m.Length = total
		if m.Startup != 0 || m.Recovery != 0 || len(m.Active) > 0 {
			f.failAt(f.at, "a total alone: "+what+" has no active frames", "startup, active or recovery")
		}
	}
}

func readPlaces(f *fields, name string) (p Places) {
	if g := f.inner(name); g != nil {
		p = Places{g.maybe("midscreen"), g.maybe("wall")}
		g.end()
	}
	return p
}

func readReach(f *fields, m *Move) {
	if v, ok := f.take("reach"); !ok || v == nil {
		return
	}
	n := f.numbers("reach")
	if len(n) != 2 {
		f.fail("reach", "two numbers, the nearest and the farthest", fmt.Sprint(len(n)))
		return
	}
	m.Reach = &Interval{n[0], n[1]}
}

func readWindows(f *fields, m *Move) {
	window := func(g *fields) Window {
		g.need("a frame of the move, counted from 1", "from", "to")
		return Window{g.number("from", 0), g.number("to", 0)}
	}
	f.each("immune", func(at *path, v value) {
		g := fieldsOf(f.err, at, v)
		w := Immunity{Window: window(g)}
		_, given := g.obj.values["against"]
		w.Strikes, w.Throws = !given, !given
		for i, what := range g.texts("against") {
			switch what {
			case "strike":
				w.Strikes = true
			case "throw":
				w.Throws = true
			default:
				g.failAt(&path{up: &path{up: at, name: "against"}, index: i}, "strike or throw", strconv.Quote(what))
			}
		}
		g.end()
		m.Immune = append(m.Immune, w)
	})
	f.each("armour", func(at *path, v value) {
		g := fieldsOf(f.err, at, v)
		m.Armour = append(m.Armour, Armour{window(g), g.number("hits", 1)})
		g.end()
	})
	for _, name := range []string{"parry", earlierParry} {
		if len(m.Parry) > 0 && f.has(name) {
			f.fail(name, "no windows under the earlier name beside those of parry", "some")
		}
		f.each(name, func(at *path, v value) {
			g := fieldsOf(f.err, at, v)
			m.Parry = append(m.Parry, window(g))
			g.end()
		})
	}
}

func readSetup(f *fields) Setup {
	f.need("a name", "name")
	f.need("the name of a fighter", "attacker", "rival")
	s := Setup{
		Name: f.text("name", ""), Attacker: f.text("attacker", ""), Rival: f.text("rival", ""),
		Ender: f.textOrNull("ender"), Position: Position(f.text("position", string(Midscreen))),
		Advantage: f.maybe("advantage"), Fillers: f.texts("fillers"), Delay: f.number("delay", 0),
		Jump: f.textOrNull("jump"), Attack: f.textOrNull("attack"), Landing: f.text("landing", DoGuard),
		Rises: f.texts("rises"), Tags: f.texts("tags"), Note: f.text("note", ""),
	}
	if v, ok := f.take("press"); ok && v != Auto {
		s.Press = Some(f.wholeAt(&path{up: f.at, name: "press"}, v, "auto or an air frame"))
	}
	f.each("replies", func(at *path, v value) {
		g := fieldsOf(f.err, at, v)
		g.need("a move or jump of the rival", "move")
		s.Replies = append(s.Replies, Reply{g.text("move", ""), Demand(g.text("demand", string(Survive))), g.number("late", 0)})
		g.end()
	})
	f.end()
	return s
}
