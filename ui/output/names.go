package output

import (
	"fmt"
	"strconv"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// Pattern names files: text, with {n}, {setup}, {attacker}, {rival}, {ender}
// and {delay} in it. {n} counts from 1, with noughts before it so that all are
// as long.
type Pattern string

// DefaultPattern keeps the order of the project in a folder.
const DefaultPattern Pattern = "{n} {setup}"

// Check reports a word between braces that means nothing.
func (p Pattern) Check() error {
	_, err := p.name(&timeline.Setup{}, 1, 1)
	if err == nil && strings.TrimSpace(string(p)) == "" {
		err = fmt.Errorf("expected a pattern such as %q, got none", DefaultPattern)
	}
	return err
}

// name is the name of setup s, n of all of them, not yet safe for a file.
func (p Pattern) name(s *timeline.Setup, n, of int) (string, error) {
	var b strings.Builder
	rest := string(p)
	for {
		before, after, found := strings.Cut(rest, "{")
		b.WriteString(before)
		if !found {
			return b.String(), nil
		}
		word, behind, closed := strings.Cut(after, "}")
		rest = behind
		switch word {
		case "n":
			fmt.Fprintf(&b, "%0*d", len(strconv.Itoa(of)), n)
		case "setup":
			b.WriteString(s.Name)
		case "attacker":
			b.WriteString(s.Attacker)
		case "rival":
			b.WriteString(s.Rival)
		case "ender":
			b.WriteString(s.Ender)
		case "delay":
			b.WriteString(strconv.Itoa(s.Delay))
		default:
			closed = false
		}
		if !closed {
			return "", fmt.Errorf("expected {n}, {setup}, {attacker}, {rival}, {ender} or {delay}, got %q", "{"+after)
		}
	}
}

// fileNames makes a safe and unique name for each, and after them for pages of
// contact sheets.
func fileNames(names []string, pages int, ext string) []string {
	all := append([]string{}, names...)
	for i := range pages {
		all = append(all, fmt.Sprintf("contact sheet %d", i+1))
	}
	return table.SafeNames(all, "."+ext)
}
