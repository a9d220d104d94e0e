package storage

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// row is one row of a table: column name to int64, string or nil.
type row map[string]any

// image is a row with the rows that hang on it, as the history keeps it.
type image struct {
	Row  row              `json:"row"`
	Kids map[string][]row `json:"kids,omitempty"` // table to rows, in the order of place
}

// columns are the tables that edits may touch, with their columns but for id.
// The history of a file is read as untrusted: what isn't here is refused.
var columns = map[string][]string{
	"ruleset": stored("", rulesetFields),
	"fighter": stored("uid place", fighterFields),
	"move":    stored("uid fighter place", moveFields),
	"jump":    stored("uid fighter place", jumpFields),
	"rise":    stored("uid fighter place", riseFields),
	"route":   stored("uid fighter place", routeFields),
	"setup": strings.Fields(`uid place name attacker rival ender position advantage distance room delay jump attack press
		landing landing_move note own_replies on_hit pressure`),
	"list":     strings.Fields(`uid place name search`),
	"revision": strings.Fields(`uid name date note data`),
	"proof":    strings.Fields(`uid setup revision date result note`),
	"press":    strings.Fields(`uid date setup what late frames picture hand`),
	"answer":   strings.Fields(`uid date student setup kind was_right tries hints points`),
}

// kids are the tables whose rows hang on a row of another, with their columns
// but for that row's number and place.
var kids = map[string][]string{
	"filler":         strings.Fields("move jump"),
	"claimed_rise":   strings.Fields("rise"),
	"reply":          strings.Fields("move jump demand late costs"),
	"tag":            strings.Fields("name"),
	"punish":         strings.Fields("route"),
	"follow":         strings.Fields("move wait how"),
	"route_step":     strings.Fields("move how"),
	"standing_reply": strings.Fields("move jump demand late costs"),
}

// hangOn are the kids of each table, in a fixed order. The column of a kid that
// has the number of its row is called like that row's table.
var hangOn = map[string][]string{
	"setup":   strings.Fields("filler claimed_rise reply tag punish follow"),
	"route":   {"route_step"},
	"fighter": {"standing_reply"},
}

// hanging are the tables whose rows hang on a row of that table.
func hanging(table string) []string { return hangOn[table] }

// statements are the SQL texts for one table, made once. That which puts rows
// of kids ends before the values.
type statements struct{ sel, put, del string }

var statementsOf = func() map[string]statements {
	out := map[string]statements{}
	for table, cols := range columns {
		set := make([]string, len(cols))
		for i, c := range cols {
			set[i] = c + " = excluded." + c
		}
		out[table] = statements{
			sel: "SELECT " + strings.Join(cols, ", ") + " FROM " + table + " WHERE id = ?",
			put: "INSERT INTO " + table + " (id, " + strings.Join(cols, ", ") + ") VALUES (?" + strings.Repeat(", ?", len(cols)) +
				") ON CONFLICT (id) DO UPDATE SET " + strings.Join(set, ", "),
			del: "DELETE FROM " + table + " WHERE id = ?",
		}
	}
	for owner, tables := range hangOn {
		for _, table := range tables {
			cols := strings.Join(kids[table], ", ")
			out[table] = statements{
				sel: "SELECT " + cols + " FROM " + table + " WHERE " + owner + " = ? ORDER BY place",
				put: "INSERT INTO " + table + " (" + owner + ", place, " + cols + ") VALUES ",
				del: "DELETE FROM " + table + " WHERE " + owner + " = ?",
			}
		}
	}
	return out
}()

// scanRow reads the current row of rows, whose columns are cols.
func scanRow(rows *sql.Rows, cols []string) (row, error) {
	values := make([]any, len(cols))
	into := make([]any, len(cols))
	for i := range values {
		into[i] = &values[i]
	}
	if err := rows.Scan(into...); err != nil {
		return nil, err
	}
	r := make(row, len(cols))
	for i, c := range cols {
		if b, ok := values[i].([]byte); ok {
			values[i] = string(b)
		}
		if s, ok := values[i].(string); ok {
			if err := plainTexts("column "+c, s); err != nil {
				return nil, err
			}
		}
		r[c] = values[i]
	}
	return r, nil
}

// encode writes an image as JSON, its keys sorted; nil is NULL.
func (im *image) encode() (any, error) {
	if im == nil {
		return nil, nil
	}
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(im); err != nil {
		return nil, err
	}
	return strings.TrimSuffix(buf.String(), "\n"), nil
}

// decodeImage reads what encode wrote for that table, and refuses what is not
// of that form.
func decodeImage(table string, text sql.NullString) (*image, error) {
	if !text.Valid {
		return nil, nil
	}
	dec := json.NewDecoder(strings.NewReader(text.String))
	dec.UseNumber()
	dec.DisallowUnknownFields()
	im := &image{}
	if err := dec.Decode(im); err != nil {
		return nil, fmt.Errorf("history of %s: %w", table, err)
	}
	if err := im.Row.plain(table, columns[table]); err != nil {
		return nil, err
	}
	for kid, rows := range im.Kids {
		cols := kids[kid]
		if !slices.Contains(hanging(table), kid) {
			return nil, fmt.Errorf("history of %s: expected no rows of %q", table, kid)
		}
		for _, r := range rows {
			if err := r.plain(kid, cols); err != nil {
				return nil, err
			}
		}
	}
	return im, nil
}

// plain turns JSON numbers into int64 and asks for exactly the columns cols.
func (r row) plain(table string, cols []string) error {
	if len(r) != len(cols) {
		return fmt.Errorf("history of %s: expected %d columns, got %d", table, len(cols), len(r))
	}
	for _, c := range cols {
		v, ok := r[c]
		if !ok {
			return fmt.Errorf("history of %s: expected a column %s", table, c)
		}
		switch v := v.(type) {
		case nil, string:
		case json.Number:
			n, err := v.Int64()
			if err != nil {
				return fmt.Errorf("history of %s: column %s: %w", table, c, err)
			}
			r[c] = n
		default:
			return fmt.Errorf("history of %s: column %s: expected a text or a number", table, c)
		}
	}
	return nil
}

// values returns r's values in the order of cols.
func (r row) values(cols []string) []any {
	out := make([]any, len(cols))
	for i, c := range cols {
		out[i] = r[c]
	}
	return out
}
