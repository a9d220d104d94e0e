package table

import (
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"wakeline/timeline"
)

func TestHeadings(t *testing.T) {
	const row = "\nStep,dash,20"
	for _, c := range []struct {
		what, text string
		o          Options
		want       string // the error, empty for none
	}{
		{"in capitals, with spaces", " Name ,KIND,Total" + row, Options{Fighter: "Marl"}, ""},
		{"mapped", "Move,Type,Whole" + row, Options{Fighter: "Marl", Map: map[string]string{"move": "name", " TYPE ": "Kind", "whole": "total", "more": "top"}}, ""},
		{"left out", "name,kind,total,remark,remark" + row + ",a,b", Options{Fighter: "Marl", Map: map[string]string{"Remark": ""}}, ""},
		{"mapped away from a name of ours", "name,kind,active,total" + row + "0,20", Options{Fighter: "Marl", Map: map[string]string{"total": "recovery"}},
			"line 2, column 3 (active): expected nothing: a dash has a total alone, got 200"},
		{"unknown", "name,kind,remark" + row, Options{Fighter: "Marl"}, `line 1, column 3 (remark): expected a heading that is the name of a column, or mapped to one, got "remark"`},
		{"empty", "name,kind," + row, Options{Fighter: "Marl"}, "line 2 (total): expected the total of a dash, got nothing"},
		{"twice", "name,kind,Name" + row, Options{Fighter: "Marl"}, "line 1, column 3 (Name): expected each column once, got name again, as in column 1"},
		{"twice by the map", "name,kind,move" + row, Options{Fighter: "Marl", Map: map[string]string{"Move": "name"}}, "line 1, column 3 (move): expected each column once, got name again, as in column 1"},
		{"after an empty line", "\n\"na\nmes\",kind,total" + row, Options{Fighter: "Marl"}, `line 2, column 1 (na\nmes): expected a heading that is the name of a column, or mapped to one, got "na\nmes"`},
		{"a fighter with an escape", "fighter,name,kind,total\nMa\x1brl,Step,dash,20", Options{}, `line 2, column 1 (fighter): expected a name without control characters, got "Ma\x1brl"`},
		{"a name of 201 letters", "name,kind,total\n" + strings.Repeat("é", 201) + ",dash,20", Options{Fighter: "Marl"}, `line 2, column 1 (name): expected a name of at most 200 letters, got 201`},
		{"no kind", "name,total\nStep,20", Options{Fighter: "Marl"}, "line 2 (kind): expected strike, throw, parry, evade or dash, got nothing"},
		{"no name", "kind,total\ndash,20", Options{Fighter: "Marl"}, "line 1 (name): expected a column of that name, got none"},
		{"no fighter", "name,kind,total" + row, Options{}, "line 1 (fighter): expected a column of that name, or a fighter to give the moves to, got neither"},
		{"semicolons", "name;kind;total\nStep;dash;20", Options{Fighter: "Marl"}, ""},
		{"a map to nowhere", "name,kind,total" + row, Options{Map: map[string]string{"a": "startups"}}, `mapping of "a": expected one of ` + strings.Join(append(Columns(), "steps", "confirmed"), ", ") + `, got "startups"`},
		{"a map to two", "name,kind,total" + row, Options{Map: map[string]string{"a": "top", "A ": "drop"}}, `mapping of "a": expected one column, got "drop" and "top"`},
		{"an empty file", "", Options{}, "line 1, character 1: expected a header row, got an empty file"},
		{"a byte order mark alone", "\ufeff\r\n", Options{}, "line 1, character 1: expected a header row, got an empty file"},
		{"a header alone", "name,kind", Options{Fighter: "Marl"}, ""},
	} {
		_, err := Read(strings.NewReader(c.text), c.o)
		if got := message(err); got != c.want {
			t.Errorf("%s: error = %s, want %s", c.what, got, c.want)
		}
	}
	got, err := Look(strings.NewReader("\ufeff Move ,\"a,b\"\nx,y"), nil)
	if want := []string{"Move", "a,b"}; err != nil || !reflect.DeepEqual(got.Headings, want) {
		t.Errorf("Headings = %+v, %v, want %q", got, err, want)
	}
	if _, err := Look(strings.NewReader("a\"b"), nil); err == nil {
		t.Error("Headings of a bare quote: no error")
	}
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func TestEveryBadHeadingIsListed(t *testing.T) {
	table, err := Read(strings.NewReader("name,remark,kind,whom\na,b,c,d"), Options{SkipBad: true, Fighter: "Marl"})
	var row *RowError
	if !errors.As(err, &row) || row.Heading != "remark" || len(table.Bad) != 2 || table.Bad[1].Heading != "whom" {
		t.Errorf("table = %+v, %v, want two bad headings and the first as the error", table, err)
	}
}

const mixed = `fighter,name,kind,total
Marl,Step,dash,20
Marl,Leap,dash,far
,Step,dash,18

,,,
Marl,"Slip
away",evade
Marl,Step,dash,21
Orla,Step,dash,22
`

func TestBadRowsTakeNothing(t *testing.T) {
	table, err := Read(strings.NewReader(mixed), Options{Fighter: "Ness"})
	wants := []string{
		`line 3, column 4 (total): expected a whole number, got "far"`,
		`line 7, column 4 (total): expected 4 fields, as in the header, got 3`,
		`line 9, column 2 (name): expected a unique name, got "Step" again, as on line 2`,
	}
	var row *RowError
	if !errors.As(err, &row) || err.Error() != wants[0] {
		t.Errorf("error = %v, want %s", err, wants[0])
	}
	if len(table.Rows) != 0 {
		t.Errorf("rows = %+v, want none", table.Rows)
	}
	if len(table.Bad) != len(wants) {
		t.Fatalf("bad = %+v, want %d", table.Bad, len(wants))
	}
	for i := range wants {
		if got := table.Bad[i].Error(); got != wants[i] {
			t.Errorf("bad[%d] = %s, want %s", i, got, wants[i])
		}
	}
}

func TestSkipBad(t *testing.T) {
	table, err := Read(strings.NewReader(mixed), Options{Fighter: "Ness", SkipBad: true})
	if err != nil || len(table.Bad) != 3 {
		t.Fatalf("bad = %+v, %v, want three and no error", table, err)
	}
	dash := func(line int, fighter string, total int) Row {
		return Row{line, fighter, timeline.Move{Name: "Step", Kind: timeline.Dash, Length: total}}
	}
	if want := []Row{dash(2, "Marl", 20), dash(4, "Ness", 18), dash(10, "Orla", 22)}; !reflect.DeepEqual(table.Rows, want) {
		t.Errorf("rows = %+v, want %+v", table.Rows, want)
	}
}

func TestARowWithoutAFighter(t *testing.T) {
	_, err := Read(strings.NewReader("kind,total,name,fighter\ndash,2,a, "), Options{})
	if want := "line 2, column 4 (fighter): expected the name of a fighter, got nothing"; message(err) != want {
		t.Errorf("error = %v, want %s", err, want)
	}
}

// The line of an error is that on which its field begins, not its row.
func TestLinesOfFieldsWithLineBreaks(t *testing.T) {
	_, err := Read(strings.NewReader("Name,kind,Ganz\r\n\"a\r\nb\nc\",dash,x\r\n"), Options{Fighter: "Marl", Map: map[string]string{"ganz": "total"}})
	if want := `line 4, column 3 (Ganz): expected a whole number, got "x"`; message(err) != want {
		t.Errorf("error = %v, want %s", err, want)
	}
}

func TestRulesOfTheProject(t *testing.T) {
	const text = "name,kind,level,startup,active,total\nGate,strike,mid,6,3,9"
	if _, err := Read(strings.NewReader(text), Options{Fighter: "Marl"}); err == nil {
		t.Error("by the default rules a total of 9 passes, want 8")
	}
	rules := timeline.DefaultRuleset()
	rules.StartupCountsFirstActive = false
	if _, err := Read(strings.NewReader(text), Options{Fighter: "Marl", Rules: rules}); err != nil {
		t.Errorf("with startup before the first active frame: %v", err)
	}
}

// endless gives a byte without end.
type endless byte

func (e endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(e)
	}
	return len(p), nil
}

