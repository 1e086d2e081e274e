package bot

import (
	"regexp"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/planner"
)

// licenceParams are what /me licence takes.
func licenceParams() []Param {
	return []Param{
		{Name: "until", About: "its last day, for example 2027-12-31; none: forget it"},
		{Name: "number", About: "its number; only the lifter sees it; none: forget it"},
	}
}

// licenceNumber is what a federation prints on a card.
var licenceNumber = regexp.MustCompile(`^[\p{L}\p{N} ./-]{1,30}$`)

// setLicence answers /me licence: shows the licence, or keeps what is told of it. The
// number is optional and shown to the lifter alone.
func setLicence(t *turn) (chat.Reply, error) {
	l, err := t.tx.Licence(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	title := "Licence"
	if v, given := t.options["number"]; given {
		v = strings.TrimSpace(v)
		if strings.EqualFold(v, "none") {
			v = ""
		} else if !licenceNumber.MatchString(v) {
			return chat.Reply{}, planner.Errorf(planner.Invalid, "Letters, digits, blanks and . / - are allowed, at most 30.", "number: %q is no licence number", parse.Clean(v))
		}
		l.Number = v
	}
	if v, given := t.options["until"]; given {
		l.Until = 0
		if !strings.EqualFold(strings.TrimSpace(v), "none") {
			if l.Until, err = t.licenceDay(v); err != nil {
				return chat.Reply{}, err
			}
		}
	}
	if len(t.optionNames()) > 0 {
		if l.Until.IsZero() && t.options["until"] == "" {
			return chat.Reply{}, planner.Errorf(planner.Invalid, t.command.Example, "Say first until when it is valid: until:")
		}
		if err := t.tx.SaveLicence(t.about.ID, l); err != nil {
			return chat.Reply{}, err
		}
		if err := t.audit("told the licence"); err != nil {
			return chat.Reply{}, err
		}
		if err := t.note(t.about, "Your licence was told: valid until "+orNone(l.Until)+". /me licence changes it.", undo{}); err != nil {
			return chat.Reply{}, err
		}
		title = "Saved"
	}
	if l.Until.IsZero() {
		l.Number = ""
	}
	m := chat.Message{Title: title, Text: "Valid until: " + orNone(l.Until) + ".", Data: map[string]any{"licence": map[string]any{"until": dayOrNil(l.Until), "number_kept": l.Number != ""}}}
	if l.Number != "" && t.forWhom() == "" {
		m.Text += " Number: " + l.Number + ", shown to you alone."
	} else if l.Number != "" {
		m.Text += " A number is kept; only the lifter sees it."
	}
	warn, err := t.licenceRemark(l.Until)
	m.Text = strings.TrimSpace(m.Text + "\n" + warn)
	return private(m), err
}

// licenceDay reads the last day of a licence: at most three years back, which is a
// slip or forgotten, and ten ahead.
func (t *turn) licenceDay(v string) (planner.Date, error) {
	d, err := t.dated("until", v)
	if err != nil {
		return 0, err
	}
	if days := t.today().DaysUntil(d); days < -3*366 || days > farthestMeet {
		return 0, planner.Errorf(planner.Invalid, "Check the year.", "until: %s is not the last day of a licence in use", d.Long())
	}
	return d, nil
}

// licenceRemark says which meet ahead a licence ends before.
func (t *turn) licenceRemark(until planner.Date) (string, error) {
	if until.IsZero() {
		return "", nil
	}
	meets, err := t.tx.Meets(t.about.ID)
	for _, m := range meets {
		if m.Date >= t.today() && m.Kind != planner.Test && until < m.Date {
			return "It ends before " + parse.Clean(m.Name) + " on " + m.Date.Long() + ": renew it in time. Your federation's own dates win.", err
		}
	}
	return "", err
}

func orNone(d planner.Date) string {
	if d.IsZero() {
		return "not told"
	}
	return d.Long()
}

func dayOrNil(d planner.Date) any {
	if d.IsZero() {
		return nil
	}
	return d
}
