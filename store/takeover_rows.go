package store

import (
	"encoding/json"
	"fmt"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// passing are the rows that pass from one lifter to another as they are: the table,
// the column that says whose they are, and what tells one lifter's rows apart. A row
// that the other has already stays behind. Names and columns are the program's own.
var passing = []struct{ table, whose, key string }{
	{"meets", "lifter_id", "id"},
	{"meets", "handler_id", "id"},
	{"away", "lifter_id", "id"},
	{"lifts_off", "lifter_id", "lift"},
	{"pins", "lifter_id", "id"},
	{"bounds", "lifter_id", "kind"},
	{"approvals", "lifter_id", "plan_id"},
	{"lifter_days", "lifter_id", "name"},
	{"bodyweights", "lifter_id", "day"},
	{"checkins", "lifter_id", "day"},
	{"set_history", "lifter_id", "id"},
	{"imports", "lifter_id", "id"},
	{"imported_sets", "lifter_id", "mark"},
	{"training", "lifter_id", "1"},
	{"week_changes", "lifter_id", "id"},
	{"training_weeks", "lifter_id", "start_day"},
	{"prescribed", "lifter_id", "day"},
	{"licences", "lifter_id", "1"},
	{"audit", "about_id", "id"},
	{"lifters", "coach_id", "id"},
}

// moveRows moves all that passes as it is, and writes down what did.
func (t *Tx) moveRows(from, to planner.LifterID, o *Takeover) error {
	for _, p := range passing {
		had, err := t.rowKeys(p.table, p.whose, p.key, from)
		if err != nil || len(had) == 0 {
			if err != nil {
				return err
			}
			continue
		}
		text := fmt.Sprintf(`UPDATE OR IGNORE %s SET %s = ? WHERE %[2]s = ?`, p.table, p.whose)
		if _, err := t.tx.ExecContext(t.ctx, text, int64(to), int64(from)); err != nil {
			return fmt.Errorf("move %s: %w", p.table, err)
		}
		left, err := t.rowKeys(p.table, p.whose, p.key, from)
		if err != nil {
			return err
		}
		o.Came[p.table+"."+p.whose] = without(had, left)
	}
	return nil
}

// rowKeys lists what tells a lifter's rows of a table apart.
func (t *Tx) rowKeys(table, whose, key string, id planner.LifterID) (Keys, error) {
	rows, err := t.tx.QueryContext(t.ctx, fmt.Sprintf(`SELECT json_array(%s) FROM %s WHERE %s = ?`, key, table, whose), int64(id))
	if err != nil {
		return nil, fmt.Errorf("keys of %s: %w", table, err)
	}
	defer rows.Close()
	var all Keys
	for rows.Next() {
		var k string
		if err := rows.Scan(&k); err != nil {
			return nil, err
		}
		all = append(all, json.RawMessage(k))
	}
	return all, rows.Err()
}

// without returns the keys that are not among others.
func without(all, others Keys) Keys {
	there := map[string]bool{}
	for _, k := range others {
		there[string(k)] = true
	}
	var out Keys
	for _, k := range all {
		if !there[string(k)] {
			out = append(out, k)
		}
	}
	return out
}

// rowsBack moves the rows that came with a takeover, as far as they are still there.
func (t *Tx) rowsBack(from, to planner.LifterID, o Takeover) error {
	back := append(passing[:len(passing):len(passing)], struct{ table, whose, key string }{"plans", "lifter_id", "id"},
		struct{ table, whose, key string }{"sets", "lifter_id", "day, seq"})
	for _, p := range back {
		came := o.Came[p.table+"."+p.whose]
		if len(came) == 0 {
			continue
		}
		list, err := json.Marshal(came)
		if err != nil {
			return err
		}
		text := fmt.Sprintf(`UPDATE OR IGNORE %s SET %s = ? WHERE %[2]s = ? AND json_array(%s) IN (SELECT value FROM json_each(?))`, p.table, p.whose, p.key)
		if _, err := t.tx.ExecContext(t.ctx, text, int64(to), int64(from), string(list)); err != nil {
			return fmt.Errorf("move %s back: %w", p.table, err)
		}
	}
	return nil
}

// movePlans puts the placeholder's plans behind the account's versions. The account's
// agreed plan goes on; else the placeholder's does, and a proposal of the account's
// is replaced.
func (t *Tx) movePlans(from, to planner.LifterID, o *Takeover) error {
	now := time.Time{}
	theirs, err := t.Plans(from)
	if err != nil || len(theirs) == 0 {
		return err
	}
	_, runs, err := t.AgreedPlan(to)
	if err != nil {
		return err
	}
	for _, p := range theirs {
		if p.State == PlanAgreed {
			o.Agreed = p.ID
		}
		if p.Built.After(now) {
			now = p.Built
		}
	}
	loser, states := to, []PlanState{PlanProposed}
	if runs {
		loser, states = from, []PlanState{PlanProposed, PlanAgreed}
	}
	for _, s := range states {
		if err := t.replacePlans(loser, s, now); err != nil {
			return err
		}
	}
	if o.Came["plans.lifter_id"], err = t.rowKeys("plans", "lifter_id", "id", from); err != nil {
		return err
	}
	last, err := t.q.LastVersion(t.ctx, to)
	if err != nil {
		return err
	}
	return t.q.MovePlans(t.ctx, sqlgen.MovePlansParams{RealID: to, Behind: last, FromID: from})
}

// moveSets moves sets and what they were before behind those of the same day.
func (t *Tx) moveSets(from, to planner.LifterID, o *Takeover) error {
	days, err := t.q.DaysLogged(t.ctx, from)
	if err != nil {
		return err
	}
	behind := map[column.Day]int64{}
	had, err := t.q.SetKeys(t.ctx, from)
	if err != nil {
		return err
	}
	for _, day := range days {
		if behind[day], err = t.q.LastSeq(t.ctx, sqlgen.LastSeqParams{LifterID: to, Day: day}); err != nil {
			return err
		}
		if err := t.q.MoveSets(t.ctx, sqlgen.MoveSetsParams{RealID: to, FromID: from, Day: day, Behind: behind[day]}); err != nil {
			return err
		}
		if err := t.q.ShiftSetHistory(t.ctx, sqlgen.ShiftSetHistoryParams{FromID: from, Day: day, Behind: behind[day]}); err != nil {
			return err
		}
	}
	for _, k := range had {
		key := fmt.Sprintf(`[%q,%d]`, planner.Date(k.Day).String(), k.Seq+behind[k.Day])
		o.Came["sets.lifter_id"] = append(o.Came["sets.lifter_id"], json.RawMessage(key))
	}
	return nil
}
