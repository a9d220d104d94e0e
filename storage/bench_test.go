package storage

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"wakeline/timeline"
)

// The size that the benchmarks stand for.
const (
	manyFighters = 20
	manyMoves    = 100 // of each fighter
	manySetups   = 100_000
	manyReplies  = 40 // of each setup, met on two rises
	manyTags     = 50
)

// bigData is the move data of the big file: fighters whose moves differ a
// little each.
func bigData() *timeline.Project {
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	for i := range manyFighters {
		f := timeline.Fighter{Name: fmt.Sprintf("Fighter %d", i), Body: timeline.Some(100),
			Rises: []timeline.Rise{{Name: "normal"}, {Name: "backward", Extra: 3, Shift: 40}},
			Jumps: []timeline.Jump{{Name: "forward", Prejump: 4, Airborne: 39, Landing: 3, Apex: timeline.Some(200)}}}
		for k := range manyMoves {
			f.Moves = append(f.Moves, bigMove(i, k))
		}
		p.Fighters = append(p.Fighters, f)
	}
	return p
}

// bigMove is move k of fighter i: the first knocks down, the second is done
// in the air, the third is a dash, and the others answer in several ways.
func bigMove(i, k int) timeline.Move {
	m := timeline.Move{Name: fmt.Sprintf("move %d", k), Kind: timeline.Strike, Level: timeline.Mid, Startup: 4 + (i+k)%9, Active: []int{3}, Recovery: 12 + k%11}
	switch {
	case k == 0:
		m.Knockdown = timeline.Places{Midscreen: timeline.Some(54), Wall: timeline.Some(58)}
	case k == 1:
		m.Air, m.Level, m.Startup, m.Active = true, timeline.Overhead, 7, []int{6}
		m.Hitstun, m.Guardstun = timeline.Some(20), timeline.Some(16)
	case k == 2:
		m = timeline.Move{Name: m.Name, Kind: timeline.Dash, Length: 10}
	case k%5 == 0:
		m.Kind, m.Level = timeline.Throw, timeline.LevelThrow
	case k%5 == 1:
		m.Active, m.Guardstun = []int{2, 5, 1}, timeline.Some(14)
		m.Immune = []timeline.Immunity{{Window: timeline.Window{From: 1, To: 5}, Strikes: true, Throws: true}}
	case k%5 == 2:
		m = timeline.Move{Name: m.Name, Kind: timeline.Parry, Length: 30, Parry: []timeline.Window{{From: 1, To: 10}}}
	default:
		m.OnGuard, m.OnHit = timeline.Some(-6), timeline.Some(3)
	}
	return m
}

// bigSetup is setup n of the big file.
func bigSetup(n int) timeline.Setup {
	a := n % manyFighters
	s := timeline.Setup{Name: fmt.Sprintf("setup %d", n), Attacker: fmt.Sprintf("Fighter %d", a), Rival: fmt.Sprintf("Fighter %d", (a+n/manyFighters)%manyFighters),
		Ender: "move 0", Position: timeline.Midscreen, Fillers: []string{"move 2"}, Delay: n % 7, Jump: "forward", Attack: "move 1", Landing: timeline.DoGuard,
		Rises: []string{"normal", "backward"}, Tags: []string{fmt.Sprintf("tag %d", n%manyTags), "kept"}, Note: fmt.Sprintf("a note of some length about setup %d, as people write them", n)}
	for k := range manyReplies {
		s.Replies = append(s.Replies, timeline.Reply{Move: fmt.Sprintf("move %d", 3+(n+2*k)%(manyMoves-3)), Demand: []timeline.Demand{timeline.Survive, timeline.Survive, timeline.Beat}[k%3], Late: k % 4 / 3 * 2})
	}
	return s
}

// big is the big file, made once a run.
var big struct {
	once   sync.Once
	dir    string
	path   string
	floor  time.Duration // how long its rows took as plain INSERTs through the driver
	failed error
}

func bigFile(b *testing.B) string {
	b.Helper()
	if testing.Short() {
		b.Skip("takes a file of 100,000 setups")
	}
	big.once.Do(func() { big.failed = makeBig() })
	if big.failed != nil {
		b.Fatal(big.failed)
	}
	return big.path
}

// makeBig writes the rows of the big file with plain INSERTs, in one
// transaction: its time is the floor.
func makeBig() (err error) {
	if big.dir, err = os.MkdirTemp("", "wakeline-bench-"); err != nil {
		return err
	}
	big.path = filepath.Join(big.dir, "big"+Ext)
	f, err := Create(big.path, bigData())
	if err != nil {
		return err
	}
	defer f.Close()
	start := time.Now()
	err = f.inStep(context.Background(), func(s *Step) error {
		for n := range manySetups {
			setup := bigSetup(n)
			im, err := s.ids.setupImage(&setup)
			if err != nil {
				return err
			}
			im.Row["uid"], im.Row["place"] = fmt.Sprintf("%036d", n), int64(n+1)
			if err := s.setRow(place{"setup", int64(n + 1)}, nil, im); err != nil {
				return err
			}
		}
		return nil
	})
	big.floor = time.Since(start)
	return err
}

// BenchmarkOpen opens the big file and lists its setups. Its pages are checked
// in the background meanwhile: sound-ms is when that is done. floor-s is what
// it took to write its rows with plain INSERTs.
func BenchmarkOpen(b *testing.B) {
	path := bigFile(b)
	info, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	var opened, sound time.Duration
	for b.Loop() {
		start := time.Now()
		f, err := Open(path)
		if err != nil {
			b.Fatal(err)
		}
		heads, err := f.Heads()
		if err != nil || len(heads) != manySetups {
			b.Fatal(len(heads), err)
		}
		opened += time.Since(start)
		if err := f.Sound(); err != nil {
			b.Fatal(err)
		}
		sound += time.Since(start)
		f.Close()
	}
	b.ReportMetric(float64(opened.Milliseconds())/float64(b.N), "listed-ms")
	b.ReportMetric(float64(sound.Milliseconds())/float64(b.N), "sound-ms")
	b.ReportMetric(float64(info.Size()>>20), "MiB")
	b.ReportMetric(big.floor.Seconds(), "floor-s")
}

