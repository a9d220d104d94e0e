package data

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// arrange orders the rows by a column, -1: as the data have them.
func (v *view) arrange(col int, falling bool) {
	v.order = make([]int, v.table.len())
	for i := range v.order {
		v.order[i] = i
	}
	if col < 0 || col >= len(v.table.columns()) {
		return
	}
	keys := make([]string, len(v.order))
	for i := range keys {
		keys[i] = shownOr(v.table, i, col)
	}
	slices.SortStableFunc(v.order, func(a, b int) int {
		if order := compareCells(keys[a], keys[b]); !falling || keys[a] == "" || keys[b] == "" {
			return order
		} else {
			return -order
		}
	})
}

// compareCells orders cells: by the number they begin with where both do,
// else as text; empty ones last.
func compareCells(a, b string) int {
	if a == "" || b == "" {
		return cmp.Compare(len(b), len(a))
	}
	if n, ok := leadingNumber(a); ok {
		if m, ok := leadingNumber(b); ok && n != m {
			return cmp.Compare(n, m)
		}
	}
	return cmp.Or(strings.Compare(strings.ToLower(a), strings.ToLower(b)), strings.Compare(a, b))
}

func leadingNumber(s string) (int, bool) {
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || end == 0 && s[end] == '-') {
		end++
	}
	n, err := strconv.Atoi(s[:end])
	return n, err == nil
}
