package find

import (
	"fmt"
	"math/big"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Told is a search as it is told: what was asked, and what came of it.
type Told struct {
	Setup   string // whose ender, rival and replies were searched for
	Query   Query
	Hand    HandTold
	Project *timeline.Project // that was searched
	*Result
}

// HandTold is the hand that the chances are for, in milliseconds, and where its
// numbers come from.
type HandTold struct {
	Spread, Bias float64
	Assumed      bool
	Presses      int    // of the drills that measured it
	Name         string // whose they are
}

// Heading says what the answers are to.
func (t *Told) Heading() string {
	return fmt.Sprintf("%s, after %s: setups found", t.Query.pair(), enderName(t.Query.Setup.Ender))
}

// pair names the attacker, and all that answers must be good against.
func (q *Query) pair() string {
	var names []string
	for _, target := range q.targets() {
		names = append(names, target.Rival)
	}
	return q.Setup.Attacker + " vs " + words.List(names)
}

func enderName(name string) string {
	if name == "" {
		return "no ender"
	}
	return name
}

// Words says how many answers there are, or that there is none.
func (r *Result) Words() string {
	at := fmt.Sprintf(" at knockdown advantage %d", r.Advantage)
	if r.Count.Sign() == 0 {
		return "No answer" + at + "."
	}
	out := Answers(r.Count) + at
	if r.Exact.Cmp(r.Count) != 0 {
		out += ", " + r.Exact.String() + " without a wait"
	}
	if r.Orders.Cmp(r.Count) != 0 {
		out += "; " + r.Orders.String() + " with every order"
	}
	if n := len(r.Answers); r.Count.Cmp(big.NewInt(int64(n))) != 0 {
		return out + fmt.Sprintf(". The best %d:", n)
	}
	return out + "."
}

// Answers counts answers: "1 answer", "310 answers".
func Answers(n *big.Int) string {
	if n.IsInt64() && n.Int64() == 1 {
		return "1 answer"
	}
	return n.String() + " answers"
}

// Short is an answer without its jump and attack: its fillers and its wait.
func (a *Answer) Short() string {
	parts := append([]string{}, a.Setups[0].Fillers...)
	if a.Wait() > 0 {
		parts = append(parts, fmt.Sprintf("wait %d", a.Wait()))
	}
	if len(parts) == 0 {
		return "at once"
	}
	return strings.Join(parts, ", ")
}

// ToldEnders is the table of enders as it is told.
type ToldEnders struct {
	Setup   string // whose rival and replies were searched for
	Query   Query
	Project *timeline.Project // that was searched
	Rows    []Row
}

// Heading says whose enders they are, and against whom.
func (t *ToldEnders) Heading() string {
	return t.Query.pair() + ": setups found by ender"
}

// Answer says how many of the rows have a safe jump.
func (t *ToldEnders) Answer() string {
	if len(t.Rows) == 0 {
		return t.Query.Setup.Attacker + " has no ender: no move with a knockdown."
	}
	n := 0
	for i := range t.Rows {
		for k := range t.Rows[i].Cells {
			if t.Rows[i].Cells[k].Shortest != nil {
				n++
				break
			}
		}
	}
	return fmt.Sprintf("%d of %s give a safe jump.", n, words.Count(len(t.Rows), "row"))
}
