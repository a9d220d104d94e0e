package storage

import (
	"bufio"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// tempDir is a folder that goes with the test, also under wine, which lacks what
// testing's own asks for.
func tempDir(t testing.TB) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "wakeline-test-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if removeAll(dir); t.Failed() {
			return
		}
		if _, err := os.Stat(dir); err == nil {
			t.Errorf("%s can't be removed: something in it is open", dir)
		}
	})
	return dir
}

// editedAt makes a project file at path, edits it, opens it again and copies
// it, and writes a project text and a copy of the file beside it.
func editedAt(t *testing.T, path string) {
	t.Helper()
	p := sample(t)
	f, err := Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("one less", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if f, err = Open(path); err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if why := f.ReadOnly(); why != "" {
		t.Fatalf("read-only: %s", why)
	}
	p.Setups = p.Setups[1:]
	holds(t, f, p, "opened again")
	dir := filepath.Dir(path)
	text, beside := filepath.Join(dir, "text.json"), filepath.Join(dir, "copy"+Ext)
	if err := f.ExportText(text); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadText(text); err != nil {
		t.Error(err)
	}
	if err := f.Copy(t.Context(), beside, nil); err != nil {
		t.Fatal(err)
	}
	other, err := Open(beside)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	holds(t, other, p, "the copy")
}

// left asks that nothing but those names is in folder dir.
func left(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, "|") != strings.Join(names, "|") {
		t.Errorf("in the folder: %q, want %q", got, names)
	}
}

// TestNamesThatAPathMayHave: spaces, letters beyond Latin, and what has a
// meaning in the address that SQLite opens.
func TestNamesThatAPathMayHave(t *testing.T) {
	names := []string{"two words", "Größe 起き攻め Ωмега", "50%41 #1 & more", "a;b='c'"}
	if runtime.GOOS != "windows" {
		names = append(names, `is it? "yes"`, `back\slash`, "C:")
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(tempDir(t), name)
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			editedAt(t, filepath.Join(dir, name+Ext))
			left(t, dir, inOrder(name+Ext, "copy"+Ext, "text.json")...)
		})
	}
}

// inOrder is names as a folder lists them.
func inOrder(names ...string) []string {
	for i := range names {
		for k := i; k > 0 && names[k] < names[k-1]; k-- {
			names[k], names[k-1] = names[k-1], names[k]
		}
	}
	return names
}

// TestALongPath works at one longer than the 260 letters that Windows had for
// a whole path.
func TestALongPath(t *testing.T) {
	dir := tempDir(t)
	for len(dir) < 400 {
		dir = filepath.Join(dir, strings.Repeat("deep ", 9)+"down")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	editedAt(t, filepath.Join(dir, "p"+Ext))
	left(t, dir, "copy"+Ext, "p"+Ext, "text.json")
}

// TestOneFileByTwoSpellings: where the system takes large and small letters of
// a name for the same, so does the lock.
func TestOneFileByTwoSpellings(t *testing.T) {
	f := made(t, sample(t))
	path := f.Path()
	f.Close()
	other := filepath.Join(filepath.Dir(path), strings.ToUpper(filepath.Base(path)))
	if _, err := os.Stat(other); errors.Is(err, fs.ErrNotExist) {
		if runtime.GOOS == "windows" {
			t.Fatal("Windows tells large letters from small ones")
		}
		t.Skip("this system tells large letters from small ones")
	}
	cmd, out := child(t, "hold", path)
	defer func() { cmd.Process.Kill(); cmd.Wait() }()
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || line != "open \"\"\n" {
		t.Fatalf("the first process: %q, %v, want it to edit", line, err)
	}
	second, err := Open(other)
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if why := second.ReadOnly(); why != anotherWindow {
		t.Errorf("by the other spelling it is read-only: %q, want %q", why, anotherWindow)
	}
}

// TestAFileThatIsReadIsReplacedWholeOrNotAtAll: some systems replace no file
// that somebody reads. Then it stays as it was, with an error.
func TestAFileThatIsReadIsReplacedWholeOrNotAtAll(t *testing.T) {
	path := filepath.Join(tempDir(t), "text.json")
	put := func(text string) error {
		return Replace(path, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
	}
	is := func(want string) {
		t.Helper()
		got, err := os.ReadFile(path)
		if err != nil || string(got) != want {
			t.Errorf("the file holds %q, %v, want %q", got, err, want)
		}
		left(t, filepath.Dir(path), "text.json")
	}
	if err := put("first"); err != nil {
		t.Fatal(err)
	}
	reader, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	want := "second"
	if err := put(want); err != nil {
		if runtime.GOOS != "windows" {
			t.Fatal(err)
		}
		want = "first"
	}
	is(want)
	if got, err := io.ReadAll(reader); err != nil || string(got) != "first" {
		t.Errorf("who read it before reads %q, %v", got, err)
	}
	reader.Close()
	if err := put("third"); err != nil {
		t.Fatal(err)
	}
	is("third")
	if err := Replace(path, func(io.Writer) error { return errors.New("no more") }); err == nil {
		t.Error("no error of what fills it")
	}
	is("third")
}
