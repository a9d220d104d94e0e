package timeline_test

import (
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

func TestMomentWords(t *testing.T) {
	_, plan := BusyPlan(t, 0)
	tests := []struct {
		line, frame int
		want        string
	}{
		{2, -1, "Frame -1: Hesk: ends the combo with sweep, open to nothing. Tarn: is knocked down, open to nothing."},
		{2, 3, "Frame 3: Hesk: filler step, frame 4 of 11, open to strikes and throws. Tarn: lies on the ground, wake-up in 51, open to nothing."},
		{2, 12, "Frame 12: Hesk: waits, frame 2 of 3, open to strikes and throws. Tarn: lies on the ground, wake-up in 42, open to nothing."},
		{2, 15, "Frame 15: Hesk: prejump of hop, frame 2 of 4, open to strikes. Tarn: lies on the ground, wake-up in 39, open to nothing."},
		{2, 54, "Frame 54: Hesk: in the air, frame 37 of 39, dive active 4 of 6, overhead, at 55 units, open to strikes and air throws. Tarn: stands and does nothing, open to strikes and throws. Here they meet."},
		{0, 58, "Frame 58: Hesk: lands, 2 left, guards, open to throws. Tarn: guards high, open to lows and throws. They met on 54: what follows is only the plan."},
		{1, 60, "Frame 60: Hesk: guards, open to throws. Tarn: guards low, open to overheads and throws. They met on 54: what follows is only the plan."},
		{8, 57, "Frame 57: Hesk: lands, 3 left, guards, open to throws. Tarn: answer 5 frame 4 of 30, parries strikes, open to throws. They met on 54: what follows is only the plan."},
		{9, 80, "Frame 80: Hesk: guards, open to throws. Tarn: answer 6 between hits 7 of 8, in the air, open to strikes and air throws. They met on 54: what follows is only the plan."},
		{5, 900, "Frame 900: Hesk: guards, open to throws. Tarn: guards, open to throws. They met on 54: what follows is only the plan."},
	}
	for _, tt := range tests {
		m := words.MomentAt(plan, 3, 0, tt.line, tt.frame)
		if got := m.Words(); got != tt.want {
			t.Errorf("line %d frame %d:\n got %q\nwant %q", tt.line, tt.frame, got, tt.want)
		}
	}
}

func TestMomentTellsAMirrorApart(t *testing.T) {
	p := BusyProject()
	s := Setup{Name: "mirror", Attacker: "Hesk", Rival: "Hesk", Advantage: Some(20), Landing: DoGuard}
	plan, err := Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	m := words.MomentAt(plan, 0, 0, 2, 0)
	if m.Attacker.Name != "Hesk attacking" || m.Rival.Name != "Hesk rising" {
		t.Errorf("names = %q and %q, want them apart", m.Attacker.Name, m.Rival.Name)
	}
}

func TestSnapWords(t *testing.T) {
	_, plan := BusyPlan(t, 0)
	s, ok := plan.SnapDelay(1, 0, 3, 1)
	if want := "attack's last active frame on the wake-up, 54"; !ok || s.Value != 1 || words.Snap(&s) != want {
		t.Errorf("SnapDelay(1) = %d %q %v, want 1 %q", s.Value, words.Snap(&s), ok, want)
	}
	if s, ok := plan.SnapDelay(plan.Fits()+3, 0, 3, 2); ok {
		t.Errorf("SnapDelay past the last delay = %v, want none", s)
	}
}
