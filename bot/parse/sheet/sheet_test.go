package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blockbell/bot/parse"
	"blockbell/planner"
)

var today = planner.NewDate(2027, 3, 3)

func options() Options { return Options{Today: today, Unit: planner.KG} }

// told writes what a file says, a line for each set and problem.
func told(t testing.TB, file string, named map[Field]string) string {
	t.Helper()
	d, err := Open([]byte(file), named)
	if err != nil {
		var e *planner.Error
		if !errors.As(err, &e) {
			t.Fatalf("no error for a person: %v", err)
		}
		return "error " + e.Sentence
	}
	packed, err := d.Pack()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Unpack(packed)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(d, again); diff != "" {
		t.Errorf("packing changed the draft:\n%s", diff)
	}
	if d.Order == "" {
		return "which day?"
	}
	var out []string
	r := again.Read(options())
	for _, l := range r.Sets {
		out = append(out, fmt.Sprintf("%d: %s %s", l.Line, l.Set.Day, parse.Print(l.Set, planner.KG)))
	}
	for _, p := range r.Problems {
		out = append(out, fmt.Sprintf("%d %s: %s", p.Line, p.Column, p.Text))
	}
	for _, u := range r.Unknown {
		out = append(out, fmt.Sprintf("unknown %s %d", u.Name, u.Rows))
	}
	return strings.Join(out, "\n")
}

func TestFilesAreReadWhateverTheirDress(t *testing.T) {
	const want = "2: 2027-02-01 squat 140kg x 5 @8\n3: 2027-02-01 bench 92.5kg x 3 x 4"
	for name, file := range map[string]string{
		"commas":         "Date,Lift,Weight,Reps,Sets,RPE\n2027-02-01,Squat,140,5,1,8\n2027-02-01,bench press,92.5,3,4,\n",
		"semicolons":     "Date;Exercise;Weight (kg);Reps;Sets;RPE\r\n01.02.2027;Squat;140;5;;8\r\n01.02.2027;Bench;92,5;3;4;\r\n",
		"tabs":           "date\tlift\tkg\treps\tsets\trpe\n1 Feb 2027\tsquats\t140,0\t5.0\t1\t@8\nFeb 1, 2027\tbp\t92.5 kg\t3\t4\t-\n",
		"day first":      "date,lift,weight,reps,sets,rpe\n01/02/2027 18:30,squat,140,5,1,8\n01/02/2027,bench,92.5,3,4,0\n",
		"marks":          "\ufeffDATE,LIFT,WEIGHT_KG,REPS,SETS,RPE\n2027-02-01T18:00:00Z,Squat (Barbell),140kg,5,1,8\n2027-02-01 18:00,Bench Press (Barbell),92.5,3,4,\n",
		"reserve":        "rir,reps,sets,weight,lift,date\n2,5,1,140,squat,2027-02-01\n,3,4,92.5,bench,2027-02-01\n",
		"other language": "Datum;Übung;Gewicht (kg);Wiederholungen;Sätze;RPE\n1.2.2027;Squat;140;5;1;8\n1.2.27;Bench;92,5;3;4;\n",
	} {
		if name == "day first" { // a third row shows which number is the day
			file = strings.Replace(file, "rpe\n", "rpe\n", 1) + "28/02/2027,squat,100,5,1,\n"
			if got := told(t, file, nil); got != want+"\n4: 2027-02-28 squat 100kg x 5" {
				t.Errorf("%s:\n%s", name, got)
			}
			continue
		}
		if got := told(t, file, nil); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, want)
		}
	}
	wide := []byte{0xff, 0xfe}
	for _, b := range []byte("date\tlift\tweight\treps\n2027-02-01\tsquat\t140\t5\n") {
		wide = append(wide, b, 0)
	}
	if got := told(t, string(wide), nil); got != "2: 2027-02-01 squat 140kg x 5" {
		t.Errorf("two bytes a character: %s", got)
	}
	if got := told(t, "date;\xdcbung;weight;reps\n2027-02-01;squat;140;5\n", nil); got != "2: 2027-02-01 squat 140kg x 5" {
		t.Errorf("one byte a character: %s", got)
	}
}

