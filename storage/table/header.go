package table

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"wakeline/storage/book"
)

// Looked is what a table shows before it is read.
type Looked struct {
	Headings []string // each once, bare of the spaces around them, those of an empty column left out
	Routes   bool     // it is a table of routes
	Owners   bool     // its rows or sheets name the fighters
}

// Look finds the headings of a table. mapped is that of Options.
func Look(r io.Reader, mapped map[string]string) (*Looked, error) {
	b, err := book.Read(r)
	if err != nil {
		return nil, err
	}
	return look(b, mapped)
}

func look(b *book.Book, mapped map[string]string) (*Looked, error) {
	renamed, err := foldMap(mapped)
	if err != nil {
		return nil, err
	}
	out := &Looked{}
	var blocks []*block
	for _, sh := range []*shape{ofRoutes, ofMoves} {
		blocks, out.Headings = sh.layAll(b, &common{}, renamed), nil
		for _, k := range blocks {
			for _, h := range k.headings {
				if h.text != "" && !slices.Contains(out.Headings, h.text) {
					out.Headings = append(out.Headings, h.text)
				}
			}
		}
		if out.Routes = OfRoutes(out.Headings, mapped); out.Routes {
			break
		}
	}
	if len(blocks) == 0 {
		return nil, noHeader
	}
	out.Owners = len(blocks) > 1
	for _, k := range blocks {
		for i := range k.rows {
			out.Owners = out.Owners || k.rows[i].owner != ""
		}
	}
	return out, nil
}

var noHeader = &SyntaxError{Line: 1, Character: 1, Want: "a header row", Got: "an empty file"}

// layAll brings every sheet that isn't empty into one form. Of several sheets
// those without headings are left out, with a note.
func (sh *shape) layAll(b *book.Book, o *common, renamed map[string]string) (out []*block) {
	var without []*block
	for i := range b.Sheets {
		switch k := sh.layOut(&b.Sheets[i], o, renamed); {
		case k == nil:
		case k.named < 2 && len(b.Sheets) > 1:
			without = append(without, k)
		default:
			out = append(out, k)
		}
	}
	if len(out) == 0 {
		return without
	}
	for _, k := range without {
		out[0].notes = append(out[0].notes, Note{Place{Sheet: k.at.Sheet, Line: k.at.Line}, "", "", "no row of the sheet has headings of " + sh.of})
	}
	return out
}

// nameColumns finds the columns of ours that the headings stand for.
func (b *block) nameColumns(sh *shape, renamed map[string]string) {
	b.columns = make([]string, len(b.headings))
	first := map[string]int{}
	for i := range b.headings {
		h := &b.headings[i]
		fail := func(want, got string) {
			b.bad = append(b.bad, RowError{h.Place, want, got})
		}
		name, known, sure := sh.column(h.text, renamed)
		switch before, again := first[name]; {
		case h.text == "":
			b.unnamed(i)
		case known && name == "":
		case !known:
			want := "a heading that is the name of a column, or mapped to one"
			if sh == ofRoutes {
				want = "a heading that is the name of a column of routes, or mapped to one"
			}
			fail(want, quote(h.text))
		case again:
			fail("each column once", fmt.Sprintf("%s again, as in column %d", name, b.headings[before].Column))
		default:
			b.columns[i] = name
			first[name] = i
			if !sure {
				b.notes = append(b.notes, Note{h.Place.of(name), h.text, name, "the heading seems to mean that"})
			}
		}
	}
	for _, name := range sh.names {
		b.order = append(b.order, slices.Index(b.columns, name))
	}
}

// unnamed notes that a column without a heading is left out, where anything
// stands in it.
func (b *block) unnamed(at int) {
	for i := range b.rows {
		if cells := b.rows[i].cells; at < len(cells) && strings.TrimSpace(cells[at]) != "" {
			b.notes = append(b.notes, Note{b.headings[at].Place, strings.TrimSpace(cells[at]), "", "its column has no heading"})
			return
		}
	}
}

// foldMap makes the map's headings fit for comparing, and asks that it leads
// to columns.
func foldMap(m map[string]string) (map[string]string, error) {
	out := make(map[string]string, len(m))
	for _, theirs := range slices.Sorted(maps.Keys(m)) {
		key, ours := strings.ToLower(strings.TrimSpace(theirs)), strings.ToLower(strings.TrimSpace(m[theirs]))
		if before, ok := out[key]; ok && before != ours {
			return nil, fmt.Errorf("mapping of %q: expected one column, got %q and %q", theirs, before, ours)
		}
		if ours != "" && columnNamed(ours) == nil && !slices.Contains(RouteColumns(), ours) {
			return nil, fmt.Errorf("mapping of %q: expected one of %s, got %q", theirs, strings.Join(allColumns(), ", "), ours)
		}
		out[key] = ours
	}
	return out, nil
}

// allColumns names the columns of tables of moves, and then those that only
// tables of routes have.
func allColumns() []string {
	out := Columns()
	for _, name := range RouteColumns() {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// cut shortens a heading that is too long to name a place with.
func cut(heading string) string {
	const most = 40
	if r := []rune(heading); len(r) > most {
		return string(r[:most]) + "..."
	}
	return heading
}