func TestWhatIsNoTable(t *testing.T) {
	const head = "name,kind,total\n"
	for _, c := range []struct {
		what string
		r    io.Reader
		want string
	}{
		{"a NUL", strings.NewReader(head + "öa\x00,dash,2"), "line 2, character 3: expected text, got a NUL"},
		{"no UTF-8", strings.NewReader(head + "ö\xe9a,dash,2"), "line 2, character 2: expected text in UTF-8, got the byte 0xe9"},
		{"half of UTF-16", strings.NewReader("\xff\xfen\x00\n\x00a\x00b"), "line 2, character 2: expected text in UTF-8 or UTF-16, got half a letter"},
		{"half a pair of UTF-16", strings.NewReader("\xff\xfen\x00\x00\xd8a\x00"), "line 1, character 2: expected text in UTF-8 or UTF-16, got half a letter"},
		{"half a letter", strings.NewReader(head + "\xc3"), "line 2, character 1: expected text in UTF-8, got the byte 0xc3"},
		{"a wide row", strings.NewReader(head + strings.Repeat(",", MaxFields)), "line 2, character 1000: expected at most 1000 fields in a row, got more"},
		{"a long table", strings.NewReader(head + strings.Repeat("a,,\n", MaxRows+1)), "line 200002, character 1: expected at most 200000 rows, got more"},
		{"a large file", endless('a'), "expected at most 64 MiB of table, got more"},
		{"a quote never closed in much", io.MultiReader(strings.NewReader(head+`"`), io.LimitReader(endless('a'), MaxSize-100)),
			"line 2, character 67108766: expected a closing quote in the row that begins on line 2, got the end of the file"},
		{"a broken reader", iotest.ErrReader(errors.New("no more")), "read table: no more"},
	} {
		table, err := Read(c.r, Options{Fighter: "Marl", SkipBad: true})
		if message(err) != c.want || table != nil {
			t.Errorf("%s: table = %v, error = %v, want none and %s", c.what, table, err, c.want)
		}
	}
}
