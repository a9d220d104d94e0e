package webpage

import (
	"encoding/json"
	"fmt"
	"html"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// sample is the demo project.
func sample(t testing.TB) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func planOf(t testing.TB, p *timeline.Project, s timeline.Setup) *timeline.Plan {
	t.Helper()
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// pageOf is the page of some setups, and its bytes.
func pageOf(t testing.TB, page *Page, p *timeline.Project, setups ...timeline.Setup) string {
	t.Helper()
	for _, s := range setups {
		page.Add(planOf(t, p, s))
	}
	got, err := page.HTML()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// TestEachStepSaysWhatTheProgramSays: the page's script has, for every delay,
// the sentences that the program has.
func TestEachStepSaysWhatTheProgramSays(t *testing.T) {
	p := sample(t)
	for _, s := range p.Setups {
		plan := planOf(t, p, s)
		page := Page{Title: s.Name, Past: Past, Exercise: true}
		page.Add(plan)
		l := page.lessons[0]
		var delays []int
		for _, st := range l.Steps {
			delays = append(delays, st.Delay)
		}
		var taught []words.Lesson
		for k := range l.Exchanges {
			taught = append(taught, words.LessonAt(plan, s.Delay, 0, l.Exchanges[k].rise, l.Exchanges[k].line, delays...))
		}
		if l.Steps[l.Own].Delay != s.Delay {
			t.Errorf("%s: as it is, delay %d, want %d", s.Name, l.Steps[l.Own].Delay, s.Delay)
		}
		for i, st := range l.Steps {
			v := words.VerdictAt(plan, st.Delay)
			if st.Because != v.Because || st.Word != string(v.Called) {
				t.Errorf("%s, delay %d: %s %q, want %s %q", s.Name, st.Delay, st.Word, st.Because, v.Called, v.Because)
			}
			k := 0
			for r := range v.Rises {
				for _, reply := range v.Rises[r].Replies {
					e, c := &l.Exchanges[k], &st.Each[k]
					if got := page.texts.all[c.Outcome]; got != reply.Outcome.String() || !strings.HasPrefix(e.Name, reply.Title()) {
						t.Errorf("%s, delay %d, %s: %s, want %s: %s", s.Name, st.Delay, e.Name, got, reply.Title(), reply.Outcome)
					}
					if want := taught[k].Steps[i].Sentence; page.texts.all[c.Say] != want {
						t.Errorf("%s, delay %d, %s: %q, want %q", s.Name, st.Delay, e.Name, page.texts.all[c.Say], want)
					}
					k++
				}
			}
			if d := &l.Exchanges[st.Decides]; [2]int{d.rise, d.line} != deciding(plan, st.Delay) {
				t.Errorf("%s, delay %d: %s is said to decide", s.Name, st.Delay, d.Name)
			}
			if want := words.GuessAt(plan, min(st.Delay, plan.LastDelay())); st.Guess != guessOf(want) {
				t.Errorf("%s, delay %d: guess %+v, want %+v", s.Name, st.Delay, st.Guess, want)
			}
		}
	}
}

func deciding(p *timeline.Plan, d int) [2]int {
	rise, line := p.Deciding(d)
	return [2]int{rise, line}
}

// TestPicturesAreWhole: a picture's parts are those of its drawing, in their
// order, and what is hidden in an exercise tells no judgement.
func TestPicturesAreWhole(t *testing.T) {
	p := sample(t)
	for i := 0; i < len(p.Setups); i += 2 {
		s := p.Setups[i]
		page := Page{Past: 1, Exercise: true}
		page.Add(planOf(t, p, s))
		l := page.lessons[0]
		for _, st := range l.Steps {
			for i, c := range st.Each {
				for n := range c.Strip {
					if !strings.Contains(page.parts.drawn(c.Strip[n]), ">knockdown advantage") {
						t.Errorf("%s, delay %d, %s: no knockdown advantage in its picture", s.Name, st.Delay, l.Exchanges[i].Name)
					}
					hidden := page.parts.drawn(c.Covered[n])
					for _, tells := range []string{"SAFE", "EVEN", "LIMITED", "window", "to spare", "too late", " on " + s.Name, `sa "`, "ku"} {
						if strings.Contains(hidden, tells) {
							t.Errorf("%s, delay %d, %s: the covered picture has %q", s.Name, st.Delay, l.Exchanges[i].Name, tells)
						}
					}
				}
			}
		}
	}

	var parts parts
	d := &sheet.Drawing{W: 100, H: 50, Shapes: []sheet.Shape{
		sheet.Box{Max: sheet.Point{X: 100, Y: 50}, Fill: sheet.Paper, Texture: sheet.Solid},
		sheet.Box{Min: sheet.Point{X: 1, Y: 2}, Max: sheet.Point{X: 11.04, Y: 22}, Fill: sheet.Ink, Texture: sheet.Hatch, Stroke: sheet.Safe, Width: 1.26},
		sheet.Path{Points: []sheet.Point{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 4, Y: 3.5}, {X: 2, Y: 2}}, Closed: true, Fill: sheet.Unsafe},
		sheet.Line{From: sheet.Point{X: 0, Y: 1}, To: sheet.Point{X: 9, Y: 1}, Stroke: sheet.Soft, Width: 1, Dashed: true},
		sheet.Text{At: sheet.Point{X: 5, Y: 6}, Str: `<b> "two  blanks"`, Size: 10, Bold: true, Role: sheet.Ink, Anchor: sheet.AtMiddle},
	}}
	got := parts.drawn(parts.picture(d))
	want := `<rect class="hi ka" x="1" y="2" width="10" height="20" stroke-width="1.3"/>` +
		`<path class="su k-" stroke-width="0" d="M1 1h3v2.5l-2-1.5z"/>` +
		`<path class="-- ks" stroke-width="1" stroke-dasharray="5 3.5" d="M0 1h9"/>` +
		fmt.Sprintf(`<text class="si b m" font-size="10" textLength="%.1f" lengthAdjust="spacingAndGlyphs" x="5" y="6">&lt;b&gt; &#34;two  blanks&#34;</text>`, sheet.TextWidth(`<b> "two  blanks"`, 10, true))
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestPlacesAreReadBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		ids := make([]int, 1+r.IntN(20))
		for i := range ids {
			if ids[i] = r.IntN(5000); i > 0 && r.IntN(2) == 0 {
				ids[i] = ids[i-1] + 1
			}
		}
		if got := placed(places(ids)); !slices.Equal(got, ids) {
			t.Fatalf("%v is written %q and read %v", ids, places(ids), got)
		}
	}
}

var (
	inline = regexp.MustCompile(`(?s)<(style|script)>(.*?)</(?:style|script)>`)
	policy = regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`)
	values = regexp.MustCompile(`(?s)<script type="application/json" id="data">(.*?)</script>`)
)

// TestThePolicyLetsNothingIn: not even what a name may smuggle in.
func TestThePolicyLetsNothingIn(t *testing.T) {
	p := sample(t)
	evil := `</script><script>alert(1)</script><b onclick="x">&amp;` + "\u2028" + `]]>'`
	for i := range p.Fighters {
		if p.Fighters[i].Name == "Brenno" {
			p.Fighters[i].Name = "<i>Brenno"
		}
	}
	s := p.Setups[0]
	s.Name, s.Attacker, s.Note = evil, "<i>Brenno", evil
	for _, exercise := range []bool{false, true} {
		got := pageOf(t, &Page{Title: evil, Source: evil, Past: 2, Exercise: exercise}, p, s, s)
		if n := strings.Count(got, "<script"); n != 2 {
			t.Errorf("%d scripts, want the data and the page's own", n)
		}
		for _, never := range []string{"<b ", "<i>", "onclick=\"", "http:", "https:", "src=", "@import", "style=\""} {
			if i := strings.Index(strings.ReplaceAll(got, `"http://www.w3.org/2000/svg"`, ""), never); i >= 0 {
				t.Errorf("the page has %q", never)
			}
		}
		rules := html.UnescapeString(policy.FindStringSubmatch(got)[1])
		for _, m := range inline.FindAllStringSubmatch(got, -1) {
			if want := m[1] + "-src " + digest(m[2]); !strings.Contains(rules, want) {
				t.Errorf("policy %q lacks %q", rules, want)
			}
		}
		if !strings.HasPrefix(rules, "default-src 'none';") || strings.Contains(rules, "unsafe") {
			t.Errorf("policy %q", rules)
		}
		var data struct{ Lessons []struct{ Name, Note string } }
		if err := json.Unmarshal([]byte(values.FindStringSubmatch(got)[1]), &data); err != nil {
			t.Fatal(err)
		}
		if data.Lessons[1].Name != evil {
			t.Errorf("the name is read back as %q", data.Lessons[1].Name)
		}
	}
}

