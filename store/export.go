package store

import (
	"bufio"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"
)

// yesNo are the columns whose 0 and 1 mean no and yes.
var yesNo = map[string]bool{
	"captain": true, "class_plus": true, "long_blocks": true, "has_competed": true, "public_ok": true,
	"entered": true, "result_entered": true, "missed": true, "pending": true, "private": true, "women_shorter": true, "changes": true,
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
			if err := t.exportTable(out, name); err != nil {
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

// exportTable writes the rows of one table, in the order of its primary key.
func (t *Tx) exportTable(out *bufio.Writer, table string) error {
	rows, err := t.tx.QueryContext(t.ctx, `SELECT * FROM "`+table+`"`)
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
