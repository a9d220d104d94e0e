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
			of[r.Fighter] = append(of[r.Fighter], r.Value)
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

// FuzzForeign: what a cell of others is taken for, each field reads itself, and it
// says the same when it is read again.
func FuzzForeign(f *testing.F) {
	for _, w := range writings() {
		f.Add(w.example, 5)
	}
	f.Add("HKD +31~35 f", 0)
	f.Add("1.200,50 pts*", 0)
	f.Fuzz(func(t *testing.T, cell string, first int) {
		cell = strings.TrimSpace(cell)
		for i := range columns {
			c := &columns[i]
			if c.field == nil {
				continue
			}
			got, ok := (&foreign{c.traits, cell, timeline.DefaultRuleset(), first}).understand()
			if !ok {
				continue
			}
			for _, g := range got {
				to := c
				if g.to != "" {
					to = columnNamed(g.to)
				}
				if g.text == "" {
					continue
				}
				if want := to.try(g.text); want != "" {
					t.Fatalf("%s %q is taken for %s %q, which that can't read: %s", c.name, cell, to.name, g.text, want)
				}
			}
		}
	})
}

// FuzzReadRoutes: what is read, writes, and reads back equal; nothing panics.
func FuzzReadRoutes(f *testing.F) {
	f.Add([]byte("fighter,name,steps,damage\nMarl,a,jab > jab,300\n"), true)
	f.Add([]byte("Route;Combo;Dmg\nMarl;;\na;jab, jab;1.200\n"), false)
	f.Fuzz(func(t *testing.T, data []byte, skip bool) {
		table, err := ReadRoutes(bytes.NewReader(data), RouteOptions{Of: find, SkipBad: skip})
		if err != nil {
			return
		}
		var routes []timeline.Route
		for _, r := range table.Rows {
			routes = append(routes, r.Value)
		}
		var file strings.Builder
		if err := WriteRoutes(&file, "Marl", routes); err != nil {
			t.Fatal(err)
		}
		back, err := ReadRoutes(strings.NewReader(file.String()), RouteOptions{Of: find})
		if err != nil {
			t.Fatalf("%v in\n%s", err, file.String())
		}
		for i := range back.Rows {
			if !reflect.DeepEqual(back.Rows[i].Value, routes[i]) {
				t.Fatalf("read back %+v, want %+v", back.Rows[i].Value, routes[i])
			}
		}
	})
}
