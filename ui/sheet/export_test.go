package sheet

import (
	"testing"

	"wakeline/timeline/compare"
)

// What the tests of the renderers, outside this package, draw and measure with.
var (
	Plans     = plans
	Demo      = demo
	SheetOf   = sheetOf
	SweepOf   = sweepOf
	Sheets    = sheets
	Pages     = pages
	PointsOf  = points
	Moved     = moved
	Linear    = linear
	TextsOf   = textsOf
	Themes    = themes
	Spaced    = spaced
	SideOf    = sideOf
	NamedLong = namedLong

	FollowedSheet = followedSheet
)

// PlainGrid is the match-up of the demo's setups under their own names.
func PlainGrid(t *testing.T) (g compare.Grid, attacker, rival string) {
	return gridOf(t, namings[0].change)
}
