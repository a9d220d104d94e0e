package storage

import (
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline"
)

// Salvage reads what can be read of the damaged project file at path, each
// table by a scan of its own, and writes it to a new file at to, which keeps
// all rules of a project. The damaged file is not written to. Numbers, order
// and uids of what is saved stay. Where ctx ends before, no new file is made.
//
// A file whose first bytes or table of contents are damaged can't be read so;
// the error wraps ErrDamaged then.
func Salvage(ctx context.Context, path, to string) (*Salvaged, error) {
	v, err := salvageTo(ctx, path, to)
	if err != nil {
		return nil, fmt.Errorf("salvage %s: %w", path, describe(err))
	}
	return &v.out, nil
}

func salvageTo(ctx context.Context, path, to string) (*salvage, error) {
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return nil, err
	}
	folder, err := tempFolder(filepath.Dir(to))
	if err != nil {
		return nil, withoutPath(err)
	}
	defer dropTemp(folder)
	v := &salvage{ctx: ctx, failed: map[string]bool{}, names: map[string]map[int64]knownName{}, suspect: map[int64]map[string]bool{}}
	if err := v.open(real, folder); err != nil {
		return nil, err
	}
	defer v.from.Close()
	if err := create(to, v.write); err != nil {
		return nil, err
	}
	v.compare(path, to)
	return v, ctx.Err()
}

// salvage is the way of what can be read into a new file.
type salvage struct {
	ctx     context.Context
	from    *sql.DB // a private copy of the damaged file
	version int     // of its schema
	size    int64   // bytes of the damaged file
	whole   map[string]bool
	tx      *sql.Tx // of the new file

	kids    []string                       // the tables whose rows hang on a setup
	failed  map[string]bool                // the tables that failed their check
	names   map[string]map[int64]knownName // what the indexes tell, by table and number
	suspect map[int64]map[string]bool      // setups, and the tables in which they may have lost rows
	rules   timeline.Ruleset
	letters []place // rows whose texts had bytes that are no UTF-8
	out     Salvaged
}

func (v *salvage) lose(format string, args ...any) {
	v.out.Lost = append(v.out.Lost, fmt.Sprintf(format, args...))
}

func (v *salvage) fail(format string, args ...any) {
	v.out.Failed = append(v.out.Failed, fmt.Sprintf(format, args...))
}

// open opens a private copy of the file at path, in folder: the damaged file
// is not touched, not even to take an edit back that was broken off.
func (v *salvage) open(path, folder string) error {
	k, err := register(path)
	if err != nil {
		return err
	}
	defer k.release()
	copied := filepath.Join(folder, "damaged"+Ext)
	if err := copyFile(v.ctx, path, copied); err != nil {
		return err
	}
	if err := copyFile(v.ctx, path+"-journal", copied+"-journal"); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	if v.size, err = cutOff(copied); err != nil {
		return err
	}
	if v.from, err = openDB(copied, "rw"); err != nil {
		return err
	}
	if err := v.contents(); err != nil {
		v.from.Close()
		return err
	}
	return nil
}

// cutOff puts the number of pages that are there into the header of a file that
// was cut off, which SQLite refuses whole otherwise. It returns the file's size
// in bytes.
func cutOff(path string) (int64, error) {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	var b [100]byte
	if _, err := f.ReadAt(b[:], 0); err != nil {
		return 0, err
	}
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	page := int64(binary.BigEndian.Uint16(b[16:]))
	if page == 1 {
		page = 65536
	}
	if page > 0 && page*int64(binary.BigEndian.Uint32(b[28:])) > info.Size() {
		_, err = f.WriteAt(binary.BigEndian.AppendUint32(nil, uint32(info.Size()/page)), 28)
	}
	return info.Size(), err
}

// contents finds the schema version that the table of contents fits best, and
// the tables that it defines as that version does: only these are read.
func (v *salvage) contents() error {
	got, err := readSchema(v.ctx, v.from)
	if err != nil {
		return fmt.Errorf("%w: its table of contents can't be read: %w", ErrDamaged, err)
	}
	best := 0 // tables that are as they should be, without those that aren't
	for version := len(migrations); version > 0; version-- {
		want, err := schemaOf(version)
		if err != nil {
			return err
		}
		whole, fits := map[string]bool{}, 0
		for t := range want {
			if t.kind == "table" && got[t] == 1 && !twice(got, t) {
				whole[t.name] = true
				fits++
			} else if t.kind == "table" {
				fits--
			}
		}
		if len(whole) > 0 && (v.version == 0 || fits > best) {
			v.version, v.whole, best = version, whole, fits
		}
	}
	if v.version == 0 {
		return fmt.Errorf("%w: its table of contents tells of no table", ErrDamaged)
	}
	return nil
}

