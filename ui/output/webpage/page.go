package webpage

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"image/color"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// Page is a lesson page in the making.
type Page struct {
	Title    string
	Source   string // what the numbers are from, under the page
	Past     int    // frames that each sweep goes past both ends of its window
	Exercise bool   // the reader looks for the delay first

	lessons []*lesson
	parts   parts
	texts   kept // sentences
}

// Add adds a setup. What has nothing to judge has no exercise.
func (p *Page) Add(plan *timeline.Plan) {
	p.lessons = append(p.lessons, p.layOut(plan, p.Past))
}

// Len is how many setups were added.
func (p *Page) Len() int { return len(p.lessons) }

//go:embed page.html
var layout string

//go:embed page.css
var look string

//go:embed page.js
var script string

// judgement is how the page says one: its word, its mark as the points of a
// line, and its letter among the roles.
type judgement struct {
	Word string `json:"word"`
	Mark string `json:"mark"`
	Role string `json:"role"`
}

// judgements are those of the timeline, by their numbers.
func judgements() (out []judgement) {
	for j := timeline.JudgedSafe; j <= timeline.JudgedNothing; j++ {
		var b strings.Builder
		for i, q := range sheet.MarkOf(j) {
			fmt.Fprintf(&b, "%c%g %g", "ML"[min(i, 1)], 20*q.X, 20*q.Y)
		}
		out = append(out, judgement{j.String(), b.String(), string(roleLetters[sheet.RoleOf(j)])})
	}
	return out
}

// shown is a lesson as the markup has it, for readers without a script and for
// print. The markup calls no method: packages are built without that.
type shown struct {
	*lesson
	ID, Number, Next, Of int
	Head                 string // what heads it: of an exercise a number, as a name may tell the answer
	Stamp                judgement
	Now                  *step
	Each                 *detail
	Against              string // the exchange that is shown first
	Last                 int    // the place of the last step
	Strip, Side          template.HTML
	Wide, WideSide       string // what of the strip and of the side view is shown, as SVG says it
	Outcome, Say         string
	Found                []string
	Where                string
	Rows                 []row
}

// row is one delay of the table.
type row struct {
	*step
	Stamp   judgement
	Against string
	Own     bool
}

// HTML is the page. The same setups give the same bytes.
func (p *Page) HTML() (string, error) {
	marks := judgements()
	data, err := json.Marshal(struct {
		Exercise bool        `json:"exercise"`
		Marks    []judgement `json:"marks"`
		Texts    []string    `json:"texts"`
		Parts    []string    `json:"parts"`
		Groups   []string    `json:"groups"`
		Lessons  []*lesson   `json:"lessons"`
	}{p.Exercise, marks, p.texts.all, p.parts.parts.all, p.parts.groups.all, p.lessons})
	if err != nil {
		return "", err
	}
	style := colours() + look
	page := struct {
		*Page
		Policy        string
		Style         template.CSS
		Script        template.JS
		Data          template.JS
		Paper, Night  string
		Patterns      template.HTML
		Lessons       []shown
		Marks         []judgement
		Several, Asks bool
	}{
		Page: p, Style: template.CSS(style), Script: template.JS(script), Data: template.JS(data), Marks: marks,
		Policy: "default-src 'none'; base-uri 'none'; form-action 'none'; style-src " + digest(style) + "; script-src " + digest(script),
		Paper:  code(sheet.PaperTheme.Colour(sheet.Paper)), Night: code(sheet.NightTheme.Colour(sheet.Paper)),
		Patterns: patterns(), Several: len(p.lessons) > 1, Asks: p.Exercise,
	}
	for i, l := range p.lessons {
		page.Lessons = append(page.Lessons, p.show(l, i, marks))
	}
	t, err := template.New("page").Parse(layout)
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, page); err != nil {
		return "", err
	}
	return b.String(), nil
}

