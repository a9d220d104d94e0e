package timeline

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// SearchPart is the part of a setup that a search looks into.
type SearchPart string

// The parts, as they are typed before a colon.
const (
	AnyPart      SearchPart = "" // everything that Setup.Holds looks into, and the verdict where the text is one
	NamePart     SearchPart = "name"
	AttackerPart SearchPart = "attacker"
	RivalPart    SearchPart = "rival"
	EnderPart    SearchPart = "ender"
	PositionPart SearchPart = "position"
	FillerPart   SearchPart = "filler"
	JumpPart     SearchPart = "jump"
	AttackPart   SearchPart = "attack"
	LandingPart  SearchPart = "landing"
	ReplyPart    SearchPart = "reply" // its own replies, else those of its rival
	RoutePart    SearchPart = "route"
	TagPart      SearchPart = "tag"
	NotePart     SearchPart = "note"
	VerdictPart  SearchPart = "verdict"
	TestPart     SearchPart = "test" // of a project file: the newest in-game test, or none since the last revision
	ListPart     SearchPart = "list" // of a project file: what a saved list finds; no term has it
)

// SearchParts are the parts that can be typed, in order.
var SearchParts = []SearchPart{NamePart, AttackerPart, RivalPart, EnderPart, PositionPart, FillerPart, JumpPart, AttackPart,
	LandingPart, ReplyPart, RoutePart, TagPart, NotePart, VerdictPart, TestPart, ListPart}

// Tests are what may be looked for in TestPart.
var Tests = []string{"none", "worked", "failed", "unclear"}

// Term is one text that a search looks for. Small letters count as large ones.
type Term struct {
	Part  SearchPart
	Text  string
	Whole bool // the part is that text, and doesn't only have it
}

// Search is what a person looks for among setups: words, each of which a setup
// must have, with "or", "not" and parentheses. The empty search finds all.
type Search struct {
	root  *searchNode
	terms []Term
}

// searchNode is a term, or joins two others.
type searchNode struct {
	join searchJoin
	of   []*searchNode
	term Term
}

type searchJoin uint8

const (
	termNode searchJoin = iota
	allNode
	anyNode
	notNode
)

// SearchError says where a search can't be read.
type SearchError struct {
	Letter int    // from 1 on
	Want   string // what was expected
	Got    string
}

// Error says where, what was expected, and what stands there.
func (e *SearchError) Error() string {
	return fmt.Sprintf("letter %d: expected %s, got %s", e.Letter, e.Want, e.Got)
}

// ReadSearch reads a search as it is typed:
//
//	search = both {"or" both}
//	both   = one {["and"] one}
//	one    = "not" one | "(" search ")" | [part ":" ["="]] text
//
// A text is a word, or in quotes anything, also such a word as "or". A part is
// one of SearchParts; a colon behind another word belongs to it. After an equals
// sign the whole part must be the text. The operators are read in small and in
// large letters. "list:" stands for the search of one of lists. The error is a
// *SearchError.
func ReadSearch(text string, lists ...SavedList) (Search, error) {
	r := newSearchReader(text, lists)
	if len(r.tokens) == 0 {
		return Search{}, nil
	}
	root, err := r.all()
	if err != nil {
		return Search{}, err
	}
	out := Search{root: root}
	out.collect(root)
	return out, nil
}

// collect keeps each term once, in order.
func (q *Search) collect(n *searchNode) {
	if n.join == termNode && !slices.Contains(q.terms, n.term) {
		q.terms = append(q.terms, n.term)
	}
	for _, one := range n.of {
		q.collect(one)
	}
}

// Terms are the texts that are looked for, each once.
func (q Search) Terms() []Term { return q.terms }

// Empty reports whether everything is found.
func (q Search) Empty() bool { return q.root == nil }

// Match reports whether a setup is found; has says of a term whether it has it.
func (q Search) Match(has func(Term) bool) bool { return q.root == nil || q.root.match(has) }

func (n *searchNode) match(has func(Term) bool) bool {
	switch n.join {
	case allNode:
		return !slices.ContainsFunc(n.of, func(one *searchNode) bool { return !one.match(has) })
	case anyNode:
		return slices.ContainsFunc(n.of, func(one *searchNode) bool { return one.match(has) })
	case notNode:
		return !n.of[0].match(has)
	}
	return has(n.term)
}

