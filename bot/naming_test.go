package bot

import "testing"

// A value that cannot be read is refused with the name of its option, and a zone
// with the one that was probably meant.
func TestRefusalsNameTheOption(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for typed, option := range map[string]string{
		`/meet add name:"River Open" date:someday`:                   "date: ",
		`/meet add name:"River Open" date:2027-06-12 closes:someday`: "closes: ",
		`/meet result name:"River Open" date:someday total:500`:      "date: ",
		`/me set born:someday`:                                       "born: ",
		`/log set lift:squat weight:100 reps:5 date:someday`:         "date: ",
		`/me set zone:Europe/Lisabon`:                                "Did you mean Europe/Lisbon?",
		`/me set zone:Mars`:                                          "zone: ",
	} {
		k.refused(k.say("ana", typed), option)
	}
	k.refused(k.say("cap", "/club settings hour:late"), "hour: ")
}
