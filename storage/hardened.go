package storage

import (
	"database/sql"

	sqlite3 "github.com/mattn/go-sqlite3"
)

// driverName is SQLite with what a file from a stranger needs: see harden.
const driverName = "wakeline-sqlite3"

func init() { sql.Register(driverName, &sqlite3.SQLiteDriver{ConnectHook: harden}) }

// Limits on what a file may make SQLite take in; its own are far larger.
const (
	limitLength    = 64 << 20 // bytes of a text or a row
	limitSQLLength = 1 << 20
)

// harden follows SQLite's advice for files from others
// (sqlite.org/security.html, 1.2): no trust in the schema, cell sizes checked,
// no memory mapping, limits on lengths, and an authorizer that lets no SQL
// reach a function, pragma or statement that this package doesn't use. The
// driver has no call for SQLite's "defensive" switch; what that switch forbids
// (writable_schema, shadow tables, turning the journal off) the authorizer
// refuses.
func harden(c *sqlite3.SQLiteConn) error {
	for _, pragma := range []string{
		"trusted_schema = OFF", "cell_size_check = ON", "mmap_size = 0", "foreign_keys = ON",
		"synchronous = EXTRA", "secure_delete = OFF", "busy_timeout = 3000", "cache_size = -16000",
	} {
		if _, err := c.Exec("PRAGMA "+pragma, nil); err != nil {
			return err
		}
	}
	c.SetLimit(sqlite3.SQLITE_LIMIT_LENGTH, limitLength)
	c.SetLimit(sqlite3.SQLITE_LIMIT_SQL_LENGTH, limitSQLLength)
	c.SetLimit(sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH, 1)
	c.SetLimit(sqlite3.SQLITE_LIMIT_ATTACHED, 1) // for VACUUM
	c.RegisterAuthorizer(authorize)
	return nil
}

// authorizeMigration is authorize for a migration, which may lay the tables of
// moves and setups anew.
func authorizeMigration(op int, arg1, arg2, arg3 string) int {
	if op == sqlite3.SQLITE_DROP_TABLE && (arg1 == "move" || arg1 == "setup") {
		return sqlite3.SQLITE_OK
	}
	return authorize(op, arg1, arg2, arg3)
}

// authorize refuses the SQL that this package never speaks.
func authorize(op int, arg1, arg2, _ string) int {
	switch op {
	case sqlite3.SQLITE_CREATE_TRIGGER, sqlite3.SQLITE_CREATE_TEMP_TRIGGER, sqlite3.SQLITE_CREATE_VIEW,
		sqlite3.SQLITE_CREATE_TEMP_VIEW, sqlite3.SQLITE_CREATE_VTABLE, sqlite3.SQLITE_DROP_TABLE:
		return sqlite3.SQLITE_DENY
	case sqlite3.SQLITE_FUNCTION:
		if arg2 == "load_extension" {
			return sqlite3.SQLITE_DENY
		}
	case sqlite3.SQLITE_ATTACH:
		if arg1 != "" { // VACUUM attaches a file without a name
			return sqlite3.SQLITE_DENY
		}
	case sqlite3.SQLITE_PRAGMA:
		if arg2 == "" {
			break // it only asks
		}
		switch arg1 {
		case "writable_schema", "journal_mode", "trusted_schema", "ignore_check_constraints", "schema_version":
			return sqlite3.SQLITE_DENY
		}
	}
	return sqlite3.SQLITE_OK
}
