package data

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// openRoutes shows the routes of Brenno of the demo.
func openRoutes(t testing.TB) (*pagetest.Host, *Page) {
	t.Helper()
	w, d := openData(t, demo(t))
	d.choose("Brenno")
	d.tabs.Show(int(model.RouteRow))
	return w, d
}

func demo(t testing.TB) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// texts are the cells of a row as they are read.
func (p *Page) texts(t testing.TB, name string) map[string]string {
	t.Helper()
	row := p.placeNamed(name)
	if row < 0 {
		t.Fatalf("no row %q", name)
	}
	out := map[string]string{}
	for col, head := range p.Heads() {
		out[head] = p.Text(row, col)
	}
	return out
}

func TestRoutesTellWhatTheyComeTo(t *testing.T) {
	_, d := openRoutes(t)
	for name, want := range map[string]map[string]string{
		"Long tow":         {"steps": "Quant, Thole > Oarlock > Keel Scrape", "links": "1 to spare; cancel; cancel", "ends in": "Keel Scrape", "confirmed": ""},
		"Over the gunwale": {"steps": "Gunwale, Thole > Keel Scrape", "damage": "1450", "confirmed": "yes"},
	} {
		got := d.texts(t, name)
		for col, text := range want {
			if got[col] != text {
				t.Errorf("%s, %s: %q, want %q", name, col, got[col], text)
			}
		}
	}
	for _, name := range []string{"Sounding line"} {
		if got := d.texts(t, name)["links"]; !strings.Contains(got, "too slow") {
			t.Errorf("%s links %q", name, got)
		}
		if !d.table.(counting).doubts(d.placeNamed(name), routeLinks) {
			t.Errorf("%s is not marked as one that isn't used", name)
		}
	}
}

// TestTheColumnsOfARouteAreItsFields holds each column to the field of its name.
func TestTheColumnsOfARouteAreItsFields(t *testing.T) {
	_, d := openRoutes(t)
	want := []string{"name", "steps", "links", "damage", "gauge cost", "gauge gain", "needs", "ends in", "confirmed"}
	if got := d.Heads(); !reflect.DeepEqual(got, want) || len(routeFields) != len(timeline.RouteFields) {
		t.Errorf("columns %q, want %q", got, want)
	}
}

func TestARouteIsTypedAndItsLinksAreToldAtOnce(t *testing.T) {
	w, d := openRoutes(t)
	d.enter(t, "", "name", "Jabs")
	d.goTo(t, "", "steps")
	d.typeIn("thole, thole > keel scrape")
	if got, want := d.foot.more.words, "Thole links with nothing to spare; 1210 points; gains 1 segment."; got != want {
		t.Errorf("while it is typed the foot says %q, want %q", got, want)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	route := w.Model().Data().Fighter("Brenno").Route("Jabs")
	if route == nil || edits(w) != 1 {
		t.Fatalf("%d edits, route %v: %s", edits(w), route, d.reason.text)
	}
	want := []timeline.RouteStep{{Move: "Thole", By: timeline.Link}, {Move: "Thole", By: timeline.Link}, {Move: "Keel Scrape", By: timeline.Cancel}}
	if !reflect.DeepEqual(route.Steps, want) {
		t.Errorf("steps %v, want %v", route.Steps, want)
	}
	counted := d.texts(t, "Jabs")["damage"]
	d.enter(t, "Jabs", "damage", "999")
	if got := w.Model().Data().Fighter("Brenno").Route("Jabs").Damage; got != timeline.Some(999) || d.texts(t, "Jabs")["damage"] != "999" {
		t.Errorf("measured damage %v, shown %q", got, d.texts(t, "Jabs")["damage"])
	}
	d.goTo(t, "Jabs", "damage")
	gridKey(d, fyne.KeyDelete)
	if got := d.texts(t, "Jabs")["damage"]; got != counted {
		t.Errorf("cleared it shows %q, want %q", got, counted)
	}
	for range 3 {
		w.Model().Undo()
	}
	if w.Model().Data().Fighter("Brenno").Route("Jabs") != nil {
		t.Error("undone it is still there")
	}
}

func TestWrongRoutesAreRefusedInPlainWords(t *testing.T) {
	for _, c := range []struct{ col, text, why string }{
		{"steps", "Thole, Hook", `Expected a move of Brenno, got "Hook".`},
		{"steps", "Thole,", "Expected moves done on the ground, such as jab, jab > sweep: a comma before a link, > before a cancel, got nothing after the last , or >."},
		{"steps", "Leeboard", `Expected a move done on the ground, got "Leeboard", an air move.`},
		{"damage", "-1", "Expected a whole number from 0 to 1000000000, got -1."},
		{"confirmed", "maybe", `Expected yes or no, got "maybe".`},
		{"name", "Long tow", `Expected a unique name, got "Long tow" again.`},
	} {
		w, d := openRoutes(t)
		d.enter(t, "Short tow", c.col, c.text)
		if d.reason.text != c.why || edits(w) != 0 {
			t.Errorf("%s %q: %q, want %q; %d edits", c.col, c.text, d.reason.text, c.why, edits(w))
		}
	}
	_, d := openRoutes(t)
	d.goTo(t, "Short tow", "links")
	if d.typeIn("1"); d.reason.text != "This column can't be edited." {
		t.Errorf("typed over links: %q", d.reason.text)
	}
}

func TestAMovesNewNameGoesIntoTheRoutes(t *testing.T) {
	w, d := openRoutes(t)
	d.tabs.Show(int(model.MoveRow))
	d.enter(t, "Thole", "name", "Thole pin")
	if edits(w) != 1 {
		t.Fatalf("refused: %s", d.reason.text)
	}
	d.tabs.Show(int(model.RouteRow))
	if got := d.texts(t, "Short tow")["steps"]; got != "Thole pin, Thole pin > Keel Scrape" {
		t.Errorf("steps %q", got)
	}
	d.tabs.Show(int(model.MoveRow))
	d.goTo(t, "Oarlock", "name")
	d.Drop()
	if edits(w) != 1 || d.reason.text == "" {
		t.Errorf("a move that a route uses is taken away: %d edits, %q", edits(w), d.reason.text)
	}
}

func TestRoutesArePastedAsTheyWereCopied(t *testing.T) {
	w, d := openRoutes(t)
	before := len(w.Model().Data().Fighter("Brenno").Routes)
	pick := func(from, to string) string {
		a := d.placeNamed(from)
		d.goTo(t, from, "name")
		d.grid.Stretch(d.grid.At())
		at := d.grid.At()
		at.Row, at.Col = d.placeNamed(to), len(d.Heads())-1
		if at.Row < a {
			t.Fatal("rows in another order")
		}
		d.grid.Stretch(at)
		return copied(d)
	}
	text := pick("Short tow", "Long tow")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "Short tow", "Short"), "Long tow", "Long")
	d.goTo(t, "", "name")
	pasteIn(d, text)
	f := w.Model().Data().Fighter("Brenno")
	if len(f.Routes) != before+2 || edits(w) != 1 {
		t.Fatalf("%d routes after %d edits: %s", len(f.Routes), edits(w), d.reason.text)
	}
	for _, name := range []string{"Short", "Long"} {
		was := *f.Route(name + " tow")
		was.Name = name
		if got := *f.Route(name); !reflect.DeepEqual(got, was) {
			t.Errorf("pasted %+v, want %+v", got, was)
		}
	}
	d.goTo(t, "", "name")
	pasteIn(d, "Name\tSteps\tLinks\nA\tThole\tas it was\nB\tQuant, Thole\t9")
	if f = w.Model().Data().Fighter("Brenno"); f.Route("B") == nil || edits(w) != 2 {
		t.Errorf("by headings: %d edits, %q", edits(w), d.reason.text)
	}
}

