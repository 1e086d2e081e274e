package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// shownVersions is how many versions of a plan the history shows, the newest first.
const shownVersions = 12

// showVersions answers /season history: every version of the plan, when, what became
// of it and by whom, and what it changed.
func showVersions(t *turn) (chat.Reply, error) {
	all, err := t.tx.Plans(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(all) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Build one with /season build.", "There is no plan yet")
	}
	var rows []render.VersionRow
	var before *store.Plan
	for i := range all {
		row, err := t.versionRow(all[i], before)
		if err != nil {
			return chat.Reply{}, err
		}
		rows = append(rows, row)
		if !all[i].Agreed.IsZero() {
			before = &all[i]
		}
	}
	older := max(0, len(rows)-shownVersions)
	return private(render.History(rows[older:], older)), nil
}

// versionRow is one version beside the one that was agreed before it.
func (t *turn) versionRow(p store.Plan, before *store.Plan) (render.VersionRow, error) {
	day := t.dayOf(t.about, p.Built)
	row := render.VersionRow{Version: p.Version, State: string(p.State), Built: day, Blocks: upcoming(p.Season.Blocks, day), Meets: p.Season.Meets}
	if !p.Agreed.IsZero() {
		row.Agreed = t.dayOf(t.about, p.Agreed)
	}
	if before != nil {
		row.Old, row.OldMeets = upcoming(before.Season.Blocks, day), before.Season.Meets
	}
	a, asked, err := t.tx.Approval(p.ID)
	if err != nil || !asked {
		return row, err
	}
	row.Waits, row.Reason = a.State == store.ApprovalWaiting, a.Reason
	if a.By != 0 {
		l, err := t.tx.Lifter(a.By)
		if err != nil {
			return row, err
		}
		row.By = render.Called(l)
	}
	return row, nil
}
