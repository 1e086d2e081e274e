package store

import (
	"time"

	"blockbell/store/internal/sqlgen"
)

// Desk is what the captain's desk is set to.
type Desk struct {
	Channel string       // for captains' eyes; empty: none
	Digest  bool         // post a digest each week
	Day     time.Weekday // of the digest
	Changes bool         // announce the week's block changes each week, unasked
	CheckIn bool         // ask the club each week how everybody feels
	AskOn   time.Weekday // on which day
}

// Desk returns the settings; all off where none were saved.
func (t *Tx) Desk() (Desk, error) {
	r, err := t.q.Desk(t.ctx)
	if absent(err) {
		return Desk{Day: time.Monday}, nil
	}
	if err != nil {
		return Desk{}, err
	}
	d := Desk{Channel: r.Channel, Day: time.Monday, Changes: r.Changes != 0}
	if r.DigestOn != nil {
		d.Digest, d.Day = true, time.Weekday(*r.DigestOn)
	}
	if r.CheckinOn != nil {
		d.CheckIn, d.AskOn = true, time.Weekday(*r.CheckinOn)
	}
	return d, nil
}

// SaveDesk keeps the settings.
func (t *Tx) SaveDesk(d Desk) error {
	p := sqlgen.SaveDeskParams{Channel: d.Channel}
	if d.Digest {
		day := int64(d.Day)
		p.DigestOn = &day
	}
	if d.Changes {
		p.Changes = 1
	}
	if d.CheckIn {
		day := int64(d.AskOn)
		p.CheckinOn = &day
	}
	return t.q.SaveDesk(t.ctx, p)
}
