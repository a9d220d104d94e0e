package table

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// What is read, writes, and reads back equal; nothing panics.
func FuzzRead(f *testing.F) {
	var file bytes.Buffer
	if err := Write(&file, "Marl", newDice(5).moves(6)); err != nil {
		f.Fatal(err)
	}
	f.Add(file.Bytes(), false)
	f.Add([]byte(mixed), true)
	f.Add([]byte("\ufeffname,kind,total\r\n\"a\r\n\"\"b\",dash,2\r\n"), false)
	f.Add([]byte("name,kind,level,startup,active,immune,armour\na,strike,mid,4,2(5)1,1-8 strike; 2,1-8 2 hits\nb\"\n"), true)
	f.Add([]byte("name,kind\n\xff,\x00"), true)
	f.Fuzz(func(t *testing.T, data []byte, skip bool) {
		table, err := Read(bytes.NewReader(data), Options{Fighter: "Ness", SkipBad: skip, Map: map[string]string{"x": "", "y": "total"}})
		if err != nil {
			if table != nil && (len(table.Rows) > 0 || len(table.Bad) == 0) {
				t.Fatalf("with the error %v: table = %+v", err, table)
			}
			return
		}
		of := map[string][]timeline.Move{}
		for _, r := range table.Rows {
			of[r.Fighter] = append(of[r.Fighter], r.Move)
		}
		for fighter, moves := range of {
			var file strings.Builder
			if err := Write(&file, fighter, moves); err != nil {
				t.Fatal(err)
			}
			back, err := Read(strings.NewReader(file.String()), Options{})
			if err != nil {
				t.Fatalf("%v in\n%s", err, file.String())
			}
			if got := movesOf(t, back, fighter); !reflect.DeepEqual(got, moves) {
				t.Fatalf("read back = %+v, want %+v", got, moves)
			}
		}
	})
}
