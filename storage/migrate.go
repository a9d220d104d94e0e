package storage

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"sync"
)

// migrate brings a database from schema version from to the newest, each step
// in one transaction with its user_version.
func migrate(db *sql.DB, from int) error {
	for v := from; v < len(migrations); v++ {
		tx, err := db.Begin()
		if err != nil {
			return fmt.Errorf("migrate: step %d: %w", v+1, err)
		}
		if _, err = tx.Exec(migrations[v]); err == nil {
			_, err = tx.Exec(fmt.Sprintf("PRAGMA user_version = %d", v+1))
		}
		if err == nil {
			err = tx.Commit()
		}
		if err != nil {
			tx.Rollback()
			return fmt.Errorf("migrate: step %d: %w", v+1, err)
		}
	}
	return nil
}

// thing is one entry of a schema.
type thing struct{ kind, name, table, sql string }

// readSchema lists what a database defines, but for what SQLite makes itself.
func readSchema(db *sql.DB) (map[thing]bool, error) {
	rows, err := db.Query("SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite~_%' ESCAPE '~'")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	out := map[thing]bool{}
	for rows.Next() {
		var t thing
		if err := rows.Scan(&t.kind, &t.name, &t.table, &t.sql); err != nil {
			return nil, err
		}
		out[t] = true
	}
	return out, rows.Err()
}

var (
	schemasOnce sync.Once
	schemas     []map[thing]bool // by version; [0] is empty
	schemasErr  error
)

// schemaOf is the schema that a file of that version has, read off a database
// in memory that took the same migrations.
func schemaOf(version int) (map[thing]bool, error) {
	schemasOnce.Do(func() {
		db, err := sql.Open(driverName, ":memory:")
		if err != nil {
			schemasErr = err
			return
		}
		defer db.Close()
		db.SetMaxOpenConns(1)
		for v := 0; v <= len(migrations); v++ {
			if v > 0 {
				if _, schemasErr = db.ExecContext(context.Background(), migrations[v-1]); schemasErr != nil {
					return
				}
			}
			var s map[thing]bool
			if s, schemasErr = readSchema(db); schemasErr != nil {
				return
			}
			schemas = append(schemas, s)
		}
	})
	if schemasErr != nil {
		return nil, schemasErr
	}
	return schemas[version], nil
}

// checkSchema asks that the file defines exactly what a file of its version
// does: a trigger, a view, or a table of another form is refused.
func (f *File) checkSchema(version int) error {
	if version < 1 {
		return fmt.Errorf("%w: it has no schema version", ErrForeign)
	}
	want, err := schemaOf(version)
	if err != nil {
		return err
	}
	got, err := readSchema(f.db)
	if err != nil {
		return err
	}
	for t := range got {
		if !want[t] {
			return fmt.Errorf("%w: it defines a %s %q that no project file has", ErrForeign, t.kind, t.name)
		}
	}
	for t := range want {
		if !got[t] {
			return fmt.Errorf("%w: it lacks the %s %q", ErrForeign, t.kind, t.name)
		}
	}
	return nil
}

// quickCheck runs SQLite's own check of the pages.
func (f *File) quickCheck() error {
	found, err := pragmaRows(f.db, "quick_check(5)")
	if err != nil {
		return err
	}
	if len(found) != 1 || found[0] != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, strings.Join(found, "; "))
	}
	return nil
}

// pragmaRows returns the first column of each row that a pragma answers.
func pragmaRows(db *sql.DB, pragma string) ([]string, error) {
	rows, err := db.Query("PRAGMA " + pragma)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	cols, err := rows.Columns()
	if err != nil {
		return nil, err
	}
	var out []string
	for rows.Next() {
		r, err := scanRow(rows, cols)
		if err != nil {
			return nil, err
		}
		var parts []string
		for _, v := range r.values(cols) {
			parts = append(parts, fmt.Sprint(v))
		}
		out = append(out, strings.Join(parts, " "))
	}
	return out, rows.Err()
}
