package model

import (
	"context"
	"time"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Judged is what a list of many setups knows of one.
type Judged struct {
	Word  timeline.Word // empty: it has no verdict
	Spare timeline.Maybe
}

// Verdicts are those of all setups of a document, by name, as far as they are
// known. They are judged behind the window when they are asked for.
type Verdicts struct {
	OnMore func() // more are known, or the work has ended

	Model        *Model
	Spawn, Later func(do func())

	known map[string]Judged
	newer map[string]bool    // edited since the work that runs began
	stop  context.CancelFunc // of the work that runs; nil: none
	Done  int                // setups judged by it so far
	Err   error              // why not all could be judged
}

// Forget knows nothing any more, as after an edit of the move data.
func (v *Verdicts) Forget() {
	v.End()
	v.known, v.newer, v.Err = map[string]Judged{}, map[string]bool{}, nil
}

// End ends the work that runs, and keeps what is known.
func (v *Verdicts) End() {
	if v.stop != nil {
		v.stop()
		v.stop = nil
	}
}

// Running reports whether setups are being judged.
func (v *Verdicts) Running() bool { return v.stop != nil }

// Drop forgets the setups of those names.
func (v *Verdicts) Drop(names []string) {
	for _, name := range names {
		delete(v.known, name)
		v.newer[name] = true
	}
}

// Note takes in what the model knows of its chosen setup.
func (v *Verdicts) Note() {
	m := v.Model
	if m.chosen < 0 {
		return
	}
	j := Judged{}
	if m.plan != nil {
		j = Judged{m.verdict.Called, m.verdict.Spare()}
	}
	v.known[m.setup.Name], v.newer[m.setup.Name] = j, true
}

// Of is the verdict of setup i, as far as it is known.
func (v *Verdicts) Of(i int) (Judged, bool) {
	j, ok := v.known[v.Model.doc.Head(i).Name]
	return j, ok
}

// fewUnknown is how many setups may be judged at once.
const fewUnknown = 64

// Want has all setups judged: a few at once, many behind the window.
func (v *Verdicts) Want() {
	if v.Running() || v.Err != nil {
		return
	}
	var missing []int
	for i := range v.Model.Len() {
		if _, ok := v.Of(i); !ok {
			if missing = append(missing, i); len(missing) > fewUnknown {
				v.begin()
				return
			}
		}
	}
	ix := timeline.NewIndex(v.Model.Data())
	for _, i := range missing {
		if s, err := v.Model.doc.Setup(i); err == nil {
			v.known[s.Name] = judge(ix, &s)
		} else {
			v.known[s.Name] = Judged{}
		}
	}
}

// judge judges one setup. One that can't be, or on which the core itself
// fails, has no verdict.
func judge(ix *timeline.Index, s *timeline.Setup) (out Judged) {
	guard.Try("Judging "+s.Name, func() error {
		got, err := words.Judge(ix, *s)
		if err == nil {
			out = Judged{got.Called, got.Spare()}
		}
		return err
	})
	return out
}

// begin judges all setups behind the window.
func (v *Verdicts) begin() {
	ctx, cancel := context.WithCancel(context.Background())
	v.stop, v.Done, v.Err = cancel, 0, nil
	clear(v.newer)
	data := *v.Model.Data() // a text's is another after an edit
	each := v.Model.doc.Each()
	ended := func(err error) {
		if ctx.Err() == nil {
			v.Err = err
			v.End()
			v.OnMore()
		}
	}
	v.Spawn(func() {
		err := guard.Try("Judging the setups", func() error {
			return JudgeAll(ctx, each, timeline.NewIndex(&data), func(some map[string]Judged) {
				v.Later(func() {
					if ctx.Err() == nil {
						for name, j := range some {
							if !v.newer[name] {
								v.known[name] = j
							}
						}
						v.Done += len(some)
						v.OnMore()
					}
				})
			})
		})
		v.Later(func() { ended(err) })
	})
}

// tellEvery is how long found verdicts are gathered before they are told.
const tellEvery = 250 * time.Millisecond

// JudgeAll judges every setup of each on all cores, and tells what it found
// on the goroutine that called it. It ends early when ctx does.
func JudgeAll(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, ix *timeline.Index, tell func(map[string]Judged)) error {
	type found struct {
		name string
		Judged
	}
	some, last := map[string]Judged{}, time.Now()
	err := guard.InOrder(ctx, "Judging the setups", func(ctx context.Context, hand func(timeline.Setup) error) error {
		return each(ctx, func(s *timeline.Setup) error { return hand(*s) })
	}, func(_ context.Context, s timeline.Setup) (found, error) {
		return found{s.Name, judge(ix, &s)}, nil
	}, func(f found) error {
		some[f.name] = f.Judged
		if now := time.Now(); now.Sub(last) > tellEvery {
			tell(some)
			some, last = map[string]Judged{}, now
		}
		return nil
	})
	if err == nil && len(some) > 0 {
		tell(some)
	}
	return err
}