// show is lesson i as the markup has it.
func (p *Page) show(l *lesson, i int, marks []judgement) shown {
	s := shown{
		lesson: l, ID: i, Number: i + 1, Next: i + 2, Of: len(p.lessons), Head: l.Name, Now: &l.Steps[l.Own],
		Last: len(l.Steps) - 1, Wide: l.Strips[1].box(), WideSide: l.Sides[1].box(),
	}
	if p.Exercise {
		if s.Head = "Exercise"; s.Of > 1 {
			s.Head = fmt.Sprintf("Exercise %d", s.Number)
		}
	}
	s.Stamp = marks[s.Now.Mark]
	s.Each, s.Against = &s.Now.Each[s.Now.Decides], l.Exchanges[s.Now.Decides].Name
	if !p.Exercise { // that needs the script, which draws
		s.Strip = template.HTML(p.parts.drawn(s.Each.Strip[1]))
		s.Side = template.HTML(p.parts.drawn(s.Each.Side[1]))
	}
	s.Outcome, s.Say = p.texts.all[s.Each.Outcome], p.texts.all[s.Each.Say]
	for _, n := range s.Each.Found {
		s.Found = append(s.Found, p.texts.all[n])
	}
	if l.Sides[1].H > 0 {
		s.Where = p.texts.all[s.Each.Where]
	}
	for k := range l.Steps {
		st := &l.Steps[k]
		s.Rows = append(s.Rows, row{st, marks[st.Mark], l.Exchanges[st.Decides].Name, k == l.Own})
	}
	return s
}

// box is what of the picture is shown, as SVG says it.
func (s size) box() string { return fmt.Sprintf("%g %g %g %g", s.X, s.Y, s.W, s.H) }

// digest names an inline style or script for the policy.
func digest(of string) string {
	sum := sha256.Sum256([]byte(of))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// code is a colour as CSS writes it.
func code(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// colours are the sheet's themes as variables of the style, and the classes of
// the parts.
func colours() string {
	var b strings.Builder
	theme := func(t sheet.Theme) {
		b.WriteString(":root{")
		for r := sheet.Paper; r <= sheet.OnMark; r++ {
			fmt.Fprintf(&b, "--%c:%s;--%c-wash:%s;", roleLetters[r], code(t.Colour(r)), roleLetters[r], code(t.Wash(r)))
		}
		b.WriteString("}")
	}
	theme(sheet.PaperTheme)
	b.WriteString("\n@media screen and (prefers-color-scheme:dark){")
	theme(sheet.NightTheme)
	b.WriteString("}\n.--,.k-{fill:none}.k-{stroke:none}")
	for r := sheet.Paper; r <= sheet.OnMark; r++ {
		fmt.Fprintf(&b, ".s%[1]c{fill:var(--%[1]c)}.t%[1]c{fill:var(--%[1]c-wash)}.h%[1]c{fill:url(#h%[1]c)}.d%[1]c{fill:url(#d%[1]c)}.k%[1]c{stroke:var(--%[1]c)}\n", roleLetters[r])
	}
	return b.String()
}

// patterns are the textures, of every role that is laid on with one.
func patterns() template.HTML {
	var b strings.Builder
	for r := sheet.Ink; r <= sheet.Even; r++ {
		l := roleLetters[r]
		fmt.Fprintf(&b, `<pattern id="h%c" width="8" height="8" patternUnits="userSpaceOnUse"><path class="-- k%c" stroke-width="%g" d="M-1 1L1 -1M-1 9L9 -1M7 9L9 7"/></pattern>`, l, l, sheet.HatchWidth)
		fmt.Fprintf(&b, `<pattern id="d%c" width="%[2]g" height="%[2]g" patternUnits="userSpaceOnUse"><path class="s%[1]c" d="M.6 .6h%[3]gv%[3]gh-%[3]gzM3.1 3.1h%[3]gv%[3]gh-%[3]gz"/></pattern>`, l, sheet.DotStep, sheet.DotSide)
	}
	return template.HTML(b.String())
}
