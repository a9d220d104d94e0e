package panel

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/paint"
)

// Typed is the whole filter, picks and all, as it could be typed.
func (s *Setups) Typed() (string, error) {
	text := strings.TrimSpace(s.Field.Text)
	if strings.Count(text, `"`)%2 == 1 {
		text += `"` // it ran to the end
	}
	if s.unread != nil {
		return "", s.unread
	}
	var parts []string
	if s.By.Verdict != "" {
		switch w := timeline.Word(s.By.Verdict); w {
		case timeline.Safe, timeline.Limited, timeline.Unsafe:
			parts = append(parts, string(timeline.VerdictPart)+":"+string(w))
		default:
			return "", fmt.Errorf("a list can't ask for %q", s.By.Verdict)
		}
	}
	for _, pick := range []struct {
		part timeline.SearchPart
		text string
	}{{timeline.TagPart, s.By.Tag}, {timeline.AttackerPart, s.By.Attacker}, {timeline.RivalPart, s.By.Rival}} {
		if strings.Contains(pick.text, `"`) {
			return "", fmt.Errorf("a list can't ask for a name with quotation marks, got %s", pick.text)
		}
		if pick.text != "" {
			parts = append(parts, timeline.WholeSearch(pick.part, pick.text))
		}
	}
	switch {
	case len(parts) == 0:
		return text, nil
	case text != "":
		parts = append(parts, "("+text+")")
	}
	return strings.Join(parts, " "), nil
}

// Type asks for what a search finds, in place of all that is asked for now.
func (s *Setups) Type(text string) {
	s.Clear()
	s.Field.SetText(text)
	s.Field.CursorColumn = len([]rune(text))
	s.Field.Refresh()
}

// mostJudged is how many setups are judged at once to count those of a list.
const mostJudged = 2000

// Finds is how many setups a search finds. It is not known while verdicts are
// asked for, and those of many setups are not known.
func (s *Setups) Finds(of timeline.Search) (n int, known bool) {
	known = true
	found, err := s.model.Document().Search(of, func(i int, word timeline.Word) bool {
		j, judged := s.Verdicts.Of(i)
		switch {
		case judged:
			return j.Word == word
		case s.model.Len() <= mostJudged:
			return s.model.Row(i).Word == word
		}
		known = false
		return false
	})
	for _, is := range found {
		if is {
			n++
		}
	}
	return n, known && err == nil
}

// AskLists asks for the menu of the saved lists, under the word that names it.
func (s *Setups) AskLists() {
	d := fyne.CurrentApp().Driver()
	if s.OnLists != nil && d.CanvasForObject(s.lists) != nil {
		s.OnLists(d.AbsolutePositionForObject(s.lists).AddXY(0, paint.WordHeight))
	}
}
