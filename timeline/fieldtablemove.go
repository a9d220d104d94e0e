package timeline

import "strconv"

// Which moves have a row for a number that isn't given yet.
func hits(m *Move) bool         { return m.Hits() }
func hasTotal(m *Move) bool     { return !m.Hits() }
func jumpAttack(m *Move) bool   { return m.Hits() && m.Air }
func grounded(m *Move) bool     { return !m.Air }
func groundAttack(m *Move) bool { return m.Hits() && !m.Air }

// Names of fields that code outside the table uses.
const (
	MoveKind  = "kind"
	totalName = "total"
)

// MoveFields is the table of a move's fields, in the order of the project text
// and of move tables. It is not to be changed.
var MoveFields = prepared(Move{}, []Field[Move]{
	{Name: "name", Need: always[Move]("a name"), StandIn: "-", Also: []string{"move", "move name", "attack", "title"},
		About: "the move's name; setups that use it take a new name too",
		at:    textAt(func(m *Move) *string { return &m.Name })},
	{Name: MoveKind, Need: always[Move](wantKind), StandIn: string(Strike), Also: []string{"type", "move type", "category", "class"},
		About: wantKind,
		at:    word[Move, Kind]{func(m *Move) *Kind { return &m.Kind }, []Kind{Strike, Throw, Parry, Evade, Dash}, KindOf},
		rule:  kindRule},
	{Name: "air", Also: []string{"in air", "aerial", "jumping"}, Decides: true,
		About: "yes for an attack of a jump; empty for a grounded move",
		at:    flagAt(func(m *Move) *bool { return &m.Air })},
	{Name: "level", Also: []string{"hit level", "height", "attack level", "block level", "guard level"}, Need: needLevel, Not: notLevel, StandIn: string(Mid),
		About:    "mid, low or overhead for a strike; throw or air throw for a throw; empty for others",
		at:       word[Move, Level]{place: func(m *Move) *Level { return &m.Level }, list: []Level{Mid, Low, Overhead, LevelThrow, LevelAirThr}},
		standard: defaultLevel, rule: levelRule},
	{Name: "startup", Also: []string{"start", "start up frames", "wind up"}, Care: Care{Why: "it comes the soonest as a reply"}, Unit: Frames, Min: 1, Max: MaxFrames, Need: ofHits("the startup of a "), Unread: totalAlone, Fits: hits, StandIn: "1",
		About: "frames, for strikes and throws; the ruleset says whether they count the first active one",
		at:    lengthAt(func(m *Move) *int { return &m.Startup })},
	{Name: "active", Also: []string{"active window"}, Care: Care{Why: "it is there for the fewest frames"}, Noun: "active frames", Unit: Frames, Min: 1, Max: MaxFrames, Need: ofHits("the active frames of a "), Unread: totalAlone, Fits: hits, StandIn: "1",
		About: "active frames, written like 3, or 2(5)1 with gaps in brackets",
		at:    activeAt(func(m *Move) *[]int { return &m.Active }), rule: activeRule},
	{Name: "recovery", Also: []string{"rec", "end lag", "cooldown"}, Care: Care{Most: true, Why: "its owner is free the latest"}, Unit: Frames, Unread: totalAlone, Fits: hits, StandIn: strconv.Itoa(MaxFrames),
		About: "frames after the last active one",
		at:    numberAt(func(m *Move) *int { return &m.Recovery })},
	{Name: totalName, Also: []string{"duration", "length", "overall", "whole"}, Care: Care{Most: true, Why: "its owner is free the latest"}, Unit: Frames, Min: 1, Max: MaxFrames, Need: needTotal, Fits: hasTotal, StandIn: strconv.Itoa(MaxFrames),
		About: "frames of a move without active frames: a parry, an evade or a dash",
		at:    lengthAt(func(m *Move) *int { return &m.Length })},
	{Name: "on_hit", Also: []string{"hit", "hit advantage", "hit adv", "advantage on hit", "adv on hit", "on hit advantage"}, Knocks: "knockdown_midscreen", Care: Care{Why: "it leaves the least"}, Noun: "advantage on hit", Unit: Frames, Min: -MaxFrames, Max: MaxFrames, Fits: groundAttack,
		About: "advantage in frames when the first active frame hits; or give hitstun",
		at:    maybeAt(func(m *Move) *Maybe { return &m.OnHit })},
	{Name: "on_guard", Also: []string{"on block", "block", "block advantage", "block adv", "guard advantage", "guard adv", "advantage on block", "advantage on guard", "adv on block", "on block advantage", "on guard advantage"}, Care: Care{Why: "it leaves the least"}, Noun: "advantage on guard", Unit: Frames, Min: -MaxFrames, Max: MaxFrames, Fits: groundAttack,
		About: "advantage in frames when the first active frame is blocked; or give guardstun",
		at:    maybeAt(func(m *Move) *Maybe { return &m.OnGuard })},
	{Name: "hitstun", Also: []string{"hit stun"}, Care: Care{Why: "it leaves the least"}, Unit: Frames, Fits: hits,
		Not:   func(m *Move) string { return besideGiven(m.OnHit, "on_hit or hitstun, not both") },
		About: "frames of stun after the touch, in place of on hit",
		at:    maybeAt(func(m *Move) *Maybe { return &m.Hitstun })},
	{Name: "guardstun", Also: []string{"guard stun", "block stun"}, Care: Care{Why: "it leaves the least"}, Unit: Frames, Fits: hits,
		Not:   func(m *Move) string { return besideGiven(m.OnGuard, "on_guard or guardstun, not both") },
		About: "frames of stun after the touch, in place of on guard",
		at:    maybeAt(func(m *Move) *Maybe { return &m.Guardstun })},
	{Name: "airborne_from", Also: []string{"airborne"}, Care: Care{Most: true, Why: "its owner is in the air the latest"}, Noun: "first airborne frame", Min: 1, Max: MaxFrames, Fits: grounded,
		About:  "the move's frame, counted from 1, from which its body is in the air",
		at:     maybeAt(func(m *Move) *Maybe { return &m.AirborneFrom }),
		within: func(c *checker, _ *Move) (int, int) { return 1, c.total }, outside: wantFrame},
	{Name: "misses_air", Noun: "missing of airborne bodies",
		About: "yes where its strikes pass under an airborne body",
		at:    flagAt(func(m *Move) *bool { return &m.MissesAir })},
	{Name: "deep", Care: Care{Why: "it reaches down for the fewest frames"}, Noun: "deep frames", Unit: Frames, Fits: jumpAttack,
		About: "for a jump attack: the last air frames on which it reaches a grounded rival",
		at:    maybeAt(func(m *Move) *Maybe { return &m.Deep })},
	{Name: "drop", Care: Care{Why: "it reaches the least far down"}, Stored: "drop_units", Unit: Units, Fits: jumpAttack,
		About: "for a jump attack: units it reaches below the jump's height",
		at:    maybeAt(func(m *Move) *Maybe { return &m.Drop })},
	{Name: "top", Also: []string{"hit height"}, Care: Care{Why: "it reaches the least high"}, Stored: "top_units", Noun: "height", Unit: Units, Min: 0, Max: MaxUnits, Fits: hits,
		About: "units of height up to which a strike reaches",
		at:    maybeAt(func(m *Move) *Maybe { return &m.Top })},
	{Name: "reach", Both: true, at: pairInList[Move, Interval]{pair[Move, Interval]{reachOf, "%d to %d", near, far}, "two numbers, the nearest and the farthest"},
		Parts: []Field[Move]{
			{Name: "near", steps: []Step{{Name: "reach"}, {Index: 0}}, Unit: Units, Fits: hits, StandIn: strconv.Itoa(-MaxUnits),
				About: "units, the nearest it reaches; with reach far",
				at:    halfAt(reachOf, near)},
			{Name: "far", steps: []Step{{Name: "reach"}, {Index: 1}}, Unit: Units, Fits: hits, StandIn: strconv.Itoa(MaxUnits),
				About:  "units, the farthest it reaches; with reach near",
				at:     halfAt(reachOf, far),
				within: func(_ *checker, m *Move) (int, int) { return m.Reach.Near, MaxUnits }},
		}},
	{Name: "landing", Both: true, at: pair[Move, Landing]{landingOf, "%d with a guard after %d", landingRecovery, landingGuard},
		Parts: []Field[Move]{
			{Name: "recovery", Unit: Frames, Fits: jumpAttack, StandIn: strconv.Itoa(MaxFrames),
				About: "for a jump attack: frames after touchdown, in place of the jump's; with landing guard after",
				at:    halfAt(landingOf, landingRecovery)},
			{Name: "guard_after", Unit: Frames, Fits: jumpAttack, StandIn: "0",
				About:  "for a jump attack: frames after touchdown before a guard works; with landing recovery",
				at:     halfAt(landingOf, landingGuard),
				within: func(_ *checker, m *Move) (int, int) { return 0, m.Landing.Recovery }, outside: wantGuardAfter},
		}},
	{Name: "immune", Also: []string{"immunity", "invincible", "invincibility", "invulnerable", "invulnerability", "invuln", "invul", "i frames"}, Noun: "immunity",
		About: "frames counted from 1, written like 1-8 strike throw, with ; between windows",
		at:    windowsAt(immuneForm, immuneOf), rule: immuneForm.check(immuneOf, 0)},
	{Name: "armour", Also: []string{"armor", "super armour", "super armor"},
		About: "frames counted from 1, written like 1-8 2 hits, with ; between windows",
		at:    windowsAt(armourForm, armourOf), rule: armourForm.check(armourOf, maxShield)},
	{Name: "parry", Also: []string{"parry window", "parry frames"}, Earlier: earlierParry, Noun: "parry window",
		About: "frames counted from 1 that parry a strike, written like 1-10",
		at:    windowsAt(parryForm, parryOf), rule: parryForm.check(parryOf, 0)},
	{Name: "damage", Also: []string{"dmg"}, Care: Care{Why: "it takes the least"}, Unit: Points, Fits: hits, Card: "%d points",
		About: "points",
		at:    numberAt(func(m *Move) *int { return &m.Damage })},
	{Name: "gauge_cost", Also: []string{"cost", "meter cost", "bar cost", "meter used"}, Care: Care{Most: true, Why: "it costs the most"}, Unit: Segments, Card: "%d",
		About: "segments it costs",
		at:    numberAt(func(m *Move) *int { return &m.GaugeCost })},
	{Name: "gauge_gain", Also: []string{"gain", "meter gain", "bar gain", "meter build"}, Care: Care{Why: "it brings the least"}, Unit: Segments, Card: "%d",
		About: "segments it brings",
		at:    numberAt(func(m *Move) *int { return &m.GaugeGain })},
	{Name: "travel", Also: []string{"movement", "distance moved"}, Unit: Units, Card: "%d units",
		About: "units it moves its owner",
		at:    numberAt(func(m *Move) *int { return &m.Travel })},
	{Name: "knockdown", Parts: []Field[Move]{
		{Name: "midscreen", Noun: "midscreen knockdown", Also: []string{"knockdown", "kd", "kd advantage", "kd adv", "knockdown advantage", "knockdown adv", "midscreen kd", "midscreen knockdown", "kd midscreen", "kd mid", "mid kd", "knockdown mid"}, Knocks: "knockdown_midscreen", Care: Care{Why: "it leaves the least"}, Decides: true, Unit: Frames, Min: 0, Max: MaxFrames - 1, Fits: grounded,
			About: "for an ender: its knockdown advantage in frames, away from the wall",
			at:    maybeAt(func(m *Move) *Maybe { return &m.Knockdown.Midscreen })},
		{Name: "wall", Noun: "wall knockdown", Also: []string{"wall kd", "kd wall", "wall knockdown", "corner kd", "kd corner", "corner knockdown", "knockdown corner"}, Knocks: "knockdown_wall", Care: Care{Why: "it leaves the least"}, Decides: true, Unit: Frames, Min: 0, Max: MaxFrames - 1, Fits: grounded,
			About: "for an ender: its knockdown advantage in frames, at the wall",
			at:    maybeAt(func(m *Move) *Maybe { return &m.Knockdown.Wall })},
	}},
	{Name: "distance", Parts: []Field[Move]{
		{Name: "midscreen", Noun: "midscreen distance", Also: []string{"distance", "spacing", "midscreen distance", "distance midscreen"}, Care: Care{Most: true, Why: "the rival lies the farthest away"}, Unit: Units, Fits: grounded,
			About: "for an ender: units between the two after it, away from the wall",
			at:    maybeAt(func(m *Move) *Maybe { return &m.Distance.Midscreen })},
		{Name: "wall", Noun: "wall distance", Also: []string{"wall distance", "corner distance", "distance corner"}, Care: Care{Most: true, Why: "the rival lies the farthest away"}, Unit: Units, Fits: grounded,
			About: "for an ender: units between the two after it, at the wall",
			at:    maybeAt(func(m *Move) *Maybe { return &m.Distance.Wall })},
	}},
})

