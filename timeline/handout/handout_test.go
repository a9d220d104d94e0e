package handout

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// plans are the sample's setups, compiled.
func plans(t *testing.T, change func(p *timeline.Project)) (out []*timeline.Plan) {
	t.Helper()
	b, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := timeline.ReadText(b)
	if err != nil {
		t.Fatal(err)
	}
	change(p)
	for _, s := range p.Setups {
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, plan)
	}
	return out
}

func asTheyAre(*timeline.Project) {}

// parsed is Markdown as another's reader takes it: the text of each heading,
// and the cells of each table.
func parsed(md string) (headings []string, tables [][][]string, root ast.Node) {
	src := []byte(md)
	root = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough)).Parser().Parse(text.NewReader(src))
	ast.Walk(root, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if !in {
			return ast.WalkContinue, nil
		}
		switch n.(type) {
		case *ast.Heading:
			headings = append(headings, plain(n, src))
		case *east.Table:
			tables = append(tables, nil)
		case *east.TableRow, *east.TableHeader:
			var row []string
			for c := n.FirstChild(); c != nil; c = c.NextSibling() {
				row = append(row, plain(c, src))
			}
			last := &tables[len(tables)-1]
			*last = append(*last, row)
		}
		return ast.WalkContinue, nil
	})
	return headings, tables, root
}

