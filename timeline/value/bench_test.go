package value

import (
	"context"
	"fmt"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// busyRing is the ring with 20 routes, three rises and so many replies asked of
// each setup; apart, with a distance and a reach on every move.
func busyRing(b *testing.B, replies int, apart bool) *timeline.Project {
	p, err := timeline.ReadText([]byte(ring))
	if err != nil {
		b.Fatal(err)
	}
	ada, bea := &p.Fighters[0], &p.Fighters[1]
	for i := len(ada.Routes); i < 20; i++ {
		ada.Routes = append(ada.Routes, timeline.Route{Name: fmt.Sprint("route ", i), Steps: []timeline.RouteStep{{Move: "kick"}, {Move: "five", By: timeline.Link}}})
	}
	bea.Rises = append(bea.Rises, timeline.Rise{Name: "late", Extra: 3}, timeline.Rise{Name: "later", Extra: 6})
	for i := range replies {
		bea.Replies = append(bea.Replies, timeline.Reply{Move: []string{"rise", "jab", "hook"}[i%3], Demand: timeline.Survive, Late: i / 3})
	}
	for i := range p.Setups {
		p.Setups[i].Replies = nil
		if apart {
			p.Setups[i].Distance = timeline.Some(60)
		}
	}
	for _, f := range []*timeline.Fighter{ada, bea} {
		for k := range f.Moves {
			if apart {
				f.Moves[k].Reach, f.Moves[k].Travel = &timeline.Interval{Near: 0, Far: 40 + 10*(k%4)}, 5*k
			}
		}
	}
	return p
}

// BenchmarkPoints weighs 40 replies on 3 rises with 20 routes, over the judging.
func BenchmarkPoints(b *testing.B) {
	for _, in := range []struct {
		name  string
		setup int
		apart bool
	}{{"guard", 1, false}, {"attack", 2, false}, {"guard, apart", 1, true}} {
		b.Run(in.name, func(b *testing.B) {
			p := busyRing(b, 40, in.apart)
			s := p.Setups[in.setup]
			plan, err := timeline.Compile(p, s)
			if err != nil {
				b.Fatal(err)
			}
			m, book := plan.Meetings(s.Delay, nil), NewBook(p)
			b.ReportAllocs()
			for b.Loop() {
				book.Of(&m, Gauges{})
			}
		})
	}
}

// BenchmarkMix weighs 12 setups against 20 columns on each of 3 rises: all of
// it, from compiling them to the shares.
func BenchmarkMix(b *testing.B) {
	for _, in := range []struct {
		name string
		hand *odds.Hand
	}{{"counted", nil}, {"hand", &odds.Hand{Spread: 1.2}}} {
		b.Run(in.name, func(b *testing.B) {
			p := busyRing(b, 17, false)
			var setups []timeline.Setup
			for i := range 12 {
				s := p.Setups[1+i%2]
				s.Name, s.Delay = fmt.Sprint("setup ", i), i
				setups = append(setups, s)
			}
			book, ix := NewBook(p), timeline.NewIndex(p)
			b.ReportAllocs()
			for b.Loop() {
				m, err := book.Mix(context.Background(), ix, setups, MixOptions{Hand: in.hand})
				if err != nil || len(m.Columns) != 60 {
					b.Fatal(len(m.Columns), err)
				}
			}
		})
	}
}