func TestRowsThatAreWrongNameColumnAndValue(t *testing.T) {
	for row, want := range map[string]string{
		"2027-03-04,squat,140,5,,":               "2 when: Thu 4 March 2027 is still to come",
		"2027-02-30,squat,140,5,,":               "2 when: There is no 30 February 2027; the last day of that month is 28 February",
		"yesterday,squat,140,5,,":                `2 when: "yesterday" is not a day with its year`,
		",squat,140,5,,":                         "2 when: the day is missing",
		"2027-02-01,,140,5,,":                    "2 lift: the lift is missing",
		"2027-02-01,squat,,5,,":                  "2 weight: the weight is missing",
		"2027-02-01,squat,0,5,,":                 "2 weight: the weight is missing",
		"2027-02-01,squat,heavy,5,,":             `2 weight: "heavy" is not a weight`,
		"2027-02-01,squat,5000,5,,":              "2 weight: 5000 kg: a weight lies between 0.5 kg and 700 kg",
		"2027-02-01,squat,140,five,,":            `2 reps: "five" is not a whole number`,
		"2027-02-01,squat,140,500,,":             "2 reps: reps lies between 0 and 100, not at 500",
		"2027-02-01,squat,140,,,":                "2 reps: the number of reps is missing",
		"2027-02-01,squat,140,5,11,":             `2 rpe: "11" is not a number from 1 to 10`,
		"2027-02-01,squat,140,5,8,maybe":         `2 failed: "maybe" is neither yes nor no`,
		"2027-02-01,squat,140,0,,":               "2: 2027-02-01 squat 140kg x 1 missed",
		"2027-02-01,squat,140,2,,yes":            "2: 2027-02-01 squat 140kg x 3 missed",
		"2027-02-01,pull-ups,,8,,":               "2: 2027-02-01 pull-up bw x 8",
		"2027-02-01,Juggling,5,8,,":              "unknown juggling 1",
		"2027-02-01,@everyone <b>,5,8,,":         `2 lift: "＠everyone ‹b›" cannot be the name of a lift`,
		"2027-02-01,Curl (Dumbbell),5,8,":        "2: 2027-02-01 curl 5kg x 8",
		"2027-02-01,Squat (Machine),5,8,":        "unknown squat (machine) 1",
		"2027-02-01,Deadlift (Sumo),150,3,":      "2: 2027-02-01 sumo deadlift 150kg x 3",
		"2027-02-01,Bench Press (Dumbbell),5,8,": "2: 2027-02-01 dumbbell bench 5kg x 8",
	} {
		if got := told(t, "when,lift,weight,reps,rpe,failed\n"+row+"\n", map[Field]string{Day: "when"}); got != want {
			t.Errorf("%s\n got %s\nwant %s", row, got, want)
		}
	}
}

func TestTablesThatAreNone(t *testing.T) {
	for file, want := range map[string]string{
		"":                              "error The file is empty",
		"\n\n":                          "error The file is empty",
		"a,b\n1,2\n":                    "error I find no column for date, lift, weight, reps. The first row has: a, b",
		"date,lift,weight\n":            "error I find no column for reps. The first row has: date, lift, weight",
		"PK\x03\x04\x00\x00":            "error The file is not text",
		"date,lift,weight,reps\n":       "",
		strings.Repeat("x,", 300):       "error The file has 301 columns; I read at most 200",
		strings.Repeat("x", MaxBytes+1): "error The file has 5.0 MB; I read at most 5 MB",
	} {
		if got := told(t, file, nil); got != want {
			t.Errorf("%.30q\n got %s\nwant %s", file, got, want)
		}
	}
	if _, err := Named("lift=Name, wieght=Load"); err == nil {
		t.Error("a misspelt field is let pass")
	}
}

func TestDaysThatCanBeTwoAreAsked(t *testing.T) {
	const file = "date,lift,weight,reps\n3/4/2026,squat,140,5\n"
	if got := told(t, file, nil); got != "which day?" {
		t.Errorf("read as %s", got)
	}
	for order, want := range map[Order]string{DayFirst: "2026-04-03", MonthFirst: "2026-03-04"} {
		d, err := Open([]byte(file), nil)
		if err != nil {
			t.Fatal(err)
		}
		d.Order = order
		if r := d.Read(options()); len(r.Sets) != 1 || r.Sets[0].Set.Day.String() != want {
			t.Errorf("%s: %+v", order, r)
		}
	}
	if got := told(t, file+"4/25/2026,squat,140,5\n", nil); !strings.HasPrefix(got, "2: 2026-03-04") {
		t.Errorf("a later row decides: %s", got)
	}
	if got := told(t, "date,lift,weight,reps\n25/4/2026,squat,1,5\n4/25/2026,squat,1,5\n", nil); got != "which day?" {
		t.Errorf("a contradiction: %s", got)
	}
}

