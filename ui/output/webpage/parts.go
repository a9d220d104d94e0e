package webpage

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"wakeline/ui/sheet"
)

// roleLetters are the letters that stand for the roles, in parts and in the
// names of the style's classes.
var roleLetters = [...]byte{
	sheet.None: '-', sheet.Paper: 'p', sheet.Ink: 'i', sheet.Soft: 's', sheet.Rule: 'r', sheet.Safe: 'a',
	sheet.Limited: 'l', sheet.Unsafe: 'u', sheet.Even: 'e', sheet.OnMark: 'o',
}

// textureLetters are those of the textures that a box is filled with.
var textureLetters = [...]byte{sheet.Blank: '-', sheet.Solid: 's', sheet.Tint: 't', sheet.Hatch: 'h', sheet.Dots: 'd'}

// parts are what pictures are made of, each kept once: a picture is a list of
// groups, and a group a list of parts. A part is a rectangle, a path or a text
// in one line of words:
//
//	rFFS x y w h width      F the fill, S the stroke
//	pFFS width d            a path
//	qFFS width on off d     a dashed one
//	tRWA size length x y s  a text: its role, weight and anchor
//
// page.js reads them as markup does.
type parts struct {
	parts, groups kept
	b             []byte // of the part that is written
}

// picture writes a drawing as the places of its groups. The ground is left out:
// the page has one.
func (t *parts) picture(d *sheet.Drawing) string {
	var groups, group []int
	cut := func() {
		if len(group) > 0 {
			groups = append(groups, t.groups.place(places(group)))
			group = group[:0]
		}
	}
	for i, s := range d.Shapes {
		if i == 0 && d.OnGround() {
			continue
		}
		t.shape(s, func() {
			id := t.parts.place(string(t.b))
			group = append(group, id)
			if ends(id) {
				cut()
			}
		})
	}
	cut()
	return places(groups)
}

// ends reports whether a group ends with that part: so that two pictures that
// share a stretch share its groups, whatever stands before it, about one part
// in eight ends one.
func ends(id int) bool { return uint32(id)*2654435761>>29 == 0 }

// kept are texts that are there once each, by their places.
type kept struct {
	at  map[string]int
	all []string
}

// place is the place of a text, which is kept.
func (k *kept) place(s string) int {
	at, ok := k.at[s]
	if !ok {
		if k.at == nil {
			k.at = map[string]int{}
		}
		at = len(k.all)
		k.all = append(k.all, s)
		k.at[s] = at
	}
	return at
}

// places writes a list of places in runs. Each run says, in base 36, how many
// places it begins after the end of the one before, and after a comma how many
// more places it has than one: "4 2,3" is 4, 7, 8, 9 and 10.
func places(ids []int) string {
	var b []byte
	for i, end := 0, 0; i < len(ids); {
		n := 1
		for i+n < len(ids) && ids[i+n] == ids[i]+n {
			n++
		}
		if i > 0 {
			b = append(b, ' ')
		}
		if b = strconv.AppendInt(b, int64(ids[i]-end), 36); n > 1 {
			b = strconv.AppendInt(append(b, ','), int64(n-1), 36)
		}
		end = ids[i] + n
		i += n
	}
	return string(b)
}

// placed reads what places writes.
func placed(list string) (ids []int) {
	at := 0
	for run := range strings.FieldsSeq(list) {
		from, more, _ := strings.Cut(run, ",")
		skip, _ := strconv.ParseInt(from, 36, 64)
		n, _ := strconv.ParseInt(more, 36, 64)
		at += int(skip)
		for range n + 1 {
			ids = append(ids, at)
			at++
		}
	}
	return ids
}

// shape writes the parts of one shape, and calls done after each.
func (t *parts) shape(s sheet.Shape, done func()) {
	switch v := s.(type) {
	case sheet.Box:
		t.box(&v, done)
	case sheet.Line:
		t.line(&v, done)
	case sheet.Path:
		if len(v.Points) < 2 {
			return
		}
		fill, texture := v.Fill, sheet.Solid
		if !v.Closed || fill == sheet.None {
			fill, texture = sheet.None, sheet.Blank
		}
		t.begin('p', texture, fill, v.Stroke)
		t.num(v.Width)
		t.b = append(t.b, ' ')
		t.way(v.Points)
		if v.Closed {
			t.b = append(t.b, 'z')
		}
		done()
	case sheet.Text:
		t.text(&v, done)
	}
}

// begin begins a part.
func (t *parts) begin(kind byte, texture sheet.Texture, fill, stroke sheet.Role) {
	t.b = append(t.b[:0], kind, textureLetters[texture], roleLetters[fill], roleLetters[stroke], ' ')
}

