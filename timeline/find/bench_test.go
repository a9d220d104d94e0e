package find

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"

	"wakeline/timeline"
)

// busy is a search of weight: n fillers of 6 to 45 frames, at most most in a
// sequence, from an advantage of 120, against 40 replies on two rises, with
// two jumps and three attacks to choose among.
func busy(n, most int) (*timeline.Project, Query) {
	var lengths []int
	for i := range n {
		lengths = append(lengths, 6+(i*29)%40)
	}
	var replies []timeline.Move
	for i := range 40 {
		m := reversal(5 + i%9)
		switch i % 4 {
		case 1:
			m.Immune = nil
		case 2:
			m = timeline.Move{Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 4 + i%5, Active: []int{3}, Recovery: 22}
		case 3:
			m = timeline.Move{Kind: timeline.Evade, Length: 20 + i%7, AirborneFrom: timeline.Some(6)}
		}
		m.Name = fmt.Sprintf("answer %d", i)
		replies = append(replies, m)
	}
	p := yard(120, lengths, []int{0, 1}, replies...)
	att := &p.Fighters[0]
	kick := att.Moves[0]
	kick.Name, kick.Active = "kick", []int{3, 2, 4}
	att.Moves = append(att.Moves, kick)
	att.Jumps = append(att.Jumps, timeline.Jump{Name: "skip", Prejump: 3, Airborne: 28, Landing: 2})
	q := query(p)
	q.Attacks, q.Most, q.Wait, q.Gauge, q.List = nil, most, timeline.Maybe{}, 1, 100
	return p, q
}

// BenchmarkSearch is the count and the best hundred of 40 fillers, at most
// five in a sequence.
func BenchmarkSearch(b *testing.B) { benchmark(b, 40, 5) }

// BenchmarkSearchApart is BenchmarkSearch with a travel on every filler and a
// reach on every move: at midscreen; where some fillers go back; and at the
// wall, without and with those. It is worst where half of them do, and the wall
// is so near that most orders end at different places.
func BenchmarkSearchApart(b *testing.B) {
	for _, c := range []struct {
		name     string
		back     int // one in so many fillers goes back, 0 none
		wall     bool
		distance int
	}{{"midscreen", 0, false, 260}, {"midscreen, some back", 8, false, 260}, {"wall", 0, true, 260}, {"wall, some back", 8, true, 260},
		{"wall, half back", 2, true, 260}, {"wall at 130, half back", 2, true, 130}, {"wall at 60, half back", 2, true, 60}} {
		b.Run(c.name, func(b *testing.B) {
			p, q := busy(40, 5)
			scatter(p, &q, c.back, c.wall)
			q.Setup.Distance = timeline.Some(c.distance)
			var r *Result
			for b.Loop() {
				r = look(b, p, q)
			}
			answers, _ := r.Count.Float64()
			b.ReportMetric(answers, "answers")
		})
	}
}

// scatter gives every move a travel and a reach, and the search a distance.
func scatter(p *timeline.Project, q *Query, back int, wall bool) {
	for i := range p.Fighters {
		f := &p.Fighters[i]
		for k := range f.Moves {
			m := &f.Moves[k]
			m.Travel = 1 + k*37%60
			if back > 0 && k%back == back*3/8 {
				m.Travel = -m.Travel
			}
			if m.Hits() {
				m.Reach = &timeline.Interval{Near: -20, Far: 60 + k%5*15}
			}
		}
		for k := range f.Jumps {
			f.Jumps[k].Travel = 140 - 40*k
		}
		for k := range f.Rises {
			f.Rises[k].Shift = 25 * k
		}
	}
	q.Setup.Distance = timeline.Some(260)
	if wall {
		q.Setup.Position = timeline.Wall
	}
}

// BenchmarkGrowth shows how a search grows with the length of sequences and
// the number of fillers.
func BenchmarkGrowth(b *testing.B) {
	for _, most := range []int{3, 5, 8, 12, 20} {
		b.Run(fmt.Sprintf("most=%d", most), func(b *testing.B) { benchmark(b, 40, most) })
	}
	for _, n := range []int{10, 20, 80, 160} {
		b.Run(fmt.Sprintf("fillers=%d", n), func(b *testing.B) { benchmark(b, n, 5) })
	}
}