func TestUnitsComeFromCellColumnHeadingAndLifter(t *testing.T) {
	for file, want := range map[string]string{
		"date,lift,weight,reps\n2027-02-01,squat,100,5":           "100kg",
		"date,lift,weight (lb),reps\n2027-02-01,squat,100,5":      "45.36kg",
		"date,lift,lbs,reps\n2027-02-01,squat,100,5":              "45.36kg",
		"date,lift,lbs,reps\n2027-02-01,squat,100kg,5":            "100kg",
		"date,lift,weight,unit,reps\n2027-02-01,squat,100,lbs,5":  "45.36kg",
		"date,lift,weight,unit,reps\n2027-02-01,squat,100,,5":     "100kg",
		"date,lift,weight,unit,reps\n2027-02-01,squat,100,st,5":   `2 unit: "st" is not a unit of weight`,
		"date,lift,weight_kg,unit,reps\n2027-02-01,squat,100,,5":  "100kg",
		"date,lift,weight lb,unit,reps\n2027-02-01,squat,100,,5":  "45.36kg",
		"date,lift,weight lb,unit,reps\n2027-02-01,squat,1,kg,5":  "1kg",
		"date,lift,kg,lb,reps\n2027-02-01,squat,100,220.5,5":      "100kg",
		"date,lift,load,reps,notes\n2027-02-01,squat,100,5,ouch!": "100kg",
	} {
		if got := told(t, file, nil); !strings.Contains(got, want) {
			t.Errorf("%s\n got %s\nwant %s", file, got, want)
		}
	}
}

// Nothing of a column that is not a field of a set is kept.
func TestDraftKeepsNoOtherColumn(t *testing.T) {
	d, err := Open([]byte("date,lift,weight,reps,notes\n2027-02-01,squat,140,5,my knee hurts\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	if text := fmt.Sprintf("%+v", *d); strings.Contains(text, "knee") || !strings.Contains(text, "notes") {
		t.Errorf("kept: %s", text)
	}
}

func line(s planner.Set) Line { return Line{Set: s} }

func TestFreshLeavesOutWhatIsThere(t *testing.T) {
	s := planner.Set{Day: today, Lift: planner.Squat, Weight: 140 * planner.Kilogram, Reps: 5, Sets: 1}
	five := s
	five.Sets = 5
	all, known := Fresh([]Line{line(five)}, nil, nil)
	if len(all) != 1 || known != 0 || len(all[0].Marks) != 5 {
		t.Fatalf("%+v %d", all, known)
	}
	marked := map[int64]bool{}
	for _, m := range all[0].Marks {
		marked[m] = true
	}
	if len(marked) != 5 {
		t.Errorf("marks are alike: %v", all[0].Marks)
	}
	// The same file again, its sets in rows of their own, and corrected since.
	again, known := Fresh([]Line{line(s), line(s), line(s), line(s), line(s)}, nil, marked)
	if len(again) != 0 || known != 5 {
		t.Errorf("came again: %+v %d", again, known)
	}
	// Two of the five were logged by message.
	two := s
	two.Sets = 2
	part, known := Fresh([]Line{line(five)}, []planner.Set{two}, nil)
	if len(part) != 1 || part[0].Set.Sets != 3 || known != 2 {
		t.Errorf("partly there: %+v %d", part, known)
	}
	other := s
	other.Reps = 4
	if fresh, _ := Fresh([]Line{line(other)}, []planner.Set{five}, marked); len(fresh) != 1 {
		t.Errorf("another set: %+v", fresh)
	}
}

// anySet draws a set that a log can hold.
func anySet(t *rapid.T) planner.Set {
	s := planner.Set{
		Day: today.AddDays(-rapid.IntRange(0, 4000).Draw(t, "ago")), Lift: planner.Lift(rapid.SampledFrom(parse.LiftNames()).Draw(t, "lift")),
		Weight: planner.Grams(rapid.Int64Range(500, 700_000).Draw(t, "grams")), Reps: rapid.IntRange(1, 100).Draw(t, "reps"),
		Sets: rapid.IntRange(1, 30).Draw(t, "sets"), Missed: rapid.Bool().Draw(t, "missed"),
		Gear: rapid.SampledFrom([]planner.Equipment{"", planner.Wraps, planner.SinglePly}).Draw(t, "gear"),
	}
	if left := rapid.IntRange(-1, 18).Draw(t, "left"); left >= 0 {
		half := float64(left) / 2
		s.Reserve = &half
	}
	if s.Lift == planner.Bench {
		s.Variant = rapid.SampledFrom([]planner.Variant{"", parse.CloseGrip, parse.TouchAndGo, parse.LongPause}).Draw(t, "variant")
	}
	return s
}

func TestWrittenTablesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Custom(anySet), 1, 20).Draw(t, "sets")
		var b bytes.Buffer
		if err := Write(&b, want); err != nil {
			t.Fatal(err)
		}
		d, err := Open(b.Bytes(), nil)
		if err != nil {
			t.Fatal(err)
		}
		r := d.Read(options())
		if len(r.Problems)+len(r.Unknown) != 0 || r.Assumed || len(r.Sets) != len(want) {
			t.Fatalf("%+v of\n%s", r, b.String())
		}
		for i, l := range r.Sets {
			if diff := cmp.Diff(want[i], l.Set); diff != "" {
				t.Fatalf("row %d:\n%s", i, diff)
			}
		}
		if fresh, _ := Fresh(r.Sets, want, nil); len(fresh) != 0 {
			t.Fatalf("the log's own table is new to it: %+v", fresh)
		}
	})
}

