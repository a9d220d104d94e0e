package importer

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// manyMoves is a table of n moves of two fighters by turns.
func manyMoves(n int) string {
	var b strings.Builder
	b.WriteString("fighter,name,kind,total\n")
	for i := range n {
		fmt.Fprintf(&b, "%c,move %d,evade,%d\n", 'A'+i%2, i, 1+i%100)
	}
	return b.String()
}

func project(t *testing.T) *storage.File {
	t.Helper()
	f, err := storage.InMemory("", nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func TestATableIsReadAndStoredStepByStep(t *testing.T) {
	f := project(t)
	read := int64(0)
	in := &Import{Tell: func(done, of int64) {
		if done < read || done > of {
			t.Errorf("read %d of %d after %d", done, of, read)
		}
		read = done
	}}
	path := write(t, "moves.csv", manyMoves(1300))
	if err := in.Read(context.Background(), f.Data(), path); err != nil {
		t.Fatal(err)
	}
	want := []File{{Path: path, Moves: 1300, Owners: []Owner{{"A", 650, true}, {"B", 650, true}}}}
	if !reflect.DeepEqual(in.Files, want) || in.Moves() != 1300 || read == 0 {
		t.Errorf("read %+v, %d moves, %d bytes", in.Files, in.Moves(), read)
	}
	var told []int
	if err := in.Store(context.Background(), f, "import", "1.0", func(done, of int) {
		if told = append(told, done); of != 1300 {
			t.Errorf("of %d moves", of)
		}
	}); err != nil {
		t.Fatal(err)
	}
	if want := []int{500, 650, 1150, 1300}; !slices.Equal(told, want) {
		t.Errorf("told %v, want %v", told, want)
	}
	if p := f.Data(); len(p.Fighters) != 2 || len(p.Fighter("B").Moves) != 650 || p.Fighter("B").Moves[1].Name != "move 3" {
		t.Errorf("stored %d fighters", len(p.Fighters))
	}
	if free, names, err := f.FreeRevision("1.0"); err != nil || free || !slices.Equal(names, []string{"1.0"}) {
		t.Errorf("revisions %v, free %v, %v", names, free, err)
	}
	if what, err := f.Undo(); err != nil || what != "import" || len(f.Data().Fighters) != 0 {
		t.Errorf("undo %q: %v", what, err)
	}
}

func TestBadRowsAreToldOrSkipped(t *testing.T) {
	f := project(t)
	path := write(t, "moves.csv", "name,kind,total\ngood,evade,5\nbad,evade,none\n")
	bad := new(BadRows)
	if err := (&Import{Fighter: "A"}).Read(context.Background(), f.Data(), path); !errors.As(err, &bad) || bad.Path != path || len(bad.Rows) != 1 || bad.Rows[0].Line != 3 {
		t.Fatalf("error = %v, want the bad row", err)
	}
	in := &Import{Fighter: "A", SkipBad: true}
	if err := in.Read(context.Background(), f.Data(), path); err != nil || in.Moves() != 1 || len(in.Files[0].Skipped) != 1 {
		t.Errorf("skipped: %+v, %v", in.Files, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	in = &Import{Tell: func(done, of int64) { cancel() }}
	if err := in.Read(ctx, f.Data(), write(t, "many.csv", manyMoves(1000))); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func TestTheLaterFileLiesOverTheEarlier(t *testing.T) {
	f := project(t)
	one := func(name string, total int) string {
		p := timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "A", Rises: timeline.DefaultRises(),
			Moves: []timeline.Move{{Name: name, Kind: timeline.Evade, Length: total}}}}}
		return write(t, "p.json", string(timeline.WriteText(&p)))
	}
	table := write(t, "t.csv", "fighter,name,kind,total\nA,step,evade,9\nA,new,evade,2\n")
	for _, c := range []struct {
		files []string
		want  string
	}{
		{[]string{one("step", 5), table}, "step 9, new 2"},
		{[]string{table, one("step", 5)}, "step 5"},
		{[]string{one("step", 5), one("other", 6)}, "other 6"},
	} {
		in := &Import{}
		if err := in.Read(context.Background(), f.Data(), c.files...); err != nil {
			t.Fatal(err)
		}
		if err := in.Store(context.Background(), f, "import", "", nil); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, m := range f.Data().Fighters[0].Moves {
			got = append(got, fmt.Sprint(m.Name, " ", m.Length))
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%v: %v, want %s", c.files, got, c.want)
		}
	}
}
