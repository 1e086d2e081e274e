package store

import (
	"context"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// EraseLifter deletes a member and everything kept about that member, history
// and unsent posts too. What others did or planned stays, and so does the trail of
// what the member did for others and for the club, without saying who did it; posts that also spoke
// to others go, and their facts become due again unless they were told. Where the
// club's own posts, buttons and changes name the member, "somebody" stands instead.
// NotFound where there is no such member.
func (t *Tx) EraseLifter(id planner.LifterID) error { return t.eraseLifter(id, true) }

// eraseLifter is EraseLifter. Names stay where somebody of the same name took over.
func (t *Tx) eraseLifter(id planner.LifterID, names bool) error {
	l, err := t.Lifter(id)
	if err != nil {
		return err
	}
	if err := t.erasePosts(l); err != nil {
		return err
	}
	q := t.q
	for _, erase := range []func(context.Context, planner.LifterID) error{
		q.EraseAway, q.EraseLiftsOff, q.ErasePins, q.EraseApprovals, q.EraseNotes, q.EraseLifterDays,
		q.EraseSets, q.EraseSetHistory, q.EraseBodyweights, q.ErasePlanBlocks, q.ErasePlanMeets, q.ErasePlans,
		q.EraseMeets, q.EraseButtonUses, q.EraseNudgesOff, q.EraseNudgesKept, q.EraseNudgeTimes, q.EraseSnoozes, q.EraseImportedSets, q.EraseImports, q.EraseAppointed, q.EraseCheckIns, q.EraseBodySeenBy,
		q.EraseTraining, q.EraseWeekChanges, q.EraseTrainingWeeks, q.ErasePrescribed, q.EraseReadings, q.EraseUnread, q.EraseWatch,
	} {
		if err := erase(t.ctx, id); err != nil {
			return err
		}
	}
	for _, erase := range []func(context.Context, column.Lifter) error{
		q.EraseBounds, q.ForgetWhoToldAway, q.ForgetWhoTookOff, q.ForgetWhoPinned, q.ForgetWhoBound, q.ForgetWhoApproved, q.ForgetWhoNoted, q.ForgetWhoChangedWeek,
		q.EraseButtons, q.EraseFacts, q.EraseAudit, q.ForgetWhoChanged, q.ForgetWhoAppointed, q.ForgetCorrector, q.ForgetHandler, q.ForgetCoach,
	} {
		if err := erase(t.ctx, column.Lifter(id)); err != nil {
			return err
		}
	}
	for _, erase := range []func(context.Context, string) error{
		q.ErasePressesOn, q.ErasePresses, q.EraseTerminalMessages,
	} {
		for _, name := range []string{l.Handle, "@" + l.Handle} {
			if err := erase(t.ctx, name); err != nil {
				return err
			}
		}
	}
	if err := t.forgetCalled(id); err != nil {
		return err
	}
	if err := t.forgetSaid(id); err != nil {
		return err
	}
	if names {
		if err := t.eraseWords(l); err != nil {
			return err
		}
	}
	_, err = q.EraseLifter(t.ctx, id)
	return err
}

// EraseClub deletes every member with EraseLifter, and then all that belongs to the
// club itself: settings, announcements, the trail of changes, and which server it
// was. What the platform counts, such as sign-ins, stays.
func (t *Tx) EraseClub() error {
	all, err := t.Lifters()
	if err != nil {
		return err
	}
	for _, l := range all {
		if err := t.EraseLifter(l.ID); err != nil {
			return err
		}
	}
	for _, erase := range []func(context.Context) error{
		t.q.EraseEveryFact, t.q.EraseEveryPost, t.q.EraseEveryButton, t.q.EraseEveryEvent, t.q.EraseTrail,
		t.q.EraseSettings, t.q.EraseClassTable, t.q.EraseClassLimits, t.q.EraseDesk, t.q.EraseGym, t.q.EraseClubWeeks, t.q.EraseEveryBound, t.q.EraseDeciders, t.q.ForgetHome, t.q.ClearRemoved,
	} {
		if err := erase(t.ctx); err != nil {
			return err
		}
	}
	return nil
}

// erasePosts deletes the posts to a member or about one.
func (t *Tx) erasePosts(l planner.Lifter) error {
	keys, err := t.q.PostsAbout(t.ctx, sqlgen.PostsAboutParams{Handle: l.Handle, LifterID: column.Lifter(l.ID)})
	if err != nil {
		return err
	}
	for _, key := range keys {
		for _, settle := range []func(context.Context, column.Text) error{t.q.ForgetPlannedFacts, t.q.DetachFacts} {
			if err := settle(t.ctx, column.Text(key)); err != nil {
				return err
			}
		}
		if err := t.q.ErasePost(t.ctx, key); err != nil {
			return err
		}
	}
	return nil
}
