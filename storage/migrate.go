package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"

	"github.com/mattn/go-sqlite3"
)

// migrate brings a database from schema version from to the newest, each step
// in one transaction with its user_version.
func migrate(db *sql.DB, from int) error { return migrateTo(db, from, len(migrations)) }

// migrateTo is migrate to another version.
func migrateTo(db *sql.DB, from, to int) error {
	if from == to {
		return nil
	}
	return whileMigrating(db, func(ctx context.Context, conn *sql.Conn) error {
		for v := from; v < to; v++ {
			if err := migrateStep(ctx, conn, v); err != nil {
				return fmt.Errorf("migrate: step %d: %w", v+1, err)
			}
		}
		return nil
	})
}

// whileMigrating runs do on a connection that may lay tables anew: references
// are checked at the end of each step instead of in its midst.
func whileMigrating(db *sql.DB, do func(ctx context.Context, conn *sql.Conn) error) (err error) {
	ctx := context.Background()
	conn, err := db.Conn(ctx)
	if err != nil {
		return fmt.Errorf("migrate: %w", err)
	}
	defer conn.Close()
	set := func(foreignKeys string, by func(int, string, string, string) int) error {
		if _, err := conn.ExecContext(ctx, "PRAGMA foreign_keys = "+foreignKeys); err != nil {
			return fmt.Errorf("migrate: %w", err)
		}
		return conn.Raw(func(c any) error {
			c.(*sqlite3.SQLiteConn).RegisterAuthorizer(by)
			return nil
		})
	}
	defer func() { err = errors.Join(err, set("ON", authorize)) }()
	if err := set("OFF", authorizeMigration); err != nil {
		return err
	}
	return do(ctx, conn)
}

// migrateStep brings a database from schema version v to v+1, or leaves it.
func migrateStep(ctx context.Context, conn *sql.Conn, v int) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // which does nothing after a commit
	if _, err := tx.Exec(migrations[v]); err != nil {
		return err
	}
	if work := migrationWork[v+1]; work != nil {
		if err := work(tx); err != nil {
			return err
		}
	}
	var lost int
	if err := tx.QueryRow("SELECT count(*) FROM pragma_foreign_key_check").Scan(&lost); err != nil {
		return err
	}
	if lost > 0 {
		return fmt.Errorf("%w: %d rows refer to a row that isn't there", ErrDamaged, lost)
	}
	if _, err := tx.Exec(fmt.Sprintf("PRAGMA user_version = %d", v+1)); err != nil {
		return err
	}
	return tx.Commit()
}

// schemaEntry is one entry of a schema.
type schemaEntry struct{ kind, name, table, sql string }

// statistics are tables that SQLite's ANALYZE makes in any file.
var statistics = map[schemaEntry]bool{
	{"table", "sqlite_stat1", "sqlite_stat1", "CREATE TABLE sqlite_stat1(tbl,idx,stat)"}:                true,
	{"table", "sqlite_stat4", "sqlite_stat4", "CREATE TABLE sqlite_stat4(tbl,idx,neq,nlt,ndlt,sample)"}: true,
}

// contextQuerier is a database, or one connection to it.
type contextQuerier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

// readSchema counts what a database defines. Names that begin with "sqlite_"
// are no exception: in a hostile file anything may stand behind them.
func readSchema(ctx context.Context, db contextQuerier) (map[schemaEntry]int, error) {
	rows, err := db.QueryContext(ctx, "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	out := map[schemaEntry]int{}
	for rows.Next() {
		var t schemaEntry
		if err := rows.Scan(&t.kind, &t.name, &t.table, &t.sql); err != nil {
			return nil, err
		}
		if !statistics[t] {
			out[t]++
		}
	}
	return out, rows.Err()
}

var (
	schemasOnce sync.Once
	schemas     []map[schemaEntry]int // by version; [0] is empty
	schemasErr  error
)

// schemaOf is the schema that a file of that version has, read off a database
// in memory that took the same migrations.
func schemaOf(version int) (map[schemaEntry]int, error) {
	schemasOnce.Do(func() { schemas, schemasErr = readSchemas() })
	if schemasErr != nil {
		return nil, schemasErr
	}
	return schemas[version], nil
}

// readSchemas reads the schema of each version.
func readSchemas() (out []map[schemaEntry]int, err error) {
	db, err := sql.Open(driverName, ":memory:")
	if err != nil {
		return nil, err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	err = whileMigrating(db, func(ctx context.Context, conn *sql.Conn) error {
		for v := 0; ; v++ {
			s, err := readSchema(ctx, conn)
			if err != nil {
				return err
			}
			if out = append(out, s); v == len(migrations) {
				return nil
			}
			if err := migrateStep(ctx, conn, v); err != nil {
				return err
			}
		}
	})
	return out, err
}

// checkSchema asks that the database defines exactly what a file of that
// version does: a trigger, a view, or a table of another form is refused. Its
// header says that it is one of ours, so the difference is damage.
func checkSchema(db *sql.DB, version int) error {
	if version < 1 {
		return fmt.Errorf("%w: it has no schema version", ErrDamaged)
	}
	want, err := schemaOf(version)
	if err != nil {
		return err
	}
	got, err := readSchema(context.Background(), db)
	if err != nil {
		return err
	}
	for t, n := range got {
		if n > 1 || want[t] == 0 {
			return fmt.Errorf("%w: its table of contents has another %s %q than a project file", ErrDamaged, t.kind, t.name)
		}
	}
	for t := range want {
		if got[t] == 0 {
			return fmt.Errorf("%w: its table of contents lacks the %s %q", ErrDamaged, t.kind, t.name)
		}
	}
	return nil
}
