package value

import (
	"fmt"
	"testing"

	"wakeline/timeline"
)

// BenchmarkPoints weighs 40 replies on 3 rises with 20 routes, over the judging.
func BenchmarkPoints(b *testing.B) {
	p, err := timeline.ReadText([]byte(ring))
	if err != nil {
		b.Fatal(err)
	}
	ada, bea := &p.Fighters[0], &p.Fighters[1]
	for i := len(ada.Routes); i < 20; i++ {
		ada.Routes = append(ada.Routes, timeline.Route{Name: fmt.Sprint("route ", i), Steps: []timeline.RouteStep{{Move: "kick"}, {Move: "five", By: timeline.Link}}})
	}
	bea.Rises = append(bea.Rises, timeline.Rise{Name: "late", Extra: 3}, timeline.Rise{Name: "later", Extra: 6})
	s := p.Setups[1]
	s.Replies = []timeline.Reply{}
	for i := range 40 {
		s.Replies = append(s.Replies, timeline.Reply{Move: []string{"rise", "jab", "hook"}[i%3], Demand: timeline.Survive, Late: i / 3})
	}
	plan, err := timeline.Compile(p, s)
	if err != nil {
		b.Fatal(err)
	}
	m, book := plan.Meetings(s.Delay, nil), NewBook(p)
	b.ReportAllocs()
	for b.Loop() {
		book.Of(&m, Gauges{})
	}
}
