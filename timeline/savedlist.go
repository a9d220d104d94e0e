package timeline

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// SavedList is a search of setups under a name. It holds no setups: it finds those
// there are now.
type SavedList struct{ Name, Search string }

// maxSearchTerms bounds how many terms a search has, with those of its lists.
const maxSearchTerms = 10_000

// MaxLists is how many saved lists a project may have.
const MaxLists = 1000

// CheckLists asks that every list has a name of its own that can be typed in a
// search, and a search that can be read. On an error broken is the first that
// hasn't.
func CheckLists(lists []SavedList) (broken int, err error) {
	seen := map[string]bool{}
	for i, l := range lists {
		name := strings.ToLower(l.Name)
		if err := checkList(lists, l); err != nil {
			return i, err
		}
		if seen[name] {
			return i, fmt.Errorf("list %q: expected a unique name", l.Name)
		}
		if i == MaxLists {
			return i, fmt.Errorf("list %q: expected at most %d lists", l.Name, MaxLists)
		}
		seen[name] = true
	}
	return -1, nil
}

func checkList(lists []SavedList, l SavedList) error {
	if err := CheckName(LabelPath("list"), l.Name); err != nil {
		return err
	}
	if strings.Contains(l.Name, `"`) {
		return fmt.Errorf("list %s: expected a name without quotation marks", l.Name)
	}
	if !utf8.ValidString(l.Search) {
		return fmt.Errorf("list %q: expected a filter in UTF-8", l.Name)
	}
	if _, err := ReadSearch(ListSearch(l.Name), lists...); err != nil {
		return fmt.Errorf("list %q: %w", l.Name, err)
	}
	return nil
}

// ListSearch is the search that finds what the list of that name finds.
func ListSearch(name string) string { return string(ListPart) + ":" + quoteSearch(name) }

// WholeSearch is the search for a part that is that text as a whole.
func WholeSearch(part SearchPart, text string) string {
	return string(part) + ":=" + quoteSearch(text)
}

// quoteSearch is a text as it is typed in a search. A quotation mark can't be
// typed; no setup is found by a text that has one.
func quoteSearch(text string) string { return `"` + text + `"` }

// FindList is the list of that name, small letters counted as large ones.
func FindList(lists []SavedList, name string) (SavedList, bool) {
	i := slices.IndexFunc(lists, func(l SavedList) bool { return strings.EqualFold(l.Name, name) })
	if i < 0 {
		return SavedList{}, false
	}
	return lists[i], true
}

// NamesList reports whether a search names that list itself. One that can't be
// read names none.
func NamesList(text, list string) bool {
	return slices.ContainsFunc(searchTokens(text), func(t searchToken) bool {
		return t.part == ListPart && strings.EqualFold(t.text, list)
	})
}

// RenameList is a search in which the list before is called after.
func RenameList(text, before, after string) string {
	letters := []rune(text)
	for _, t := range slices.Backward(searchTokens(text)) {
		if t.part == ListPart && strings.EqualFold(t.text, before) {
			letters = slices.Concat(letters[:t.from], []rune(quoteSearch(after)), letters[t.to:])
		}
	}
	return string(letters)
}

func newSearchReader(text string, lists []SavedList) *searchReader {
	return &searchReader{tokens: searchTokens(text), end: len([]rune(text)) + 1, lists: lists, terms: new(int)}
}

// all reads a search to its end.
func (r *searchReader) all() (*searchNode, error) {
	root, err := r.search(0)
	if err == nil && len(r.tokens) > 0 {
		err = r.expected("a word")
	}
	return root, err
}

// list reads the search of the list that a token names.
func (r *searchReader) list(t *searchToken) (*searchNode, error) {
	l, ok := FindList(r.lists, t.text)
	if !ok {
		want := "the name of a saved list, and there is none,"
		if len(r.lists) > 0 {
			var names []string
			for _, l := range r.lists {
				names = append(names, fmt.Sprintf("%q", l.Name))
			}
			want = "a saved list (" + strings.Join(names, ", ") + ")"
		}
		return nil, &SearchError{t.letter, want + ` after "list:"`, fmt.Sprintf("%q", t.text)}
	}
	if slices.Contains(r.open, l.Name) {
		return nil, &SearchError{t.letter, "a list that doesn't name itself", fmt.Sprintf("%q", l.Name)}
	}
	in := newSearchReader(l.Search, r.lists)
	in.open, in.terms = append(slices.Clone(r.open), l.Name), r.terms
	if len(in.tokens) == 0 {
		return &searchNode{join: allNode}, nil // finds all
	}
	root, err := in.all()
	if err != nil {
		return nil, &SearchError{t.letter, "a list that can be read", fmt.Sprintf("%q, of which %v", l.Name, err)}
	}
	return root, nil
}
