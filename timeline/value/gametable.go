package value

import (
	"math/big"
	"slices"
)

// basis says where a table ended: the rows' labels that it has let go, and the
// columns' labels that it holds instead, as many.
type basis struct{ gone, held []int }

// table is a linear program as the simplex method has it, in whole numbers over
// one denominator: at its end each weight of the columns' side is in rhs, and
// each of the rows' side at the foot. Labels 0 to columns-1 are the weights of
// the columns' side, those from columns on what is left of each row.
type table struct {
	at    [][]*big.Int // the last row is the foot, the last column the rhs
	den   *big.Int     // above 0
	inRow []int        // label of what each row holds
	inCol []int        // label of what each column would bring in
	cols  int
	bland bool // after a step that gained nothing, until one gains
	a, b  big.Int
}

// newTable is the table of payoffs that are all at least 1.
func newTable(payoff [][]*big.Int) *table {
	t := &table{den: big.NewInt(1), cols: len(payoff[0])}
	for i := range payoff {
		row := make([]*big.Int, t.cols+1)
		for j := range t.cols {
			row[j] = new(big.Int).Set(payoff[i][j])
		}
		row[t.cols] = big.NewInt(1)
		t.at = append(t.at, row)
		t.inRow = append(t.inRow, t.cols+i)
	}
	foot := make([]*big.Int, t.cols+1)
	for j := range t.cols {
		foot[j] = big.NewInt(-1)
		t.inCol = append(t.inCol, j)
	}
	foot[t.cols] = new(big.Int)
	t.at = append(t.at, foot)
	return t
}

// rows is how many rows the table has, without the foot.
func (t *table) rows() int { return len(t.inRow) }

// foot is what stands under a column; below 0: bringing it in gains.
func (t *table) foot(c int) *big.Int { return t.at[t.rows()][c] }

// rhs is what stands at the end of a row.
func (t *table) rhs(r int) *big.Int { return t.at[r][t.cols] }

// start goes to where another table ended. It reports whether that is a place
// to go on from: after false the table is of no use.
func (t *table) start(from basis) bool {
	for _, label := range from.held {
		c := slices.Index(t.inCol, label)
		r := -1
		for i, label := range t.inRow {
			if c >= 0 && t.at[i][c].Sign() != 0 && slices.Contains(from.gone, label) {
				r = i
				break
			}
		}
		if r < 0 {
			return false
		}
		t.pivot(r, c)
	}
	for r := range t.rows() {
		if t.rhs(r).Sign() < 0 {
			return false
		}
	}
	return true
}

// step brings one column in, and reports whether there was one that gains. It
// takes the one that gains most for each unit; but where nothing was gained,
// the first by label (Bland's rule), so that no run of such steps comes back to
// where it was.
func (t *table) step() bool {
	enters := -1
	for c := range t.cols {
		if t.foot(c).Sign() >= 0 {
			continue
		}
		switch {
		case enters < 0:
			enters = c
		case t.bland:
			if t.inCol[c] < t.inCol[enters] {
				enters = c
			}
		default:
			if d := t.foot(c).Cmp(t.foot(enters)); d < 0 || d == 0 && t.inCol[c] < t.inCol[enters] {
				enters = c
			}
		}
	}
	if enters < 0 {
		return false
	}
	leaves := -1
	for r := range t.rows() {
		if t.at[r][enters].Sign() <= 0 {
			continue
		}
		if leaves < 0 {
			leaves = r
			continue
		}
		t.a.Mul(t.rhs(r), t.at[leaves][enters])
		t.b.Mul(t.rhs(leaves), t.at[r][enters])
		if d := t.a.Cmp(&t.b); d < 0 || d == 0 && t.inRow[r] < t.inRow[leaves] {
			leaves = r
		}
	}
	t.bland = t.rhs(leaves).Sign() == 0 // some row bounds the column: all payoffs are above 0
	t.pivot(leaves, enters)
	return true
}

// pivot lets row r and column c change places.
func (t *table) pivot(r, c int) {
	p := t.at[r][c]
	for i, row := range t.at {
		if i == r {
			continue
		}
		by := row[c]
		for j, v := range row {
			if j == c {
				continue
			}
			if v.Sign() != 0 {
				v.Mul(v, p)
			}
			if by.Sign() != 0 && t.at[r][j].Sign() != 0 {
				v.Sub(v, t.a.Mul(by, t.at[r][j]))
			}
			if v.Sign() != 0 && t.den.BitLen() > 1 {
				v.Quo(v, t.den) // leaves no rest: these are determinants
			}
		}
		by.Neg(by)
	}
	t.at[r][c], t.den = t.den, p
	if t.den.Sign() < 0 {
		t.den.Neg(t.den)
		for _, row := range t.at {
			for _, v := range row {
				v.Neg(v)
			}
		}
	}
	t.inRow[r], t.inCol[c] = t.inCol[c], t.inRow[r]
}

// game reads the solved table.
func (t *table) game(w *whole) *Game {
	sum := t.at[t.rows()][t.cols]
	g := &Game{Value: new(big.Rat).SetFrac(t.den, sum), Unique: true}
	g.Value.Sub(g.Value, big.NewRat(1, 1)).Mul(g.Value, &w.unit)
	g.Value.Add(g.Value, &w.least)
	for range t.cols {
		g.Columns = append(g.Columns, new(big.Rat))
	}
	for range t.rows() {
		g.Rows = append(g.Rows, new(big.Rat))
	}
	// Both sides' shares are the only ones just where no weight that the table
	// holds is 0, and none that it leaves out could come in for nothing: were
	// there such a 0 on one side only, the other side could move, and where
	// there are some on both, one of the two.
	for r, label := range t.inRow {
		if label < t.cols {
			g.Columns[label].SetFrac(t.rhs(r), sum)
		}
		g.Unique = g.Unique && t.rhs(r).Sign() != 0
	}
	for c, label := range t.inCol {
		if label >= t.cols {
			g.Rows[label-t.cols].SetFrac(t.foot(c), sum)
		}
		g.Unique = g.Unique && t.foot(c).Sign() != 0
	}
	g.basis = t.basis()
	return g
}

// basis is where the table stands.
func (t *table) basis() (out basis) {
	for _, label := range t.inRow {
		if label < t.cols {
			out.held = append(out.held, label)
		}
	}
	for _, label := range t.inCol {
		if label >= t.cols {
			out.gone = append(out.gone, label)
		}
	}
	return out
}
