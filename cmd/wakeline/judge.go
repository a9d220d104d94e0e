package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"wakeline/timeline"
)

// judge prints the verdict of one setup or of all.
func judge(c *call) (int, error) {
	setup := c.flags.String("setup", "", "judge this setup alone")
	delay := c.flags.Int("delay", -1, "judge at this delay, in frames, instead of the setup's own")
	strict := c.flags.Bool("strict", false, "exit with 1 on a limited verdict too")
	asJSON := c.flags.Bool("json", false, "print JSON")
	path, err := c.parse("a project text")
	if err != nil {
		return 0, err
	}
	if given(c.flags, "delay") && *delay < 0 {
		return 0, wrongWords{fmt.Sprintf("--delay: expected 0 frames or more, got %d", *delay)}
	}
	p, err := open(path)
	if err != nil {
		return 0, err
	}
	from, to := 0, len(p.Setups)
	if given(c.flags, "setup") {
		if from, err = find(p, *setup); err != nil {
			return 0, err
		}
		to = from + 1
	}
	verdicts := []timeline.Verdict{}
	code := exitDone
	for i := from; i < to; i++ {
		made, err := plan(path, p, i, *delay)
		if err != nil {
			return 0, err
		}
		v := made.Verdict(made.Setup.Delay)
		verdicts = append(verdicts, v)
		if v.Word == timeline.Unsafe || *strict && v.Word == timeline.Limited {
			code = exitUnsafe
		}
	}
	if *asJSON {
		enc := json.NewEncoder(c.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", " ")
		return code, enc.Encode(map[string]any{"setups": verdicts})
	}
	for i := range verdicts {
		if i > 0 {
			fmt.Fprintln(c.out)
		}
		if err := say(c.out, &verdicts[i]); err != nil {
			return 0, err
		}
	}
	return code, nil
}

// say writes one verdict for people: the answer first, then why, then the
// replies.
func say(out io.Writer, v *timeline.Verdict) error {
	fmt.Fprintf(out, "%s: %s\n", v.Setup, v.Word)
	fmt.Fprintf(out, "  %s\n", v.Because)
	if v.Earlier != nil {
		fmt.Fprintf(out, "  One frame earlier, %s: %s\n", v.Earlier.Word, v.Earlier.Because)
	}
	if v.Later != nil {
		fmt.Fprintf(out, "  One frame later, %s: %s\n", v.Later.Word, v.Later.Because)
	}
	fmt.Fprintf(out, "  advantage %d, delay %d, %s\n", v.Advantage, v.Delay, windowWords(v))
	if v.JumpOn.Given {
		fmt.Fprintf(out, "  jumps on %v, touches down on %v, guards from %v, acts from %d\n", v.JumpOn, v.Touchdown, v.GuardsFrom, v.ActsFrom)
	} else {
		fmt.Fprintf(out, "  acts from %d\n", v.ActsFrom)
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, rise := range v.Rises {
		fmt.Fprintf(w, "  %s rise, up on %d\tdemand\toutcome\tmeeting\tspare\tgap\tadvantage\tbudget\n", rise.Rise, rise.Wake)
		for _, r := range rise.Replies {
			name := r.Reply
			if r.Late > 0 {
				name = fmt.Sprintf("%s late %d", name, r.Late)
			}
			fmt.Fprintf(w, "    %s\t%s\t%v\t%s\t%s\t%s\t%s\t%s\n", name, r.Demand, r.Outcome,
				number(r.Meeting), number(r.Spare), number(r.Gap), signed(r.Advantage), signed(r.Budget))
		}
	}
	return w.Flush()
}

func windowWords(v *timeline.Verdict) string {
	var parts []string
	for _, b := range v.Window {
		if b.From == b.To {
			parts = append(parts, fmt.Sprint(b.From))
		} else {
			parts = append(parts, fmt.Sprintf("%d to %d", b.From, b.To))
		}
	}
	out := "no delay is good"
	if len(parts) > 0 {
		out = "good delays " + strings.Join(parts, ", ")
	}
	if len(v.Never) > 0 {
		out += ", never covered: " + strings.Join(v.Never, ", ")
	}
	return out
}

func number(m timeline.Maybe) string {
	if !m.Given {
		return "-"
	}
	return fmt.Sprint(m.N)
}

func signed(m timeline.Maybe) string {
	if !m.Given {
		return "-"
	}
	return fmt.Sprintf("%+d", m.N)
}
