package column

import (
	"database/sql/driver"
	"encoding/json"
	"fmt"

	"blockbell/planner"
)

// JSON is JSON text. An empty value is written as null, so that the column is
// always valid.
type JSON json.RawMessage

// Value writes text: a BLOB would be refused by a strict table.
func (j JSON) Value() (driver.Value, error) {
	if len(j) == 0 {
		return "null", nil
	}
	return string(j), nil
}

// Scan reads text; the word null becomes an empty value again.
func (j *JSON) Scan(value any) error {
	v, ok := value.(string)
	if !ok {
		return fmt.Errorf("JSON is text, not %T", value)
	}
	if v == "null" {
		*j = nil
		return nil
	}
	*j = JSON(v)
	return nil
}

// Raw returns the JSON as the standard library's type.
func (j JSON) Raw() json.RawMessage { return json.RawMessage(j) }

// Lifter is a reference to a lifter that may be absent: 0 is NULL.
type Lifter planner.LifterID

// ID returns the reference in the program's vocabulary.
func (l Lifter) ID() planner.LifterID { return planner.LifterID(l) }

// Value writes the number, NULL for 0.
func (l Lifter) Value() (driver.Value, error) { return reference(int64(l)) }

// Scan reads a number or NULL.
func (l *Lifter) Scan(value any) error {
	n, err := number(value)
	*l = Lifter(n)
	return err
}

// Meet is a reference to a meet that may be absent: 0 is NULL.
type Meet planner.MeetID

// ID returns the reference in the program's vocabulary.
func (m Meet) ID() planner.MeetID { return planner.MeetID(m) }

// Value writes the number, NULL for 0.
func (m Meet) Value() (driver.Value, error) { return reference(int64(m)) }

// Scan reads a number or NULL.
func (m *Meet) Scan(value any) error {
	n, err := number(value)
	*m = Meet(n)
	return err
}

// Text is text that may be absent: the empty string is NULL.
type Text string

// Value writes the text, NULL where it is empty.
func (t Text) Value() (driver.Value, error) {
	if t == "" {
		return nil, nil
	}
	return string(t), nil
}

// Scan reads text or NULL.
func (t *Text) Scan(value any) error {
	switch v := value.(type) {
	case nil:
		*t = ""
		return nil
	case string:
		*t = Text(v)
		return nil
	}
	return fmt.Errorf("text expected, not %T", value)
}

// reference turns 0 into NULL.
func reference(id int64) (driver.Value, error) {
	if id == 0 {
		return nil, nil
	}
	return id, nil
}

// number reads an INTEGER column in which NULL means 0.
func number(value any) (int64, error) {
	switch v := value.(type) {
	case nil:
		return 0, nil
	case int64:
		return v, nil
	}
	return 0, fmt.Errorf("a reference is a whole number, not %T", value)
}
