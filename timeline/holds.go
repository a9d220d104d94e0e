package timeline

import (
	"slices"
	"strings"
)

// Holds reports whether s holds a text, in any case of letters: in its name,
// its note, its position, a tag, or the name of a fighter or of a move or jump
// of theirs: ender, filler, jump, attack, landing move or reply. The empty text
// is held by every setup.
func (s *Setup) Holds(text string) bool {
	text = strings.ToLower(text)
	in := func(name string) bool { return strings.Contains(strings.ToLower(name), text) }
	move := s.Landing != DoGuard && s.Landing != DoParry && in(s.Landing)
	return in(s.Name) || in(s.Attacker) || in(s.Rival) || in(s.Ender) || in(s.Jump) || in(s.Attack) || move ||
		in(string(s.Position)) || in(s.Note) || slices.ContainsFunc(s.Tags, in) || slices.ContainsFunc(s.Fillers, in) ||
		slices.ContainsFunc(s.Replies, func(r Reply) bool { return in(r.Move) })
}
