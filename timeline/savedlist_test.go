package timeline

import (
	"fmt"
	"strings"
	"testing"
)

func TestAListStandsForItsSearch(t *testing.T) {
	lists := []SavedList{{"Corner work", "tag:corner or position:wall"}, {"Open", `not list:"corner work"`}, {"All", " "}}
	for text, want := range map[string]string{
		`list:"Corner work"`:             "(tag=corner | position=wall)",
		`keel LIST:"corner WORK"`:        "(keel & (tag=corner | position=wall))",
		"list:open verdict:safe":         "(!(tag=corner | position=wall) & verdict=safe)",
		"list:all or x":                  "(() | x)",
		`"list:open"`:                    "list:open",
		`not (list:open) or list:"open"`: "(!!(tag=corner | position=wall) | !(tag=corner | position=wall))",
	} {
		q, err := ReadSearch(text, lists...)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got := shape(q.root); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
		for _, term := range q.Terms() {
			if term.Part == ListPart {
				t.Errorf("%s: a list is looked for in setups", text)
			}
		}
	}
	if _, err := CheckLists(lists); err != nil {
		t.Error(err)
	}
}

func TestListsThatCanNotBeUsed(t *testing.T) {
	var deep, wide, many []SavedList
	for i := range 200 {
		deep = append(deep, SavedList{fmt.Sprint("d", i), strings.Repeat("not ", 90) + fmt.Sprint("list:d", i+1)})
	}
	deep = append(deep, SavedList{"d200", "x"})
	for i := range 30 {
		wide = append(wide, SavedList{fmt.Sprint("w", i), fmt.Sprintf("list:w%d or list:w%[1]d", i+1)})
	}
	wide = append(wide, SavedList{"w30", "x"})
	for i := range MaxLists + 1 {
		many = append(many, SavedList{fmt.Sprint(i), "x"})
	}
	for want, lists := range map[string][]SavedList{
		"expected a name":         {{" ", "x"}},
		"without quotation marks": {{`a"b`, "x"}},
		"unique name":             {{"a", "x"}, {"A", "y"}},
		"UTF-8":                   {{"a", "\xff"}},
		`expected a closing parenthesis, got the end`:     {{"a", "(x"}},
		`expected a saved list ("a") after "list:"`:       {{"a", "list:b"}},
		`expected a list that doesn't name itself, got "`: {{"a", "list:b"}, {"b", "x or list:A"}},
		"at most 10000 words, with those of lists":        wide,
		"expected at most 1000 lists":                     many,
	} {
		if i, err := CheckLists(lists); err == nil || !strings.Contains(err.Error(), want) || i < 0 {
			t.Errorf("%.40q: %v, want %s", fmt.Sprint(lists), err, want)
		}
	}
	if _, err := CheckLists(deep); err != nil { // no list names itself, so the depth has an end
		t.Error(err)
	}
}

func TestARenamedListIsStillNamed(t *testing.T) {
	for text, want := range map[string]string{
		`a list:new or LIST:"New" (list:newer) "list:new"`: `a list:"fresh one" or LIST:"fresh one" (list:newer) "list:new"`,
		`ünï list:new)`: `ünï list:"fresh one")`,
		`list:"new`:     `list:"fresh one"`,
		"x":             "x",
	} {
		if got := RenameList(text, "NEW", "fresh one"); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
		if got := NamesList(text, "new"); got != (text != want) {
			t.Errorf("%s: names the list: %v", text, got)
		}
	}
	if got := WholeSearch(TagPart, "back rise"); got != `tag:="back rise"` {
		t.Error(got)
	}
}