func TestSameSetupsGiveTheSameBytes(t *testing.T) {
	p := sample(t)
	first := pageOf(t, &Page{Title: "All", Past: 3}, p, p.Setups[:6]...)
	if again := pageOf(t, &Page{Title: "All", Past: 3}, p, p.Setups[:6]...); again != first {
		t.Error("a second page differs")
	}
}

// forty is a setup that sweeps through forty delays or more.
func forty(t testing.TB, p *timeline.Project) (timeline.Setup, int) {
	t.Helper()
	for _, s := range p.Setups {
		if s.Name == "Both banks" {
			s.Delay = 20
			return s, 20
		}
	}
	t.Fatal("no such setup")
	return timeline.Setup{}, 0
}

func TestPagesAreSmall(t *testing.T) {
	p := sample(t)
	s, past := forty(t, p)
	page := &Page{Title: s.Name, Past: past}
	got := pageOf(t, page, p, s)
	if n := len(page.lessons[0].Steps); n < 40 {
		t.Fatalf("%d steps", n)
	}
	t.Logf("%d steps of %d exchanges: %d bytes", len(page.lessons[0].Steps), len(page.lessons[0].Exchanges), len(got))
	if len(got) > 1e6 {
		t.Errorf("a page of forty steps has %d bytes", len(got))
	}
	for _, exercise := range []bool{false, true} {
		got := pageOf(t, &Page{Title: "Ten", Past: Past, Exercise: exercise}, p, p.Setups[:10]...)
		t.Logf("ten setups, as exercises %v: %d bytes", exercise, len(got))
		if len(got) > 2e6 {
			t.Errorf("a page of ten setups has %d bytes", len(got))
		}
	}
}

func BenchmarkLessonPage(b *testing.B) {
	p := sample(b)
	s, past := forty(b, p)
	for b.Loop() {
		pageOf(b, &Page{Title: s.Name, Past: past}, p, s)
	}
}

// The program as it is packed finds no methods for a template: cmd/package.sh
// says why. So what the markup is filled in with must have none.
func TestTheMarkupIsFilledInWithoutMethods(t *testing.T) {
	for _, v := range []any{shown{}, &shown{}, row{}, &step{}, &detail{}, judgement{}, size{}} {
		if what := reflect.TypeOf(v); what.NumMethod() > 0 {
			t.Fatalf("%s has the method %s, which the markup could call: make it a field, or unexported", what, what.Method(0).Name)
		}
	}
}
