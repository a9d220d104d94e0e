package timeline

// What the tests outside the package need: those of the packages that build on
// this one, with its random setups and its slow reading.
var (
	BusyPlan      = busyPlan
	BusyProject   = busyProject
	DropIn        = dropIn
	JabAt         = jabAt
	RandomProject = randomProject
	RandomValue   = randomValue
	Reversal      = reversal
)

// SlowTable is every exchange of s at its own delay by the slow reading, a row
// a rise; bait reports whether the setup is one.
func SlowTable(p *Project, s *Setup) (rises [][]Cell, bait bool) {
	x := newSlowPlan(p, s)
	x.judge()
	table := x.table(s.Delay)
	lines := len(table) / len(x.rises)
	for r := range x.rises {
		rises = append(rises, table[r*lines:(r+1)*lines])
	}
	return rises, x.isBait()
}
