package timeline

import "testing"

func TestPlayed(t *testing.T) {
	const second = int64(1e9)
	for _, tt := range []struct {
		rate Rate
		from int
		ns   int64
		slow int
		want int
	}{
		{Rate{60, 1}, -8, 0, 1, -8},
		{Rate{60, 1}, -8, second, 1, 52},
		{Rate{60, 1}, 0, second/60 - 1, 1, 0},
		{Rate{60, 1}, 0, second/60 + 1, 1, 1},
		{Rate{60, 1}, 0, second, 10, 6},
		{Rate{60000, 1001}, 0, 5 * second, 1, 299},
		{Rate{30, 1}, 5, second, 2, 20},
		{Rate{60, 1}, 0, -second, 1, 0},
		{Rate{60, 1}, 0, 3600 * second, 1, Width},
		{Rate{1000000, 1}, 3, 1<<63 - 1, 1, Width},
	} {
		if got := tt.rate.Played(tt.from, tt.ns, tt.slow); got != tt.want {
			t.Errorf("%v from %d after %d ns, %d times slower: frame %d, want %d", tt.rate, tt.from, tt.ns, tt.slow, got, tt.want)
		}
	}
}