func reachOf(m *Move) **Interval      { return &m.Reach }
func near(r *Interval) *int           { return &r.Near }
func far(r *Interval) *int            { return &r.Far }
func landingOf(m *Move) **Landing     { return &m.Landing }
func landingRecovery(l *Landing) *int { return &l.Recovery }
func landingGuard(l *Landing) *int    { return &l.GuardAfter }
func immuneOf(m *Move) *[]Immunity    { return &m.Immune }
func armourOf(m *Move) *[]Armour      { return &m.Armour }
func parryOf(m *Move) *[]Window       { return &m.Parry }

// The fields of a window, in each of its sorts.

func windowFields[W any](of func(w *W) *Window, more ...Field[W]) []Field[W] {
	const want = "a frame of the move, counted from 1"
	return append([]Field[W]{
		{Name: "from", Need: always[W](want), at: numberAt(func(w *W) *int { return &of(w).From }),
			within: func(c *checker, _ *W) (int, int) { return 1, c.total }, outside: wantFrame},
		{Name: "to", Need: always[W](want), at: numberAt(func(w *W) *int { return &of(w).To }),
			within: func(c *checker, w *W) (int, int) { return of(w).From, c.total }, outside: "a frame from %d to the move's last, %d"},
	}, more...)
}

func ofImmunity(w *Immunity) *Window { return &w.Window }
func ofArmour(w *Armour) *Window     { return &w.Window }
func ofParry(w *Window) *Window      { return w }

