package data

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// openStanding shows the standing replies of Dovra of the demo.
func openStanding(t testing.TB) (*pagetest.Host, *Page) {
	t.Helper()
	w, d := openData(t, demo(t))
	d.choose("Dovra")
	d.tabs.Show(int(model.ReplyRow))
	return w, d
}

func standingOf(w *pagetest.Host) []timeline.Reply { return w.Model().Data().Fighter("Dovra").Replies }

func TestStandingRepliesAreTyped(t *testing.T) {
	w, d := openStanding(t)
	was := standingOf(w)
	d.enter(t, "Sill", "demand", "beat")
	d.enter(t, "Sill", "late", "2")
	d.enter(t, "", "reply", "sill")
	got := standingOf(w)
	want := []timeline.Reply{was[0], {Move: "Sill", Demand: timeline.Beat, Late: 2}, was[2], was[3], {Move: "Sill", Demand: timeline.Survive}}
	if !reflect.DeepEqual(got, want) || edits(w) != 3 {
		t.Fatalf("after %d edits %v, want %v (%s)", edits(w), got, want, d.reason.text)
	}
	if cell := d.Text(0, replyCosts); cell != "2400" {
		t.Errorf("a given cost shows %q", cell)
	}
	if cell := d.Text(4, replyCosts); cell == "" || d.plain(4, replyCosts) != "" {
		t.Errorf("a cost that is counted shows %q, typed %q", cell, d.plain(4, replyCosts))
	}
	for range 3 {
		w.Model().Undo()
	}
	if !reflect.DeepEqual(standingOf(w), was) {
		t.Errorf("undone they are %v", standingOf(w))
	}
}

func TestWrongStandingRepliesAreRefused(t *testing.T) {
	for _, c := range []struct{ col, text, why string }{
		{"reply", "Hook", `Expected a move or a jump of Dovra, got "Hook".`},
		{"reply", "guard high", `Expected a move or a jump: guard high is always judged, got "guard high".`},
		{"reply", "Hoist", `Expected each reply once at each lateness, got "Hoist" again.`},
		{"demand", "win", `Expected survive, beat or none, got "win".`},
		{"late", "-1", `Expected a whole number from 0 to 512, got "-1".`},
		{"costs", "some", `Expected a whole number from 0 to 1000000000, got "some".`},
	} {
		w, d := openStanding(t)
		d.enter(t, "Sill", c.col, c.text)
		if d.reason.text != c.why || edits(w) != 0 {
			t.Errorf("%s %q: %q, want %q; %d edits", c.col, c.text, d.reason.text, c.why, edits(w))
		}
	}
}

// TestStandingRepliesArePastedAsOneStep adds several rows and changes one: each
// is a reply of its own.
func TestStandingRepliesArePastedAsOneStep(t *testing.T) {
	w, d := openStanding(t)
	was := standingOf(w)
	d.goTo(t, "Step Ashore", "reply")
	pasteIn(d, "Step Ashore\tnone\t1\nHoist\tbeat\t3\nHoist\tbeat\t4")
	want := []timeline.Reply{was[0], was[1], was[2], {Move: "Step Ashore", Demand: timeline.DemandNone, Late: 1},
		{Move: "Hoist", Demand: timeline.Beat, Late: 3}, {Move: "Hoist", Demand: timeline.Beat, Late: 4}}
	if got := standingOf(w); !reflect.DeepEqual(got, want) || edits(w) != 1 {
		t.Fatalf("after %d edits %v, want %v (%s)", edits(w), got, want, d.reason.text)
	}
	d.goTo(t, "Hoist", "reply")
	d.Drop()
	if got := standingOf(w); len(got) != 5 || edits(w) != 2 {
		t.Errorf("%d replies after %d edits", len(got), edits(w))
	}
}

// TestAStandingReplyJudgesEverySetupAnew says which setups turn with a reply
// that is added.
func TestAStandingReplyJudgesEverySetupAnew(t *testing.T) {
	p := demo(t)
	n := 0
	for i := range p.Setups {
		if s := &p.Setups[i]; s.Rival == "Dovra" {
			s.Replies = nil
			n++
		}
	}
	p.Fighter("Dovra").Replies = nil
	if n == 0 {
		t.Fatal("the demo has no setup against Dovra")
	}
	w, d := openData(t, p)
	d.choose("Dovra")
	d.tabs.Show(int(model.ReplyRow))
	d.enter(t, "", "reply", "Overflow")
	if got := d.foot.effect; !got.done || len(got.changes) == 0 {
		t.Errorf("%d changes are told of %d setups; %d edits", len(got.changes), n, edits(w))
	}
}

// TestRepliesAreOfferedFromTheMoves adds all throws, and what is there already
// is not offered again.
func TestRepliesAreOfferedFromTheMoves(t *testing.T) {
	p := demo(t)
	f := p.Fighter("Dovra")
	f.Replies = nil
	want := map[string]int{}
	for i := range f.Moves {
		switch m := &f.Moves[i]; {
		case m.Air:
		case m.Kind == timeline.Strike && len(m.Immune) > 0:
			want["strikes with immunity"]++
		case m.Kind == timeline.Throw:
			want["throws"]++
		}
	}
	w, d := openData(t, p)
	d.choose("Dovra")
	d.tabs.Show(int(model.ReplyRow))
	at := func(what string) int {
		return slices.IndexFunc(d.foot.more.setups, func(s string) bool { return strings.HasPrefix(s, what+" (") })
	}
	for _, what := range []string{"strikes with immunity", "throws"} {
		before := len(standingOf(w))
		i := at(what)
		if i < 0 || d.foot.more.setups[i] != fmt.Sprintf("%s (%d)", what, want[what]) {
			t.Fatalf("offered are %q, want %d %s", d.foot.more.setups, want[what], what)
		}
		d.foot.more.open(i)
		if got := len(standingOf(w)) - before; got != want[what] {
			t.Errorf("%d %s were added, want %d", got, what, want[what])
		}
		if at(what) >= 0 {
			t.Errorf("%s are offered again", what)
		}
	}
	if edits(w) != 2 {
		t.Errorf("%d edits, want 2", edits(w))
	}
	jumps := at("jumps")
	d.foot.more.open(jumps)
	if got := standingOf(w)[len(standingOf(w))-1].Move; f.Jump(got) == nil || d.plain(d.grid.At().Row, 0) != got {
		t.Errorf("the last is %q, the cursor on %q", got, d.plain(d.grid.At().Row, 0))
	}
}