// num writes a number with at most one decimal: a tenth of a unit is less than
// a screen shows.
func (t *parts) num(v float64) {
	n := tenths(v)
	if n < 0 {
		t.b, n = append(t.b, '-'), -n
	}
	t.b = strconv.AppendInt(t.b, int64(n/10), 10)
	if n%10 != 0 {
		t.b = append(t.b, '.', byte('0'+n%10))
	}
}

// tenths are the whole tenths of a number.
func tenths(v float64) int { return int(math.Round(10 * v)) }

// nums writes numbers with a blank between.
func (t *parts) nums(vs ...float64) {
	for i, v := range vs {
		if i > 0 {
			t.b = append(t.b, ' ')
		}
		t.num(v)
	}
}

// way writes the points of a path, each by its steps from the one before.
func (t *parts) way(points []sheet.Point) {
	x, y := 0, 0
	for i, p := range points {
		dx, dy := tenths(p.X)-x, tenths(p.Y)-y
		x, y = x+dx, y+dy
		switch {
		case i == 0:
			t.b = append(t.b, 'M')
		case dx == 0:
			t.b = append(t.b, 'v')
			t.num(float64(dy) / 10)
			continue
		case dy == 0:
			t.b = append(t.b, 'h')
			t.num(float64(dx) / 10)
			continue
		default:
			t.b = append(t.b, 'l')
		}
		t.num(float64(dx) / 10)
		if dy >= 0 {
			t.b = append(t.b, ' ')
		}
		t.num(float64(dy) / 10)
	}
}

func (t *parts) box(b *sheet.Box, done func()) {
	fill, texture, stroke := b.Fill, b.Texture, b.Stroke
	if fill == sheet.None || texture == sheet.Blank {
		fill, texture = sheet.None, sheet.Blank
	}
	if b.Dashed {
		stroke = sheet.None
	}
	if fill != sheet.None || stroke != sheet.None {
		t.begin('r', texture, fill, stroke)
		t.nums(b.Min.X, b.Min.Y, b.Max.X-b.Min.X, b.Max.Y-b.Min.Y, b.Width)
		done()
	}
	if b.Dashed {
		for _, l := range b.Edges() {
			t.line(&l, done)
		}
	}
}

func (t *parts) line(l *sheet.Line, done func()) {
	if l.Stroke == sheet.None {
		return
	}
	kind := byte('p')
	if l.Dashed {
		kind = 'q'
	}
	t.begin(kind, sheet.Blank, sheet.None, l.Stroke)
	t.num(l.Width)
	t.b = append(t.b, ' ')
	if l.Dashed {
		on, off := sheet.Dashes(l.Width)
		t.nums(on, off)
		t.b = append(t.b, ' ')
	}
	t.way([]sheet.Point{l.From, l.To})
	done()
}

func (t *parts) text(x *sheet.Text, done func()) {
	if x.Str == "" || x.Role == sheet.None {
		return
	}
	weight := byte('n')
	if x.Bold {
		weight = 'b'
	}
	t.b = append(t.b[:0], 't', roleLetters[x.Role], weight, "sme"[x.Anchor], ' ')
	t.nums(x.Size, sheet.TextWidth(x.Str, x.Size, x.Bold), x.At.X, x.At.Y)
	t.b = append(append(t.b, ' '), x.Str...)
	done()
}

// markup is a part as SVG.
func markup(part string) string {
	f := strings.Split(part, " ")
	c := f[0]
	rest := func(n int) string { return html.EscapeString(strings.Join(f[n:], " ")) }
	class := fmt.Sprintf(`class="%s k%c"`, c[1:3], c[3])
	switch c[0] {
	case 'r':
		return fmt.Sprintf(`<rect %s x="%s" y="%s" width="%s" height="%s" stroke-width="%s"/>`, class, f[1], f[2], f[3], f[4], f[5])
	case 'p':
		return fmt.Sprintf(`<path %s stroke-width="%s" d="%s"/>`, class, f[1], rest(2))
	case 'q':
		return fmt.Sprintf(`<path %s stroke-width="%s" stroke-dasharray="%s %s" d="%s"/>`, class, f[1], f[2], f[3], rest(4))
	}
	return fmt.Sprintf(`<text class="s%c %c %c" font-size="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" x="%s" y="%s">%s</text>`,
		c[1], c[2], c[3], f[1], f[2], f[3], f[4], rest(5))
}

// drawn is a picture as SVG.
func (t *parts) drawn(picture string) string {
	var b strings.Builder
	for _, g := range placed(picture) {
		for _, i := range placed(t.groups.all[g]) {
			b.WriteString(markup(t.parts.all[i]))
		}
	}
	return b.String()
}
