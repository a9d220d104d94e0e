package table

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// yard is the sample project.
func yard(t *testing.T) *timeline.Project {
	t.Helper()
	b, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := timeline.ReadText(b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// rowsOf reads a table with Go's reader and holds its line ends to RFC 4180.
func rowsOf(t *testing.T, b []byte) [][]string {
	t.Helper()
	if n := bytes.Count(b, []byte("\n")); n != bytes.Count(b, []byte("\r\n")) || !bytes.HasSuffix(b, []byte("\r\n")) {
		t.Errorf("%d line feeds, %d of them after a carriage return", n, bytes.Count(b, []byte("\r\n")))
	}
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func TestWriteReplies(t *testing.T) {
	p := yard(t)
	p.Setups[0].Name = "Plain, \"quoted\"\tcrossing"
	var verdicts []timeline.Verdict
	for _, s := range p.Setups {
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		verdicts = append(verdicts, plan.Verdict(s.Delay))
	}
	var b bytes.Buffer
	table, err := NewReplies(&b)
	for i := range verdicts {
		if err == nil {
			err = table.Add(&verdicts[i], nil)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	rows := rowsOf(t, b.Bytes())[1:]
	n := 0
	for _, v := range verdicts {
		for _, r := range v.Rises {
			for _, c := range r.Replies {
				meeting := ""
				if c.Meeting.Given {
					meeting = strconv.Itoa(c.Meeting.N)
				}
				row := rows[n]
				if row[0] != v.Setup || row[2] != string(v.Word) || row[3] != r.Rise || row[5] != c.Reply || row[6] != strconv.Itoa(c.Late) || row[8] != c.Outcome.String() || row[9] != meeting {
					t.Fatalf("row %d = %q, want %s, %s, %+v", n, row, v.Setup, r.Rise, c)
				}
				n++
			}
		}
	}
	if n != len(rows) {
		t.Errorf("%d rows, want %d", len(rows), n)
	}
	head := rowsOf(t, b.Bytes())[0]
	apart, side := slices.Index(head, "apart"), slices.Index(head, "side")
	reach := slices.Index(head, "out_of_reach")
	var only []string
	for _, row := range rows {
		switch row[reach] {
		case "":
		case "yes":
			only = append(only, row[0]+": "+row[5])
		default:
			t.Errorf("out_of_reach is %q", row[reach])
		}
	}
	if !slices.Contains(only, "Short of the hitch: Chain Hitch") || len(only) == len(rows) {
		t.Errorf("answered only because they are out of reach: %q", only)
	}
	verdicts[0].Rises[0].Replies[0].Apart, verdicts[0].Rises[0].Replies[0].Side = timeline.Some(-7), timeline.Behind
	b.Reset()
	if table, err = NewReplies(&b); err == nil {
		worth := make([][]words.Worth, len(verdicts[0].Rises))
		for i := range worth {
			worth[i] = make([]words.Worth, len(verdicts[0].Rises[i].Replies))
		}
		worth[0][0] = words.Worth{Points: timeline.Some(-300), Route: "=tow", Kills: timeline.Some(40)}
		err = table.Add(&verdicts[0], worth)
	}
	if err != nil {
		t.Fatal(err)
	}
	if row := rowsOf(t, b.Bytes())[1]; row[apart] != "-7" || row[side] != "behind" {
		t.Errorf("apart %q, side %q, want -7, behind", row[apart], row[side])
	} else if got := strings.Join(row[slices.Index(head, "points"):], "|"); got != "-300|'=tow|40" {
		t.Errorf("points, route and kills_from: %q", got)
	}
	// "Plain crossing": Millrace is blocked on 46 with 1 to spare, by the sample's own table.
	if row := rows[3]; strings.Join(row[1:12], " ") != "0 safe normal 44 Millrace 0 beat reply blocked 46 1 " {
		t.Errorf("row %q", row)
	}
}

func TestWriteGrid(t *testing.T) {
	p := yard(t)
	m, err := compare.NewMatchup(p, "Brenno", "Ishka", false)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Setups {
		if s.Attacker == "Brenno" && s.Rival == "Ishka" {
			if err := m.Add(s); err != nil {
				t.Fatal(err)
			}
		}
	}
	g := m.Grid()
	var b bytes.Buffer
	if err := WriteGrid(&b, &g); err != nil {
		t.Fatal(err)
	}
	rows := rowsOf(t, b.Bytes())
	if len(rows) != len(g.Rows)+1 || len(rows[0]) != len(g.Replies)+3 || strings.Join(rows[0][:7], "|") != "setup|delay|verdict|guard high|guard low|nothing|Millrace" {
		t.Fatalf("%d rows, heading %q", len(rows), rows[0])
	}
	if got := strings.Join(rows[1][:7], "|"); got != "Plain crossing|0|safe|covers, safe: attack blocked on 44|covers, safe: attack hits on 44|covers, safe: attack hits on 44|covers, safe: reply blocked on 46" {
		t.Errorf("first row %q", got)
	}
	if got := rows[2][6]; got != "unsafe: reply hits on 46" {
		t.Errorf("One frame over against Millrace: %q", got)
	}
}

// TestWriteGridWithPoints: two columns a reply, after those without.
func TestWriteGridWithPoints(t *testing.T) {
	g := compare.Grid{Replies: []compare.GridReply{{Title: "=Lift"}, {Title: "Jab"}}, Valued: true, Rows: []compare.GridRow{{Setup: "One", Word: timeline.Safe, Cells: []compare.GridCell{
		{Worth: words.Worth{Points: timeline.Some(-300)}}, {Worth: words.Worth{Points: timeline.Some(412), Route: "Ladder", Kills: timeline.Some(400)}},
	}}}}
	var b bytes.Buffer
	if err := WriteGrid(&b, &g); err != nil {
		t.Fatal(err)
	}
	rows := rowsOf(t, b.Bytes())
	if got := strings.Join(rows[0][3:], "|"); got != "'=Lift|Jab|'=Lift: points|'=Lift: kills_from|Jab: points|Jab: kills_from" {
		t.Errorf("heads %s", got)
	}
	if got := strings.Join(rows[1][5:], "|"); got != "-300||412|400" {
		t.Errorf("numbers %s", got)
	}
}

// A spreadsheet takes a name that begins with one of these for a formula. These
// tables are never read back, so such a name gets an apostrophe before it;
// numbers stay numbers.
func TestAnswersGuardNamesThatLookLikeFormulas(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"=1+1", "'=1+1"}, {"+1", "'+1"}, {"-1", "'-1"}, {"@sum", "'@sum"}, {"\t=1", "'\t=1"}, {"\r=1", "'\r=1"},
		{"Plain = 1", "Plain = 1"}, {"'quoted", "'quoted"}, {"", ""},
	} {
		v := timeline.Verdict{Setup: c.name, Word: timeline.Unsafe, Rises: []timeline.RiseVerdict{{Rise: c.name, Wake: 44, Replies: []timeline.ReplyVerdict{{Reply: c.name}}}}}
		v.Rises[0].Replies[0].Spare = timeline.Some(-3)
		var b bytes.Buffer
		table, err := NewReplies(&b)
		if err == nil {
			err = table.Add(&v, nil)
		}
		if err != nil {
			t.Fatal(err)
		}
		row := rowsOf(t, b.Bytes())[1]
		if row[0] != c.want || row[3] != c.want || row[5] != c.want || row[10] != "-3" {
			t.Errorf("replies of %q: %q, want %q, and the number as it is", c.name, row, c.want)
		}
		g := compare.Grid{Replies: []compare.GridReply{{Title: c.name}}, Rows: []compare.GridRow{{Setup: c.name, Word: timeline.Safe, Cells: make([]compare.GridCell, 1)}}}
		b.Reset()
		if err := WriteGrid(&b, &g); err != nil {
			t.Fatal(err)
		}
		if rows := rowsOf(t, b.Bytes()); rows[0][3] != c.want || rows[1][0] != c.want {
			t.Errorf("match-up of %q: %q, want %q", c.name, rows, c.want)
		}
	}
}

func TestSafeNames(t *testing.T) {
	got := SafeNames([]string{"a/b", "A_B", "con", "", "x", "X"}, ".png")
	for i, want := range []string{"a_b.png", "A_B 2.png", "_con.png", "unnamed.png", "x.png", "X 2.png"} {
		if got[i] != want {
			t.Errorf("name %d = %q, want %q", i, got[i], want)
		}
	}
	for _, name := range SafeNames([]string{"../up", "C:\\x", "a\x00b", strings.Repeat("long ", 99)}, ".svg") {
		if filepath.Base(name) != name || len(name) > 255 || strings.ContainsAny(name, "\\/:\x00") {
			t.Errorf("name %q", name)
		}
	}
}
