package timeline

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The thirteen relations of two intervals and their table of composition:
// J. F. Allen, "Maintaining knowledge about temporal intervals",
// Communications of the ACM 26(11), pages 832-843, November 1983. The letters
// here: B before, M meets, O overlaps, S starts, D during, F finishes, E
// equal; an I makes the converse. Row: the relation of a to b; column: of b
// to c; cell: what a may be to c; * stands for all thirteen.
const allenTable = `
B BI D DI E F FI M MI O OI S SI
B B * B|D|M|O|S B B B|D|M|O|S B B B|D|M|O|S B B|D|M|O|S B B
BI * BI BI|D|F|MI|OI BI BI BI BI BI|D|F|MI|OI BI BI|D|F|MI|OI BI BI|D|F|MI|OI BI
D B BI D * D D B|D|M|O|S B BI B|D|M|O|S BI|D|F|MI|OI D BI|D|F|MI|OI
DI B|DI|FI|M|O BI|DI|MI|OI|SI D|DI|E|F|FI|O|OI|S|SI DI DI DI|OI|SI DI DI|FI|O DI|OI|SI DI|FI|O DI|OI|SI DI|FI|O DI
E B BI D DI E F FI M MI O OI S SI
F B BI D BI|DI|MI|OI|SI F F E|F|FI M BI D|O|S BI|MI|OI D BI|MI|OI
FI B BI|DI|MI|OI|SI D|O|S DI FI E|F|FI FI M DI|OI|SI O DI|OI|SI O DI
M B BI|DI|MI|OI|SI D|O|S B M D|O|S B B E|F|FI B D|O|S M M
MI B|DI|FI|M|O BI D|F|OI BI MI MI MI E|S|SI BI D|F|OI BI D|F|OI BI
O B BI|DI|MI|OI|SI D|O|S B|DI|FI|M|O O D|O|S B|M|O B DI|OI|SI B|M|O D|DI|E|F|FI|O|OI|S|SI O DI|FI|O
OI B|DI|FI|M|O BI D|F|OI BI|DI|MI|OI|SI OI OI DI|OI|SI DI|FI|O BI D|DI|E|F|FI|O|OI|S|SI BI|MI|OI D|F|OI BI|MI|OI
S B BI D B|DI|FI|M|O S D B|M|O B MI B|M|O D|F|OI S E|S|SI
SI B|DI|FI|M|O BI D|F|OI DI SI OI DI DI|FI|O MI DI|FI|O OI E|S|SI SI
`

// allenOfSets classifies two unbroken sets by set algebra.
func allenOfSets(t *testing.T, a, b Set) string {
	t.Helper()
	next := func(s Set) Set {
		moved, err := s.Shift(1)
		if err != nil {
			t.Fatal(err)
		}
		return moved
	}
	onlyA, onlyB := a.Minus(b).Count(), b.Minus(a).Count()
	switch {
	case a.And(b).Count() == 0 && a.Last() < b.First():
		if next(a).And(b).Count() > 0 {
			return "M"
		}
		return "B"
	case a.And(b).Count() == 0:
		if next(b).And(a).Count() > 0 {
			return "MI"
		}
		return "BI"
	case onlyA == 0 && onlyB == 0:
		return "E"
	case onlyA == 0 && a.First() == b.First():
		return "S"
	case onlyA == 0 && a.Last() == b.Last():
		return "F"
	case onlyA == 0:
		return "D"
	case onlyB == 0 && a.First() == b.First():
		return "SI"
	case onlyB == 0 && a.Last() == b.Last():
		return "FI"
	case onlyB == 0:
		return "DI"
	case a.First() < b.First():
		return "O"
	}
	return "OI"
}

// allenOfEnds classifies two spans by the definitions on their ends.
func allenOfEnds(a, b Span) string {
	holds := map[string]bool{"E": a == b}
	for name, ends := range map[string]func(a, b Span) bool{
		"B": func(a, b Span) bool { return a.To < b.From },
		"M": func(a, b Span) bool { return a.To == b.From },
		"O": func(a, b Span) bool { return a.From < b.From && b.From < a.To && a.To < b.To },
		"S": func(a, b Span) bool { return a.From == b.From && a.To < b.To },
		"D": func(a, b Span) bool { return b.From < a.From && a.To < b.To },
		"F": func(a, b Span) bool { return a.To == b.To && b.From < a.From },
	} {
		holds[name], holds[name+"I"] = ends(a, b), ends(b, a)
	}
	var out []string
	for name, ok := range holds {
		if ok {
			out = append(out, name)
		}
	}
	return strings.Join(out, "|") // one of them, if the definitions are right
}

// smallSpans are all spans with ends from 0 to 5.
func smallSpans() (out []Span) {
	for from := range 5 {
		for to := from + 1; to <= 5; to++ {
			out = append(out, Span{from, to})
		}
	}
	return out
}

func rangeOf(t *testing.T, s Span) Set {
	t.Helper()
	set, err := Range(s.From, s.To)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func TestRelationsOfSpans(t *testing.T) {
	seen := map[string]int{}
	for _, by := range []int{0, 61, 62, 63, 126, 253, 447, Width - 6} {
		for _, a := range smallSpans() {
			for _, b := range smallSpans() {
				got := allenOfSets(t, rangeOf(t, a.Later(by)), rangeOf(t, b.Later(by)))
				if want := allenOfEnds(a, b); got != want {
					t.Errorf("relation of %v to %v at %d = %s, want %s", a, b, by, got, want)
				}
				seen[got]++
			}
		}
	}
	if len(seen) != 13 {
		t.Errorf("relations seen = %d, want 13", len(seen))
	}
}

func TestCompositionOfRelations(t *testing.T) {
	spans := smallSpans()
	relation := map[[2]Span]string{}
	for _, a := range spans {
		for _, b := range spans {
			relation[[2]Span{a, b}] = allenOfSets(t, rangeOf(t, a), rangeOf(t, b))
		}
	}
	found := map[[2]string][]string{}
	for _, a := range spans {
		for _, b := range spans {
			for _, c := range spans {
				key := [2]string{relation[[2]Span{a, b}], relation[[2]Span{b, c}]}
				if r := relation[[2]Span{a, c}]; !slices.Contains(found[key], r) {
					found[key] = append(found[key], r)
				}
			}
		}
	}
	lines := strings.Split(strings.TrimSpace(allenTable), "\n")
	columns := strings.Fields(lines[0])
	cells, entries, sizes := 0, 0, map[int]int{}
	for _, line := range lines[1:] {
		row := strings.Fields(line)
		for i, want := range row[1:] {
			if want == "*" {
				want = strings.Join(columns, "|")
			}
			names := found[[2]string{row[0], columns[i]}]
			slices.Sort(names)
			if got := strings.Join(names, "|"); got != want {
				t.Errorf("%s then %s = %s, want %s", row[0], columns[i], got, want)
			}
			cells, entries = cells+1, entries+len(names)
			sizes[len(names)]++
		}
	}
	if cells != 169 || entries != 409 {
		t.Errorf("cells, entries = %d, %d, want 169, 409", cells, entries)
	}
	if got, want := fmt.Sprint(sizes), "map[1:97 3:42 5:24 9:3 13:3]"; got != want {
		t.Errorf("cells by size = %s, want %s", got, want)
	}
}