var (
	immuneForm = &windowForm[Immunity]{wantImmune, Immunity{Strikes: true, Throws: true}, ofImmunity, parseImmunity, immunityWords,
		prepared(Immunity{Strikes: true, Throws: true}, windowFields(ofImmunity, Field[Immunity]{Name: "against", at: against{}, rule: againstRule}))}
	armourForm = &windowForm[Armour]{wantArmour, Armour{Hits: 1}, ofArmour, parseArmour, armourWords,
		prepared(Armour{Hits: 1}, windowFields(ofArmour, Field[Armour]{Name: "hits", Min: 1, Max: MaxFrames, at: numberAt(func(w *Armour) *int { return &w.Hits })}))}
	parryForm = &windowForm[Window]{wantParry, Window{}, ofParry,
		func(_ *Window, words []string) bool { return len(words) == 0 }, func(*Window) string { return "" },
		prepared(Window{}, windowFields(ofParry))}
)

// against is what an immunity holds against: both where it says nothing.
type against struct{}

func (against) kind() FieldKind               { return ListField }
func (against) get(w *Immunity) Content       { return Content{Text: immunityWords(w)} }
func (against) set(*Immunity, Content) string { return "" } // no cell of its own
func (against) copy(to, from *Immunity)       { to.Strikes, to.Throws = from.Strikes, from.Throws }

func (against) read(f *fields, name string, w *Immunity) {
	if !f.has(name) {
		return
	}
	w.Strikes, w.Throws = false, false
	for i, what := range f.texts(name) {
		switch what {
		case "strike":
			w.Strikes = true
		case "throw":
			w.Throws = true
		default:
			f.failAt(f.at.At(name).Item(i), "strike or throw", strconv.Quote(what))
		}
	}
}

func (against) write(w *writer, i *Immunity) {
	w.list(1, func(int) { w.quote(immunityWords(i)[1:]) })
}

func againstRule(c *checker, path *Path, w *Immunity) {
	if !w.Strikes && !w.Throws {
		c.fail(path, "strike, throw or both", "neither")
	}
}