// TestARouteLeadsToTheSetupsOfItsEnder opens a setup from the strip under the
// table.
func TestARouteLeadsToTheSetupsOfItsEnder(t *testing.T) {
	w, d := openRoutes(t)
	d.goTo(t, "Short tow", "steps")
	var want []string
	for _, s := range demo(t).Setups {
		if s.Attacker == "Brenno" && s.Ender == "Keel Scrape" {
			want = append(want, s.Name)
		}
	}
	if got := d.foot.more; len(want) == 0 || !reflect.DeepEqual(got.setups, want) {
		t.Fatalf("%q leads to %q, want %q", got.lead, got.setups, want)
	}
	d.foot.open(d.foot.more.setups[len(want)-1])
	if w.Page != nil || w.Model().Setup().Name != want[len(want)-1] {
		t.Errorf("shown is %q", w.Model().Setup().Name)
	}
}

// TestStepsAreAddedFromTheMoves picks the steps of a route from the list of
// moves, which says how each would follow.
func TestStepsAreAddedFromTheMoves(t *testing.T) {
	w, d := openRoutes(t)
	d.goTo(t, "Short tow", "steps")
	d.askSteps()
	var pick *stepPicker
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if p, ok := o.(*stepPicker); ok {
			pick = p
		}
	}
	if pick == nil {
		t.Fatal("no list of moves is shown")
	}
	if want := demo(t).Fighter("Brenno").Route("Short tow").Steps; !reflect.DeepEqual(pick.steps, want) {
		t.Errorf("it begins with %v, want %v", pick.steps, want)
	}
	for range 2 {
		tap(t, w, "Remove last")
	}
	pick.SetText("soun")
	if got := pick.says(pick.shown[0]); got != "doesn't link: 1 frame too slow" {
		t.Errorf("Sounding after Thole: %q", got)
	}
	pick.SetText("quant")
	tap(t, w, "Add by link")
	pick.SetText("keel scr")
	tap(t, w, "Add by cancel")
	tap(t, w, "Done")
	if got := d.texts(t, "Short tow")["steps"]; got != "Thole, Quant > Keel Scrape" || edits(w) != 1 {
		t.Errorf("steps %q after %d edits: %s", got, edits(w), d.reason.text)
	}
}

// TestARouteThatASetupUsesStays, and its new name goes into the setup.
func TestARouteThatASetupUsesStays(t *testing.T) {
	p := demo(t)
	var s *timeline.Setup
	for i := range p.Setups {
		if p.Setups[i].Attacker == "Brenno" {
			s = &p.Setups[i]
			s.OnHit, s.Punish = "Short tow", []string{"Long tow"}
			break
		}
	}
	name := s.Name
	w, d := openData(t, p)
	d.choose("Brenno")
	d.tabs.Show(int(model.RouteRow))
	for _, route := range []string{"Short tow", "Long tow"} {
		d.goTo(t, route, "name")
		d.Drop()
		if !strings.Contains(d.reason.text, " uses the route \""+route+"\".") || edits(w) != 0 {
			t.Errorf("%s is taken away: %d edits, %q", route, edits(w), d.reason.text)
		}
	}
	d.enter(t, "Short tow", "name", "Tow")
	w.Model().ChooseNamed(name)
	if got := w.Model().Setup(); got.OnHit != "Tow" || edits(w) != 1 || !d.foot.effect.renames {
		t.Errorf("after a new name the setup's route is %q; %d edits, %+v", got.OnHit, edits(w), d.foot.effect)
	}
}
