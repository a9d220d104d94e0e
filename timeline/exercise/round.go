package exercise

// MostTries is how often a student may answer one question.
const MostTries = 2

// Round is one question being answered: two tries, hints, then the answer.
type Round struct {
	Question
	Tries int    // answers that were weighed
	Given int    // hints that were given
	Done  bool   // answered right, or told
	Right bool   // the last answer was
	Last  Answer // the last answer
	Short string // what was said of it
}

// Answer weighs an answer. After a right one, or the last that may be tried,
// the round is done. In a round that is done nothing happens.
func (r *Round) Answer(a Answer) {
	if r.Done {
		return
	}
	t := r.Weigh(a)
	r.Tries++
	r.Last, r.Right, r.Short = a, t.Right, t.Short
	r.Done = t.Right || r.Tries >= MostTries
}

// Hint gives the next hint, empty where there is none.
func (r *Round) Hint() string {
	if r.Done || r.Given >= len(r.Hints) {
		return ""
	}
	r.Given++
	return r.Hints[r.Given-1]
}

// Tell ends the round without an answer.
func (r *Round) Tell() { r.Done = true }

// Whole is the answer and why, once the round is done.
func (r *Round) Whole() string {
	if !r.Done {
		return ""
	}
	if r.Kind == WhereSafe && r.Tries == 0 { // nothing was tried: told for where it started
		return r.Weigh(Answer{Delay: r.Delay}).Whole
	}
	return r.Weigh(r.Last).Whole
}

// MostPoints is what a question that is answered at once is worth.
const MostPoints = 2

// Points are what the round is worth so far: two for a right answer at once, one
// on the second try or with a hint.
func (r *Round) Points() int {
	switch {
	case !r.Right:
		return 0
	case r.Tries == 1 && r.Given == 0:
		return MostPoints
	}
	return 1
}