// twice reports whether a schema has something else of that name.
func twice(schema map[schemaEntry]int, t schemaEntry) bool {
	for other := range schema {
		if other.name == t.name && other != t {
			return true
		}
	}
	return false
}

// write makes the new file: first what can be read, as it is, in the schema
// that it has; then the newest schema; then what breaks a rule of the project
// is taken out. It never grows to more than some times the size of the damaged
// file, whose pages may be used many times each.
func (v *salvage) write(beside string) error {
	db, err := openDB(beside, "rw")
	if err != nil {
		return err
	}
	defer db.Close()
	if err := v.prepare(db); err != nil {
		return err
	}
	if err := v.inTx(db, v.read); err != nil {
		return err
	}
	if err := migrate(db, v.version); err != nil {
		return err
	}
	if err := v.inTx(db, v.keepRules); err != nil {
		return err
	}
	if err := db.Close(); err != nil {
		return err
	}
	found, err := Check(v.ctx, beside)
	if err == nil && len(found) > 0 {
		err = fmt.Errorf("what was saved breaks a rule: %s", strings.Join(found, "; "))
	}
	return err
}

// bound is how many pages the new file may have: some times as many as the
// damaged one, as its rows are laid anew, and leastBound.
func (v *salvage) bound() int64 { return 4*v.size/4096 + leastBound }

// leastBound is as many pages as a file of little takes in every schema; a
// test makes it less.
var leastBound int64 = 1000

func (v *salvage) prepare(db *sql.DB) error {
	if _, err := db.Exec(fmt.Sprintf("PRAGMA synchronous = OFF; PRAGMA application_id = %d", applicationID)); err != nil { // nobody has the file yet; create syncs it
		return err
	}
	if err := migrateTo(db, 0, v.version); err != nil {
		return err
	}
	_, err := db.Exec(fmt.Sprintf("PRAGMA max_page_count = %d; PRAGMA foreign_keys = OFF", v.bound()))
	return err
}

// inTx runs do in a transaction of the new file.
func (v *salvage) inTx(db *sql.DB, do func() error) (err error) {
	if v.tx, err = db.Begin(); err != nil {
		return err
	}
	defer v.tx.Rollback() // after a commit it does nothing
	if _, err = v.tx.Exec("PRAGMA defer_foreign_keys = ON"); err == nil {
		err = do()
	}
	if err == nil {
		err = v.ctx.Err()
	}
	if err == nil {
		err = v.tx.Commit()
	}
	if full := (sqlite3.Error{}); errors.As(err, &full) && full.Code == sqlite3.ErrFull {
		return fmt.Errorf("the disk is full, or its rows take more than %d MiB, as only pages do that are used many times", v.bound()*4096>>20)
	}
	return err
}

// read copies every table, and drops what refers to rows that are lost.
func (v *salvage) read() error {
	tables, err := v.tables()
	if err != nil {
		return err
	}
	wrong, err := brokenPages(v.ctx, v.from, mostFound)
	if err != nil {
		wrong = append(wrong, describe(err).Error())
	}
	failed := len(v.out.Failed)
	for _, t := range tables {
		if err := v.scanTable(t); err != nil {
			return err
		}
	}
	if failed == len(v.out.Failed) && len(wrong) > 0 {
		v.fail("the file as a whole failed its check: %s", wrong[0])
	}
	if err := v.lostFighters(); err != nil {
		return err
	}
	if err := v.gaps(); err != nil {
		return err
	}
	if err := v.references(); err != nil {
		return err
	}
	return v.history()
}

// tables are those of the schema, with what others refer to first.
func (v *salvage) tables() ([]string, error) {
	want, err := schemaOf(v.version)
	if err != nil {
		return nil, err
	}
	all := map[string]bool{}
	for t := range want {
		if t.kind == "table" {
			all[t.name] = true
		}
	}
	var out []string
	for _, t := range strings.Fields("ruleset fighter move jump rise route setup list revision") {
		if all[t] {
			out = append(out, t)
			delete(all, t)
		}
	}
	return append(out, slices.Sorted(maps.Keys(all))...), nil
}
