package compare

import "wakeline/timeline"

type (
	State      = timeline.State
	Shift      = timeline.Shift
	Change     = timeline.Change
	Cause      = timeline.Cause
	Comparison = timeline.Comparison
	DataPart   = timeline.DataPart
	PartKind   = timeline.PartKind
	Difference = timeline.Difference
	Cover      = timeline.Cover
	Matchup    = timeline.Matchup
	Grid       = timeline.Grid
	GridRow    = timeline.GridRow
	GridCell   = timeline.GridCell
	GridReply  = timeline.GridReply
)

const (
	Kept   = timeline.Kept
	Shrank = timeline.Shrank
	Grew   = timeline.Grew
	Moved  = timeline.Moved
	Opened = timeline.Opened
	Closed = timeline.Closed

	RulesetPart = timeline.RulesetPart
	FighterPart = timeline.FighterPart
	BodyPart    = timeline.BodyPart
	MovePart    = timeline.MovePart
	RisePart    = timeline.RisePart

	CoverLimit = timeline.CoverLimit
)

// New lays two states side by side, for many setups.
func New(before, after *timeline.Project) *Comparison { return timeline.NewComparison(before, after) }

// Setup is one setup under two states of the move data.
func Setup(before, after *timeline.Project, s *timeline.Setup) Change {
	return timeline.Compare(before, after, s)
}

// FewestSets returns the fewest of the sets that hold every element.
func FewestSets(elements int, sets [][]int, limit int) Cover {
	return timeline.FewestSets(elements, sets, limit)
}

// NewMatchup makes an empty match-up.
func NewMatchup(p *timeline.Project, attacker, rival string, all bool) (*Matchup, error) {
	return timeline.NewMatchup(p, attacker, rival, all)
}
