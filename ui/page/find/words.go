package find

import (
	"fmt"
	"math/big"

	"wakeline/timeline/find"
)

// labels are what a query's parts are called on the page.
var labels = map[string]string{"most": "Max fillers", "gauge": "Max gauge", "wait": "Wait", "list": "Answers",
	"jumps": "Jumps", "attacks": "Attacks in the jump", "fillers": "Fillers", "not": "Fillers"}

// countWords says how many answers there are.
func countWords(r *find.Result) string {
	out := bigCount(r.Count, "answer") + " at knockdown advantage " + fmt.Sprint(r.Advantage)
	if r.Exact.Cmp(r.Count) != 0 {
		out += ", " + r.Exact.String() + " without a wait"
	}
	if r.Orders.Cmp(r.Count) != 0 {
		out += "; " + r.Orders.String() + " with every order"
	}
	if n := len(r.Answers); r.Count.Cmp(big.NewInt(int64(n))) != 0 {
		out += fmt.Sprintf(". The best %d:", n)
	} else {
		out += "."
	}
	return out
}

func bigCount(n *big.Int, thing string) string {
	if n.IsInt64() && n.Int64() == 1 {
		return "1 " + thing
	}
	return n.String() + " " + thing + "s"
}
