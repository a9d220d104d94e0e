package exercise

// Record is the result of one question.
type Record struct {
	Date    string // RFC 3339
	Student string // empty: without a name
	Setup   string // its name as it was then
	Kind    Kind
	Right   bool
	Tries   int
	Hints   int
	Points  int // 0 to MostPoints
}

// Sum is what results have reached, and what they could have.
func Sum(of []Record) (points, most int) {
	for i := range of {
		points += of[i].Points
	}
	return points, MostPoints * len(of)
}

// OfStudent are the results of one student.
func OfStudent(past []Record, student string) (out []Record) {
	for i := range past {
		if past[i].Student == student {
			out = append(out, past[i])
		}
	}
	return out
}

// OfKind are the results of one kind of question.
func OfKind(past []Record, kind Kind) (out []Record) {
	for i := range past {
		if past[i].Kind == kind {
			out = append(out, past[i])
		}
	}
	return out
}

// Item is a question to ask: of a kind, about the setup of that name.
type Item struct {
	Setup string
	Kind  Kind
}

// InOrder asks each setup in order, the kinds in turn: all kinds of the first,
// then of the next.
func InOrder(setups []string, kinds []Kind) (out []Item) {
	for _, s := range setups {
		for _, k := range kinds {
			out = append(out, Item{s, k})
		}
	}
	return out
}

// recent is how many of the last results of a question count for how often it is
// drawn.
const recent = 3

// weights are how likely each item is drawn, against others: 1 where its last
// results have all points, up to 1 + recent*MostPoints where each is wrong; in
// the middle where it was never asked.
func weights(items []Item, past []Record) []int {
	type results struct{ missed, seen int }
	of := map[Item]results{}
	for n := len(past) - 1; n >= 0; n-- {
		i := Item{past[n].Setup, past[n].Kind}
		if r := of[i]; r.seen < recent {
			of[i] = results{r.missed + MostPoints - past[n].Points, r.seen + 1}
		}
	}
	out := make([]int, len(items))
	for i := range items {
		r := of[items[i]]
		if r.seen == 0 {
			r.missed = recent * MostPoints / 2
		}
		out[i] = 1 + r.missed
	}
	return out
}

// Draw puts items into a random order, in which those come early that a student
// got wrong: each next one is drawn by its weight, among those left. past is the
// student's, the oldest first.
func Draw(items []Item, past []Record, pick Pick) []Item {
	left := append([]Item(nil), items...)
	weights, sum := weights(items, past), 0
	for _, w := range weights {
		sum += w
	}
	out := make([]Item, 0, len(left))
	for len(left) > 0 {
		n, at := pick(sum), 0
		for n >= weights[at] {
			n -= weights[at]
			at++
		}
		sum -= weights[at]
		out = append(out, left[at])
		left = append(left[:at], left[at+1:]...)
		weights = append(weights[:at], weights[at+1:]...)
	}
	return out
}
