package find

import (
	"context"
	"errors"
	"slices"
	"testing"

	"wakeline/timeline"
)

func TestDemandsOfAProject(t *testing.T) {
	p := yard(60, []int{18}, []int{0, 4}, reversal(3), reversal(5))
	cairn := timeline.Fighter{Name: "Cairn", Moves: []timeline.Move{
		reversal(4),
		{Name: "hug", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{2}, Recovery: 20},
		{Name: "duck", Kind: timeline.Evade, Length: 20},
		{Name: "swoop", Kind: timeline.Strike, Air: true, Level: timeline.Mid, Startup: 5, Active: []int{2}},
	}, Rises: []timeline.Rise{{Name: "first"}, {Name: "second", Extra: 3}}}
	p.Fighters = append(p.Fighters, cairn)
	own := p.Setups[0]
	other := own
	other.Name, other.Replies = "other", []timeline.Reply{
		{Move: "reversal 3", Demand: timeline.Beat}, {Move: "reversal 5", Demand: timeline.DemandNone}, {Move: "reversal 5", Late: 2, Demand: timeline.Survive}}
	foreign := other
	foreign.Name, foreign.Attacker, foreign.Replies = "foreign", "Cairn", []timeline.Reply{{Move: "reversal 5", Late: 7, Demand: timeline.Beat}}
	p.Setups = append(p.Setups, other, foreign)
	each := func(_ context.Context, do func(*timeline.Setup) error) error {
		for i := range p.Setups {
			if err := do(&p.Setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
	d, err := DemandsOf(t.Context(), each, own.Attacker)
	want := []timeline.Reply{{Move: "reversal 3", Demand: timeline.Beat}, {Move: "reversal 5", Demand: timeline.Survive}, {Move: "reversal 5", Late: 2, Demand: timeline.Survive}}
	if err != nil || !slices.Equal(d[own.Rival], want) {
		t.Errorf("asks %+v, %v, want %+v", d[own.Rival], err, want)
	}

	got := d.Targets(p, &own, []Target{{Rival: "Cairn"}, {Rival: own.Rival, Rises: []string{"rise 1"}}})
	if len(got) != 2 || got[0].Rival != own.Rival || !slices.Equal(got[0].Replies, own.Replies) || !slices.Equal(got[0].Rises, []string{"rise 1"}) {
		t.Errorf("the setup's own rival: %+v", got)
	}
	// No setup names Cairn as a rival: all that strikes or throws on the ground.
	want = []timeline.Reply{{Move: "reversal 4", Demand: timeline.Survive}, {Move: "hug", Demand: timeline.Survive}}
	if !slices.Equal(got[1].Replies, want) || !slices.Equal(got[1].Rises, []string{"first"}) {
		t.Errorf("a rival that no setup names: %+v, want %+v on its first rise", got[1], want)
	}
	// Of another setup's view Tarn is a further rival, asked what the project asks.
	if got := d.Targets(p, &timeline.Setup{Rival: "Cairn"}, []Target{{Rival: own.Rival}}); !slices.Equal(got[0].Replies, d[own.Rival]) || !slices.Equal(got[0].Rises, []string{"rise 0"}) {
		t.Errorf("a further rival: %+v", got)
	}
	if got := Claims(p, &own, own.Rival); !slices.Equal(got, []string{"rise 0", "rise 1"}) {
		t.Errorf("the setup claims %q, want both", got)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := DemandsOf(ctx, each, own.Attacker); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
