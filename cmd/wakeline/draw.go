package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// draw writes the strip of a setup as a picture.
func draw(c *call) (int, error) {
	setup := c.flags.String("setup", "", "the setup to draw")
	out := c.flags.String("out", "", "the picture's file, .png or .svg")
	delay := c.flags.Int("delay", -1, "draw at this delay, in frames, instead of the setup's own")
	reply := c.flags.String("reply", "", "show this reply instead of the one that decides")
	late := c.flags.Int("late", 0, "how many frames late that reply is")
	rise := c.flags.String("rise", "", "show this rise, for --reply")
	theme := c.flags.String("theme", "paper", "paper or night")
	width := c.flags.Float64("width", 1280, "of the sheet, in units; one unit is one pixel at scale 1")
	height := c.flags.Float64("height", 560, "of the sheet, in units")
	scale := c.flags.Float64("scale", 1, "pixels a unit, for .png")
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	colours, err := drawWords(c, *setup, *out, *theme, *width, *height, *scale)
	if err != nil {
		return 0, err
	}
	if given(c.flags, "delay") && *delay < 0 {
		return 0, wrongWords{fmt.Sprintf("--delay: expected 0 frames or more, got %d", *delay)}
	}
	p, err := openSource(path)
	if err != nil {
		return 0, err
	}
	defer p.close()
	at, one, err := p.find(*setup)
	if err != nil {
		return 0, err
	}
	made, err := p.plan(at, one, *delay)
	if err != nil {
		return 0, err
	}
	d := made.Setup.Delay
	verdict := made.Verdict(d)
	r, line := made.Deciding(d)
	if *reply != "" || *rise != "" {
		if r, line, err = shown(&verdict, *rise, *reply, *late, r, line); err != nil {
			return 0, err
		}
	}
	scene := made.Scene(d, r, line)
	drawing := sheet.Draw(&scene, sheet.Options{W: *width, H: *height, Position: string(made.Setup.Position), Sentence: verdict.Because})
	return exitDone, storage.Replace(*out, func(w io.Writer) error {
		if strings.EqualFold(filepath.Ext(*out), ".svg") {
			return sheet.RenderSVG(w, drawing, colours)
		}
		return sheet.RenderPNG(w, drawing, colours, *scale)
	})
}

// The bounds of a picture, in units and in pixels.
const (
	maxSide   = 8192
	maxPixels = 16384
)

// drawWords checks what can be checked before the project is read.
func drawWords(c *call, setup, out, theme string, width, height, scale float64) (sheet.Theme, error) {
	fail := func(format string, args ...any) (sheet.Theme, error) {
		return sheet.Theme{}, wrongWords{fmt.Sprintf(format, args...)}
	}
	if setup == "" {
		return fail("--setup: expected the name of a setup")
	}
	if ext := strings.ToLower(filepath.Ext(out)); ext != ".png" && ext != ".svg" {
		return fail("--out: expected a file named .png or .svg, got %q", out)
	}
	if width < sheet.MinW || width > maxSide || height < sheet.MinH || height > maxSide {
		return fail("--width, --height: expected %d to %d by %d to %d units, got %g by %g", sheet.MinW, maxSide, sheet.MinH, maxSide, width, height)
	}
	if !(scale >= 0.1) || max(width, height)*scale > maxPixels {
		return fail("--scale: expected at least 0.1, and no side over %d pixels, got %g", maxPixels, scale)
	}
	switch theme {
	case "paper":
		return sheet.PaperTheme, nil
	case "night":
		return sheet.NightTheme, nil
	}
	return fail("--theme: expected paper or night, got %q", theme)
}

// shown finds the rise and reply that were asked for; what was not keeps its
// place.
func shown(v *timeline.Verdict, rise, reply string, late, r, line int) (int, int, error) {
	var names []string
	if rise != "" {
		r = -1
		for i := range v.Rises {
			names = append(names, fmt.Sprintf("%q", v.Rises[i].Rise))
			if v.Rises[i].Rise == rise {
				r = i
			}
		}
		if r < 0 {
			return 0, 0, wrongWords{fmt.Sprintf("--rise: expected a rise that the setup claims, got %q; there are: %s", rise, strings.Join(names, ", "))}
		}
	}
	if reply == "" {
		return r, line, nil
	}
	names = nil
	for i, got := range v.Rises[r].Replies {
		if got.Reply == reply && got.Late == late {
			return r, i, nil
		}
		name := fmt.Sprintf("%q", got.Reply)
		if got.Late > 0 {
			name += fmt.Sprintf(" late %d", got.Late)
		}
		names = append(names, name)
	}
	return 0, 0, wrongWords{fmt.Sprintf("--reply: expected a reply of the setup, got %q late %d; there are: %s", reply, late, strings.Join(names, ", "))}
}