// plain is the text of a node, escapes undone.
func plain(n ast.Node, src []byte) string {
	var b bytes.Buffer
	ast.Walk(n, func(n ast.Node, in bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && in {
			for i, v := 0, t.Segment.Value(src); i < len(v); i++ {
				if v[i] == '\\' && i+1 < len(v) {
					i++
				}
				b.WriteByte(v[i])
			}
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}

// TestMarkdown: read by goldmark, all that the verdict holds is there.
func TestMarkdown(t *testing.T) {
	for _, p := range plans(t, asTheyAre) {
		v := words.VerdictAt(p, p.Setup.Delay)
		md := Markdown(p, nil, nil, Source{"yard.wakeline", "spring", "2026-05-01", "patch notes"})
		headings, tables, _ := parsed(md)
		if headings[0] != p.Setup.Name || len(tables) != 1+len(v.Rises) {
			t.Fatalf("%s: headings %q, %d tables, want the name first and %d tables", p.Setup.Name, headings, len(tables), 1+len(v.Rises))
		}
		for i, r := range v.Rises {
			rows := tables[i+1][1:]
			if len(rows) != len(r.Replies) {
				t.Fatalf("%s: %d rows, want %d", p.Setup.Name, len(rows), len(r.Replies))
			}
			for k, c := range r.Replies {
				name := c.Reply
				if c.Late > 0 {
					name = timeline.Reply{Move: c.Reply, Late: c.Late}.Title()
				}
				if rows[k][0] != name || rows[k][2] != c.Outcome.String() || rows[k][3] != number(c.Meeting) {
					t.Errorf("%s: row %q, want %q, %v on %v", p.Setup.Name, rows[k], name, c.Outcome, c.Meeting)
				}
			}
		}
		for _, want := range []string{string(v.Because[:20]), "Source: yard.wakeline, revision spring, of 2026-05-01, patch notes", p.Setup.Note[:12], "One frame later", words.GivesUpAt(p, p.Setup.Delay)} {
			if !strings.Contains(md, want) {
				t.Errorf("%s: %q is missing:\n%s", p.Setup.Name, want, md)
			}
		}
	}
}

// TestMarkdownSaysWhatExchangesAreWorth: where that tells something, and else
// there is no column for it.
func TestMarkdownSaysWhatExchangesAreWorth(t *testing.T) {
	p := plans(t, asTheyAre)[0]
	v := words.VerdictAt(p, p.Setup.Delay)
	worth := make([][]words.Worth, len(v.Rises))
	for i := range worth {
		worth[i] = make([]words.Worth, len(v.Rises[i].Replies))
	}
	_, tables, _ := parsed(Markdown(p, worth, nil, Source{}))
	if n := len(tables[1][0]); n != 8 {
		t.Errorf("worth nothing: %d columns", n)
	}
	worth[0][1] = words.Worth{Points: timeline.Some(-70), Route: "Long|tow"}
	_, tables, _ = parsed(Markdown(p, worth, nil, Source{}))
	if head, row := tables[1][0], tables[1][2]; len(head) != 10 || head[8] != "Points" || row[8] != "-70" || row[9] != "Long|tow" {
		t.Errorf("columns %q, row %q", head, row)
	}
}

// TestMarkdownEscapes: names made of markup stay names.
func TestMarkdownEscapes(t *testing.T) {
	for _, name := range []string{
		"# not a heading", "a|b", "*star* _under_ `tick`", "[x](y)", "![x](y)", "<b>bold</b>", "<!-- x -->", "1. one", "12) x", "- item", "+ item", "> quote",
		"a\nb", "a \\ b", "&amp;", "~~gone~~", "===", "---", ":--", "||", "\\", "http:", "é | ü", "`", "**", "  spaced  out ",
	} {
		p := plans(t, func(p *timeline.Project) {
			p.Setups = p.Setups[:1]
			old := p.Setups[0].Replies[0].Move
			p.Setups[0].Name = name
			p.Setups[0].Replies[0].Move = name
			*p.Fighter(p.Setups[0].Rival).Move(old) = func() timeline.Move { m := *p.Fighter(p.Setups[0].Rival).Move(old); m.Name = name; return m }()
		})[0]
		md := Markdown(p, nil, nil, Source{Project: name})
		headings, tables, root := parsed(md)
		want := strings.Join(strings.Fields(name), " ")
		if headings[0] != want || len(headings) < 3 || tables[1][4][0] != want {
			t.Errorf("%q: headings %q, cell %q", name, headings, tables[1][4][0])
		}
		for n := root.FirstChild(); n != nil; n = n.NextSibling() {
			switch n.Kind() {
			case ast.KindBlockquote, ast.KindHTMLBlock, ast.KindCodeBlock, ast.KindFencedCodeBlock:
				t.Errorf("%q makes a %v", name, n.Kind())
			}
		}
		ast.Walk(root, func(n ast.Node, in bool) (ast.WalkStatus, error) {
			switch n.Kind() {
			case ast.KindLink, ast.KindImage, ast.KindRawHTML, ast.KindCodeSpan, east.KindStrikethrough:
				t.Errorf("%q makes a %v", name, n.Kind())
			}
			return ast.WalkContinue, nil
		})
	}
}

// TestMarkdownSaysThePlan: each step in its order.
func TestMarkdownSaysThePlan(t *testing.T) {
	for _, p := range plans(t, asTheyAre) {
		if p.Setup.Name != "Step and prod" && p.Setup.Name != "Counted crossing" && p.Setup.Name != "Standing watch" {
			continue
		}
		md := Markdown(p, nil, nil, Source{})
		want := map[string]string{
			"Step and prod":    "1. Ender: Far Bank\n2. Filler: Pole Step\n3. Filler: Thole\n4. Jump: forward, on frame 33\n5. Attack: Leeboard, pressed as early as it is still active on the last air frame\n6. Then: guard, from frame 78\n",
			"Counted crossing": "1. Ender: Tow Rope\n2. Wait 1 frame\n3. Jump: forward, on frame 1\n4. Attack: Leeboard, pressed as early as it is still active on the last air frame\n5. Then: guard, from frame 46\n",
			"Standing watch":   "1. Ender: Hoist\n2. Filler: Crank\n3. Then: Crank, from frame 30\n",
		}[p.Setup.Name]
		if !strings.Contains(md, want) {
			t.Errorf("%s: no\n%s in\n%s", p.Setup.Name, want, md)
		}
		if strings.Contains(md, "Source") {
			t.Errorf("%s: a source, though none is known", p.Setup.Name)
		}
	}
}

// TestMarkdownOfABlankSetup: where there is nothing to judge yet, no neighbour
// is called safe.
func TestMarkdownOfABlankSetup(t *testing.T) {
	for _, blank := range []bool{false, true} {
		p := plans(t, func(p *timeline.Project) {
			if p.Setups = p.Setups[:1]; blank {
				p.Setups[0].Attack, p.Setups[0].Replies, p.Setups[0].Delay = "", []timeline.Reply{}, 1
			}
		})[0]
		md := Markdown(p, nil, nil, Source{})
		if got := strings.Contains(md, "One frame later"); got == blank {
			t.Errorf("blank %v: neighbours told: %v\n%s", blank, got, md)
		}
	}
}

// TestMarkdownNamesTheRoute says what follows the deciding exchange, in its place.
func TestMarkdownNamesTheRoute(t *testing.T) {
	q := &timeline.Sequel{Outcome: timeline.ReplyBlocked, Reply: "Cut", ToPunish: timeline.Some(9), Name: "Far *ladder*", Points: 412}
	for _, p := range plans(t, asTheyAre) {
		if md := Markdown(p, nil, q, Source{}); !strings.Contains(md, "\n\nCut blocked, 9 frames to punish: Far \\*ladder\\*, 412 points.\n") {
			t.Errorf("%s: the route isn't named:\n%s", p.Setup.Name, md)
		}
	}
}
