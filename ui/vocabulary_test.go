package ui

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// plainWords are everyday English, which no glossary needs to explain.
var plainWords = strings.Fields("a after and counts each first for from in includes is of on per proof second the to yes")

func wordsIn(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// TestTheGlossaryExplainsTheTables: the headings and fixed words of every table
// of the move data, of the replies and of the match-up.
func TestTheGlossaryExplainsTheTables(t *testing.T) {
	explained := map[string]bool{}
	for _, g := range words.Glossary() {
		for _, w := range wordsIn(g.Word + " " + g.Also) {
			explained[w] = true
		}
	}
	texts := map[string]string{}
	_, d := openData(t, sample())
	for _, title := range []string{"Moves", "Jumps", "Rises", "Routes", "Replies", "Fighters", "Ruleset"} {
		cells := d.grid.Shown()
		for i := range cells.Len() {
			if title == "Ruleset" {
				texts[cells.Text(i, 0)] = title
			}
		}
		for _, heading := range cells.Heads() {
			if title != "Ruleset" && heading != "name" {
				texts[heading] = title
			}
		}
		d.turn(fyne.KeyPageDown, 1)
	}
	for _, k := range []timeline.Kind{timeline.Strike, timeline.Throw, timeline.Parry, timeline.Evade, timeline.Dash} {
		texts[string(k)] = "kinds"
	}
	some := timeline.Some
	for _, v := range []timeline.ReplyVerdict{{Spare: some(-3)}, {Spare: some(2)}, {AfterWake: some(1)}, {Advantage: some(4)}, {ToPunish: some(5)}} {
		texts[words.MainNumber(&v)] = "replies"
	}
	for o := range timeline.Outcome(timeline.Outcomes) {
		texts[o.String()] = "replies"
	}
	for _, d := range []timeline.Demand{timeline.Survive, timeline.Beat, timeline.DemandNone} {
		texts["demand "+string(d)] = "replies"
	}
	texts[fmt.Sprintf("reply, %s rise, wake-up %d", "normal", 44)] = "replies"
	if len(texts) < 50 {
		t.Fatalf("%d texts were looked at", len(texts))
	}
	for text, of := range texts {
		for _, w := range wordsIn(text) {
			if !explained[w] && !explained[strings.TrimSuffix(w, "s")] && !slices.Contains(plainWords, w) {
				t.Errorf("%s, %q: the glossary doesn't explain %q", of, text, w)
			}
		}
	}
}