func FuzzOpen(f *testing.F) {
	f.Add([]byte("date,lift,weight,reps\n2027-02-01,squat,140,5\n"))
	f.Add([]byte("sep=;\nDatum;Übung;kg;Wdh\n1.2.2027;Squat;92,5;3\n"))
	f.Add([]byte("date\tlift\tlb\treps\trir\n3/4/26\t\"squat\t1\"\t\t\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Open(data, nil)
		if err != nil {
			return
		}
		d.Unknown = true
		for _, d.Order = range []Order{DayFirst, MonthFirst} {
			r := d.Read(options())
			if len(r.Sets)+len(r.Problems) != len(d.Rows) {
				t.Fatalf("%d rows, %d sets and %d problems", len(d.Rows), len(r.Sets), len(r.Problems))
			}
			for _, l := range r.Sets {
				s := l.Set
				if s.Day > today || s.Weight < 0 || s.Weight > planner.MaxWeight || s.Reps < 0 || s.Reps > planner.MaxReps || s.Sets < 1 || s.Sets > planner.MaxSets || s.Lift == "" || len(s.Lift) > 200 {
					t.Fatalf("%+v", s)
				}
			}
			for _, p := range r.Problems {
				if p.Line < 1 || p.Text == "" || p.Column == "" || strings.Contains(p.Text, "@everyone") {
					t.Fatalf("%+v", p)
				}
			}
		}
	})
}

// FiftyThousand is a file of years of training.
func fiftyThousand() []byte {
	var b bytes.Buffer
	b.WriteString("Date,Exercise,Weight (kg),Reps,Sets,RPE,Notes\n")
	for i := range 50_000 {
		day := today.AddDays(-i / 14)
		fmt.Fprintf(&b, "%s,%s,%g,%d,1,%g,felt fine today\n", day, []string{"Squat", "Bench Press", "Deadlift", "Barbell Row"}[i%4], 60+2.5*float64(i%40), 1+i%8, 7+0.5*float64(i%5))
	}
	return b.Bytes()
}

func BenchmarkOpenFiftyThousandRows(b *testing.B) {
	data := fiftyThousand()
	for b.Loop() {
		if d, err := Open(data, nil); err != nil || len(d.Rows) != 50_000 {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadFiftyThousandRows(b *testing.B) {
	d, err := Open(fiftyThousand(), nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if r := d.Read(options()); len(r.Sets) != 50_000 {
			b.Fatal(len(r.Sets))
		}
	}
}

// A file made to be slow is bounded work too.
func TestManyLiftsAreBounded(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("date,lift,kg,reps\n")
	for i := range MaxLifts + 5 {
		fmt.Fprintf(&b, "2027-01-01,thing %d (with bells),5,8\n", i)
	}
	d, err := Open(b.Bytes(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if r := d.Read(options()); len(r.Unknown) != MaxLifts || len(r.Problems) != 5 || !strings.Contains(r.Problems[0].Text, "more than 1000 lifts") {
		t.Errorf("%d unknown, %+v", len(r.Unknown), r.Problems)
	}
}

func BenchmarkWorstFile(b *testing.B) {
	var f bytes.Buffer
	f.WriteString("date,lift,kg,reps\n")
	for i := range 90_000 {
		fmt.Fprintf(&f, "%d Foo %d,aa bb cc %d (dd ee),%dx,%d\n", i, 1990+i%30, i, i, i)
	}
	for b.Loop() {
		d, err := Open(f.Bytes(), nil)
		if err != nil {
			b.Fatal(err)
		}
		d.Order = DayFirst
		d.Read(options())
	}
}
