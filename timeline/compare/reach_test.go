package compare

import (
	"strings"
	"testing"

	"wakeline/timeline"
)

// A cell of the cast says at once that no delay is safe: it has no room for why.
func TestACellOfTheCastIsShort(t *testing.T) {
	for _, c := range []struct {
		cell CastCell
		want string
	}{
		{CastCell{Word: timeline.Unsafe, Asked: true, Window: []timeline.Bounds{}}, "no safe delay"},
		{CastCell{Word: timeline.Unsafe, Asked: true, Window: []timeline.Bounds{{From: 1, To: 2}}}, "1 to 2"},
		{CastCell{Word: timeline.Safe, Asked: true, Window: []timeline.Bounds{{From: 5, To: 5}}, HoldsStartup: timeline.Some(1)}, "5; 1 frame or slower"},
		{CastCell{Word: timeline.Safe}, "no replies"},
		{CastCell{}, "not judged"},
	} {
		if got := c.cell.Short(); got != c.want {
			t.Errorf("%+v is %q, want %q", c.cell, got, c.want)
		}
	}
}

// A setup that a patch's reach, travel or shift breaks is told by that field.
func TestWhatDistanceBreaksIsTold(t *testing.T) {
	const text = `{"wakeline": 1, "fighters": [
 {"name": "Hesk", "moves": [{"name": "dive", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [6], "hitstun": 20, "guardstun": 16, "reach": [-25, 45]}],
  "jumps": [{"name": "hop", "prejump": 4, "airborne": 39, "landing": 3, "travel": 160}]},
 {"name": "Tarn", "rises": [{"name": "normal", "extra": 0, "shift": 10}]}],
 "setups": [{"name": "s", "attacker": "Hesk", "rival": "Tarn", "advantage": 42, "distance": 180, "jump": "hop", "attack": "dive"}]}`
	for _, c := range []struct{ was, is, say string }{
		{`"reach": [-25, 45]`, `"reach": [-25, 30]`, "reach"},
		{`"travel": 160`, `"travel": 120`, "travel"},
		{`"shift": 10`, `"shift": 60`, "shift"},
	} {
		before, err := timeline.ReadText([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		after, err := timeline.ReadText([]byte(strings.Replace(text, c.was, c.is, 1)))
		if err != nil {
			t.Fatal(err)
		}
		ch := New(before, after).Of(&before.Setups[0])
		if ch.Before.Word != timeline.Safe || ch.After.Word != timeline.Unsafe || len(ch.By) != 1 || len(ch.By[0].Fields) != 1 ||
			ch.By[0].Fields[0].Field != c.say || !strings.Contains(ch.Because, c.say) {
			t.Errorf("%s to %s: %s to %s by %+v: %q", c.was, c.is, ch.Before.Word, ch.After.Word, ch.By, ch.Because)
		}
	}
}
