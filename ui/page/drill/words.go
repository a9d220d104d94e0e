package drill

import (
	"fmt"
	"strings"

	"wakeline/timeline/odds"
	"wakeline/ui/model"
)

// say says what to do, what the presses are, and how well they are known.
func (d *Page) say() {
	c := d.clock
	d.start.SetText(map[bool]string{true: "Stop (Esc)", false: "Start (Space)"}[c.running()])
	enable(d.count, !c.running())
	enable(d.attack, !c.running() && c.drill.Air)
	d.hand.enable()
	switch {
	case len(c.presses) > 0:
	case c.running():
		d.said.SetText("The count ends with the ender, on frame 0.")
	case !c.drill.Good:
		d.said.SetText("No delay of this setup is good: the mark stands on the one that is set. Space starts.")
	case c.both:
		d.said.SetText("Space starts a count of three. Press Space when the line meets the mark, and again at the mark of the attack.")
	default:
		d.said.SetText("Space starts a count of three. Press Space again when the line meets the mark.")
	}
	d.words.SetText(strings.Join(d.lines(), "\n"))
	d.about.SetText(d.aboutWords())
}

// lines are the presses so far, and what they say of the hand.
func (d *Page) lines() []string {
	c := d.clock
	if len(c.presses) == 0 {
		return []string{d.host.Timing().DrillWords(d.record.hand)}
	}
	first := fmt.Sprintf("%s, of which %d in time", model.CountOf(len(c.presses), "press"), c.landed())
	if c.idle > 0 {
		first += fmt.Sprintf("; %s without a press", model.CountOf(c.idle, "round"))
	}
	out := append([]string{first + "."}, d.strip.offScale()...)
	if e, err := odds.Measure(c.late()); err == nil {
		out = append(out, e.Lines()...)
	}
	return out
}

// aboutWords says how well a press is known, and where the record is.
func (d *Page) aboutWords() string {
	out := "How long the keyboard and the screen take is not known: it is part of what comes out as late. " + d.clicks.words()
	if ms := d.clock.picture(); ms > 0 {
		out = fmt.Sprintf("The picture changes every %.1f ms, as measured, and keys are read no oftener: a press is known to within that. %s", ms, out)
	}
	return strings.TrimSpace(d.record.kept + " " + out)
}

// words says what is heard.
func (c *clicks) words() string {
	switch {
	case !c.on:
		return "There is no sound."
	case len(c.player) == 0:
		return "No program that plays sounds was found here, so there are no clicks."
	}
	return "The clicks of the count keep their time, but how late they are heard is not known: aim by the line."
}
