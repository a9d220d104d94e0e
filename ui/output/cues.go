package output

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"wakeline/timeline/handout"
	"wakeline/timeline/words"
)

// Spoken is when a recorded lesson speaks of a setup, in thousandths of a
// second.
type Spoken struct {
	Setup    string
	From, To int64
}

// ReadTimes reads a table of times: CSV with the columns setup, from and to,
// in seconds or as 1:15.5; where "to" is empty the cue ends as the next
// begins. Its errors name the row's line.
func ReadTimes(in io.Reader) (out []Spoken, err error) {
	r := csv.NewReader(in)
	r.FieldsPerRecord = -1
	open := false // the last cue has no end yet
	for n := 0; ; n++ {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		line, _ := r.FieldPos(0)
		switch {
		case n == 0 && (len(row) < 2 || strings.TrimPrefix(row[0], "\ufeff") != "setup" || row[1] != "from" || len(row) > 3 || len(row) == 3 && row[2] != "to"):
			return nil, fmt.Errorf("line %d: expected the columns setup, from and to, got %q", line, row)
		case n == 0:
			continue
		case len(row) < 2 || len(row) > 3:
			return nil, fmt.Errorf("line %d: expected a setup, from and to, got %q", line, row)
		}
		s := Spoken{Setup: row[0]}
		if s.From, err = handout.ReadTime(row[1]); err != nil {
			return nil, fmt.Errorf("line %d, from: %w", line, err)
		}
		if open {
			out[len(out)-1].To = s.From
		}
		if open = len(row) < 3 || strings.TrimSpace(row[2]) == ""; !open {
			if s.To, err = handout.ReadTime(row[2]); err != nil {
				return nil, fmt.Errorf("line %d, to: %w", line, err)
			}
		}
		out = append(out, s)
	}
	if open {
		return nil, fmt.Errorf("expected the last row to say when it ends, in the column to")
	}
	return out, nil
}

// CueFormats are the endings that captions by a table of times can be written in.
var CueFormats = []string{"vtt", "srt"}

// MakeCues makes captions in one of CueFormats: of each setup spoken of its
// verdict, or its name alone. judge gives the verdict of the setup of that name.
func MakeCues(spoken []Spoken, format string, chapters bool, judge func(setup string) (words.Verdict, error)) (*Made, error) {
	var cues []handout.Cue
	for _, s := range spoken {
		v, err := judge(s.Setup)
		if err != nil {
			return nil, err
		}
		cues = append(cues, handout.CueOf(&v, s.From, s.To, chapters))
	}
	return captioned(format, cues)
}
