package timeline_test

import (
	"slices"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// told writes facts as one text.
func told(of []words.Fact) string {
	var out []string
	for _, f := range of {
		out = append(out, f.Name+": "+f.Value)
	}
	return strings.Join(out, " | ")
}

func TestAbout(t *testing.T) {
	r := DefaultRuleset()
	tests := []struct {
		got  []words.Fact
		want string
	}{
		{words.AboutMove(&Move{Name: "a", Kind: Strike, Level: Mid, Startup: 5, Active: []int{2, 5, 1}, Recovery: 12, OnHit: Some(4), OnGuard: Some(-2), Damage: 600, Knockdown: Places{Some(42), Some(44)}}, r),
			"kind: strike, mid | frames: startup 5, active 2(5)1, recovery 12; total 24 | on hit: +4 | on guard: -2 | damage: 600 points | advantage: 42 frames midscreen, 44 frames at the wall"},
		{words.AboutMove(&Move{Name: "b", Kind: Throw, Level: LevelThrow, Startup: 1, Active: []int{3}, GaugeCost: 2, GaugeGain: 1, Travel: -4, Distance: Places{Wall: Some(9)}}, r),
			"kind: throw | frames: startup 1, active 3, recovery 0; total 3 | gauge cost: 2 | gauge gain: 1 | travel: -4 units | distance: 9 units at the wall"},
		{words.AboutMove(&Move{Name: "c", Kind: Strike, Air: true, Level: Overhead, Startup: 7, Active: []int{6}, Hitstun: Some(20), Guardstun: Some(16), Deep: Some(4), Drop: Some(60), Top: Some(90), Reach: &Interval{-20, 80}, Landing: &Landing{4, 0}}, r),
			"kind: strike, overhead, done in the air | frames: startup 7, active 6, recovery 0; total 12 | hitstun: 20 frames | guardstun: 16 frames | reaches a grounded body: on the last 4 air frames | drop: 60 units | reaches up to: 90 units | reach: -20 to 80 units | landing: recovery 4, guard after 0"},
		{words.AboutMove(&Move{Name: "d", Kind: Evade, Length: 20, AirborneFrom: Some(6), MissesAir: true,
			Immune: []Immunity{{Window{1, 8}, true, true}, {Window{9, 9}, true, false}, {Window{10, 11}, false, true}},
			Armour: []Armour{{Window{1, 2}, 1}, {Window{3, 4}, 2}}, Parry: []Window{{1, 10}}}, r),
			"kind: evade | frames: total 20 | immune: 1 to 8, to strikes and throws | immune: 9, to strikes | immune: 10 to 11, to throws | armour: 1 to 2, 1 hit | armour: 3 to 4, 2 hits | parry: 1 to 10 | airborne: from frame 6 | passes: under an airborne body"},
		{words.AboutJump(&Jump{Prejump: 4, Airborne: 39, Landing: 3, GuardAfter: 1, Travel: 190, Apex: Some(200)}),
			"kind: jump | frames: prejump 4, airborne 39, landing 3; total 46 | guards: 1 frame after touchdown | travel: 190 units | apex: 200 units"},
		{words.AboutRise(&Rise{Name: "backward", Extra: 4, Shift: 40}), "kind: rise | extra: 4 frames | shift: 40 units"},
	}
	for _, tt := range tests {
		if got := told(tt.got); got != tt.want {
			t.Errorf("\n got %s\nwant %s", got, tt.want)
		}
	}
}

func TestPhasesWhereStartupLeavesTheFirstActiveOut(t *testing.T) {
	r := DefaultRuleset()
	r.StartupCountsFirstActive = false
	m := Move{Kind: Strike, Startup: 5, Active: []int{3}, Recovery: 12}
	if got, want := words.MovePhases(&m, r), "startup 5, active 3, recovery 12; total 20"; got != want {
		t.Errorf("Phases = %q, want %q", got, want)
	}
}

func TestAboutBlocks(t *testing.T) {
	_, plan := BusyPlan(t, 0)
	s := words.SceneAt(plan, 3, 1, 6) // answer 3, late 2
	want := map[Part]string{
		PartEnder:   "knockdown advantage: 54 frames",
		PartFiller:  "kind: dash | frames: total 11 | lasts: 11 frames, 0 to 10",
		PartDelay:   "lasts: 3 frames, 11 to 13",
		PartJump:    "lasts: 46 frames, 14 to 59",
		PartAttack:  "press: air frame 27, auto | lasts: 12 frames, 45 to 56",
		PartLanding: "lasts: from 57 on",
		PartRise:    "kind: rise | extra: 1 frame | shift: 40 units | wake-up: on 55 | lasts: 55 frames, 0 to 54",
		PartLate:    "lasts: 2 frames, 55 to 56",
		PartReply:   "demand: survive | lasts: 29 frames, 57 to 85",
		PartAfter:   "lasts: from 86 on",
	}
	for _, b := range slices.Concat(s.Top, s.Bottom) {
		if got := told(words.About(plan, &b)); !strings.HasSuffix(got, want[b.Part]) || want[b.Part] == "" {
			t.Errorf("part %d: %q, want it to end in %q", b.Part, got, want[b.Part])
		}
		delete(want, b.Part)
	}
	if len(want) > 0 {
		t.Errorf("parts not in the scene: %v", want)
	}
}

func TestAboutTellsTheWindow(t *testing.T) {
	p := BusyProject()
	s := p.Setups[0]
	for _, tt := range []struct {
		replies []Reply
		delay   Maybe
		want    string
	}{{nil, Maybe{}, "window: 2 to 6"}, {nil, Some(1), "window: empty"}} {
		s.Replies, s.Advantage = tt.replies, tt.delay
		plan, err := Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if got := told(words.About(plan, &Block{Part: PartDelay, Pieces: []Piece{{Waiting, Span{}}}})); !strings.HasPrefix(got, tt.want) {
			t.Errorf("About the delay = %q, want %q first", got, tt.want)
		}
	}
}
