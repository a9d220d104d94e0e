package book

import "slices"

// separators are what may stand between cells; of two that fit alike the first
// is taken.
var separators = [...]byte{',', '\t', ';', '|'}

// looked is how many lines decide on the separator.
const looked = 100

// separator is what parts the cells of data: of those that part lines into
// the same number of cells most steadily, the one that makes most cells. A
// line that has none of them, such as a title, has no say.
func separator(data []byte) byte {
	counts := count(data)
	best, steady, cells := separators[0], 0.0, 0
	for i, sep := range separators {
		usual, of, lines := usualCount(counts, i)
		if usual == 0 {
			continue
		}
		if share := float64(of) / float64(lines); share > steady || share == steady && usual > cells {
			best, steady, cells = sep, share, usual
		}
	}
	return best
}

// usualCount is the number of separators that most lines have, how many those
// lines are, and of how many that have any separator at all.
func usualCount(counts [][len(separators)]int, at int) (usual, of, lines int) {
	times := map[int]int{}
	for _, c := range counts {
		if c != [len(separators)]int{} {
			lines++
			times[c[at]]++
		}
	}
	var all []int
	for n := range times {
		all = append(all, n)
	}
	slices.Sort(all)
	for _, n := range all {
		if n > 0 && times[n] >= of {
			usual, of = n, times[n]
		}
	}
	return usual, of, lines
}

// count counts the separators outside quotes of the first lines. A quote
// begins a quoted cell only where a cell begins.
func count(data []byte) (out [][len(separators)]int) {
	var line [len(separators)]int
	quoted, begins := false, true
	for i := 0; i < len(data) && len(out) < looked; i++ {
		c := data[i]
		switch {
		case c == '"' && quoted:
			if i+1 < len(data) && data[i+1] == '"' {
				i++
			} else {
				quoted = false
			}
			continue
		case quoted:
			continue
		case c == '"' && begins:
			quoted = true
		case c == '\n':
			out = append(out, line)
			line = [len(separators)]int{}
		}
		at := slices.Index(separators[:], c)
		if at >= 0 {
			line[at]++
		}
		begins = at >= 0 || c == '\n'
	}
	return append(out, line)
}
