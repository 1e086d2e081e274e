package store

import (
	"bytes"
	"encoding/json"
	"regexp"
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
// changes. Only whole words are taken: "Ana" stays in "Anatol".
type eraser struct {
	quick []string // what the stored text contains where there is anything to do
	words *regexp.Regexp
}

func newEraser(l planner.Lifter) eraser {
	var e eraser
	var parts []string
	for _, name := range []string{l.Name, l.Handle} {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		stored, _ := json.Marshal(name) // a string always marshals
		e.quick = append(e.quick, strings.ToLower(string(stored[1:len(stored)-1])), strings.ToLower(name))
		parts = append(parts, regexp.QuoteMeta(name))
	}
	e.words = regexp.MustCompile(`(?i)[@＠]?(?:` + strings.Join(parts, "|") + `)`)
	return e
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
	var out strings.Builder
	kept := 0
	for _, at := range e.words.FindAllStringIndex(s, -1) {
		before, _ := utf8.DecodeLastRuneInString(s[:at[0]])
		after, _ := utf8.DecodeRuneInString(s[at[1]:])
		if partOfWord(before) || partOfWord(after) {
			continue
		}
		out.WriteString(s[kept:at[0]] + somebody)
		kept = at[1]
	}
	return out.String() + s[kept:]
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
	e := newEraser(l)
	for _, erase := range []func(eraser) error{t.erasePostWords, t.eraseButtonWords, t.eraseTerminalWords, t.eraseAuditWords,
		t.eraseRosterWords, t.eraseReviewWords, t.eraseNoteWords, t.eraseTakeoverWords} {
		if err := erase(e); err != nil {
			return err
		}
	}
	return nil
}

func (t *Tx) erasePostWords(e eraser) error {
	rows, err := t.q.PostBodies(t.ctx)
	for _, r := range rows {
		body, changed, fault := e.json(r.BodyJson)
		if fault == nil && changed {
			fault = t.q.SetPostBody(t.ctx, sqlgen.SetPostBodyParams{BodyJson: body, Key: r.Key})
		}
		if fault != nil {
			return fault
		}
	}
	return err
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
	for _, r := range rows {
		body, changed, fault := e.json(r.BodyJson)
		if fault == nil && changed {
			fault = t.q.SetTerminalBody(t.ctx, sqlgen.SetTerminalBodyParams{BodyJson: body, ID: r.ID})
		}
		if fault != nil {
			return fault
		}
	}
	return err
}

func (t *Tx) eraseAuditWords(e eraser) error {
	rows, err := t.q.AuditTexts(t.ctx)
	for _, r := range rows {
		if what := e.text(r.What); what != r.What {
			if err := t.q.SetAuditText(t.ctx, sqlgen.SetAuditTextParams{What: what, ID: r.ID}); err != nil {
				return err
			}
		}
	}
	return err
}
