package storage

import (
	"cmp"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline/words"
)

// mostProbes bounds how often a table is asked for what lies between two
// pages that can't be read.
const mostProbes = 4000

// key is the primary key of a row: a number, or a setup's and a place.
type key [2]int64

func (k key) compare(o key) int { return cmp.Or(cmp.Compare(k[0], o[0]), cmp.Compare(k[1], o[1])) }

// span is a stretch of row numbers, both inclusive.
type span struct{ from, to int64 }

// scan copies one table, in the order of its keys.
type scan struct {
	v      *salvage
	table  string
	cols   []string
	keys   []string // of cols: one, or two
	put    *sql.Stmt
	probes int

	read    int
	wrong   string // what is wrong with the table, the first of it
	holes   []span // of the first key column, where rows can't be read
	refused map[int64]error
}

// scanTable copies a table, and notes what of it is lost.
func (v *salvage) scanTable(table string) error {
	s := &scan{v: v, table: table, refused: map[int64]error{}}
	if !v.whole[table] {
		v.fail("%s: the table's definition is damaged", inWords(table))
		v.failed[table] = true
		if !v.alike(table) {
			v.lose("%s: none could be read", inWords(table))
			return nil
		}
	}
	rows, err := v.tx.Query("SELECT name, pk FROM pragma_table_info(?)", table)
	if err != nil {
		return err
	}
	defer rows.Close()
	at := map[int]string{}
	for rows.Next() {
		var name string
		var pk int
		if err := rows.Scan(&name, &pk); err != nil {
			return err
		}
		s.cols = append(s.cols, name)
		at[pk] = name
	}
	if err := rows.Err(); err != nil {
		return err
	}
	s.keys = []string{at[1]}
	if at[2] != "" {
		s.keys = append(s.keys, at[2])
		if at[1] == "setup" {
			v.kids = append(v.kids, table)
		}
	}
	if s.put, err = v.tx.Prepare("INSERT INTO " + table + " (" + strings.Join(s.cols, ", ") + ") VALUES (?" + strings.Repeat(", ?", len(s.cols)-1) + ")"); err != nil {
		return err
	}
	defer s.put.Close()
	if found, err := integrityRows(v.ctx, v.from, "integrity_check("+table+")"); err != nil {
		s.wrong = describe(err).Error()
	} else if len(found) > 0 {
		s.wrong = found[0]
	}
	if err := s.everything(); err != nil {
		return err
	}
	return s.report()
}

// alike reports whether a table whose definition is damaged can be read all
// the same: it is a plain table with the columns that it should have, so that
// the damage is in what only matters to who writes.
func (v *salvage) alike(table string) bool {
	form := func(q querier) (out []string) {
		rows, err := q.Query("SELECT l.type || l.wr || ' ' || x.name || ' ' || x.type || ' ' || x.pk || x.hidden FROM pragma_table_list(?1) l, pragma_table_xinfo(?1) x", table)
		if err != nil {
			return nil
		}
		defer rows.Close()
		for rows.Next() {
			var line string
			if rows.Scan(&line) != nil {
				return nil
			}
			out = append(out, line)
		}
		return out
	}
	want := form(v.tx)
	return len(want) > 0 && slices.Equal(form(v.from), want)
}

// everything reads the table from its beginning, from its end where that comes
// to a page that can't be read, and then what lies between.
func (s *scan) everything() error {
	up, n, err := s.run(math.MinInt64, math.MaxInt64, false, key{math.MaxInt64, math.MaxInt64})
	if err == nil || s.fatal(err) {
		return s.only(err)
	}
	s.wrong = cmp.Or(s.wrong, describe(err).Error())
	if n == 0 {
		up = key{0, -1}
	}
	down, n, err := s.run(up[0], math.MaxInt64, true, up)
	if s.fatal(err) {
		return err
	}
	if n == 0 {
		most, _, _ := s.v.indexed(s.table)
		down[0] = max(up[0]+1, most+1, s.v.lastSetup()+1)
	}
	return s.between(up[0], down[0])
}

