package model

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/merge"
)

// manyMerged is how many setups each of two projects has, of which they share
// half.
const manyMerged = 100_000

// manyMergeReplies is how many replies each of them asks.
const manyMergeReplies = 12

// mergedSetup is setup n of either project.
func mergedSetup(n int) timeline.Setup {
	a := n % 20
	s := timeline.Setup{Name: fmt.Sprintf("setup %d", n), Attacker: fmt.Sprintf("Fighter %d", a), Rival: fmt.Sprintf("Fighter %d", (a+n/20)%20),
		Ender: "move 0", Position: timeline.Midscreen, Fillers: []string{"move 2"}, Delay: n % 7, Jump: "forward", Attack: "move 1", Landing: timeline.DoGuard,
		Tags: []string{fmt.Sprintf("tag %d", n%50)}, Note: fmt.Sprintf("a note about setup %d, as people write them", n)}
	for k := range manyMergeReplies {
		s.Replies = append(s.Replies, timeline.Reply{Move: fmt.Sprintf("move %d", 3+(n+2*k)%37), Demand: timeline.Survive})
	}
	return s
}

// mergedData is the move data of both: 20 fighters of 40 moves.
func mergedData() *timeline.Project {
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	for i := range 20 {
		f := timeline.Fighter{Name: fmt.Sprintf("Fighter %d", i), Rises: []timeline.Rise{{Name: "normal"}, {Name: "backward", Extra: 3}},
			Jumps: []timeline.Jump{{Name: "forward", Prejump: 4, Airborne: 39, Landing: 3}}}
		for k := range 40 {
			m := timeline.Move{Name: fmt.Sprintf("move %d", k), Kind: timeline.Strike, Level: timeline.Mid, Startup: 4 + (i+k)%9, Active: []int{3}, Recovery: 12 + k%11}
			switch k {
			case 0:
				m.Knockdown = timeline.Places{Midscreen: timeline.Some(54), Wall: timeline.Some(58)}
			case 1:
				m.Air, m.Level = true, timeline.Overhead
			case 2:
				m = timeline.Move{Name: m.Name, Kind: timeline.Dash, Length: 10}
			}
			f.Moves = append(f.Moves, m)
		}
		p.Fighters = append(p.Fighters, f)
	}
	return p
}

// mergeFile writes a project of the setups from that one on.
func mergeFile(b *testing.B, name string, p *timeline.Project, from int) string {
	b.Helper()
	for n := range manyMerged {
		p.Setups = append(p.Setups, mergedSetup(from+n))
	}
	path := filepath.Join(b.TempDir(), name+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkMerge merges two projects of 100,000 setups, of which half are new
// and a fifth of the moves' numbers are others: read, compared, weighed, and
// stored as one step.
func BenchmarkMerge(b *testing.B) {
	if testing.Short() {
		b.Skip("takes two files of 100,000 setups")
	}
	ours, other := mergedData(), mergedData()
	for i := range other.Fighters {
		for k := 3; k < 40; k += 5 {
			other.Fighters[i].Moves[k].Recovery++
		}
	}
	at, theirs := mergeFile(b, "ours", ours, 0), mergeFile(b, "theirs", other, manyMerged/2)
	for b.Loop() {
		b.StopTimer()
		f, err := storage.Open(at)
		if err != nil {
			b.Fatal(err)
		}
		doc, err := NewDocument(f)
		if err != nil {
			b.Fatal(err)
		}
		if err := f.Sound(); err != nil { // the check behind the window
			b.Fatal(err)
		}
		doc.EndCheck()
		b.StartTimer()
		mergeOnce(b, doc, theirs)
		b.StopTimer()
		if _, err := f.Undo(); err != nil {
			b.Fatal(err)
		}
		doc.Close()
		b.StartTimer()
	}
}

func mergeOnce(b *testing.B, doc *Document, path string) {
	b.Helper()
	step := stopwatch(b)
	none := func(int, int) {}
	theirs, err := ReadSide(context.Background(), path, none)
	if err != nil {
		b.Fatal(err)
	}
	ours, err := doc.Side(context.Background(), none)
	if err != nil {
		b.Fatal(err)
	}
	step("read")
	c := merge.Compare(ours, theirs)
	step("compare")
	r, err := c.Merge(context.Background(), c.Defaults(), none)
	if err != nil {
		b.Fatal(err)
	}
	step("merge")
	if _, err := c.Turned(context.Background(), r, none); err != nil {
		b.Fatal(err)
	}
	step("judge")
	if err := doc.StoreMerge(context.Background(), "merge", r, none); err != nil {
		b.Fatal(err)
	}
	step("store")
	if err := doc.Reload(); err != nil {
		b.Fatal(err)
	}
	step("reload")
	if doc.Len() != manyMerged*3/2 {
		b.Fatalf("%d setups", doc.Len())
	}
}

// BenchmarkSavedList finds the setups of a saved list of two words among 100,000.
func BenchmarkSavedList(b *testing.B) {
	if testing.Short() {
		b.Skip("takes a file of 100,000 setups")
	}
	f, err := storage.Open(mergeFile(b, "ours", mergedData(), 0))
	if err != nil {
		b.Fatal(err)
	}
	doc, err := NewDocument(f)
	if err != nil {
		b.Fatal(err)
	}
	defer doc.Close()
	if err := f.Sound(); err != nil {
		b.Fatal(err)
	}
	lists := []timeline.SavedList{{Name: "few", Search: `tag:=tag7 or name:"setup 99" not tag:"tag 8"`}}
	for b.Loop() {
		of, err := timeline.ReadSearch("list:few", lists...)
		if err != nil {
			b.Fatal(err)
		}
		doc.Words.forget()
		if _, err := doc.Search(of, func(int, timeline.Word) bool { return false }); err != nil {
			b.Fatal(err)
		}
	}
}

// stopwatch reports how long each part of a merge takes.
func stopwatch(b *testing.B) func(part string) {
	last := time.Now()
	return func(part string) {
		now := time.Now()
		b.ReportMetric(now.Sub(last).Seconds(), part+"-s")
		last = now
	}
}
