package storage

import (
	"bytes"
	"encoding/binary"
	"math/rand/v2"
	"os"
	"testing"
)

// TestPowerLostAtAnyInstantEveryToldEditIsThere kills a program that edits and
// then does to its files what a power cut may do to writes that were on their
// way: it plays on what SQLite promises of their order
// (sqlite.org/atomiccommit.html), which is that the pages of the file are
// written only once the journal with their old content is synced.
//
//   - A journal without its magic number was not synced: from anywhere on it
//     may be missing, zero, or anything.
//   - With it, each sector of each page that the journal holds may be as it
//     was before the edit, or be lost, and the file may not have grown yet.
//     The first sector of the file, with its header, is old or new.
//
// It does not show that the system syncs when it is asked to, that the disk
// keeps what it says it has synced, or what becomes of names in a folder: a
// journal that was removed does not come back here.
func TestPowerLostAtAnyInstantEveryToldEditIsThere(t *testing.T) {
	unsynced, half := 0, 0
	kill(t, 200, func(path string, g *rand.Rand) {
		journal, err := os.ReadFile(path + "-journal")
		if err != nil {
			return // between two edits everything is synced
		}
		if bytes.HasPrefix(journal, []byte(superMagic)) { // the same begins a synced journal
			losePages(t, path, journal, g)
			half++
			return
		}
		unsynced++
		from := g.IntN(len(journal) + 1)
		switch g.IntN(3) {
		case 0:
			journal = journal[:from]
		case 1:
			clear(journal[from:])
		default:
			for i := range journal[from:] {
				journal[from+i] = byte(g.Uint32())
			}
		}
		if err := os.WriteFile(path+"-journal", journal, 0o644); err != nil {
			t.Fatal(err)
		}
	})
	t.Logf("%d cuts in the midst of the journal, %d of the file", unsynced, half)
	if !testing.Short() && (unsynced == 0 || half == 0) {
		t.Error("want some of both")
	}
}

// losePages takes sectors of the pages in the journal's first segment back, or
// makes them zero, and cuts off some of what the file has grown.
func losePages(t *testing.T, path string, journal []byte, g *rand.Rand) {
	t.Helper()
	number := func(at int) int { return int(binary.BigEndian.Uint32(journal[at:])) }
	records, pages, sector, page := number(8), number(16), number(20), number(24)
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range records {
		at := sector + i*(4+page+4)
		if at+4+page > len(journal) {
			t.Fatalf("the journal holds %d bytes, fewer than its %d records", len(journal), records)
		}
		to, old := (number(at)-1)*page, journal[at+4:at+4+page]
		for s := 0; s < page && to+s+sector <= len(file); s += sector {
			switch here := file[to+s : to+s+sector]; {
			case g.IntN(2) == 0:
				copy(here, old[s:])
			case g.IntN(2) == 0 && to+s > 0:
				clear(here)
			}
		}
	}
	if grown := len(file) - pages*page; grown > 0 {
		file = file[:pages*page+g.IntN(grown+1)]
	}
	if err := os.WriteFile(path, file, 0o644); err != nil {
		t.Fatal(err)
	}
}
