package bot

import (
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// changeTraining does what the options of /week set, and says what was done.
func (t *turn) changeTraining() (said []string, err error) {
	tr, err := t.tx.Training(t.about.ID)
	if err != nil {
		return nil, err
	}
	if v, given := t.options["days"]; given {
		if tr.Weekdays, err = trainingWeekdays(v); err != nil {
			return nil, err
		}
		said = append(said, "Training days: "+daysText(tr.Weekdays)+".")
	}
	if v, given := t.options["version"]; given {
		tr.Cautious = v == "cautious"
		said = append(said, map[bool]string{true: "Careful version from now on: no maximal work. Back any time: /week version:standard.", false: "The usual version from now on."}[tr.Cautious])
	}
	if v, given := t.options["weeks"]; given {
		tr.Weeks = store.Weeks(v)
		if v == usualDecider {
			tr.Weeks = ""
		}
		said = append(said, weeksText(t.weeksOf(tr)))
	}
	if len(said) == 0 {
		return nil, nil
	}
	if err := t.tx.SaveTraining(t.about.ID, tr); err != nil {
		return nil, err
	}
	if err := t.note(t.about, "Your weeks were changed. "+strings.Join(said, " "), undo{}); err != nil {
		return nil, err
	}
	return said, t.audit("changed how the weeks are made")
}

func weeksText(w store.Weeks) string {
	switch w {
	case store.OwnWeeks:
		return "Kept."
	case store.ClubWeeks:
		return "The club's weeks where it has them, mine elsewhere."
	}
	return "My weeks: I write the sets and loads."
}

// dayWords are the short and long names of weekdays, for reading.
func dayWords() map[string]time.Weekday {
	words := map[string]time.Weekday{"tues": time.Tuesday, "thur": time.Thursday, "thurs": time.Thursday}
	for d := time.Sunday; d <= time.Saturday; d++ {
		name := strings.ToLower(d.String())
		words[name], words[name[:3]], words[name[:2]] = d, d, d
	}
	return words
}

// trainingWeekdays reads "mon wed fri"; "any" leaves it to the number of days.
func trainingWeekdays(v string) (days []planner.Weekday, err error) {
	if strings.EqualFold(v, "any") {
		return nil, nil
	}
	known := dayWords()
	seen := map[planner.Weekday]bool{}
	for _, word := range strings.FieldsFunc(strings.ToLower(v), func(r rune) bool { return r == ' ' || r == ',' || r == '+' || r == '/' }) {
		d, ok := known[word]
		if !ok {
			return nil, planner.Errorf(planner.Invalid, "Write them like this: mon wed fri", "days: %q is no weekday", parse.Clean(word))
		}
		seen[d] = true
	}
	for d := time.Sunday; d <= time.Saturday; d++ {
		if seen[d] {
			days = append(days, d)
		}
	}
	if len(days) == 0 || len(days) > 6 {
		return nil, planner.Errorf(planner.Invalid, "Write them like this: mon wed fri", "days: name 1 to 6 weekdays, so that at least one is free")
	}
	return days, nil
}

func daysText(days []planner.Weekday) string {
	if len(days) == 0 {
		return "spread over the week"
	}
	var names []string
	for i := range 7 { // Monday first, as they are said
		for _, d := range days {
			if d == time.Weekday((i+1)%7) {
				names = append(names, d.String())
			}
		}
	}
	return render.List(names)
}

// superviseLifter answers /club supervised: a coach vouches for a lifter under 18,
// or takes that back.
func superviseLifter(t *turn) (chat.Reply, error) {
	if t.about.ID == t.speaker.ID {
		return chat.Reply{}, planner.Errorf(planner.Forbidden, "Name the lifter: /club supervised lifter:…", "A coach vouches for another lifter")
	}
	tr, err := t.tx.Training(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	tr.Supervised = t.options["back"] != "yes"
	if err := t.tx.SaveTraining(t.about.ID, tr); err != nil {
		return chat.Reply{}, err
	}
	what := "technique proven, lifts under supervision"
	said := render.Called(t.about) + ": " + what + ". Under 18, loads may now go up to 90 % instead of 85 %, with at least 2 left."
	if !tr.Supervised {
		what = "supervision taken back"
		said = render.Called(t.about) + ": taken back. Under 18, nothing above 85 % is prescribed."
	}
	if err := t.note(t.about, "For your weeks: "+what+".", undo{}); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: said, Data: map[string]any{"supervised": tr.Supervised}}), t.audit(what)
}
