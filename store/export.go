package store

import (
	"bufio"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"blockbell/planner"
)

// yesNo are the columns whose 0 and 1 mean no and yes.
var yesNo = map[string]bool{
	"captain": true, "class_plus": true, "long_blocks": true, "has_competed": true, "public_ok": true,
	"entered": true, "result_entered": true, "missed": true, "pending": true, "private": true, "women_shorter": true, "changes": true,
	"cautious": true, "supervised": true, "lifts_told": true, "by_gone": true,
}

// Export writes everything in the database as one JSON object: each table's name
// with a list of its rows. Instants are RFC 3339, days ISO 8601, masses
// kilograms. It reads one snapshot and needs no lock.
func (s *Store) Export(ctx context.Context, to io.Writer) error {
	out := bufio.NewWriter(to)
	err := s.View(ctx, func(t *Tx) error {
		tables, err := t.tables()
		if err != nil {
			return err
		}
		out.WriteString("{")
		for i, name := range tables {
			if i > 0 {
				out.WriteString(",")
			}
			fmt.Fprintf(out, "\n%q: [", name)
			if err := t.exportTable(out, name, ""); err != nil {
				return fmt.Errorf("export %s: %w", name, err)
			}
			out.WriteString("]")
		}
		out.WriteString("\n}\n")
		return nil
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

// tables lists the program's own tables by name.
func (t *Tx) tables() ([]string, error) {
	rows, err := t.tx.QueryContext(t.ctx, `SELECT name FROM sqlite_schema WHERE type = 'table'
		AND name NOT LIKE 'sqlite\_%' ESCAPE '\' AND name <> 'goose_db_version' ORDER BY name`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var names []string
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, err
		}
		names = append(names, name)
	}
	return names, rows.Err()
}

// ExportLifter writes everything kept about one lifter, as Export does: the
// lifter's own row, and the rows of every table that names a lifter, but for the
// tables left out.
func (t *Tx) ExportLifter(to io.Writer, id planner.LifterID, without ...string) error {
	tables, err := t.tables()
	if err != nil {
		return err
	}
	out := bufio.NewWriter(to)
	out.WriteString("{")
	first := true
	for _, name := range tables {
		column, err := t.lifterColumn(name)
		if err != nil {
			return err
		}
		if column == "" || slices.Contains(without, name) {
			continue
		}
		where := `WHERE "` + column + `" = ?`
		if column == "meet_id" {
			where = `WHERE meet_id IN (SELECT id FROM meets WHERE lifter_id = ?)`
		}
		if !first {
			out.WriteString(",")
		}
		first = false
		fmt.Fprintf(out, "\n%q: [", name)
		if err := t.exportTable(out, name, where, int64(id)); err != nil {
			return fmt.Errorf("export %s: %w", name, err)
		}
		out.WriteString("]")
	}
	out.WriteString("\n}\n")
	return out.Flush()
}

// lifterColumn is the column by which a table says whose a row is; empty where it
// does not. meet_id says it by the meet.
func (t *Tx) lifterColumn(table string) (string, error) {
	switch table {
	case "lifters":
		return "id", nil
	case "meet_roster", "meet_reviews": // of the lifter's own meets
		return "meet_id", nil
	case "watch": // when the program looks again, which says nothing about anybody
		return "", nil
	}
	var n int
	err := t.tx.QueryRowContext(t.ctx, `SELECT count(*) FROM pragma_table_info(?) WHERE name = 'lifter_id'`, table).Scan(&n)
	if err != nil || n == 0 {
		return "", err
	}
	return "lifter_id", nil
}

// exportTable writes the rows of one table that a condition picks, in the order of
// its primary key.
func (t *Tx) exportTable(out *bufio.Writer, table, where string, args ...any) error {
	rows, err := t.tx.QueryContext(t.ctx, `SELECT * FROM "`+table+`" `+where, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		return err
	}
	for first := true; rows.Next(); first = false {
		if !first {
			out.WriteString(",")
		}
		if err := exportRow(out, rows, columns); err != nil {
			return err
		}
	}
	return rows.Err()
}

// exportRow writes one row as an object with the columns in their own order.
func exportRow(out *bufio.Writer, rows *sql.Rows, columns []string) error {
	values := make([]any, len(columns))
	into := make([]any, len(columns))
	for i := range values {
		into[i] = &values[i]
	}
	if err := rows.Scan(into...); err != nil {
		return err
	}
	out.WriteString("\n{")
	for i, column := range columns {
		name, value := readable(column, values[i])
		text, err := json.Marshal(value)
		if err != nil {
			return fmt.Errorf("column %s: %w", column, err)
		}
		if i > 0 {
			out.WriteString(", ")
		}
		fmt.Fprintf(out, "%q: %s", name, text)
	}
	_, err := out.WriteString("}")
	return err
}

// readable turns a column of the database into a name and a value that a person
// can read. The endings are the schema's conventions.
func readable(column string, value any) (string, any) {
	if name, ok := strings.CutSuffix(column, "_ms"); ok {
		if ms, ok := value.(int64); ok {
			return name, time.UnixMilli(ms).UTC().Format(time.RFC3339Nano)
		}
		return name, value
	}
	if name, ok := strings.CutSuffix(column, "_g"); ok {
		if g, ok := value.(int64); ok {
			return name + "_kg", float64(g) / 1000
		}
		return name + "_kg", value
	}
	if name, ok := strings.CutSuffix(column, "_json"); ok {
		if text, ok := value.(string); ok {
			return name, json.RawMessage(strings.ToValidUTF8(text, "\uFFFD"))
		}
		return name, value
	}
	if n, ok := value.(int64); ok && yesNo[column] {
		return column, n != 0
	}
	return column, value
}
