package timeline

import (
	"errors"
	"slices"
	"testing"
)

func TestPathWritesWhereItLeads(t *testing.T) {
	whole := (*Path)(nil)
	for want, p := range map[string]*Path{
		"$":                                  whole,
		"$.fighters[0].moves[2].startup":     whole.At("fighters").Item(0).At("moves").Item(2).At("startup"),
		`$["two words"][3]`:                  whole.At("two words").Item(3),
		`setup "Step and \"prod\"": $.delay`: SetupPath(`Step and "prod"`).At("delay"),
		"revision":                           LabelPath("revision"),
	} {
		if got := p.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	p := SetupPath("A").At("replies").Item(2).At("move")
	if got, want := p.Steps(), []Step{{Name: "replies"}, {Index: 2}, {Name: "move"}}; !slices.Equal(got, want) {
		t.Errorf("steps %v, want %v", got, want)
	}
	if name, ok := p.Setup(); !ok || name != "A" {
		t.Errorf("setup %q, %v", name, ok)
	}
	if _, ok := whole.At("setups").Item(0).Setup(); ok {
		t.Error("a path from the whole begins at a setup")
	}
	if got := p.At("late").Field(); got != "late" {
		t.Errorf("field %q", got)
	}
	if got := p.At("active").Item(1).Field(); got != "active" {
		t.Errorf("field of an entry %q", got)
	}
}

// A path shares the steps above it: what is added below one place must not
// show below another.
func TestPathsBelowOnePlaceStayApart(t *testing.T) {
	at := (*Path)(nil).At("setups").Item(4)
	a, b := at.At("delay"), at.At("fillers").Item(0)
	if a.String() != "$.setups[4].delay" || b.String() != "$.setups[4].fillers[0]" || at.String() != "$.setups[4]" {
		t.Errorf("%v, %v, %v", a, b, at)
	}
}

func TestAnErrorNamesWhatDoesNotFit(t *testing.T) {
	p := dropIn(42)
	p.Setups[0].Fillers = []string{p.Setups[0].Attack}
	broken := (*FieldError)(nil)
	if err := p.Check(); !errors.As(err, &broken) || broken.Name != p.Setups[0].Attack {
		t.Fatalf("error %v, want one with the name of the air move", p.Check())
	}
}
