package sheet

import (
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// Field is what a column says about a set.
type Field string

// The fields, in the order in which they are kept and written.
const (
	Day     Field = "date"
	Lift    Field = "lift"
	Variant Field = "variant"
	Weight  Field = "weight"
	Unit    Field = "unit"
	Reps    Field = "reps"
	Sets    Field = "sets"
	RPE     Field = "rpe"
	RIR     Field = "rir"
	Missed  Field = "missed"
	Gear    Field = "gear"
)

var fields = []Field{Day, Lift, Variant, Weight, Unit, Reps, Sets, RPE, RIR, Missed, Gear}

// needed are the fields without which a row is no set.
var needed = []Field{Day, Lift, Weight, Reps}

// headings is the table of the names of columns, as they are in lower case with
// single blanks and without signs and units. Other languages stand beside English.
// A column called "set" counts the sets of a day and says nothing of its own.
var headings = map[Field][]string{
	Day:     {"date", "day", "date time", "datetime", "session date", "workout date", "training date", "performed", "start", "start time", "timestamp", "datum", "tag", "data", "dia", "fecha"},
	Lift:    {"lift", "exercise", "exercise name", "lift name", "movement", "übung", "uebung", "exercício", "exercicio", "ejercicio", "exercice"},
	Variant: {"variant", "variation", "form", "variante"},
	Weight:  {"weight", "load", "bar weight", "weight lifted", "kg", "lb", "lbs", "gewicht", "last", "peso", "carga", "poids"},
	Unit:    {"unit", "units", "weight unit", "einheit", "unidade", "unidad"},
	Reps:    {"reps", "rep", "repetitions", "reps made", "wiederholungen", "wdh", "repetições", "repeticoes", "repeticiones", "répétitions"},
	Sets:    {"sets", "number of sets", "set count", "sätze", "saetze", "séries", "series"},
	RPE:     {"rpe", "effort", "session rpe", "set rpe", "anstrengung", "esforço", "esfuerzo"},
	RIR:     {"rir", "reps in reserve", "reserve", "reps left", "left", "reps reserve"},
	Missed:  {"missed", "miss", "failed", "fail", "fehlversuch", "falhou"},
	Gear:    {"gear", "supportive gear"},
}

var fieldOf = func() map[string]Field {
	m := map[string]Field{}
	for f, names := range headings {
		for _, n := range names {
			m[n] = f
		}
	}
	return m
}()

// heading is a column's name as the table has it, with the unit that it named.
func heading(name string) (plain string, unit planner.Unit) {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return strings.ContainsRune(" _-.:;#()[]/*\t\u00a0", r)
	})
	for n := len(words); n > 1; n = len(words) {
		u := parse.UnitOf(words[n-1])
		if u == "" {
			break
		}
		unit, words = u, words[:n-1]
	}
	plain = strings.Join(words, " ")
	if unit == "" {
		unit = parse.UnitOf(plain)
	}
	return plain, unit
}

// Column says which column of the file a field was read from.
type Column struct {
	Field Field  `json:"field"`
	Name  string `json:"name"` // as it stands in the file, safe to show
}

// layout is where the fields stand in a row.
type layout struct {
	at      map[Field]int
	columns []Column
	ignored []string
	unit    planner.Unit
}

// layoutOf guesses the columns from the first row. named are columns that the
// lifter named; a name that the row does not have is an error.
func layoutOf(head []string, named map[Field]string) (layout, error) {
	l := layout{at: map[Field]int{}}
	for f, name := range named {
		i := columnNamed(head, name)
		if i < 0 {
			return l, planner.Errorf(planner.Unknown, "It has: "+shown(head)+".", "The file has no column %q", parse.Clean(name))
		}
		l.at[f] = i
	}
	taken := map[int]bool{}
	for _, i := range l.at {
		taken[i] = true
	}
	for i, name := range head {
		plain, _ := heading(name)
		f, known := fieldOf[plain]
		if _, twice := l.at[f]; known && !twice && !taken[i] {
			l.at[f], taken[i] = i, true
		}
		if !taken[i] {
			l.ignored = append(l.ignored, parse.Clean(name))
		}
	}
	for _, f := range fields {
		if i, ok := l.at[f]; ok {
			l.columns = append(l.columns, Column{f, parse.Clean(head[i])})
		}
	}
	if i, ok := l.at[Weight]; ok {
		_, l.unit = heading(head[i])
	}
	return l, l.complete(head)
}

// complete refuses a table in which a field is missing that a set needs.
func (l layout) complete(head []string) error {
	var missing []string
	for _, f := range needed {
		if _, ok := l.at[f]; !ok {
			missing = append(missing, string(f))
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return planner.Errorf(planner.Invalid, `Name its columns in the first row: date, lift, weight, reps; or say which is which, for example columns:"lift=Name, weight=Load".`,
		"I find no column for %s. The first row has: %s", strings.Join(missing, ", "), shown(head))
}

func columnNamed(head []string, name string) int {
	for i, h := range head {
		if strings.EqualFold(strings.TrimSpace(h), strings.TrimSpace(name)) {
			return i
		}
	}
	return -1
}

// shown lists the first names of a row.
func shown(head []string) string {
	var names []string
	for i, h := range head {
		if i == 12 {
			names = append(names, "…")
			break
		}
		names = append(names, parse.Clean(h))
	}
	return strings.Join(names, ", ")
}

// Named reads which column is which as a lifter writes it: "lift=Name,
// weight=Load". Unknown where a field is none.
func Named(text string) (map[Field]string, error) {
	named := map[Field]string{}
	for _, part := range strings.Split(text, ",") {
		left, name, ok := strings.Cut(part, "=")
		word := strings.ToLower(strings.TrimSpace(left))
		f, known := fieldOf[word]
		if !ok || !known || strings.TrimSpace(name) == "" {
			return nil, planner.Errorf(planner.Unknown, `Write it like columns:"lift=Name, weight=Load"; I know date, lift, variant, weight, unit, reps, sets, rpe, rir, missed and gear.`,
				"columns: %q is not one of them with its column", parse.Clean(part))
		}
		named[f] = name
	}
	return named, nil
}
