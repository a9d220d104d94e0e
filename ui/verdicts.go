package ui

import (
	"context"
	"time"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/guard"
)

// judged is what a list of many setups knows of one.
type judged struct {
	word  timeline.Word // empty: it has no verdict
	spare timeline.Maybe
}

// verdicts are those of all setups of a document, by name, as far as they are
// known. They are judged behind the window when they are asked for.
type verdicts struct {
	OnMore func() // more are known, or the work has ended

	model        *Model
	spawn, later func(do func())

	known map[string]judged
	newer map[string]bool    // edited since the work that runs began
	stop  context.CancelFunc // of the work that runs; nil: none
	done  int                // setups judged by it so far
	err   error              // why not all could be judged
}

// forget knows nothing any more, as after an edit of the move data.
func (v *verdicts) forget() {
	v.end()
	v.known, v.newer, v.err = map[string]judged{}, map[string]bool{}, nil
}

// end ends the work that runs, and keeps what is known.
func (v *verdicts) end() {
	if v.stop != nil {
		v.stop()
		v.stop = nil
	}
}

// running reports whether setups are being judged.
func (v *verdicts) running() bool { return v.stop != nil }

// drop forgets the setups of those names.
func (v *verdicts) drop(names []string) {
	for _, name := range names {
		delete(v.known, name)
		v.newer[name] = true
	}
}

// note takes in what the model knows of its chosen setup.
func (v *verdicts) note() {
	m := v.model
	if m.chosen < 0 {
		return
	}
	j := judged{}
	if m.plan != nil {
		j = judged{m.verdict.Called, m.verdict.Spare()}
	}
	v.known[m.setup.Name], v.newer[m.setup.Name] = j, true
}

// of is the verdict of setup i, as far as it is known.
func (v *verdicts) of(i int) (judged, bool) {
	j, ok := v.known[v.model.doc.Head(i).Name]
	return j, ok
}

// fewUnknown is how many setups may be judged at once.
const fewUnknown = 64

// want has all setups judged: a few at once, many behind the window.
func (v *verdicts) want() {
	if v.running() || v.err != nil {
		return
	}
	var missing []int
	for i := range v.model.Len() {
		if _, ok := v.of(i); !ok {
			if missing = append(missing, i); len(missing) > fewUnknown {
				v.begin()
				return
			}
		}
	}
	ix := timeline.NewIndex(v.model.Data())
	for _, i := range missing {
		if s, err := v.model.doc.Setup(i); err == nil {
			v.known[s.Name] = judge(ix, &s)
		} else {
			v.known[s.Name] = judged{}
		}
	}
}

// judge judges one setup. One that can't be, or on which the core itself
// fails, has no verdict.
func judge(ix *timeline.Index, s *timeline.Setup) (out judged) {
	guard.Try("Judging "+s.Name, func() error {
		got, err := words.Judge(ix, *s)
		if err == nil {
			out = judged{got.Called, got.Spare()}
		}
		return err
	})
	return out
}

// begin judges all setups behind the window.
func (v *verdicts) begin() {
	ctx, cancel := context.WithCancel(context.Background())
	v.stop, v.done, v.err = cancel, 0, nil
	clear(v.newer)
	data := *v.model.Data() // a text's is another after an edit
	each := v.model.doc.Each()
	ended := func(err error) {
		if ctx.Err() == nil {
			v.err = err
			v.end()
			v.OnMore()
		}
	}
	v.spawn(func() {
		err := guard.Try("Judging the setups", func() error {
			return judgeAll(ctx, each, timeline.NewIndex(&data), func(some map[string]judged) {
				v.later(func() {
					if ctx.Err() == nil {
						for name, j := range some {
							if !v.newer[name] {
								v.known[name] = j
							}
						}
						v.done += len(some)
						v.OnMore()
					}
				})
			})
		})
		v.later(func() { ended(err) })
	})
}

// tellEvery is how long found verdicts are gathered before they are told.
const tellEvery = 250 * time.Millisecond

// judgeAll judges every setup of each on all cores, and tells what it found
// on the goroutine that called it. It ends early when ctx does.
func judgeAll(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, ix *timeline.Index, tell func(map[string]judged)) error {
	type found struct {
		name string
		judged
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	results := make(chan []found, 16)
	wait := guard.Start("Judging the setups", func() error {
		defer close(results)
		return guard.Each(ctx, "Judging the setups", func(ctx context.Context, hand func([]timeline.Setup) error) error {
			var next []timeline.Setup
			if err := each(ctx, func(s *timeline.Setup) error {
				if next = append(next, *s); len(next) < compareBunch {
					return ctx.Err()
				}
				full := next
				next = nil
				return hand(full)
			}); err != nil {
				return err
			}
			return hand(next)
		}, func(ctx context.Context, job []timeline.Setup) error {
			out := make([]found, 0, len(job))
			for i := range job {
				if ctx.Err() != nil {
					break
				}
				out = append(out, found{job[i].Name, judge(ix, &job[i])})
			}
			select {
			case results <- out:
			case <-ctx.Done():
			}
			return nil
		})
	})
	some, last := map[string]judged{}, time.Now()
	for out := range results {
		for _, f := range out {
			some[f.name] = f.judged
		}
		if now := time.Now(); now.Sub(last) > tellEvery {
			tell(some)
			some, last = map[string]judged{}, now
		}
	}
	err := wait()
	if err == nil && len(some) > 0 {
		tell(some)
	}
	return err
}
