package storage

import (
	"context"
	"fmt"
	"math"
	"strings"
)

// Drill is one timing exercise: what a person pressed, and how late.
type Drill struct {
	Date    string  // when it began, RFC 3339
	Setup   string  // the name of the setup that was drilled, as it was then
	Picture float64 // milliseconds from one picture on the screen to the next; 0: not known
	Presses []Press
}

// Press is one press of a drill.
type Press struct {
	What   string  // jump or attack
	Late   float64 // milliseconds after the moment aimed at; negative: early
	Frames int     // late against the window, negative: early; 0: it landed
}

// Late is by how many milliseconds every press of the drills came late, the
// oldest first.
func Late(drills []Drill) (out []float64) {
	for i := range drills {
		for _, p := range drills[i].Presses {
			out = append(out, p.Late)
		}
	}
	return out
}

// AddDrill puts a drill into the file, all of it or nothing. It is no step of
// undo: it happened.
func (f *File) AddDrill(d Drill) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.writable(); err != nil {
		return err
	}
	err := f.inStep(context.Background(), func(s *Step) error {
		for _, p := range d.Presses {
			if _, err := s.put("press", 0, &image{Row: row{"date": d.Date, "setup": strings.ToValidUTF8(d.Setup, "\uFFFD"), "what": p.What,
				"late": micro(p.Late), "frames": int64(p.Frames), "picture": micro(d.Picture)}}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("keep the drill: %w", describe(err))
	}
	return nil
}

// micro is milliseconds in whole microseconds.
func micro(ms float64) int64 { return int64(math.Round(1000 * ms)) }

// Drills lists the drills, the oldest first.
func (f *File) Drills() (out []Drill, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT date, setup, what, late, frames, picture FROM press ORDER BY id")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var d Drill
			var p Press
			var late, picture int64
			if err := rows.Scan(&d.Date, &d.Setup, &p.What, &late, &p.Frames, &picture); err != nil {
				return err
			}
			d.Picture, p.Late = float64(picture)/1000, float64(late)/1000
			if n := len(out) - 1; n < 0 || out[n].Date != d.Date || out[n].Setup != d.Setup {
				out = append(out, d)
			}
			last := &out[len(out)-1]
			last.Presses = append(last.Presses, p)
		}
		return rows.Err()
	})
	return out, err
}
