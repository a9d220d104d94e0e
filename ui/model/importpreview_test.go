package model

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

func paste(t *testing.T, text string, known Known) *Import {
	t.Helper()
	in, err := NewPaste(text, known)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

func TestThePreviewListsEachCell(t *testing.T) {
	in := paste(t, "Lock gate moves\nMarl\nMove\tType\tStart-up (f)\tActive\tRecovery\tOn hit\tRemark\n"+
		"hook\tM\t12+3\t2(5)1\t14\t+4\tfar\nsweep\tL\tsoon\tmany\t20-24\tKD +31\t\nscoop\tT\t5\t2\t30\tKD +22\t\n", nil)
	if !in.Owners || in.SaysWhose() || in.Routes {
		t.Errorf("the table is %+v", in)
	}
	p := in.Preview(context.Background(), &timeline.Project{Ruleset: timeline.DefaultRuleset()})
	if p.Err != nil || p.Good != 2 || p.Bad != 1 {
		t.Fatalf("%d good, %d bad: %v", p.Good, p.Bad, p.Err)
	}
	if got := strings.Join(p.Columns, " "); got != "name fighter kind level startup active recovery on_hit knockdown_midscreen" {
		t.Errorf("columns %s", got)
	}
	var unread, notes []string
	for _, f := range p.Unread {
		unread = append(unread, fmt.Sprintf("%s|%s|%s|%s|%d,%d", f.Line, f.Heading, f.Says, f.Means, f.Row, f.Col))
	}
	for _, f := range p.Notes {
		notes = append(notes, fmt.Sprintf("%s|%s|%s|%s|%d,%d", f.Line, f.Heading, f.Says, f.Means, f.Row, f.Col))
	}
	if want := []string{`5|Start-up (f)|"soon"|expected a whole number|1,4`, `5|Active|"many"|expected frames written like 3, or 2(5)1 with gaps in brackets|1,5`}; !reflect.DeepEqual(unread, want) {
		t.Errorf("not understood: %q", unread)
	}
	want := []string{"1||Lock gate moves|left out|-1,-1", "2||Marl|the fighter of the rows below|-1,-1", "4|Type|M|strike|0,2", "4|Type|M|level mid|0,2", "4|Start-up (f)|12+3|15|0,4",
		"5|Type|L|strike|1,2", "5|Type|L|level low|1,2", "5|Recovery|20-24|24|1,6", "5|On hit|KD +31|knockdown midscreen 31|1,7", "6|Type|T|throw|2,2", "6|On hit|KD +22|knockdown midscreen 22|2,7"}
	if !reflect.DeepEqual(notes, want) {
		t.Errorf("notes: %q", notes)
	}
	row := p.Rows[0]
	if got := strings.Join(row.Cells, " "); got != "hook Marl strike mid 15 2(5)1 14 4 " || row.Bad || !row.Noted[4] || row.Noted[5] {
		t.Errorf("the first row is %+v", row)
	}
	if row := p.Rows[1]; !row.Bad || !row.Wrong[4] || !row.Wrong[5] || row.Wrong[6] || row.Cells[4] != "soon" {
		t.Errorf("the second row is %+v", row)
	}
}

func TestRoutesHaveAPreviewAndAMapping(t *testing.T) {
	data := &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "Marl", Rises: timeline.DefaultRises(),
		Moves: []timeline.Move{{Name: "jab", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{2}}}}}}
	in := paste(t, "Character,Route,Combo,Dmg,Sure\nMarl,a,\"jab, jab\",\"1,200\",yes\nMarl,b,\"jab, hook\",,no\n", nil)
	if !in.Routes || in.Mapping["combo"] != "steps" || in.Mapping["route"] != "name" || in.Mapping["sure"] != LeftOut || !in.SaysWhose() {
		t.Fatalf("routes %v, mapped %v", in.Routes, in.Mapping)
	}
	in.Mapping["sure"] = "confirmed"
	p := in.Preview(context.Background(), data)
	if p.Err != nil || p.Good != 1 || p.Bad != 1 || len(p.Unread) != 1 || p.Unread[0].Says != `"hook"` || len(p.Notes) != 1 || p.Notes[0].Means != "1200" {
		t.Fatalf("%+v", p)
	}
	if got := strings.Join(p.Rows[0].Cells, "|"); got != "a|Marl|jab, jab|1200|yes" {
		t.Errorf("the first row is %s", got)
	}
}

func TestAMappingIsKeptByTheSetOfHeadings(t *testing.T) {
	var sets HeadingSets
	one, other := []string{"Move", "Kind", "Speed"}, []string{"Move", "Kind", "Speed", "Notes"}
	sets = sets.With(one, map[string]string{"speed": "startup"}).With(other, map[string]string{"speed": ""})
	if got := sets.Of([]string{"speed", " KIND ", "move"}); got["speed"] != "startup" {
		t.Errorf("the first set is %v", got)
	}
	if got := sets.Of(other); got == nil || got["speed"] != "" {
		t.Errorf("the other is %v", got)
	}
	if got := sets.Of([]string{"Move"}); got != nil {
		t.Errorf("an unknown set is %v", got)
	}
	sets = sets.With(one, map[string]string{"speed": "total"})
	if got := sets.Of(one); len(sets) != 2 || got["speed"] != "total" || !reflect.DeepEqual(sets[0].Headings, []string{"kind", "move", "speed"}) {
		t.Errorf("mapped again: %v", sets)
	}
	for i := range 2 * mostHeadingSets {
		sets = sets.With([]string{fmt.Sprint("h", i)}, nil)
	}
	if len(sets) != mostHeadingSets || sets.Of(one) != nil {
		t.Errorf("%d sets are kept", len(sets))
	}
	in := paste(t, "Move;Kind;Speed\na;dash;20\n", HeadingSets{}.With(one, map[string]string{"speed": "total", "move": "name"}).Of)
	if in.Mapping["speed"] != "total" || in.Mapping["move"] != "name" {
		t.Errorf("offered again: %v", in.Mapping)
	}
}

func TestNothingWasCopied(t *testing.T) {
	for _, text := range []string{"", " \n\t"} {
		if _, err := NewPaste(text, nil); err == nil {
			t.Errorf("%q is a table", text)
		}
	}
}
