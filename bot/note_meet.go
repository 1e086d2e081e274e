package bot

import (
	"blockbell/bot/parse"
	"blockbell/planner"
	"blockbell/store"
)

// meetBack is what taking back a change of a meet needs: the entry, and the day it
// was on before it was moved.
type meetBack struct {
	Meet planner.MeetID `json:"meet"`
	Day  planner.Date   `json:"day,omitzero"`
}

// meetByID finds one of a lifter's meets.
func (t *turn) meetByID(lifter planner.LifterID, id planner.MeetID) (planner.Meet, error) {
	all, err := t.tx.Meets(lifter)
	for _, m := range all {
		if m.ID == id {
			return m, err
		}
	}
	if err == nil {
		err = planner.Errorf(planner.Conflict, "Look at /meet.", "That meet is no longer on your calendar")
	}
	return planner.Meet{}, err
}

// takeMeetBack drops a meet that somebody put on the lifter's calendar.
func takeMeetBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[meetBack](n)
	if err != nil {
		return "", err
	}
	m, err := t.meetByID(n.Lifter, a.Meet)
	if err != nil {
		return "", err
	}
	return "Taken back: " + parse.Clean(m.Name) + " is off your calendar. /season build fits your plan to it.", t.tx.DropMeet(m.ID, t.now)
}

// moveMeetBack puts a meet back on the day it was on before somebody moved it.
func moveMeetBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[meetBack](n)
	if err != nil {
		return "", err
	}
	m, err := t.meetByID(n.Lifter, a.Meet)
	if err != nil {
		return "", err
	}
	if a.Day < t.today() {
		return "", planner.Errorf(planner.Conflict, "Move it with /meet move.", "The day it was on, %s, is past", a.Day.Long())
	}
	m.Date = a.Day
	return "Taken back: " + parse.Clean(m.Name) + " is on " + a.Day.Long() + " again. /season build fits your plan to it.", t.tx.SaveMeet(m, t.now)
}
