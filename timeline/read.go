package timeline

import "strconv"

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
		g := fieldsOf(err, (*Path)(nil).At("ruleset"), v)
		readFields(g, RulesetFields, &p.Ruleset)
		g.end()
	}
	byDefault := map[string]bool{} // the fighters who were given no rises
	f.each("fighters", func(at *Path, v value) {
		g := fieldsOf(err, at, v)
		p.Fighters = append(p.Fighters, readFighter(g, p.Ruleset))
		_, given := g.obj.values["rises"]
		byDefault[p.Fighters[len(p.Fighters)-1].Name] = !given
	})
	f.each("setups", func(at *Path, v value) {
		p.Setups = append(p.Setups, readSetup(fieldsOf(err, at, v)))
	})
	f.end()
	p.readEarlier(byDefault)
	return p
}

func readFighter(f *fields, rules Ruleset) Fighter {
	var out Fighter
	readFields(f, FighterFields, &out)
	f.each("moves", func(at *Path, v value) {
		out.Moves = append(out.Moves, readMove(fieldsOf(f.err, at, v), rules))
	})
	f.each("jumps", func(at *Path, v value) {
		out.Jumps = append(out.Jumps, readWhole(fieldsOf(f.err, at, v), JumpFields))
	})
	if !f.has("rises") {
		out.Rises = DefaultRises()
	}
	f.each("rises", func(at *Path, v value) {
		out.Rises = append(out.Rises, readWhole(fieldsOf(f.err, at, v), RiseFields))
	})
	if list := readReplies(f); len(list) > 0 { // none and an empty list are one
		out.Replies = list
	}
	f.each("routes", func(at *Path, v value) {
		g := fieldsOf(f.err, at, v)
		var r Route
		readFields(g, RouteFields, &r)
		g.need("the moves of the route", "steps")
		g.each("steps", func(at *Path, v value) {
			r.Steps = append(r.Steps, readWholeOf(fieldsOf(f.err, at, v), RouteStepFields, RouteStep{By: Link}))
		})
		g.end()
		out.Routes = append(out.Routes, r)
	})
	f.end()
	return out
}

// readReplies reads a list of replies; nil where there is none.
func readReplies(f *fields) (out []Reply) {
	if f.has("replies") {
		out = []Reply{}
	}
	f.each("replies", func(at *Path, v value) {
		g := fieldsOf(f.err, at, v)
		g.need("a move or jump of the rival", "move")
		out = append(out, Reply{Move: g.text("move", ""), Demand: Demand(g.text("demand", string(Survive))), Late: g.number("late", 0), Costs: g.maybe("costs")})
		g.end()
	})
	return out
}

// readWholeOf is readWhole where v holds the defaults.
func readWholeOf[T any](f *fields, of []Field[T], v T) T {
	readFields(f, of, &v)
	f.end()
	return v
}

// readWhole reads an object that has the fields of that table and no others.
func readWhole[T any](f *fields, of []Field[T]) (v T) { return readWholeOf(f, of, v) }

func readMove(f *fields, rules Ruleset) Move {
	var m Move
	readFields(f, MoveFields, &m)
	if at, want, got := m.complete(f.has); at != nil {
		f.fail(at.Name, want, got)
	}
	total := m.takeTotal(f.has)
	if want := m.agrees(total, rules); want != "" {
		f.fail(totalName, want, total.String())
	}
	f.end()
	return m
}

func readSetup(f *fields) Setup {
	f.need("a name", "name")
	f.need("the name of a fighter", "attacker", "rival")
	s := Setup{
		Name: f.text("name", ""), Attacker: f.text("attacker", ""), Rival: f.text("rival", ""),
		Ender: f.textOrNull("ender"), Position: Position(f.text("position", string(Midscreen))),
		Advantage: f.maybe("advantage"), Distance: f.maybe("distance"), Room: f.maybe("room"), Fillers: f.texts("fillers"), Delay: f.number("delay", 0),
		Jump: f.textOrNull("jump"), Attack: f.textOrNull("attack"), Landing: f.text("landing", DoGuard),
		Rises: f.texts("rises"), Tags: f.texts("tags"), Note: f.text("note", ""),
		OnHit: f.textOrNull("on_hit"), Punish: f.texts("punish"), Pressure: f.number("pressure", 0),
	}
	if v, ok := f.take("press"); ok && v != Auto {
		s.Press = Some(f.wholeAt(f.at.At("press"), v, "auto or an air frame"))
	}
	s.Replies = readReplies(f)
	f.each("follow", func(at *Path, v value) {
		s.Follow = append(s.Follow, readWholeOf(fieldsOf(f.err, at, v), FollowFields, FollowStep{By: Link}))
	})
	f.end()
	return s
}

// Texts, tables and files of earlier versions wrote some words otherwise.
// What reads them takes those words for what they mean now.

// earlierParry is what a parry was called: the kind of a move, its windows and
// the landing action.
const earlierParry = "catch"

// earlierRise is the name of the one rise that a fighter had who was given
// none.
const earlierRise = "quick"

// KindOf is the kind of that name, also of its name in earlier versions. Other
// names stay as they are: Check refuses them.
func KindOf(name string) Kind {
	if name == earlierParry {
		return Parry
	}
	return Kind(name)
}

// ColumnOf is the column of move tables of that name, also of its name in
// earlier versions.
func ColumnOf(name string) string {
	for _, f := range Columns(MoveFields) {
		if f.Earlier != "" && f.Earlier == name {
			return f.Column
		}
	}
	return name
}

// readEarlier takes the setups' words of earlier versions for what they mean
// now: the landing action, and the rise of a fighter of byDefault, who was
// given none.
func (p *Project) readEarlier(byDefault map[string]bool) {
	for i := range p.Setups {
		s := &p.Setups[i]
		if f := p.Fighter(s.Attacker); s.Landing == earlierParry && f != nil && f.Move(earlierParry) == nil {
			s.Landing = DoParry
		}
		for k, name := range s.Rises {
			if name == earlierRise && byDefault[s.Rival] {
				s.Rises[k] = DefaultRises()[0].Name
			}
		}
	}
}