// fatal reports whether an error is of the new file, or ends the work: not of
// the damaged one.
func (s *scan) fatal(err error) bool {
	return errors.As(err, new(writeError)) || s.v.ctx.Err() != nil
}

// only is err where it is fatal.
func (s *scan) only(err error) error {
	if s.fatal(err) {
		return cmp.Or(s.v.ctx.Err(), err)
	}
	return nil
}

// writeError is an error of the new file.
type writeError struct{ error }

func (e writeError) Unwrap() error { return e.error }

// between reads what can be read of the rows after lo and before hi, halving
// the stretch until each half can be read or is one row.
func (s *scan) between(lo, hi int64) error {
	if s.probes++; hi-lo <= 1 || s.probes > mostProbes {
		s.holes = append(s.holes, span{lo, hi})
		return nil
	}
	middle := lo + (hi-lo)/2
	last, n, err := s.run(middle, hi-1, false, key{math.MaxInt64, math.MaxInt64})
	if s.fatal(err) {
		return err
	}
	if err != nil {
		if n == 0 {
			last[0] = middle
		}
		if err := s.between(last[0], hi); err != nil {
			return err
		}
	}
	last, n, err = s.run(lo+1, middle-1, true, key{math.MinInt64, math.MinInt64})
	if s.fatal(err) {
		return err
	}
	if err != nil {
		if n == 0 {
			last[0] = middle
		}
		return s.between(lo, last[0])
	}
	return nil
}

// run reads rows whose first key is from from to to, upwards or downwards, as
// far as they can be read and up to the key until. It returns the last key and
// how many rows were read. Of rows that stand in the wrong order those are left
// out whose neighbours stand in the right one.
func (s *scan) run(from, to int64, down bool, until key) (last key, n int, err error) {
	order, way := " ASC", 1
	if down {
		order, way = " DESC", -1
	}
	rows, err := s.v.from.QueryContext(s.v.ctx, "SELECT "+strings.Join(s.cols, ", ")+" FROM "+s.table+" NOT INDEXED WHERE "+s.keys[0]+" BETWEEN ? AND ?"+
		" ORDER BY "+strings.Join(s.keys, order+", ")+order, from, to)
	if err != nil {
		return last, 0, err
	}
	defer rows.Close()
	var before, held *keyed
	for rows.Next() {
		next, err := s.scanRow(rows)
		if err != nil {
			return last, n, err
		}
		if way*next.key.compare(until) >= 0 {
			break
		}
		if held != nil && way*next.key.compare(held.key) <= 0 {
			s.wrong = cmp.Or(s.wrong, "its rows are out of order")
			s.holes = append(s.holes, span{min(held.key[0], next.key[0]), min(held.key[0], next.key[0])}, span{max(held.key[0], next.key[0]), max(held.key[0], next.key[0])})
			if before != nil && way*next.key.compare(before.key) <= 0 {
				continue
			}
			held = next
			continue
		}
		if held != nil {
			if err := s.keep(held); err != nil {
				return last, n, err
			}
			before = held
		}
		held = next
		last, n = next.key, n+1
	}
	err = rows.Err()
	if held != nil {
		if failed := s.keep(held); failed != nil {
			return last, n, failed
		}
	}
	return last, n, err
}

// keyed is a row of the damaged file.
type keyed struct {
	key    key
	values []any
}

func (s *scan) scanRow(rows *sql.Rows) (*keyed, error) {
	r := &keyed{values: make([]any, len(s.cols))}
	into := make([]any, len(s.cols))
	for i := range into {
		into[i] = &r.values[i]
	}
	if err := rows.Scan(into...); err != nil {
		return nil, err
	}
	for i, k := range s.keys {
		r.key[i], _ = r.values[slices.Index(s.cols, k)].(int64)
	}
	return r, nil
}