// IsVerdict is the verdict that a term asks for; false where it asks for
// another thing.
func (t Term) IsVerdict() (Word, bool) {
	for _, w := range []Word{Safe, Limited, Unsafe} {
		if strings.EqualFold(t.Text, string(w)) && (t.Part == VerdictPart || t.Part == AnyPart) {
			return w, true
		}
	}
	return "", false
}

// Has reports whether s has a term; an empty text asks that it has the part at
// all. A verdict is that at its own delay; a setup
// that can't be judged has none. In-game tests are the project file's to know.
func (ix *Index) Has(s *Setup, t Term) bool {
	if word, ok := t.IsVerdict(); ok {
		if is := ix.word(s) == word; is || t.Part == VerdictPart {
			return is
		}
	}
	text := strings.ToLower(t.Text)
	in := func(name string) bool { return name != "" && strings.Contains(strings.ToLower(name), text) }
	if t.Whole {
		in = func(name string) bool { return name != "" && strings.ToLower(name) == text }
	}
	switch t.Part {
	case AnyPart:
		return s.Holds(t.Text)
	case NamePart:
		return in(s.Name)
	case AttackerPart:
		return in(s.Attacker)
	case RivalPart:
		return in(s.Rival)
	case EnderPart:
		return in(s.Ender)
	case PositionPart:
		return in(string(s.Position))
	case FillerPart:
		return slices.ContainsFunc(s.Fillers, in)
	case JumpPart:
		return in(s.Jump)
	case AttackPart:
		return in(s.Attack)
	case LandingPart:
		return in(s.Landing)
	case ReplyPart:
		rival := ix.roster(s.Rival)
		return rival != nil && slices.ContainsFunc(s.Asked(rival.Fighter), func(r Reply) bool { return in(r.Move) })
	case RoutePart:
		return in(s.OnHit) || slices.ContainsFunc(s.Punish, in)
	case TagPart:
		return slices.ContainsFunc(s.Tags, in)
	case NotePart:
		return in(s.Note)
	}
	return false
}

// word is the verdict of s, Blank where it can't be judged.
func (ix *Index) word(s *Setup) (w Word) {
	if ix.With(*s, func(p *Plan, _ []Cell) { w = p.Word(s.Delay) }) != nil {
		return Blank
	}
	return w
}

// searchToken is a word of a search as it stands.
type searchToken struct {
	text   string
	part   SearchPart
	whole  bool
	quoted bool // and so no operator
	letter int
	from   int // where the text begins, after its part
	to     int // where it ends
}

// is reports whether the token is that operator.
func (t *searchToken) is(word string) bool {
	return !t.quoted && t.part == AnyPart && strings.EqualFold(t.text, word)
}

// searchTokens parts a search. A quote that isn't closed runs to the end.
func searchTokens(text string) (out []searchToken) {
	letters := []rune(text)
	for i := 0; i < len(letters); {
		switch r := letters[i]; {
		case unicode.IsSpace(r):
			i++
		case r == '(' || r == ')':
			out = append(out, searchToken{text: string(r), letter: i + 1})
			i++
		default:
			t := searchToken{letter: i + 1}
			var b strings.Builder
			for i < len(letters) && !unicode.IsSpace(letters[i]) && letters[i] != '(' && letters[i] != ')' {
				switch part := SearchPart(strings.ToLower(b.String())); {
				case letters[i] == '"':
					t.quoted = true
					for i++; i < len(letters) && letters[i] != '"'; i++ {
						b.WriteRune(letters[i])
					}
					i++
				case letters[i] == ':' && t.part == AnyPart && !t.quoted && slices.Contains(SearchParts, part):
					t.part = part
					b.Reset()
					i++
					if t.whole = i < len(letters) && letters[i] == '=' && !slices.Contains(wordParts, part); t.whole {
						i++
					}
					t.from = i
				default:
					b.WriteRune(letters[i])
					i++
				}
			}
			t.text, t.to = b.String(), min(i, len(letters))
			out = append(out, t)
		}
	}
	return out
}

// wordParts are the parts whose text is one of some words, or a name, and so
// always the whole of it.
var wordParts = []SearchPart{VerdictPart, TestPart, ListPart}

