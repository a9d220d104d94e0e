package ui

import (
	"testing"

	"wakeline/timeline"
)

func BenchmarkCompile(b *testing.B) {
	p := sample()
	for b.Loop() {
		if _, err := timeline.Compile(p, p.Setups[0]); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkVerdict(b *testing.B) {
	p := sample()
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		plan.Verdict(3)
	}
}

func BenchmarkScene(b *testing.B) {
	p := sample()
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		plan.Scene(3, 0, 3)
	}
}

func TestSample(t *testing.T) {
	p := sample()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Setups {
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		v := plan.Verdict(s.Delay)
		t.Logf("%s: %s %v %s\n  %v\n  %v", s.Name, v.Word, v.Window, v.Because, v.Earlier, v.Later)
		t.Log(plan.Sentence(s.Delay, 0, 3))
	}
}
