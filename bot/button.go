package bot

import (
	"encoding/json"
	"fmt"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// buttonLife is how long a button of an answer can be pressed: a plan that was
// built a week ago no longer fits the days that are left.
const buttonLife = 7 * 24 * time.Hour

// action is what a button does. An action marked again may be pressed any number
// of times; any other works once per person. Whether the presser is a captain is asked
// at the press: the right may have ended since the button was made.
type action struct {
	run     func(*turn, store.Button) (chat.Reply, error)
	again   bool
	captain bool // only who is a captain at the press may press it
}

// actions names everything a button can do. The names are kept in the database,
// so they must not change.
func actions() map[string]action {
	return map[string]action{
		"me.form":        {run: showForm, again: true},
		"me.save":        {run: saveForm, again: true},
		"me.style":       {run: stylePressed, again: true},
		"data.erase":     {run: erasePressed},
		"plan.accept":    {run: acceptPressed},
		"plan.decline":   {run: declinePressed},
		"season.build":   {run: buildPressed, again: true},
		"meet.past":      {run: keepPastMeet},
		"announce.post":  {run: postAnnouncement, captain: true},
		"announce.drop":  {run: dropAnnouncement},
		"announce.edit":  {run: editAnnouncement, again: true, captain: true},
		"announce.when":  {run: whenAnnouncement, again: true, captain: true},
		"announce.sent":  {run: announcementSent, again: true, captain: true},
		"announce.back":  {run: withdrawAnnouncement, captain: true},
		"block.extend":   {run: extendPressed},
		"block.begin":    {run: beginPressed},
		"block.beginall": {run: beginAllPressed, captain: true},
		"board.show":     {run: boardTurned, again: true, captain: true},
		"rack.show":      {run: rackTurned, again: true, captain: true},
		"checkin.ask":    {run: checkInAsked, again: true},
		"checkin.tap":    {run: checkInTapped},
		"nudge.snooze":   {run: snoozePressed},
		"nudge.off":      {run: nudgeOffPressed, again: true},
		"nudge.keep":     {run: nudgeKeepPressed},
		"nudge.on":       {run: nudgeOnPressed, again: true},
		"meet.entered":   {run: enteredPressed},
		"mine.show":      {run: mineShown, again: true},
		"set.answer":     {run: answerSets},
		"set.become":     {run: becomePressed},
		"team.who":       {run: whoPressed},
		"set.fix":        {run: fixPressed, again: true},
		"set.fixed":      {run: fixSent, again: true},
		"set.drop":       {run: dropPressed},
		"log.page":       {run: pageTurned, again: true},
		"import.choose":  {run: chooseImport, again: true},
		"import.write":   {run: writeImport},
		"import.drop":    {run: dropImport},
		"import.undo":    {run: undoImport},
		"review.form":    {run: reviewPressed, again: true},
		"review.sent":    {run: reviewSent, again: true},
		"review.back":    {run: reviewBack},
		"people.sent":    {run: peopleSent, again: true},
		"people.put":     {run: putPressed},
		"people.drop":    {run: peopleDropped},
		"people.undo":    {run: undoPeople},
		"claim.make":     {run: claimPressed, again: true},
		"claim.yes":      {run: claimAgreed},
		"claim.no":       {run: claimRefused},
		"claim.back":     {run: claimUndone},
		"seat.erase":     {run: eraseSeat},
	}
}

// button makes a button that only the owner may press (0: anyone) and keeps what
// it does, so that it works after a restart.
func (t *turn) button(label, does string, args any, owner planner.Lifter) (chat.Button, error) {
	return t.lasting(buttonLife, label, does, args, owner)
}

// lasting is button with another life than usual.
func (t *turn) lasting(life time.Duration, label, does string, args any, owner planner.Lifter) (chat.Button, error) {
	return t.buttonFor(label, does, args, owner, life)
}

// buttonFor is button for something that can be pressed for another time.
func (t *turn) buttonFor(label, does string, args any, owner planner.Lifter, life time.Duration) (chat.Button, error) {
	raw, err := json.Marshal(args)
	if err != nil {
		return chat.Button{}, err
	}
	b := store.Button{
		Token: newToken(), Label: label, Owner: owner.ID, Action: does, Args: raw,
		Made: t.now, Expires: t.now.Add(life),
	}
	if err := t.tx.AddButton(b); err != nil {
		return chat.Button{}, err
	}
	return chat.Button{Label: label, Token: b.Token, Owner: owner.Handle, Expires: b.Expires}, nil
}

// pressed runs what the button does.
func (t *turn) pressed() (chat.Reply, error) {
	b, ok, err := t.tx.Button(t.event.Button)
	if err != nil {
		return chat.Reply{}, err
	}
	act, known := actions()[b.Action]
	if !known {
		act, known = seasonActions()[b.Action]
	}
	if !known {
		act, known = dayActions()[b.Action]
	}
	if !known {
		act, known = trendActions()[b.Action]
	}
	switch {
	case !ok || !known:
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Ask again and use the new button.", "I no longer know that button")
	case t.now.After(b.Expires):
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Ask again and use the new button.", "%q can no longer be pressed: it was meant for the time until %s", b.Label, render.Moment(b.Expires, zoneOf(t.speaker, t.club)))
	}
	if err := t.join(); err != nil {
		return chat.Reply{}, err
	}
	if b.Owner != 0 && b.Owner != t.speaker.ID {
		return chat.Reply{}, planner.Errorf(planner.Forbidden, "", "That button is for somebody else")
	}
	if act.captain && !t.speaker.Captain {
		return chat.Reply{}, planner.Errorf(planner.Forbidden, "Ask a captain.", "%q is for captains", b.Label)
	}
	first, err := t.tx.UseButton(b.Token, t.speaker.ID, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if !first && !act.again {
		return private(chat.Message{Text: "Already done.", Data: map[string]any{"already_done": true}}), nil
	}
	return act.run(t, b)
}

// turnTo makes a press about the lifter its button names. The right to speak for
// somebody may have ended since the button was made.
func (t *turn) turnTo(id planner.LifterID) error {
	l, err := t.tx.Lifter(id)
	if err != nil {
		return err
	}
	if l.ID != t.speaker.ID && !t.coaches(l) {
		return planner.Errorf(planner.Forbidden, "", "You no longer speak for that lifter")
	}
	t.about = l
	return nil
}

// courseOf turns to the lifter that a button names, and reads the course.
func (t *turn) courseOf(id planner.LifterID) (course, error) {
	if err := t.turnTo(id); err != nil {
		return course{}, err
	}
	return t.course(t.about)
}

// args reads what a button carries.
func args[T any](b store.Button) (T, error) {
	var v T
	if err := json.Unmarshal(b.Args, &v); err != nil {
		return v, fmt.Errorf("button %s: %w", b.Action, err)
	}
	return v, nil
}
