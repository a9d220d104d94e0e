package storage

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Drill is one timing exercise: what a person pressed, and how late.
type Drill struct {
	Date    string  // when it began, RFC 3339
	Setup   string  // the name of the setup that was drilled, as it was then
	Hand    string  // whose hand pressed; empty: it has no name
	Picture float64 // milliseconds from one picture on the screen to the next; 0: not known
	Presses []Press
}

// Press is one press of a drill.
type Press struct {
	What   string  // jump or attack
	Late   float64 // milliseconds after the moment aimed at; negative: early
	Frames int     // late against the window, negative: early; 0: it landed
}

// Late is by how many milliseconds every press of a hand came late, the oldest
// first.
func Late(drills []Drill, hand string) (out []float64) {
	for i := range drills {
		for _, p := range drills[i].Presses {
			if drills[i].Hand == hand {
				out = append(out, p.Late)
			}
		}
	}
	return out
}

// Hands are those that the drills are of, the one of the last drill first.
func Hands(drills []Drill) (out []string) {
	for i := len(drills) - 1; i >= 0; i-- {
		if !slices.Contains(out, drills[i].Hand) {
			out = append(out, drills[i].Hand)
		}
	}
	return out
}

// AddDrill puts a drill into the file, all of it or nothing. It is no step of
// undo: it happened.
func (f *File) AddDrill(d Drill) error {
	if err := f.lockToEdit(); err != nil {
		return err
	}
	defer f.mu.Unlock()
	err := f.inStep(context.Background(), func(s *Step) error {
		for _, p := range d.Presses {
			if _, err := s.put("press", 0, &image{Row: row{"date": d.Date, "setup": strings.ToValidUTF8(d.Setup, "\uFFFD"), "what": p.What,
				"hand": strings.ToValidUTF8(d.Hand, "\uFFFD"), "late": micro(p.Late), "frames": int64(p.Frames), "picture": micro(d.Picture)}}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("save the drill: %w", describe(err))
	}
	return nil
}

// DiscardPress removes the last press of a hand. It is no step of undo; where
// there is none, nothing happens.
func (f *File) DiscardPress(hand string) error {
	return f.forget("discard the press", "DELETE FROM press WHERE id = (SELECT max(id) FROM press WHERE hand = ?)", hand)
}

// ClearDrills removes every press of a hand. It is no step of undo.
func (f *File) ClearDrills(hand string) error {
	return f.forget("clear the record", "DELETE FROM press WHERE hand = ?", hand)
}

func (f *File) forget(what, statement, whose string) error {
	if err := f.lockToEdit(); err != nil {
		return err
	}
	defer f.mu.Unlock()
	err := f.inStep(context.Background(), func(s *Step) error {
		_, err := s.tx.Exec(statement, whose)
		return err
	})
	if err != nil {
		return fmt.Errorf("%s: %w", what, describe(err))
	}
	return nil
}

// micro is milliseconds in whole microseconds.
func micro(ms float64) int64 { return int64(math.Round(1000 * ms)) }

// Drills lists the drills, the oldest first.
func (f *File) Drills() (out []Drill, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT date, setup, what, late, frames, picture, hand FROM press ORDER BY id")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var d Drill
			var p Press
			var late, picture int64
			if err := rows.Scan(&d.Date, &d.Setup, &p.What, &late, &p.Frames, &picture, &d.Hand); err != nil {
				return err
			}
			if err := plainTexts("a drill", d.Date, d.Setup, p.What); err != nil {
				return err
			}
			d.Picture, p.Late = float64(picture)/1000, float64(late)/1000
			if n := len(out) - 1; n < 0 || out[n].Date != d.Date || out[n].Setup != d.Setup || out[n].Hand != d.Hand {
				out = append(out, d)
			}
			last := &out[len(out)-1]
			last.Presses = append(last.Presses, p)
		}
		return rows.Err()
	})
	return out, err
}

// Answer is the result of one question of an exercise.
type Answer struct {
	Date    string // when it was answered, RFC 3339
	Student string // empty: without a name
	Setup   string // the name of the setup that was asked about, as it was then
	Kind    string // what was asked for
	Right   bool
	Tries   int
	Hints   int
	Points  int
}

// AddAnswer puts the result of a question into the file. It is no step of undo:
// it happened.
func (f *File) AddAnswer(a Answer) error {
	if err := f.lockFor(true); err != nil {
		return err
	}
	defer f.mu.Unlock()
	right := int64(0)
	if a.Right {
		right = 1
	}
	valid := func(text string) string { return strings.ToValidUTF8(text, "\uFFFD") }
	err := f.inStep(context.Background(), func(s *Step) error {
		_, err := s.put("answer", 0, &image{Row: row{"date": a.Date, "student": valid(a.Student), "setup": valid(a.Setup), "kind": a.Kind,
			"was_right": right, "tries": int64(a.Tries), "hints": int64(a.Hints), "points": int64(a.Points)}})
		return err
	})
	if err != nil {
		return fmt.Errorf("save the answer: %w", describe(err))
	}
	return nil
}

// ClearAnswers removes every answer of a student. It is no step of undo.
func (f *File) ClearAnswers(student string) error {
	return f.forget("delete the results", "DELETE FROM answer WHERE student = ?", student)
}

// Answers lists the results of all students, the oldest first.
func (f *File) Answers() (out []Answer, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT date, student, setup, kind, was_right, tries, hints, points FROM answer ORDER BY id")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var a Answer
			if err := rows.Scan(&a.Date, &a.Student, &a.Setup, &a.Kind, &a.Right, &a.Tries, &a.Hints, &a.Points); err != nil {
				return err
			}
			if err := plainTexts("an answer", a.Date, a.Student, a.Setup, a.Kind); err != nil {
				return err
			}
			out = append(out, a)
		}
		return rows.Err()
	})
	return out, err
}
