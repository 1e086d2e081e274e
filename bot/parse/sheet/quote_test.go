package sheet

import (
	"strings"
	"testing"

	"blockbell/planner"
)

func TestOpenQuoteIsNamedWithRowAndColumn(t *testing.T) {
	for name, c := range map[string]struct{ file, want string }{
		"to the end":     {"date,lift,weight,reps,notes\n2026-12-01,squat,140,5,\"felt good\n2026-12-02,squat,142.5,5,\n2026-12-03,squat,145,5,\n", "Row 2, notes: a quote is opened there and not closed before row 3"},
		"to the next":    {"date,lift,weight,reps,notes\n2026-12-01,squat,140,5,ok\n2026-12-02,squat,140,5,\"felt good\n2026-12-03,squat,142.5,5,\n2026-12-04,squat,145,5,\"fine\"\n", "Row 3, notes"},
		"in front":       {"date,lift,weight,reps\n\"2026-12-01,squat,140,5\n2026-12-02,squat,142.5,5\n", "Row 2, date"},
		"semicolons":     {"date;lift;weight;reps;notes\r\n2026-12-01;squat;140,5;5;\"felt good\r\n2026-12-02;squat;142,5;5;\r\n", "Row 2, notes"},
		"beyond columns": {"date,lift,weight,reps\n2026-12-01,squat,140,5,\"felt good\n2026-12-02,squat,142.5,5\n", "Row 2, column 5"},
	} {
		_, err := Open([]byte(c.file), nil)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestQuotedLinesThatAreNoRowsAreFine(t *testing.T) {
	for _, notes := range []string{"\"felt good,\nvery, very, very, good\"", "\"140x5, then\n\n3,2,1\"", "5\" box", "\"say \"\"hi\"\"\""} {
		d, err := Open([]byte("date,lift,weight,reps,notes\n2026-12-01,squat,140,5,"+notes+"\n2026-12-02,squat,142.5,5,\n"), nil)
		if err != nil {
			t.Errorf("%s: %v", notes, err)
			continue
		}
		r := d.Read(Options{Today: planner.NewDate(2027, 1, 4), Unit: planner.KG})
		if len(r.Sets) != 2 || len(r.Problems) != 0 {
			t.Errorf("%s: %+v", notes, r)
		}
	}
}

// A spreadsheet of the west of Europe: a mark in front, semicolons, decimal commas,
// the line ends of another system.
func TestSpreadsheetDress(t *testing.T) {
	d, err := Open([]byte("\ufeffDatum;Übung;Gewicht (kg);Wdh;RPE\r\n13.12.2026;Squat;142,5;5;8,5\r\n14.12.2026;Bench;\"92,5\";5;\r\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	r := d.Read(Options{Today: planner.NewDate(2027, 1, 4), Unit: planner.KG})
	if len(r.Sets) != 2 || r.Sets[0].Set.Weight != 142_500 || *r.Sets[0].Set.Reserve != 1.5 || r.Sets[1].Set.Weight != 92_500 || r.Sets[1].Line != 3 {
		t.Errorf("%+v", r)
	}
}

func TestTableWithoutNamesIsRefusedWithItsFirstRow(t *testing.T) {
	_, err := Open([]byte("2026-12-01,squat,140,5\n2026-12-02,squat,142.5,5\n"), nil)
	if err == nil || !strings.Contains(err.Error(), "no column for date, lift, weight, reps") || !strings.Contains(err.Error(), "2026-12-01, squat, 140, 5") {
		t.Errorf("%v", err)
	}
}
