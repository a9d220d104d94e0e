package book

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf16"
)

// cellsOf are the cells of a text's first sheet.
func cellsOf(t *testing.T, data string) [][]string {
	t.Helper()
	b, err := Read(strings.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	for _, r := range b.Sheets[0].Rows {
		out = append(out, r.Cells)
	}
	return out
}

func TestTheSeparatorIsTheOneThatPartsTheLinesAlike(t *testing.T) {
	for _, c := range []struct {
		text string
		want byte
	}{
		{"a,b,c\n1,2,3\n", ','}, {"a;b;c\n1,5;2,5;3\n", ';'}, {"a\tb\n1,5\t2;3\n", '\t'}, {"| a | b |\n|---|---|\n| 1, 2, 3 | 2 |\n", '|'},
		{"Data of patch 1.2, by hand, mostly\na;b\n1;2\n3;4\n", ';'}, {"a,b\n1-2; 3-4,5\n1-2; 3-4,5\n", ','}, {"one\ntwo\n", ','}, {"", ','},
		{"a;b\n\"1,2,3\";4\n\"5,6,7\";8\n", ';'}, {"name,kind\n;;;;,dash\n", ','}, {"a,b;c,d\n1,2;3,4\n", ','},
	} {
		if got := separator([]byte(c.text)); got != c.want {
			t.Errorf("%q is parted by %q, want %q", c.text, got, c.want)
		}
	}
}

func TestTextsInOtherEncodings(t *testing.T) {
	want := [][]string{{"Näme", "嵐 🌀"}, {"a", "b"}}
	const text = "Näme\t嵐 🌀\r\na\tb\r\n"
	wide := func(mark string, big bool) string {
		var out []byte
		for _, u := range utf16.Encode([]rune(mark + text)) {
			if big {
				out = append(out, byte(u>>8), byte(u))
			} else {
				out = append(out, byte(u), byte(u>>8))
			}
		}
		return string(out)
	}
	for name, data := range map[string]string{
		"UTF-8": text, "with a mark": "\ufeff" + text, "UTF-16 LE": wide("\ufeff", false), "UTF-16 BE": wide("\ufeff", true), "UTF-16 LE without a mark": wide("", false), "UTF-16 BE without a mark": wide("", true),
		"old line breaks": strings.ReplaceAll(text, "\r\n", "\r"),
	} {
		if got := cellsOf(t, data); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func TestLinesAreThoseOfTheFile(t *testing.T) {
	b, err := Read(strings.NewReader("a,b\n\n\"x\ny\",z,\"p\nq\"\nlast\n"))
	if err != nil {
		t.Fatal(err)
	}
	r := b.Sheets[0].Rows
	if len(r) != 3 || r[1].Line != 3 || r[1].At(0) != 3 || r[1].At(1) != 4 || r[1].At(2) != 4 || r[2].Line != 6 || r[2].At(7) != 6 || !b.Sheets[0].Strict {
		t.Errorf("rows %+v", r)
	}
}

// packed makes a spreadsheet of its parts.
func packed(t testing.TB, parts map[string]string) string {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range parts {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write([]byte(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

const (
	workbookXML = `<workbook xmlns:r="r"><sheets><sheet name="One" r:id="r1"/></sheets></workbook>`
	relsXML     = `<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>`
	stylesXML   = `<styleSheet><numFmts><numFmt numFmtId="170" formatCode="0.0&quot;d&quot;"/><numFmt numFmtId="171" formatCode="[red]yy-mm"/><numFmt numFmtId="172" formatCode="0.0%"/></numFmts>` +
		`<cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="9"/><xf numFmtId="170"/><xf numFmtId="171"/><xf numFmtId="172"/></cellXfs></styleSheet>`
	textsXML = `<sst><si><t>jab</t></si><si><r><t>two </t></r><r><t>runs</t></r><rPh><t>aloud</t></rPh></si></sst>`
)

func workbookOf(t testing.TB, rows string) string {
	return packed(t, map[string]string{"xl/workbook.xml": workbookXML, "xl/_rels/workbook.xml.rels": relsXML, "xl/styles.xml": stylesXML, "xl/sharedStrings.xml": textsXML,
		"xl/worksheets/sheet1.xml": `<worksheet><sheetData>` + rows + `</sheetData></worksheet>`})
}

func TestACellOfAWorkbookIsWhatItShows(t *testing.T) {
	got := cellsOf(t, workbookOf(t, `<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" t="s"><v>1</v></c><c r="D2" t="inlineStr"><is><r><t>in</t></r><r><t>line</t></r></is></c><c r="E2" t="str"><f>A1</f><v>said</v></c></row>`+
		`<row r="4"><c r="A4"><v>12.1</v></c><c r="B4"><v>12.100000000000001</v></c><c><v>1.5E3</v></c><c r="D4" s="1"><v>46030</v></c><c r="E4" s="2"><v>0.125</v></c><c r="F4" s="3"><v>5</v></c><c r="G4" s="4"><v>46030</v></c><c r="H4" s="5"><v>1</v></c><c r="I4" t="b"><v>1</v></c><c r="J4"/></row>`))
	want := [][]string{{"jab", "two runs", "", "inline", "said"}, {"12.1", "12.1", "1500", "2026-01-08", "12.5%", "5", "2026-01-08", "100%", "yes"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("read %q", got)
	}
	b, err := Read(strings.NewReader(workbookOf(t, `<row r="7"><c r="A7"><v>1</v></c></row>`)))
	if err != nil || b.Sheets[0].Name != "" || b.Sheets[0].Rows[0].Line != 7 || b.Sheets[0].Strict {
		t.Errorf("%+v, %v", b, err)
	}
}

func TestACellOfADocumentIsWhatItShows(t *testing.T) {
	got := cellsOf(t, packed(t, map[string]string{"content.xml": `<d><table name="One"><table-row number-rows-repeated="3"><table-cell number-columns-repeated="900000"/></table-row>` +
		`<table-row><table-cell value-type="string"><p>two<s c="2"/>words</p><p>below</p><annotation><p>aside</p></annotation></table-cell><covered-table-cell number-columns-repeated="2"/><table-cell value-type="float" value="12.50"><p>12,5</p></table-cell>` +
		`<table-cell value-type="percentage" value="0.3"><p>30%</p></table-cell><table-cell value-type="date" date-value="2026-01-08"><p>8. Jan</p></table-cell><table-cell value-type="boolean" boolean-value="true"/></table-row>` +
		`<table-row number-rows-repeated="2"><table-cell value-type="float" value="7" number-columns-repeated="2"/></table-row><table-row number-rows-repeated="1048000"><table-cell number-columns-repeated="1024"/></table-row></table></d>`}))
	want := [][]string{{"two  words\nbelow", "", "", "12.5", "30%", "2026-01-08", "yes"}, {"7", "7"}, {"7", "7"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("read %q", got)
	}
}

// What is broken, too large or another thing is an error, and never more.
func TestHostileSpreadsheets(t *testing.T) {
	rows := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `<row r="%d"><c><v>1</v></c></row>`, i+1)
		}
		return b.String()
	}
	ods := func(content string) string { return packed(t, map[string]string{"content.xml": content}) }
	for _, c := range []struct{ what, data, want string }{
		{"half a file", workbookOf(t, rows(1))[:300], "expected a whole spreadsheet"},
		{"another packed file", packed(t, map[string]string{"a.txt": "x"}), "expected a spreadsheet, .xlsx or .ods, got another packed file"},
		{"an old spreadsheet", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "save it as CSV"},
		{"a text that isn't there", workbookOf(t, `<row r="1"><c t="s"><v>-1</v></c></row>`), "expected the number of a text up to 2"},
		{"a text past the last", workbookOf(t, `<row r="1"><c t="s"><v>2</v></c></row>`), "expected the number of a text up to 2"},
		{"rows out of order", workbookOf(t, `<row r="2"/><row r="2"/>`), "expected rows in their order"},
		{"no row", workbookOf(t, `<row r="0"/>`), "expected the number of a row"},
		{"a cell outside", workbookOf(t, `<c><v>1</v></c>`), "expected cells in rows"},
		{"a column far out", workbookOf(t, `<row r="1"><c r="ZZZZZZZZZZ1"><v>1</v></c></row>`), "expected at most 1000 cells in a row"},
		{"too many rows", workbookOf(t, rows(MaxRows+1002)), "expected at most 200000 rows"},
		{"broken XML", workbookOf(t, `<row r="1"><c></row>`), "sheet1.xml: "},
		{"a part that isn't there", packed(t, map[string]string{"xl/workbook.xml": workbookXML, "xl/_rels/workbook.xml.rels": relsXML}), "expected the part xl/worksheets/sheet1.xml"},
		{"a bomb", workbookOf(t, "<!--"+strings.Repeat(" ", maxUnpacked+10)+"-->"), "expected at most 256 MiB"},
		{"cells repeated", ods(`<table name="a"><table-row number-rows-repeated="9000000"><table-cell value-type="float" value="1" number-columns-repeated="900"/></table-row></table>`), "expected at most 10000000 cells"},
		{"columns repeated", ods(`<table name="a"><table-row><table-cell number-columns-repeated="99999999"/><table-cell value-type="float" value="1"/></table-row></table>`), "expected at most 1000 cells in a row"},
		{"rows outside", ods(`<table-row><table-cell value-type="float" value="1"/></table-row>`), "expected rows in a sheet"},
		{"another encoding", ods(`<?xml version="1.0" encoding="latin-1"?><a/>`), "expected UTF-8"},
		{"many sheets", ods("<a>" + strings.Repeat("<table/>", maxSheets+1) + "</a>"), "expected at most 500 sheets"},
	} {
		b, err := Read(strings.NewReader(c.data))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v, want %s", c.what, b != nil, err, c.want)
		}
	}
	if b, err := Read(strings.NewReader(workbookOf(t, `<row r="1"><c><v>1E999999999</v></c><c s="1"><v>1e99</v></c><c s="1"><v>-4</v></c></row>`))); err != nil || len(b.Sheets[0].Rows[0].Cells) != 3 {
		t.Errorf("numbers out of the world: %+v, %v", b, err)
	}
}

// FuzzBook: whatever the bytes are, they are read or refused; what is read is
// within the limits.
func FuzzBook(f *testing.F) {
	f.Add([]byte("a,b\n1,\"2\n3\"\n"))
	f.Add([]byte("a;b\n1,5;2\n"))
	f.Add([]byte("\xff\xfea\x00\t\x00b\x00"))
	f.Add([]byte("| a | b |\n|---|---|\n"))
	f.Add([]byte(workbookOf(f, `<row r="1"><c t="s"><v>0</v></c></row>`)))
	for _, pattern := range []string{"*.xlsx", "*.ods", "*.txt"} {
		files, _ := filepath.Glob(filepath.Join("../table/testdata/tables", pattern))
		for _, path := range files {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		checkBook(t, data)
		if len(data) < 4096 {
			s := string(data)
			checkBook(t, []byte(workbookOf(t, s)))
			checkBook(t, []byte(packed(t, map[string]string{"content.xml": s})))
		}
	})
}

func checkBook(t *testing.T, data []byte) {
	b, err := Read(bytes.NewReader(data))
	if err != nil {
		return
	}
	for _, s := range b.Sheets {
		last := 0
		for i := range s.Rows {
			r := &s.Rows[i]
			if r.Line <= last || len(r.Cells) > MaxFields {
				t.Fatalf("row %d on line %d after line %d, %d cells", i, r.Line, last, len(r.Cells))
			}
			last = r.Line
		}
	}
}