func benchmark(b *testing.B, n, most int) {
	p, q := busy(n, most)
	var r *Result
	for b.Loop() {
		r = look(b, p, q)
	}
	if len(r.Answers) != q.List {
		b.Fatalf("%d answers listed: %v", len(r.Answers), r.Because)
	}
	count, _ := r.Count.Float64()
	b.ReportMetric(count, "answers")
}

// many gives the attacker of a busy search so many jumps and attacks, and its
// fillers costs of many sums: what is found is a multiple of what is listed.
func many(p *timeline.Project, q *Query, jumps, attacks int) {
	att := &p.Fighters[0]
	kick := *att.Move("kick")
	for i := range att.Moves {
		if m := &att.Moves[i]; m.Kind == timeline.Dash {
			m.GaugeCost = i % 3
		}
	}
	q.Gauge = 12
	for i := range attacks {
		kick.Name = fmt.Sprintf("kick %d", i)
		q.Attacks = append(q.Attacks, kick.Name)
		att.Moves = append(att.Moves, kick)
	}
	for i := range jumps {
		name := fmt.Sprintf("skip %d", i)
		q.Jumps = append(q.Jumps, name)
		att.Jumps = append(att.Jumps, timeline.Jump{Name: name, Prejump: 3, Airborne: 28 + i%8, Landing: 2})
	}
}

// BenchmarkManyWays is a search with 20 jumps and 40 attacks. "kept-MB" is the
// most that stood on the heap at once.
func BenchmarkManyWays(b *testing.B) {
	p, q := busy(40, 12)
	many(p, &q, 20, 40)
	b.ReportAllocs()
	var most uint64
	for b.Loop() {
		most = max(most, peak(func() { look(b, p, q) }))
	}
	b.ReportMetric(float64(most)/1e6, "kept-MB")
}

// peak is the most memory that stood on the heap while do ran, in bytes, less
// what stood there before, to within a millisecond's work.
func peak(do func()) (most uint64) {
	runtime.GC()
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	before := sample[0].Value.Uint64()
	stop, done := make(chan bool), make(chan bool)
	go func() {
		defer close(done)
		for {
			metrics.Read(sample)
			most = max(most, sample[0].Value.Uint64())
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	do()
	close(stop)
	<-done
	return most - min(most, before)
}

// BenchmarkEnders is the table of 20 enders with six jumps and attacks.
func BenchmarkEnders(b *testing.B) {
	p, q := busy(40, 3)
	for i := range 20 {
		k := timeline.Some(60 + 3*i)
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, timeline.Move{Name: fmt.Sprintf("ender %d", i), Kind: timeline.Dash, Length: 20, Knockdown: timeline.Places{Midscreen: k}})
	}
	for b.Loop() {
		rows, err := Enders(context.Background(), p, q, []timeline.Position{timeline.Midscreen}, nil)
		if err != nil || len(rows) != 20 {
			b.Fatal(len(rows), err)
		}
	}
}

// BenchmarkBesideGecode runs only where WAKELINE_GECODE says how many fillers
// and how many of them at most, "40 5": the search, and beside it all
// solutions of the same whole numbers by MiniZinc's Gecode.
func BenchmarkBesideGecode(b *testing.B) {
	var n, most int
	if _, err := fmt.Sscan(os.Getenv("WAKELINE_GECODE"), &n, &most); err != nil {
		b.Skip("WAKELINE_GECODE doesn't say which search")
	}
	tool(b, "minizinc")
	p, q := busy(n, most)
	model := newPuzzle(b, p, &q).minizinc()
	for b.Loop() {
		start := time.Now()
		r := look(b, p, q)
		ours := time.Since(start)
		start = time.Now()
		all := solutions(b, model)
		theirs := time.Since(start)
		if r.Count.Int64() != int64(len(all)) {
			b.Fatalf("%v answers, Gecode has %d", r.Count, len(all))
		}
		b.ReportMetric(float64(len(all)), "answers")
		b.ReportMetric(ours.Seconds()*1000, "ms-search")
		b.ReportMetric(theirs.Seconds()*1000, "ms-gecode")
		b.ReportMetric(float64(theirs)/float64(ours), "times")
	}
}
