package ui

import (
	"runtime"
	"testing"
	"time"

	"fyne.io/fyne/v2"
)

// heapNow is how many bytes are in use.
func heapNow() int {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC() // the first empties pools into what the second takes
	runtime.ReadMemStats(&m)
	return int(m.HeapAlloc)
}

// TestPlayingKeepsNothing plays a setup again and again, for ten minutes of the
// window's clock: what is in use doesn't grow with the frames that were shown.
func TestPlayingKeepsNothing(t *testing.T) {
	w := open(t, sample(), laptop)
	now := time.Now()
	w.player.Now = func() time.Time { return now }
	play := func(ticks int) {
		for ticks > 0 {
			key(w, fyne.KeySpace, 1)
			for ; w.player.Playing(); ticks-- {
				now = now.Add(time.Second/60 + time.Millisecond)
				w.player.Tick()
			}
		}
	}
	ticks := 10 * 60 * 60
	if testing.Short() {
		ticks /= 10
	}
	play(2000)
	before := heapNow()
	play(ticks)
	const most = 256 << 10 // 8 bytes kept of each frame would take more
	if grown := heapNow() - before; grown > most {
		t.Errorf("after %d frames %d bytes more are in use, want at most %d", ticks, grown, most)
	} else {
		t.Logf("%d frames, %d bytes more", ticks, grown)
	}
}

// TestRefreshedListsKeepTheirRowsAlone: at each refresh of a list the toolkit
// makes a row to measure, which isn't shown and must not be kept.
func TestRefreshedListsKeepTheirRowsAlone(t *testing.T) {
	w := open(t, sample(), laptop)
	before := [2]int{len(w.setups.List.Rows), len(w.shelf.List.Rows)}
	for i := range 200 {
		w.model.Choose(i % 2)
		w.setups.List.Refresh()
		w.shelf.List.Refresh()
	}
	for i, now := range []int{len(w.setups.List.Rows), len(w.shelf.List.Rows)} {
		if now > before[i]+20 {
			t.Errorf("list %d kept %d rows, and keeps %d", i, before[i], now)
		}
	}
}
