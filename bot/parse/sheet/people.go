package sheet

import (
	"strconv"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// Person is one row of a table of lifters. What is empty was not told.
type Person struct {
	Line                   int
	Name                   string
	Category               planner.Category
	Class                  planner.Class
	Born                   planner.Date
	YearOnly               bool // only the year of birth was told; Born is its cautious end
	Level                  planner.Level
	Squat, Bench, Deadlift planner.Grams
	Meet                   string
	Date                   planner.Date // of the meet
	Closes                 planner.Date // the last day of its entry; 0: not told
	Group, Coach           string
}

// People is what a table of lifters says.
type People struct {
	Columns  []string // as they were understood, in the order of the table
	Ignored  []string // columns that nothing is read from, safe to show
	People   []Person
	Problems []Problem // rows that are left out, by what is wrong first
}

// MaxPeople is the most rows of a table of lifters.
const MaxPeople = 200

// PeopleColumns are the columns of a table that has no line of headings.
var PeopleColumns = []string{"name", "meet", "squat", "bench", "deadlift"}

// peopleHeadings are the names of columns of a table of lifters, in lower case.
var peopleHeadings = map[string]string{
	"name": "name", "lifter": "name", "who": "name", "nome": "name", "nombre": "name", "nom": "name",
	"meet": "meet", "competition": "meet", "event": "meet", "wettkampf": "meet",
	"date": "date", "meet date": "date", "day": "date", "datum": "date",
	"closes": "closes", "entry closes": "closes", "closing date": "closes", "entry by": "closes", "meldeschluss": "closes",
	"squat": "squat", "sq": "squat", "best squat": "squat", "kniebeuge": "squat",
	"bench": "bench", "bench press": "bench", "bp": "bench", "best bench": "bench", "bankdrücken": "bench",
	"deadlift": "deadlift", "dl": "deadlift", "best deadlift": "deadlift", "kreuzheben": "deadlift",
	"category": "category", "sex": "category", "gender": "category",
	"class": "class", "weight class": "class", "bodyweight class": "class",
	"born": "born", "year": "born", "birth year": "born", "year of birth": "born", "birthday": "born", "date of birth": "born",
	"level": "level", "group": "group", "coach": "coach",
}

// ReadPeople reads a table of lifters: a line for each, columns parted by commas,
// semicolons, tabs or bars. Its first line may name the columns; else they are
// PeopleColumns. Where everything stands on one line, semicolons part the rows. Rows
// that cannot be read are among the problems and nothing of them is in the answer. An
// error means that the whole is no such table. Weights without a unit are in unit.
func ReadPeople(data []byte, unit planner.Unit, today planner.Date) (People, error) {
	if text := strings.TrimSpace(string(data)); !strings.Contains(text, "\n") && strings.ContainsAny(text, ",\t|") {
		data = []byte(strings.ReplaceAll(text, ";", "\n"))
	}
	rows, err := records(data)
	if err != nil {
		return People{}, err
	}
	if len(rows) == 0 {
		return People{}, planner.Errorf(planner.Invalid, "For example: Ana, River Open, 120, 70, 145", "The table has no rows")
	}
	var p People
	columns := PeopleColumns
	if named := namedColumns(rows[0].cells); named != nil {
		for i, c := range named {
			if c == "" {
				p.Ignored = append(p.Ignored, parse.Clean(rows[0].cells[i]))
			}
		}
		columns, rows = named, rows[1:]
	}
	for _, c := range columns {
		if c != "" {
			p.Columns = append(p.Columns, c)
		}
	}
	if len(rows) > MaxPeople {
		return People{}, planner.Errorf(planner.Invalid, "Send it in two parts.", "The table has %d lifters; I read at most %d at once", len(rows), MaxPeople)
	}
	for _, r := range rows {
		p.read(r, columns, unit, today)
	}
	return p, nil
}

// namedColumns returns what the columns of a line of headings say, empty where that is
// not known; nil where the line names no lifter's column, and so is no such line.
func namedColumns(cells []string) []string {
	out := make([]string, len(cells))
	seen := map[string]bool{}
	for i, c := range cells {
		plain, _ := heading(c)
		if f := peopleHeadings[plain]; !seen[f] {
			out[i], seen[f] = f, true
		}
	}
	if !seen["name"] {
		return nil
	}
	return out
}

// read adds one row, or what is wrong with it.
func (p *People) read(r record, columns []string, unit planner.Unit, today planner.Date) {
	x := Person{Line: r.line}
	for i, cell := range r.cells {
		cell = strings.TrimSpace(cell)
		if cell == "" || cell == "-" || i < len(columns) && columns[i] == "" {
			continue
		}
		if i >= len(columns) {
			p.Problems = append(p.Problems, Problem{r.line, columnName(i, ""), "the row has more cells than the table has columns"})
			return
		}
		if err := x.set(columns[i], cell, unit, today); err != nil {
			p.Problems = append(p.Problems, Problem{r.line, columnName(i, columns[i]), sentence(err)})
			return
		}
	}
	if x.Name == "" {
		p.Problems = append(p.Problems, Problem{r.line, columnName(0, "name"), "there is no name"})
		return
	}
	for _, other := range p.People {
		if strings.EqualFold(other.Name, x.Name) {
			p.Problems = append(p.Problems, Problem{r.line, columnName(0, "name"), x.Name + " stands in row " + strconv.Itoa(other.Line) + " already"})
			return
		}
	}
	p.People = append(p.People, x)
}

// columnName names a column by its number, from 1, and by what it says.
func columnName(i int, says string) string {
	name := "column " + strconv.Itoa(i+1)
	if says != "" {
		name += " (" + says + ")"
	}
	return name
}

// set reads one cell.
func (x *Person) set(column, cell string, unit planner.Unit, today planner.Date) (err error) {
	switch column {
	case "name":
		x.Name = strings.Join(strings.Fields(cell), " ")
	case "meet":
		x.Meet = cell
	case "date":
		x.Date, err = parse.Date(cell, today)
	case "closes":
		x.Closes, err = parse.Date(cell, today)
	case "squat":
		x.Squat, err = parse.Weight(cell, unit)
	case "bench":
		x.Bench, err = parse.Weight(cell, unit)
	case "deadlift":
		x.Deadlift, err = parse.Weight(cell, unit)
	case "category":
		x.Category, err = categoryOf(cell)
	case "class":
		x.Class, err = planner.ParseClass(cell)
	case "born":
		x.Born, x.YearOnly, err = bornOn(cell, today)
	case "level":
		x.Level, err = levelOf(cell)
	case "group":
		x.Group = cell
	case "coach":
		x.Coach = strings.TrimPrefix(cell, "@")
	}
	return err
}