// keep writes a row into the new file. One that breaks a rule of its table is
// left out and noted.
func (s *scan) keep(r *keyed) error {
	s.read++
	uid := slices.Index(s.cols, "uid")
	for i, v := range r.values {
		if b, ok := v.([]byte); ok {
			r.values[i] = string(b)
		}
		if text, ok := r.values[i].(string); ok {
			if r.values[i] = strings.ToValidUTF8(text, "\uFFFD"); r.values[i] != text {
				s.v.damagedText(s.table, r.key[0])
			}
		}
	}
	if uid >= 0 && !isUID(r.values[uid]) {
		r.values[uid] = newUID()
	}
	_, err := s.put.Exec(r.values...)
	if broken := (sqlite3.Error{}); errors.As(err, &broken) && broken.ExtendedCode == sqlite3.ErrConstraintUnique && uid >= 0 {
		r.values[uid] = newUID()
		_, err = s.put.Exec(r.values...)
	}
	if broken := (sqlite3.Error{}); errors.As(err, &broken) && (broken.Code == sqlite3.ErrConstraint || broken.Code == sqlite3.ErrMismatch) {
		s.wrong = cmp.Or(s.wrong, err.Error())
		s.refused[r.key[0]] = err
		return nil
	}
	if err != nil {
		return writeError{err}
	}
	return nil
}

func isUID(v any) bool {
	text, ok := v.(string)
	return ok && len(text) == 36
}

// report notes what the scan has lost.
func (s *scan) report() error {
	v := s.v
	kid := len(s.keys) > 1 && s.keys[0] == "setup"
	refused := slices.Sorted(maps.Keys(s.refused))
	named := slices.Contains(s.cols, "name")
	for _, id := range refused {
		switch {
		case kid:
			v.doubt(id, s.table)
		case named:
			v.lose("%s %q: %v", oneOf(s.table), v.nameOf(s.table, id), s.refused[id])
		}
	}
	if len(refused) > 0 && !kid && !named {
		v.lose("%s: %v", countOf(len(refused), s.table), s.refused[refused[0]])
	}
	if s.wrong == "" {
		return nil
	}
	v.failed[s.table] = true
	v.fail("%s: the table failed its check (%s); %s of it could be read", inWords(s.table), s.wrong, words.Count(s.read, "row"))
	if kid {
		for _, h := range s.holes {
			setups, err := numbers(v.tx, "SELECT id FROM setup WHERE id BETWEEN ? AND ?", h.from, h.to)
			if err != nil {
				return err
			}
			for _, id := range setups {
				v.doubt(id, s.table)
			}
		}
		if len(s.holes)+len(s.refused) == 0 {
			v.lose("%s: any setup may lack some, as it isn't known where the damage is", inWords(s.table))
		}
		return nil
	}
	if named {
		return s.lostNames()
	}
	return nil
}

// lostNames tells, by the table's index, which rows weren't read, and which
// have another name there.
func (s *scan) lostNames() error {
	v := s.v
	_, names, all := v.indexed(s.table)
	v.names[s.table] = names
	lost := map[int64][]string{} // by owner
	for _, id := range slices.Sorted(maps.Keys(names)) {
		if s.refused[id] != nil {
			continue
		}
		var name string
		err := v.tx.QueryRow("SELECT name FROM "+s.table+" WHERE id = ?", id).Scan(&name)
		switch k := names[id]; {
		case err == sql.ErrNoRows:
			lost[k.owner] = append(lost[k.owner], k.name)
		case err != nil:
			return err
		case name != k.name:
			v.lose("%s %q: its index calls it %q, so one of the two names is damaged", oneOf(s.table), name, k.name)
		}
	}
	for _, owner := range slices.Sorted(maps.Keys(lost)) {
		of := ""
		if owner != 0 {
			of = fmt.Sprintf(" of %q", v.nameOf("fighter", owner))
		}
		for _, name := range lost[owner] {
			v.lose("%s %q%s: its row can't be read", oneOf(s.table), name, of)
		}
	}
	if !all && len(s.holes) > 0 {
		v.lose("%s whose names can't be read either", inWords(s.table))
	}
	return nil
}
