package store

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// somebody stands where an erased member was named.
const somebody = "somebody"

// eraser takes a member's name and handle out of words that are about others too:
// the club's posts, its buttons, what the terminal remembers of them, the trail of
// changes. Only whole words are taken: "Ana" stays in "Anatol", and in "Ana K" where
// that is somebody else's name.
type eraser struct {
	quick  []string         // what the stored text contains where there is anything to do
	names  []*regexp.Regexp // the member's own, the longest first
	others []*regexp.Regexp // longer names of others that hold one of them
}

func newEraser(l planner.Lifter, others ...planner.Lifter) eraser {
	var e eraser
	own := namesOf(l)
	for _, name := range own {
		stored, _ := json.Marshal(name) // a string always marshals
		e.quick = append(e.quick, strings.ToLower(string(stored[1:len(stored)-1])), strings.ToLower(name))
		e.names = append(e.names, anyCase(name))
	}
	for _, o := range others {
		for _, name := range namesOf(o) {
			holds := func(part string) bool {
				return len(part) < len(name) && strings.Contains(strings.ToLower(name), strings.ToLower(part))
			}
			if o.ID != l.ID && slices.ContainsFunc(own, holds) {
				e.others = append(e.others, anyCase(name))
			}
		}
	}
	return e
}

// namesOf are what a lifter is called, the longest first.
func namesOf(l planner.Lifter) []string {
	names := []string{strings.TrimSpace(l.Name), strings.TrimSpace(l.Handle)}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	return slices.DeleteFunc(names, func(n string) bool { return n == "" })
}

func anyCase(name string) *regexp.Regexp {
	return regexp.MustCompile(`(?i)[@＠]?` + regexp.QuoteMeta(name))
}

// concerns tells, without taking it apart, whether a text may name the member.
func (e eraser) concerns(stored string) bool {
	stored = strings.ToLower(stored)
	for _, q := range e.quick {
		if strings.Contains(stored, q) {
			return true
		}
	}
	return false
}

// text takes the member out of a text.
func (e eraser) text(s string) string {
	taken := wholeWords(s, e.others, nil)
	others := len(taken)
	own := wholeWords(s, e.names, taken)[others:]
	slices.SortFunc(own, func(a, b span) int { return a.from - b.from })
	var out strings.Builder
	kept := 0
	for _, at := range own {
		out.WriteString(s[kept:at.from] + somebody)
		kept = at.to
	}
	return out.String() + s[kept:]
}

// span is a part of a text in bytes.
type span struct{ from, to int }

// wholeWords adds to the spans that are taken those where a name stands on its own.
func wholeWords(s string, names []*regexp.Regexp, taken []span) []span {
	for _, name := range names {
		for _, at := range name.FindAllStringIndex(s, -1) {
			before, _ := utf8.DecodeLastRuneInString(s[:at[0]])
			after, _ := utf8.DecodeRuneInString(s[at[1]:])
			overlaps := func(t span) bool { return at[0] < t.to && t.from < at[1] }
			if !partOfWord(before) && !partOfWord(after) && !slices.ContainsFunc(taken, overlaps) {
				taken = append(taken, span{at[0], at[1]})
			}
		}
	}
	return taken
}

func partOfWord(r rune) bool { return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

// json takes the member out of every string of a document; false where there was
// nothing to take.
func (e eraser) json(stored column.JSON) (column.JSON, bool, error) {
	if !e.concerns(string(stored)) {
		return stored, false, nil
	}
	d := json.NewDecoder(bytes.NewReader(stored))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return nil, false, err
	}
	var out bytes.Buffer
	w := json.NewEncoder(&out)
	w.SetEscapeHTML(false)
	err := w.Encode(e.value(v))
	return column.JSON(bytes.TrimSpace(out.Bytes())), true, err
}

func (e eraser) value(v any) any {
	switch v := v.(type) {
	case string:
		return e.text(v)
	case []any:
		for i := range v {
			v[i] = e.value(v[i])
		}
	case map[string]any:
		clean := make(map[string]any, len(v))
		for key, value := range v {
			clean[e.text(key)] = e.value(value)
		}
		return clean
	}
	return v
}

// eraseWords takes a member out of everything that stays.
func (t *Tx) eraseWords(l planner.Lifter) error {
	all, err := t.Lifters()
	if err != nil {
		return err
	}
	e := newEraser(l, all...)
	for _, erase := range []func(eraser) error{t.erasePostWords, t.eraseButtonWords, t.eraseTerminalWords, t.eraseAuditWords,
		t.eraseRosterWords, t.eraseReviewWords, t.eraseNoteWords, t.eraseTakeoverWords} {
		if err := erase(e); err != nil {
			return err
		}
	}
	return nil
}

// eachDocument takes the member out of a document that each of some rows holds; err is
// what reading the rows ended with.
func eachDocument[R any](e eraser, rows []R, err error, document func(R) column.JSON, set func(R, column.JSON) error) error {
	for _, r := range rows {
		clean, changed, fault := e.json(document(r))
		if fault == nil && changed {
			fault = set(r, clean)
		}
		if fault != nil {
			return fault
		}
	}
	return err
}

// eachText is eachDocument for a text.
func eachText[R any](e eraser, rows []R, err error, text func(R) string, set func(R, string) error) error {
	for _, r := range rows {
		if clean := e.text(text(r)); clean != text(r) {
			if err := set(r, clean); err != nil {
				return err
			}
		}
	}
	return err
}

func (t *Tx) erasePostWords(e eraser) error {
	rows, err := t.q.PostBodies(t.ctx)
	return eachDocument(e, rows, err, func(r sqlgen.PostBodiesRow) column.JSON { return r.BodyJson }, func(r sqlgen.PostBodiesRow, clean column.JSON) error {
		return t.q.SetPostBody(t.ctx, sqlgen.SetPostBodyParams{BodyJson: clean, Key: r.Key})
	})
}

func (t *Tx) eraseButtonWords(e eraser) error {
	rows, err := t.q.ButtonWords(t.ctx)
	for _, r := range rows {
		args, changed, fault := e.json(r.ArgsJson)
		label := e.text(r.Label)
		if fault == nil && (changed || label != r.Label) {
			fault = t.q.SetButtonWords(t.ctx, sqlgen.SetButtonWordsParams{Label: label, ArgsJson: args, Token: r.Token})
		}
		if fault != nil {
			return fault
		}
	}
	return err
}

func (t *Tx) eraseTerminalWords(e eraser) error {
	rows, err := t.q.TerminalBodies(t.ctx)
	return eachDocument(e, rows, err, func(r sqlgen.TerminalBodiesRow) column.JSON { return r.BodyJson }, func(r sqlgen.TerminalBodiesRow, clean column.JSON) error {
		return t.q.SetTerminalBody(t.ctx, sqlgen.SetTerminalBodyParams{BodyJson: clean, ID: r.ID})
	})
}

func (t *Tx) eraseAuditWords(e eraser) error {
	rows, err := t.q.AuditTexts(t.ctx)
	return eachText(e, rows, err, func(r sqlgen.AuditTextsRow) string { return r.What }, func(r sqlgen.AuditTextsRow, clean string) error {
		return t.q.SetAuditText(t.ctx, sqlgen.SetAuditTextParams{What: clean, ID: r.ID})
	})
}
