package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
)

// leaf is a page of a PDF: its drawing, how many millimetres a unit has, and
// where the drawing's top left corner stands, from the page's lower left one.
type leaf struct {
	d       *Drawing
	scale   float64
	x, topY float64
}

// object is an object of a PDF that is written anew, or is new.
type object struct {
	number int
	text   string
}

// finished takes a PDF as the canvas writes it and takes the date of making
// out of it, which would be another on each run; it adds what the canvas can't
// write: the language, bookmarks and links between pages (ISO 32000-1, 7.5.4
// cross-reference table, 12.3.3 outlines, 12.5.6.5 links). Objects that change
// are written once more, and the table points to those.
func finished(b []byte, leaves []leaf) ([]byte, error) {
	b, offsets, err := undated(b)
	if err != nil {
		return nil, err
	}
	kids := regexp.MustCompile(`(\d+) 0 R`).FindAllSubmatch(find(b, offsets, 3), -1)
	if len(kids) != len(leaves) {
		return nil, fmt.Errorf("expected %d pages, got %d", len(leaves), len(kids))
	}
	pages := make([]int, len(kids))
	for i, k := range kids {
		pages[i], _ = strconv.Atoi(string(k[1])) // digits
	}
	changed := links(b, offsets, leaves, pages)
	catalog := "/Lang(en)/ViewerPreferences<</DisplayDocTitle true>>"
	if len(leaves) > 1 {
		root := len(offsets) + 1
		catalog += fmt.Sprintf("/Outlines %d 0 R", root)
		changed = append(changed, bookmarks(leaves, pages, root)...)
	}
	changed = append(changed, object{1, with(find(b, offsets, 1), catalog)})
	for _, o := range changed {
		for len(offsets) < o.number {
			offsets = append(offsets, 0)
		}
		offsets[o.number-1] = len(b)
		b = fmt.Appendf(b, "%d 0 obj\n%s\nendobj\n", o.number, o.text)
	}
	table := len(b)
	b = fmt.Appendf(b, "xref\n0 %d\n0000000000 65535 f \n", len(offsets)+1)
	for _, at := range offsets {
		b = fmt.Appendf(b, "%010d 00000 n \n", at)
	}
	return fmt.Appendf(b, "trailer\n<</Info 2 0 R/Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n", len(offsets)+1, table), nil
}

// undated cuts the date of making, and the table, off a document, takes the
// dates out of its fonts, and returns where its objects, counted from 1, stand
// then.
func undated(b []byte) (body []byte, offsets []int, err error) {
	var table int
	tail := bytes.LastIndex(b, []byte("\nstartxref\n"))
	from := bytes.LastIndex(b, []byte("/CreationDate"))
	if tail < 0 || from < 0 {
		return nil, nil, errors.New("expected a document with a date and a table, got none")
	}
	n := bytes.IndexByte(b[from:], ')') + 1
	if _, err := fmt.Sscanf(string(b[tail:]), "\nstartxref\n%d", &table); err != nil || n == 0 || table < from+n || table > tail {
		return nil, nil, fmt.Errorf("expected a table after the date on %d, got one on %d", from, table)
	}
	for _, row := range regexp.MustCompile(`(?m)^(\d{10}) \d{5} n $`).FindAllSubmatch(b[table:tail], -1) {
		at, _ := strconv.Atoi(string(row[1])) // ten digits
		offsets = append(offsets, at)
	}
	if len(offsets) < 3 {
		return nil, nil, fmt.Errorf("expected a catalog, its facts and its pages, got %d objects", len(offsets))
	}
	swaps := []swap{{from, from + n, nil}}
	for _, f := range regexp.MustCompile(`/FontFile\d? (\d+) 0 R`).FindAllSubmatch(b[:table], -1) {
		number, _ := strconv.Atoi(string(f[1])) // digits
		s, err := undatedFont(b, offsets, number)
		if err != nil {
			return nil, nil, fmt.Errorf("font %d: %w", number, err)
		}
		swaps = append(swaps, s)
	}
	slices.SortFunc(swaps, func(a, b swap) int { return a.from - b.from })
	at := 0
	for _, s := range swaps {
		body = append(append(body, b[at:s.from]...), s.text...)
		at = s.to
	}
	body = append(body, b[at:table]...)
	for i, at := range offsets {
		for _, s := range swaps {
			if s.to <= at {
				offsets[i] += len(s.text) - (s.to - s.from)
			}
		}
	}
	return body, offsets, nil
}

// find is the text of an object.
func find(b []byte, offsets []int, number int) []byte {
	_, text, _ := bytes.Cut(b[offsets[number-1]:], []byte("obj\n"))
	text, _, _ = bytes.Cut(text, []byte("\nendobj"))
	return text
}

// with is a dictionary with more entries.
func with(dict []byte, entries string) string {
	return strings.TrimSuffix(string(dict), ">>") + entries + ">>"
}

// links writes the pages anew that have links on them.
func links(b []byte, offsets []int, leaves []leaf, pages []int) (out []object) {
	for i, l := range leaves {
		var notes strings.Builder
		at := func(p Point) string {
			return fmt.Sprintf("%.2f %.2f", (l.x+p.X*l.scale)*pointsPerUnit, (l.topY-p.Y*l.scale)*pointsPerUnit)
		}
		for _, k := range l.d.Links {
			if k.Page >= 1 && k.Page <= len(pages) {
				fmt.Fprintf(&notes, "<</Type/Annot/Subtype/Link/Border[0 0 0]/Rect[%s %s]/Dest[%d 0 R/Fit]>>",
					at(Point{k.Min.X, k.Max.Y}), at(Point{k.Max.X, k.Min.Y}), pages[k.Page-1])
			}
		}
		if notes.Len() > 0 {
			out = append(out, object{pages[i], with(find(b, offsets, pages[i]), "/Annots["+notes.String()+"]")})
		}
	}
	return out
}

// bookmarks are an outline with an item a page; its root has that number, and
// the items those after it.
func bookmarks(leaves []leaf, pages []int, root int) []object {
	n := len(leaves)
	out := []object{{root, fmt.Sprintf("<</Type/Outlines/Count %d/First %d 0 R/Last %d 0 R>>", n, root+1, root+n)}}
	for i, l := range leaves {
		var around string
		if i > 0 {
			around += fmt.Sprintf("/Prev %d 0 R", root+i)
		}
		if i < n-1 {
			around += fmt.Sprintf("/Next %d 0 R", root+i+2)
		}
		out = append(out, object{root + 1 + i, fmt.Sprintf("<</Title%s/Parent %d 0 R%s/Dest[%d 0 R/Fit]>>", textString(l.d.Title), root, around, pages[i])})
	}
	return out
}

// textString is text as PDF has it (7.9.2.2): UTF-16 in hexadecimal digits.
func textString(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	return b.String() + ">"
}
