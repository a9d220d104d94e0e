package timeline

import "fmt"

// Kind says what a move is.
type Kind string

// The kinds of a move. Parries, evades and dashes have no active frames.
const (
	Strike Kind = "strike"
	Throw  Kind = "throw"
	Parry  Kind = "parry"
	Evade  Kind = "evade"
	Dash   Kind = "dash"
)

// Level says what stops a strike or a throw. It is empty for other moves.
type Level string

// The levels of frames.md, "Moves".
const (
	Mid         Level = "mid"       // either guard stops it
	Low         Level = "low"       // only a low guard; never touches an airborne body
	Overhead    Level = "overhead"  // only a high guard
	LevelThrow  Level = "throw"     // no guard; never an airborne body
	LevelAirThr Level = "air throw" // no guard; only an airborne body
)

// Window is a stretch inside a move, written the trade's way: 1-based and
// inclusive, From >= 1, To >= From, To not past the move's last frame.
type Window struct{ From, To int }

// String writes the window the trade's way, "1 to 8", or "3" for one frame.
func (w Window) String() string {
	if w.From == w.To {
		return fmt.Sprint(w.From)
	}
	return fmt.Sprintf("%d to %d", w.From, w.To)
}

// offsets returns the window as offsets from the move's first frame.
func (w Window) offsets() Span { return Span{w.From - 1, w.To} }

// Immunity is a stretch on which strikes, throws or both don't touch.
type Immunity struct {
	Window
	Strikes, Throws bool // at least one
}

// Armour is a stretch that takes the first Hits spans that touch in it.
type Armour struct {
	Window
	Hits int // 1 or more
}

// Landing is what a jump attack puts in place of its jump's own landing.
type Landing struct {
	Recovery   int // frames after touchdown with no action, 0 or more
	GuardAfter int // frames after touchdown before a guard works, 0 to Recovery
}

// Places holds one number for each position, in frames or units.
type Places struct{ Midscreen, Wall Maybe }

// At returns the number for that position.
func (p Places) At(pos Position) Maybe {
	if pos == Wall {
		return p.Wall
	}
	return p.Midscreen
}

// Interval is a closed range of units, Near <= Far.
type Interval struct{ Near, Far int }

// Move is one move of a fighter. Lengths are frames, damage points, distances
// and heights units. The zero value of a field is its default of interfaces.md.
type Move struct {
	Name  string
	Kind  Kind
	Air   bool // done in the air: an attack of a jump, nothing else
	Level Level

	Startup  int   // strikes and throws: 1 or more
	Active   []int // active, gap, active, ... each 1 or more; odd in number
	Recovery int   // 0 or more
	Length   int   // the total of a move without active frames, 1 or more

	OnHit, OnGuard     Maybe // advantage when the first active frame touches
	Hitstun, Guardstun Maybe // frames after the touch, 0 or more

	AirborneFrom Maybe // 1-based frame from which the body is in the air
	MissesAir    bool  // its strikes pass under an airborne body
	Deep         Maybe // air frames before touchdown that reach a grounded body
	Drop, Top    Maybe // units: below the jump's height; the height it reaches up to
	Reach        *Interval
	Landing      *Landing

	Immune []Immunity
	Armour []Armour
	Parry  []Window

	Damage, GaugeCost, GaugeGain int
	Travel                       int
	Knockdown, Distance          Places
}

// ClearUnused takes out of the move what its kind has no use for: startup,
// active frames and recovery beside a total, or the other way round. Files of
// earlier versions may hold such numbers.
func (m *Move) ClearUnused() {
	if m.Hits() {
		m.Length = 0
	} else if m.wholeOnly() {
		m.Startup, m.Active, m.Recovery = 0, nil, 0
	}
}

// Hits reports whether the move has active frames: a strike or a throw.
func (m *Move) Hits() bool { return m.Kind == Strike || m.Kind == Throw }

// FirstActive is the offset of the first active frame: S-1, or S where the
// ruleset counts startup without it. It means nothing for a move without
// active frames.
func (m *Move) FirstActive(r Ruleset) int {
	if r.StartupCountsFirstActive {
		return m.Startup - 1
	}
	return m.Startup
}

// Total is the move's length in frames, from its first to the last of its
// recovery: a + (active and gaps) + R.
func (m *Move) Total(r Ruleset) int {
	if !m.Hits() {
		return m.Length
	}
	return m.FirstActive(r) + m.activeLen() + m.Recovery
}

// activeLen counts the frames from the first active one to the last.
func (m *Move) activeLen() (n int) {
	for _, k := range m.Active {
		n += k
	}
	return n
}

// Spans returns the active spans as offsets from the move's first frame, nil
// for a move without active frames.
func (m *Move) Spans(r Ruleset) []Span {
	if !m.Hits() {
		return nil
	}
	out := make([]Span, 0, (len(m.Active)+1)/2)
	at := m.FirstActive(r)
	for i, n := range m.Active {
		if i%2 == 0 {
			out = append(out, Span{at, at + n})
		}
		at += n
	}
	return out
}

// airborne returns the offsets on which a move of that total has its body in
// the air, empty where it never has.
func (m *Move) airborne(total int) Span {
	if !m.AirborneFrom.Given {
		return Span{}
	}
	return Span{m.AirborneFrom.N - 1, total}
}