// searchReader reads tokens one after the other.
type searchReader struct {
	tokens []searchToken
	end    int // the letter after the last
	lists  []SavedList
	open   []string // the lists that are being read
	terms  *int     // read so far, with those of lists
}

// maxSearchDepth bounds how deep a search is nested.
const maxSearchDepth = 100

func (r *searchReader) expected(what string) error {
	if len(r.tokens) == 0 {
		return &SearchError{r.end, what, "the end"}
	}
	t := &r.tokens[0]
	return &SearchError{t.letter, what, fmt.Sprintf("%q", t.text)}
}

// next takes the operator if it stands there.
func (r *searchReader) next(word string) bool {
	if len(r.tokens) > 0 && r.tokens[0].is(word) {
		r.tokens = r.tokens[1:]
		return true
	}
	return false
}

// joined is n alone where there is one, else all of them.
func joined(join searchJoin, of []*searchNode) *searchNode {
	if len(of) == 1 {
		return of[0]
	}
	return &searchNode{join: join, of: of}
}

func (r *searchReader) search(depth int) (*searchNode, error) {
	if depth > maxSearchDepth {
		return nil, r.expected(fmt.Sprintf("at most %d parentheses and nots in each other", maxSearchDepth))
	}
	var of []*searchNode
	for {
		one, err := r.both(depth)
		if err != nil {
			return nil, err
		}
		if of = append(of, one); !r.next("or") {
			return joined(anyNode, of), nil
		}
	}
}

func (r *searchReader) both(depth int) (*searchNode, error) {
	var of []*searchNode
	for {
		one, err := r.one(depth)
		if err != nil {
			return nil, err
		}
		of = append(of, one)
		if r.next("and") {
			continue
		}
		if len(r.tokens) == 0 || r.tokens[0].is("or") || r.tokens[0].is(")") {
			return joined(allNode, of), nil
		}
	}
}

func (r *searchReader) one(depth int) (*searchNode, error) {
	switch {
	case len(r.tokens) == 0 || r.tokens[0].is("or") || r.tokens[0].is("and") || r.tokens[0].is(")"):
		return nil, r.expected("a word")
	case r.next("not"):
		if depth > maxSearchDepth {
			return nil, r.expected(fmt.Sprintf("at most %d parentheses and nots in each other", maxSearchDepth))
		}
		of, err := r.one(depth + 1)
		return &searchNode{join: notNode, of: []*searchNode{of}}, err
	case r.next("("):
		of, err := r.search(depth + 1)
		if err == nil && !r.next(")") {
			err = r.expected("a closing parenthesis")
		}
		return of, err
	}
	t := r.tokens[0]
	if t.text == "" && t.part != AnyPart && !t.quoted {
		return nil, &SearchError{t.letter, fmt.Sprintf("a text after %q", string(t.part)+":"), "nothing"}
	}
	if t.part == VerdictPart {
		if _, ok := (Term{Part: t.part, Text: t.text}).IsVerdict(); !ok {
			return nil, &SearchError{t.letter, "safe, limited or unsafe after \"verdict:\"", fmt.Sprintf("%q", t.text)}
		}
	}
	if t.part == TestPart {
		if t.text = strings.ToLower(t.text); !slices.Contains(Tests, t.text) {
			return nil, &SearchError{t.letter, "none, worked, failed or unclear after \"test:\"", fmt.Sprintf("%q", t.text)}
		}
	}
	if t.part == ListPart {
		r.tokens = r.tokens[1:]
		return r.list(&t)
	}
	if *r.terms++; *r.terms > maxSearchTerms {
		return nil, r.expected(fmt.Sprintf("at most %d words, with those of lists", maxSearchTerms))
	}
	r.tokens = r.tokens[1:]
	return &searchNode{term: Term{t.part, t.text, t.whole}}, nil
}

// Narrows reports whether every setup that has t has other too, as for the same
// text with more letters. Of verdicts and tests, which are no texts of a setup,
// it knows nothing.
func (t Term) Narrows(other Term) bool {
	return t.Part == other.Part && t.Part != TestPart && t.Part != VerdictPart && !other.Whole &&
		strings.Contains(strings.ToLower(t.Text), strings.ToLower(other.Text))
}