// median is the middle one of some times, in milliseconds.
func median(took []time.Duration) float64 {
	slices.Sort(took)
	return float64(took[len(took)/2].Microseconds()) / 1000
}

// BenchmarkEdit changes the delay of a setup of the big file, on disk. The
// floor is one plain UPDATE of the same column, committed.
func BenchmarkEdit(b *testing.B) {
	f, err := Open(bigFile(b))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	if err := f.Sound(); err != nil {
		b.Fatal(err)
	}
	var took, floor []time.Duration
	n := 0
	for b.Loop() {
		s := bigSetup(n * 7919 % manySetups)
		s.Delay = 8 + n%90
		start := time.Now()
		if err := f.Edit("delay", func(st *Step) error { return st.PutSetup(s.Name, &s) }); err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(start))
		start = time.Now()
		if _, err := f.db.Exec("UPDATE setup SET delay = ? WHERE id = ?", n%90, 1+n*7907%manySetups); err != nil {
			b.Fatal(err)
		}
		floor = append(floor, time.Since(start))
		n++
	}
	b.ReportMetric(median(took), "median-ms")
	b.ReportMetric(median(floor), "floor-ms")
}

// BenchmarkEditMove changes a move that thousands of setups use.
func BenchmarkEditMove(b *testing.B) {
	f, err := Open(bigFile(b))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	n := 0
	for b.Loop() {
		m := bigMove(3, 3)
		m.Recovery = 13 + n%40
		if err := f.Edit("recovery", func(st *Step) error { return st.PutMove("Fighter 3", m.Name, &m) }); err != nil {
			b.Fatal(err)
		}
		n++
	}
}

// BenchmarkSearch looks for a text and a tag, and for each alone.
func BenchmarkSearch(b *testing.B) {
	f, err := Open(bigFile(b))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	for _, c := range []struct{ name, text, tag string }{
		{"text", "setup 777", ""}, {"reply", "move 37", ""}, {"rare text", "setup 77777,", ""}, {"tag", "", "tag 7"}, {"both", "people", "tag 7"},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if found, err := searched(f, c.text, c.tag); err != nil || len(found) == 0 {
					b.Fatal(len(found), err)
				}
			}
		})
	}
}

// BenchmarkRead streams every setup.
func BenchmarkRead(b *testing.B) {
	f, err := Open(bigFile(b))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	for b.Loop() {
		n := 0
		if err := f.EachSetup(context.Background(), func(int, *timeline.Setup) error { n++; return nil }); err != nil || n != manySetups {
			b.Fatal(n, err)
		}
	}
}

// BenchmarkJudgeAll reads every setup and judges it, on all cores.
func BenchmarkJudgeAll(b *testing.B) {
	f, err := Open(bigFile(b))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	for b.Loop() {
		ix := timeline.NewIndex(f.Data())
		work := make(chan []timeline.Setup, 4)
		var group sync.WaitGroup
		for range runtime.GOMAXPROCS(0) {
			group.Go(func() {
				for some := range work {
					for i := range some {
						if _, err := ix.Judge(some[i]); err != nil {
							b.Error(err)
							return
						}
					}
				}
			})
		}
		var some []timeline.Setup
		err := f.EachSetup(context.Background(), func(_ int, s *timeline.Setup) error {
			if some = append(some, *s); len(some) == 256 {
				work <- some
				some = nil
			}
			return nil
		})
		work <- some
		close(work)
		group.Wait()
		if err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkImportMoves takes 100,000 moves in, in one step.
func BenchmarkImportMoves(b *testing.B) {
	if testing.Short() {
		b.Skip("100,000 moves")
	}
	const n = 100_000
	moves := make([]timeline.Move, n)
	for k := range moves {
		moves[k] = bigMove(0, 3+k)
		moves[k].Name = fmt.Sprintf("move %d", k)
	}
	var took, floor time.Duration
	for b.Loop() {
		f := made(b, &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "A", Rises: []timeline.Rise{{Name: "normal"}}}}})
		start := time.Now()
		if err := f.Edit("import", func(s *Step) error { return s.TakeMoves("A", moves) }); err != nil {
			b.Fatal(err)
		}
		took += time.Since(start)
		f.Close()
		g := made(b, &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "A", Rises: []timeline.Rise{{Name: "normal"}}}}})
		start = time.Now()
		if err := plainMoves(g, moves); err != nil {
			b.Fatal(err)
		}
		floor += time.Since(start)
		g.Close()
	}
	b.ReportMetric(took.Seconds()/float64(b.N), "import-s")
	b.ReportMetric(floor.Seconds()/float64(b.N), "floor-s")
}

// plainMoves inserts moves as rows, and nothing else.
func plainMoves(f *File, moves []timeline.Move) error {
	tx, err := f.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	put, err := tx.Prepare(statementsOf["move"].put)
	if err != nil {
		return err
	}
	for k := range moves {
		r := rowOf(moveFields, &moves[k])
		r["uid"], r["fighter"], r["place"] = fmt.Sprintf("%036d", k), int64(1), int64(k)
		if _, err := put.Exec(append([]any{k + 1}, r.values(columns["move"])...)...); err != nil {
			return err
		}
	}
	return tx.Commit()
}
