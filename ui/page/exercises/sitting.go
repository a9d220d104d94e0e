package exercises

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/exercise"
	"wakeline/timeline/words"

	storagetable "wakeline/storage/table"
)

// sitting is one run of questions.
type sitting struct {
	data   *timeline.Project
	setups []timeline.Setup
	items  []exercise.Item // not asked yet
	count  int             // how many are asked at most
	pick   exercise.Pick

	round *exercise.Round   // that is being answered; nil: the run is over
	done  []exercise.Record // with their results
}

func newSitting(data *timeline.Project, setups []timeline.Setup, items []exercise.Item, count int, pick exercise.Pick) *sitting {
	return &sitting{data: data, setups: setups, items: items, count: count, pick: pick}
}

// ask makes the next question that there is; false: the run is over.
func (s *sitting) ask() bool {
	s.round = nil
	for len(s.items) > 0 && len(s.done) < s.count {
		next := s.items[0]
		s.items = s.items[1:]
		i := slices.IndexFunc(s.setups, func(of timeline.Setup) bool { return of.Name == next.Setup })
		if q, ok := exercise.Make(s.data, s.setups, i, next.Kind, s.pick); ok {
			s.round = &exercise.Round{Question: q}
			return true
		}
	}
	return false
}

// over reports whether all is asked.
func (s *sitting) over() bool { return s.round == nil }

// finish notes the result of the question that was answered.
func (s *sitting) finish(date, student string) exercise.Record {
	r := s.round
	out := exercise.Record{Date: date, Student: student, Setup: r.Setup, Kind: r.Kind, Right: r.Right, Tries: r.Tries, Hints: r.Given, Points: r.Points()}
	s.done = append(s.done, out)
	return out
}

// head says where the run is.
func (s *sitting) head() string {
	n := len(s.done)
	if !s.round.Done {
		n++
	}
	head := fmt.Sprintf("Question %d of %d", n, min(s.count, n+len(s.items)))
	if len(s.done) > 0 {
		head += " · " + s.score()
	}
	return head
}

// score is what was reached so far.
func (s *sitting) score() string { return scoreOf(s.done) }

// scoreOf is what results have reached: "3 of 6 points".
func scoreOf(of []exercise.Record) string {
	points, most := exercise.Sum(of)
	return fmt.Sprintf("%d of %s", points, words.Count(most, "point"))
}

// words say what the run came to, question by question.
func (s *sitting) words() string {
	out := []string{"The run is over: " + s.score() + ".", ""}
	for i := range s.done {
		r := &s.done[i]
		out = append(out, fmt.Sprintf("%d. %s, %s: %s", i+1, r.Setup, r.Kind, resultWords(r)))
	}
	return strings.Join(out, "\n")
}

// resultWords say what became of one question.
func resultWords(r *exercise.Record) string {
	switch {
	case r.Points == exercise.MostPoints:
		return "right at once"
	case r.Right && r.Hints > 0:
		return "right, with a hint"
	case r.Right:
		return "right on the second try"
	}
	return "not right"
}

// students are those who have results, the one of the last first.
func students(past []exercise.Record) (out []string) {
	for i := len(past) - 1; i >= 0; i-- {
		if name := past[i].Student; name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// orNameless is a student's name as it is shown.
func orNameless(name string) string {
	if name == "" {
		return namelessStudent
	}
	return name
}

// soFar says what a student has reached, kind by kind.
func soFar(past []exercise.Record, student string) string {
	mine := exercise.OfStudent(past, student)
	if len(mine) == 0 && student == "" {
		return "No results yet. Type a name to keep each student's results apart."
	}
	if len(mine) == 0 {
		return fmt.Sprintf("%s has no results in this project yet.", orNameless(student))
	}
	out := []string{fmt.Sprintf("Results of %s: %s answered.", orNameless(student), words.Count(len(mine), "question"))}
	for _, k := range exercise.Kinds {
		if of := exercise.OfKind(mine, k); len(of) > 0 {
			out = append(out, fmt.Sprintf("%s: %s", k, scoreOf(of)))
		}
	}
	return strings.Join(out, "\n")
}

// table writes results as CSV, a row each, the oldest first.
func table(past []exercise.Record) (string, error) {
	var b strings.Builder
	var rows []storagetable.MatrixRow
	for i := range past {
		r := &past[i]
		right := "no"
		if r.Right {
			right = "yes"
		}
		rows = append(rows, storagetable.MatrixRow{Name: r.Student, Cells: []string{
			r.Date, storagetable.Guarded(r.Setup), string(r.Kind), right, strconv.Itoa(r.Tries), strconv.Itoa(r.Hints), strconv.Itoa(r.Points)}})
	}
	err := storagetable.WriteMatrix(&b, []string{"student", "date", "setup", "kind", "right", "tries", "hints", "points"}, rows)
	return b.String(), err
}
