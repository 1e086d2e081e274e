package bot

import (
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// share is what one message says of one lifter.
type share struct {
	part   parse.Part
	lifter planner.Lifter
	found  bool
	like   []planner.Lifter // who may be meant, where nobody is called just so
	res    parse.Result
}

// teamSaid answers a message that speaks of lifters one after the other, as coaches
// write it; those named in but are passed over. handled is false where it is talk.
func (t *turn) teamSaid(text, message string, day planner.Date, but map[planner.LifterID]bool) (r chat.Reply, handled bool, err error) {
	parts, ok := parse.Several(parse.Unstruck(text))
	if !ok {
		return chat.Reply{}, false, nil
	}
	shares, err := t.shares(parts, day)
	if err != nil || len(but) == 0 && !t.worthKeeping(shares) {
		return chat.Reply{}, false, err
	}
	shares = slices.DeleteFunc(shares, func(s share) bool { return s.found && but[s.lifter.ID] })
	if err := t.join(); err != nil {
		return chat.Reply{}, true, err
	}
	for _, s := range shares {
		if !t.mayLogFor(s) {
			return chat.Reply{}, true, planner.Errorf(planner.Forbidden, "Write your own sets without a name in front. Nothing of that message was kept.",
				"Only the captain and a lifter's coach log for others")
		}
	}
	r, err = t.keepShares(shares, message)
	return r, true, err
}

// mayLogFor tells whether the speaker may log for whom a share speaks of: the captain
// for everybody, a coach for their lifters, everybody for themselves.
func (t *turn) mayLogFor(s share) bool {
	if !s.found {
		return t.speaker.Captain
	}
	return s.lifter.ID == t.speaker.ID || t.coaches(s.lifter)
}

// worthKeeping tells a log from talk: somebody has sets, and where only one is spoken
// of, everything said is understood. From those who log for others, sets that ask
// something and a bodyweight are no talk either.
func (t *turn) worthKeeping(shares []share) bool {
	some := false
	for _, s := range shares {
		asks := (len(s.res.Questions) > 0 || s.res.Bodyweight != 0) && t.mayLogFor(s)
		some = some || !s.res.Chatter && (len(s.res.Sets) > 0 || asks)
	}
	return some && (len(shares) > 1 || len(shares[0].res.Problems) == 0)
}

// shares reads each part against its own lifter. A lift carries over to the parts
// that name none. A day of zero is the lifter's own.
func (t *turn) shares(parts []parse.Part, day planner.Date) ([]share, error) {
	speaks := t.about
	defer func() { t.about = speaks }()
	var all []share
	lift := ""
	for _, p := range parts {
		s := share{part: p}
		var err error
		if s.lifter, s.found, err = t.lifterCalled(p.Who); err != nil {
			return nil, err
		}
		t.about = s.lifter
		if !s.found {
			t.about = planner.Lifter{Unit: planner.KG}
			if s.like, err = t.soundsLike(p.Who); err != nil {
				return nil, err
			}
		}
		if lift == "" {
			lift = p.Under
		}
		if s.res, err = t.shareRead(p, day, lift); err != nil {
			return nil, err
		}
		if n := len(s.res.Sets); n > 0 {
			last := s.res.Sets[n-1]
			lift = strings.TrimSpace(string(last.Variant) + " " + string(last.Lift))
		}
		all = append(all, s)
	}
	return all, nil
}

// shareRead reads one part, with the lift of the part before where it needs one.
func (t *turn) shareRead(p parse.Part, day planner.Date, lift string) (parse.Result, error) {
	if day == 0 {
		day = t.today()
	}
	best := t.bests()
	res, err := t.understand(p.Text, day, best)
	moved := 0
	if err == nil && lift != "" && (len(res.Sets) == 0 || len(res.Questions) > 0) {
		var with parse.Result
		if with, err = t.understand(lift+" "+p.Text, day, best); err == nil && len(with.Sets) > len(res.Sets) && len(with.Questions) <= len(res.Questions) {
			res, moved = with, len([]rune(lift))+1
		}
	}
	for i, x := range res.Problems {
		if x.Line == 1 {
			res.Problems[i].Column = max(1, x.Column-moved) + p.Column - 1
		}
		res.Problems[i].Line += p.Line - 1
	}
	return res, err
}

// soundsLike lists the lifters that a name nobody has may mean: who shares it, who is
// called so in the beginning, or whose name is one slip away.
func (t *turn) soundsLike(name string) ([]planner.Lifter, error) {
	all, err := t.tx.Members()
	if err != nil {
		return nil, err
	}
	name = strings.ToLower(name)
	var like []planner.Lifter
	for _, l := range all {
		called := strings.ToLower(render.Called(l))
		near, ok := parse.Near(name, []string{called, strings.ToLower(l.Handle)})
		if strings.HasPrefix(called, name) || ok && near != "" {
			like = append(like, l)
		}
	}
	return like[:min(len(like), 4)], nil
}

// keepShares keeps every lifter's sets in their own log, tells each of them, and
// says in one line who got what.
func (t *turn) keepShares(shares []share, message string) (chat.Reply, error) {
	var said, rest []string
	var rows []map[string]any
	m := chat.Message{Private: false}
	for _, s := range shares {
		var err error
		var line string
		switch {
		case !s.found:
			line, err = t.askWho(s, message, &m)
		default:
			line, err = t.keepShare(s, message, &m, &rows)
		}
		if err != nil {
			return chat.Reply{}, err
		}
		if line != "" && s.found && len(s.res.Sets)+len(s.res.Questions) > 0 {
			said = append(said, line)
		} else if line != "" {
			rest = append(rest, line)
		}
		if s.res.Bodyweight != 0 {
			rest = append(rest, render.Called(s.lifter)+": "+t.ownBodyweight())
		}
		if s.res.Alarm == parse.Alarm && !slices.Contains(rest, caution) {
			rest = append(rest, caution)
		}
		for _, p := range s.res.Problems {
			rest = append(rest, render.Problem(p.Line, p.Column, p.Text, p.Hint))
		}
	}
	t.about = t.speaker
	lines := rest
	if len(said) > 0 {
		lines = append([]string{strings.Join(said, " ")}, rest...)
	}
	m.Text = strings.Join(lines, "\n")
	m.Data = map[string]any{"team": rows}
	m.Buttons = m.Buttons[:min(len(m.Buttons), chat.MaxButtons)]
	return chat.Reply{Kind: chat.Answer, Message: m}, nil
}

// keepShare keeps one lifter's sets and returns what to say of them.
func (t *turn) keepShare(s share, message string, m *chat.Message, rows *[]map[string]any) (string, error) {
	t.about = s.lifter
	quiet, err := t.quiet(len(s.res.Questions) > 0)
	if err != nil {
		return "", err
	}
	m.Private = m.Private || quiet
	if len(s.res.Sets)+len(s.res.Questions) == 0 {
		return "", nil
	}
	ago, again, err := t.sentAgain(s.res.Sets, message)
	if err != nil {
		return "", err
	}
	if again {
		r, err := t.onceOnly(s.res, message, ago)
		m.Buttons = append(m.Buttons, r.Message.Buttons...)
		return render.Called(s.lifter) + ": " + r.Message.Text, err
	}
	beaten, err := t.records(s.res.Sets)
	if err != nil {
		return "", err
	}
	kept, err := t.keepSets(s.res.Sets, message)
	if err != nil {
		return "", err
	}
	buttons, err := t.logButtons(s.res, kept, render.Called(s.lifter)+": ")
	if err != nil {
		return "", err
	}
	m.Buttons = append(m.Buttons, buttons...)
	*rows = append(*rows, t.shareData(kept, beaten))
	line := render.Called(s.lifter) + ":"
	if len(kept) > 0 {
		line += " " + setLines(kept, s.lifter.Unit) + "."
	}
	if news := t.recordNews(beaten); news != "" {
		line += " " + news
	}
	if s.res.Assumed != nil {
		line += " " + s.res.Assumed.Text + "."
	}
	for _, note := range s.res.Notes {
		line += " " + note
	}
	for i, q := range s.res.Questions {
		if i > 0 || len(kept) > 0 { // right behind the name it is clear whose it is
			line += " For " + render.Called(s.lifter) + ":"
		}
		line += " " + q.Text
	}
	moved, down, err := t.movedBy(nil, kept)
	if err != nil {
		return "", err
	}
	m.Private = m.Private || down // that a load goes down is for nobody else
	for _, news := range moved {
		line += " " + news
	}
	return line, t.noteSets(kept, beaten, moved, message)
}

// shareData is what one lifter got, for programs.
func (t *turn) shareData(kept []planner.Set, beaten []newRecord) map[string]any {
	row := map[string]any{"lifter": render.Called(t.about), "sets": t.setData(kept)}
	if len(beaten) > 0 {
		row["records"] = recordData(beaten)
	}
	return row
}

// ownBodyweight says that nobody's bodyweight is logged by others. It is not repeated.
func (t *turn) ownBodyweight() string {
	if t.about.ID == t.speaker.ID {
		return "write your bodyweight on a line for itself, for example: bw 82.4. It is not kept from a message about several."
	}
	return "a bodyweight is for the lifter to log; it is not kept. They write, for example: bw 82.4"
}

// setLines are sets in one line.
func setLines(sets []planner.Set, unit planner.Unit) string {
	lines := make([]string, len(sets))
	for i, s := range sets {
		lines[i] = render.Set(s, unit)
	}
	return strings.Join(lines, ", ")
}

// setsArgs is what taking back logged sets needs.
type setsArgs struct {
	Message string   `json:"message"`
	Sets    []setRef `json:"sets"`
}

// noteSets tells the lifter what was logged for them and which loads it moves.
func (t *turn) noteSets(kept []planner.Set, beaten []newRecord, moved []string, message string) error {
	if len(kept) == 0 {
		return nil
	}
	a := setsArgs{Message: message}
	for _, s := range kept {
		a.Sets = append(a.Sets, setRef{s.Day, s.Seq})
	}
	what := "Logged for you: " + setLines(kept, t.about.Unit) + "."
	if news := t.recordNews(beaten); news != "" {
		what += " " + news
	}
	what = strings.Join(append([]string{what}, moved...), " ")
	if err := t.note(t.about, what, undo{"log.drop", a}); err != nil {
		return err
	}
	return t.audit("logged sets")
}

// takeSetsBack removes what somebody logged for the lifter, as far as it is still
// there.
func takeSetsBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[setsArgs](n)
	if err != nil {
		return "", err
	}
	there, err := t.tx.SetsOfMessage(n.Lifter, a.Message)
	if err != nil {
		return "", err
	}
	for _, s := range there {
		for _, r := range a.Sets {
			if r.Day != s.Day || r.Seq != s.Seq {
				continue
			}
			if err := t.tx.DropSet(n.Lifter, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
				return "", err
			}
		}
	}
	return "Taken back: those sets are out of your log.", nil
}
