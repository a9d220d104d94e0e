package main

import (
	"fmt"
	"io"
	"path/filepath"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// largeFile makes a project file of 100,000 setups between 20 fighters, each
// against 40 replies of every kind on two rises.
func largeFile(b *testing.B) string {
	b.Helper()
	if testing.Short() {
		b.Skip("takes a file of 100,000 setups")
	}
	const fighters, moves, setups, replies = 20, 100, 100_000, 40
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	fighter := func(n int) string { return fmt.Sprintf("Fighter %d", n%fighters) }
	move := func(n int) string { return fmt.Sprintf("move %d", n) }
	for n := range fighters {
		f := timeline.Fighter{Name: fighter(n), Body: timeline.Some(100),
			Rises: []timeline.Rise{{Name: "normal"}, {Name: "backward", Extra: 3, Shift: 40}},
			Jumps: []timeline.Jump{{Name: "forward", Prejump: 4, Airborne: 39, Landing: 3, Apex: timeline.Some(200)}},
			Moves: []timeline.Move{
				{Name: "ender", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 20, Knockdown: timeline.Places{Midscreen: timeline.Some(54)}},
				{Name: "dive", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 7, Active: []int{6}, Hitstun: timeline.Some(20), Guardstun: timeline.Some(16)},
				{Name: "step", Kind: timeline.Dash, Length: 10},
			}}
		for k := range moves {
			m := timeline.Move{Name: move(k), Kind: timeline.Strike, Level: timeline.Mid, Startup: 4 + (n+k)%9, Active: []int{3}, Recovery: 12 + k%11, OnGuard: timeline.Some(-6), OnHit: timeline.Some(3)}
			switch k % 5 {
			case 0:
				m.Kind, m.Level, m.OnGuard, m.OnHit = timeline.Throw, timeline.LevelThrow, timeline.Maybe{}, timeline.Maybe{}
			case 1:
				m.Active, m.Immune = []int{2, 5, 1}, []timeline.Immunity{{Window: timeline.Window{From: 1, To: 5}, Strikes: true, Throws: true}}
			case 2:
				m = timeline.Move{Name: m.Name, Kind: timeline.Parry, Length: 30, Parry: []timeline.Window{{From: 1, To: 10}}}
			}
			f.Moves = append(f.Moves, m)
		}
		p.Fighters = append(p.Fighters, f)
	}
	for n := range setups {
		s := timeline.Setup{Name: fmt.Sprintf("setup %d", n), Attacker: fighter(n), Rival: fighter(n + n/fighters), Ender: "ender", Position: timeline.Midscreen,
			Fillers: []string{"step"}, Delay: n % 7, Jump: "forward", Attack: "dive", Landing: timeline.DoGuard, Note: "a note of some length, as people write them"}
		for k := range replies {
			s.Replies = append(s.Replies, timeline.Reply{Move: move((n + 2*k) % moves), Demand: []timeline.Demand{timeline.Survive, timeline.Survive, timeline.Beat}[k%3], Late: k % 4 / 3 * 2})
		}
		p.Setups = append(p.Setups, s)
	}
	path := filepath.Join(b.TempDir(), "large"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkJudgeLargeFile judges all of a large file, with what is printed of
// it.
func BenchmarkJudgeLargeFile(b *testing.B) {
	path := largeFile(b)
	for b.Loop() {
		if code := run([]string{"judge", path, "--json"}, io.Discard, io.Discard); code != exitUnsafe {
			b.Fatal(code)
		}
	}
}
