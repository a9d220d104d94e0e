package storage

import (
	"context"
	"database/sql"
	"encoding/binary"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// rescue reads a damaged database, and no further than it can be read.
type rescue struct {
	ctx context.Context // once it ends, nothing more is read
	db  *sql.DB
}

// mostProbes bounds how often a table is asked round its damage, and
// mostFruitless how often in a row it is read on from there without a row.
const (
	mostProbes    = 50_000
	mostFruitless = 1000
)

// openRescue opens a private copy of the file at path, in folder: the damaged
// file itself is not touched, not even to take an edit back that was broken
// off.
func openRescue(ctx context.Context, path, folder string) (*rescue, error) {
	k, err := meet(path)
	if err != nil {
		return nil, err
	}
	defer k.leave()
	copied := filepath.Join(folder, "damaged"+Ext)
	if err := copyFile(ctx, path, copied); err != nil {
		return nil, err
	}
	if err := copyFile(ctx, path+"-journal", copied+"-journal"); err != nil && !os.IsNotExist(err) {
		return nil, err
	}
	if err := lengthen(copied); err != nil {
		return nil, err
	}
	r, err := readable(ctx, copied)
	if err == nil || ctx.Err() != nil {
		return r, err
	}
	best := (len(columns) + len(kids)) / 2 // a table of contents must fit more than a quarter of the tables
	for _, compacted := range []bool{false, true} {
		again := filepath.Join(folder, fmt.Sprintf("mended-%t%s", compacted, Ext))
		if copyFile(ctx, copied, again) != nil || mendContents(again, folder, compacted) != nil {
			continue
		}
		mended, failed := readable(ctx, again)
		if failed != nil {
			continue
		}
		if fits := 2 * mended.soundTables(); fits <= best {
			mended.db.Close()
			continue
		} else {
			best = fits
		}
		if r != nil {
			r.db.Close()
		}
		r, err = mended, nil
	}
	return r, err
}

// soundTables counts the tables in which SQLite finds nothing wrong.
func (r *rescue) soundTables() (n int) {
	for _, table := range append(slices.Sorted(maps.Keys(columns)), kidTables...) {
		if found, err := pragmaRows(r.ctx, r.db, "quick_check("+table+")"); err == nil && len(found) == 1 && found[0] == "ok" {
			n++
		}
	}
	return n
}

// readable opens the copy of a damaged file, where its table of contents can
// be read and fits.
func readable(ctx context.Context, path string) (*rescue, error) {
	db, err := openDB(path, "rw")
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(4) // what hangs on a row is read while rows are
	if err := prepareRescue(db); err != nil {
		db.Close()
		return nil, err
	}
	return &rescue{ctx, db}, nil
}

func prepareRescue(db *sql.DB) error {
	var version int
	if err := db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version > len(migrations) {
		return ErrNewer
	}
	if err := checkSchema(db, version); err != nil {
		return err
	}
	return migrate(db, version)
}

func copyFile(ctx context.Context, from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, untilDone{ctx, in}); err != nil {
		out.Close()
		return err
	}
	return out.Close()
}

// untilDone is a reader that fails once its context has ended.
type untilDone struct {
	ctx context.Context
	io.Reader
}

// Read implements io.Reader.
func (r untilDone) Read(b []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.Read(b)
}

// lengthen gives a file that was cut off the length that its header tells,
// with empty pages: SQLite refuses it whole otherwise.
func lengthen(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	var b [100]byte
	if _, err := f.ReadAt(b[:], 0); err != nil {
		return err
	}
	info, err := f.Stat()
	if err != nil {
		return err
	}
	page := int64(binary.BigEndian.Uint16(b[16:]))
	if page == 1 {
		page = 65536
	}
	const most = 8 << 30
	if want := page * int64(binary.BigEndian.Uint32(b[28:])); want > info.Size() && want <= most {
		return f.Truncate(want)
	}
	return nil
}

// span is a stretch of row numbers, both inclusive.
type span struct{ from, to int64 }

