package sheet

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"strings"

	"blockbell/planner"
)

// Draft is what is kept of a file until the lifter decides: the cells of the
// columns that were recognised, and the choices made so far.
type Draft struct {
	Columns []Column     `json:"columns"`
	Ignored []string     `json:"ignored"` // names of columns that were not read
	Unit    planner.Unit `json:"unit"`    // of weights without one; empty: the lifter's
	Order   Order        `json:"order"`   // empty: not clear, has to be chosen
	Unknown bool         `json:"unknown"` // lifts that are not known are taken too
	Rows    []Row        `json:"rows"`
}

// Row is one row: its line in the file and the cells in the order of
// Draft.Columns.
type Row struct {
	Line  int      `json:"l"`
	Cells []string `json:"c"`
}

// longestCell bounds what is kept of one cell; what is longer cannot be one of the
// fields.
const longestCell = 60

// Open reads a file and finds out which column is which; named are columns that
// the lifter named, usually none. The error says what is missing.
func Open(data []byte, named map[Field]string) (*Draft, error) {
	all, err := records(data)
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		return nil, planner.Errorf(planner.Invalid, "Send a table with a first row that names its columns: date, lift, weight, reps.", "The file is empty")
	}
	l, err := layoutOf(all[0].cells, named)
	if err != nil {
		return nil, err
	}
	if err := l.swallowed(all); err != nil {
		return nil, err
	}
	d := &Draft{Columns: l.columns, Ignored: l.ignored, Unit: l.unit, Rows: make([]Row, 0, len(all)-1)}
	for _, r := range all[1:] {
		d.Rows = append(d.Rows, Row{r.line, l.pick(r.cells)})
	}
	d.Order = d.order()
	return d, nil
}

// pick keeps the cells of the columns that are read.
func (l layout) pick(cells []string) []string {
	kept := make([]string, len(l.columns))
	for i, c := range l.columns {
		if at := l.at[c.Field]; at < len(cells) {
			kept[i] = strings.TrimSpace(cells[at])
			if runes := []rune(kept[i]); len(kept[i]) > longestCell && len(runes) > longestCell {
				kept[i] = string(runes[:longestCell])
			}
		}
	}
	return kept
}

// cell returns a row's cell of a field, empty where the file has no such column.
func (d *Draft) cell(r Row, f Field) string {
	for i, c := range d.Columns {
		if c.Field == f {
			return r.Cells[i]
		}
	}
	return ""
}

// name returns the name of a field's column.
func (d *Draft) name(f Field) string {
	for _, c := range d.Columns {
		if c.Field == f {
			return c.Name
		}
	}
	return string(f)
}

// Pack makes bytes of a draft, to be kept.
func (d *Draft) Pack() ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestSpeed)
	if err != nil {
		return nil, err
	}
	if err := json.NewEncoder(z).Encode(d); err != nil {
		return nil, err
	}
	err = z.Close()
	return b.Bytes(), err
}

// Unpack is the inverse of Pack.
func Unpack(packed []byte) (*Draft, error) {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	raw, err := io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	d := &Draft{}
	return d, json.Unmarshal(raw, d)
}
