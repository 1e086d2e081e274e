package blocks

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// TestLifterNotes: what of a lifter bears on the plan is said, and only then; common
// practice, limits of making weight as in the handbook's section on it (2 % for a
// weigh-in two hours before, 3 % for one a day before).
func TestLifterNotes(t *testing.T) {
	kg := planner.Kilograms
	heavy := func(r *Request) {
		r.Lifter.Category, r.Lifter.Bodyweight, r.Lifter.Class = planner.Men, kg(86), planner.Class{Limit: kg(83)}
	}
	tests := []struct {
		name   string
		weeks  int
		change func(*Request)
		says   string // "" for nothing of it
		not    string
	}{
		{"nothing special", 16, func(*Request) {}, "", "class"},
		{"seventy", 16, func(r *Request) { r.Lifter.Born = r.Today.AddDays(-366 * 71) }, "holding your total", ""},
		{"sixteen", 16, func(r *Request) { r.Lifter.Born = r.Today.AddDays(-366 * 16) }, "nothing above 85 %", ""},
		{"two days", 16, func(r *Request) { r.Lifter.Days = 2 }, "On 2 days a week", ""},
		{"first meet", 16, func(r *Request) { r.Lifter.HasCompeted = false }, "between Sat 3 April and Sat 10 April", ""},
		{"in gear", 16, func(r *Request) { r.Meets[0].Equipment = planner.SinglePly }, "lifted in gear", ""},
		{"too heavy, far off", 16, heavy, "You weigh 86 kg and the class for Meet 1 ends at 83 kg: a muscle block", "next class"},
		{"too heavy, two weeks", 2, heavy, "3.5 % less: enter or move to the next class", "muscle block and a lower"},
		{"within the acute limit", 2, func(r *Request) { heavy(r); r.Lifter.Bodyweight = kg(84) }, "ends at 83 kg", "next class"},
		{"a first-timer never makes weight", 2, func(r *Request) { heavy(r); r.Lifter.HasCompeted = false }, "lift in the class you weigh", "next class"},
		{"class of the meet", 16, func(r *Request) { heavy(r); r.Meets[0].Class = planner.Class{Limit: kg(93)} }, "", "class for"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, c.weeks)
			c.change(&r)
			notes := strings.Join(mustBuild(t, r).Notes, " ")
			if !strings.Contains(notes, c.says) || c.not != "" && strings.Contains(notes, c.not) {
				t.Errorf("notes %q, want %q and not %q", notes, c.says, c.not)
			}
		})
	}
}