// rows calls do with every row of a table that can be read, in the order of
// their numbers, and returns where rows could not be read.
func (r *rescue) rows(table string, most int64, do func(id int64, r row)) []span {
	cols := append([]string{"id"}, columns[table]...)
	if last, err := numbers(r.db, "SELECT id FROM "+table+" NOT INDEXED ORDER BY id DESC LIMIT 1"); err == nil && len(last) > 0 {
		most = max(most, last[0])
	}
	query := "SELECT " + strings.Join(cols, ", ") + " FROM " + table + " NOT INDEXED WHERE id BETWEEN ? AND ? ORDER BY id"
	return r.walk(most, func(from, to int64) (last int64, err error) {
		last = from - 1
		rows, err := r.db.Query(query, from, to)
		if err != nil {
			return last, err
		}
		defer rows.Close()
		for rows.Next() {
			got, err := scanRow(rows, cols)
			if err != nil {
				return last, err
			}
			id, ok := got["id"].(int64)
			if !ok || id <= last {
				return last, fmt.Errorf("%w: its rows are out of order", ErrDamaged)
			}
			if err := r.ctx.Err(); err != nil {
				return last, err
			}
			last = id
			delete(got, "id")
			do(id, got)
		}
		return last, rows.Err()
	})
}

// walk has read go through all row numbers. Where it fails, it looks further on
// by ever longer strides for a number that can be read, and then back for the
// first such, which is where the damaged page ends. most is a number that is
// known to be in use.
func (r *rescue) walk(most int64, read func(from, to int64) (last int64, err error)) (bad []span) {
	probes, fruitless := 0, 0
	fails := func(id int64) bool {
		probes++
		_, err := read(id, id)
		return err != nil
	}
	limit := min(max(most, 1<<32), 1<<60)
	for from := int64(1); ; {
		last, err := read(from, math.MaxInt64)
		if err == nil || r.ctx.Err() != nil {
			return bad
		}
		if fruitless++; last >= from {
			from, fruitless = last+1, 0
		}
		if fruitless > mostFruitless {
			return append(bad, span{from, math.MaxInt64})
		}
		stride := int64(1)
		for fails(from + stride) {
			stride += max(1, stride/8)
			if from+stride > limit || probes > mostProbes {
				return append(bad, span{from, math.MaxInt64})
			}
		}
		lost, found := from, from+stride
		for found-lost > 1 {
			if middle := lost + (found-lost)/2; fails(middle) {
				lost = middle
			} else {
				found = middle
			}
		}
		bad = append(bad, span{from, lost})
		from = found
	}
}

// knownName is what the index of a table's names tells of a row.
type knownName struct {
	owner int64
	name  string
}

// names reads the names of a table's rows from their index, which may be whole
// where the table isn't. all is false where it can't be read through.
func (r *rescue) names(table string) (names map[int64]knownName, most int64, all bool) {
	owner := "0"
	if table == "move" || table == "jump" || table == "rise" {
		owner = "fighter"
	}
	names, all = map[int64]knownName{}, true
	order := "fighter, name"
	if owner == "0" {
		order = "name"
	}
	for _, down := range []string{"", " DESC"} {
		by := strings.ReplaceAll(order, ",", down+",") + down
		rows, err := r.db.Query("SELECT id, " + owner + ", name FROM " + table + " INDEXED BY sqlite_autoindex_" + table + "_2 ORDER BY " + by)
		if err != nil {
			return names, most, false
		}
		for rows.Next() {
			var id int64
			var k knownName
			if rows.Scan(&id, &k.owner, &k.name) != nil {
				continue
			}
			names[id] = k
			most = max(most, id)
		}
		err = rows.Err()
		rows.Close()
		if err == nil {
			return names, most, all
		}
		all = false // read it from the other end too
	}
	return names, most, all
}

// kids reads the rows that hang on a setup.
func (r *rescue) kids(table string, setup int64) (out []row, err error) {
	rows, err := r.db.Query(statementsOf[table].sel, setup)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		got, err := scanRow(rows, kids[table])
		if err != nil {
			return nil, err
		}
		out = append(out, got)
	}
	return out, rows.Err()
}
