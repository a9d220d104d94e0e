package table

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxBase is the longest name of a file, in bytes and without its extension;
// most file systems take 255 in all.
const maxBase = 200

// reserved are the names that some systems give to devices, whatever follows
// the first dot.
var reserved = strings.Fields("con prn aux nul conin$ conout$ " +
	"com0 com1 com2 com3 com4 com5 com6 com7 com8 com9 com¹ com² com³ " +
	"lpt0 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9 lpt¹ lpt² lpt³")

// FileNames returns a name for the file that holds each fighter's table: it
// ends in .csv, every common system takes it, and no two are alike, not even
// where a system takes capitals for small letters. The fighter column of a
// table, not its file name, keeps the name to the letter.
func FileNames(fighters []string) []string { return SafeNames(fighters, ".csv") }

// SafeNames returns a file's name for each of names, which ends in ext and
// which every common system takes, no two alike, as FileNames has it.
func SafeNames(names []string, ext string) []string {
	out := make([]string, len(names))
	taken := make(map[string]bool, len(names))
	for i, name := range names {
		base := safeBase(name)
		name := base
		for n := 2; taken[foldName(name)]; n++ {
			tail := " " + strconv.Itoa(n)
			name = shorten(base, maxBase-len(tail)) + tail
		}
		taken[foldName(name)] = true
		out[i] = name + ext
	}
	return out
}

// safeBase puts "_" in place of what a file's name may not hold.
func safeBase(name string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case r == utf8.RuneError, !unicode.IsPrint(r), strings.ContainsRune(`<>:"/\|?*`, r):
			return '_'
		case r >= 0x300 && r <= 0x36f, r == 0x3099, r == 0x309a:
			return '_' // marks that some systems join with the letter before
		}
		return r
	}, name)
	name = strings.TrimSpace(shorten(name, maxBase-1))
	if name == "" {
		return "unnamed"
	}
	device, _, _ := strings.Cut(name, ".")
	device = strings.ToLower(strings.TrimSpace(device))
	for _, r := range reserved {
		if device == r {
			return "_" + name
		}
	}
	if name[0] == '.' || name[0] == '-' { // hidden; an option
		return "_" + name[1:]
	}
	return name
}

// shorten cuts s to at most n bytes, between characters.
func shorten(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return strings.TrimSpace(s[:n])
}

// foldName gives one text for all names that differ by capitals alone.
func foldName(s string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			least = min(least, next)
		}
		return least
	}, s)
}
