package bot

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// longestPause is how long everything personal may be put off, in days.
const longestPause = 60

// nudgeHour answers /nudges hour.
func nudgeHour(t *turn) (chat.Reply, error) {
	return t.changeTimes(func(n *store.NudgeTimes) (string, error) {
		text := strings.TrimSpace(t.options["time"])
		if strings.EqualFold(text, "club") {
			n.Own = false
			return fmt.Sprintf("Direct messages come at the club's hour, %02d:%02d.", t.club.Hour, t.club.Minute), nil
		}
		hour, minute, err := parse.Clock(text)
		if err != nil {
			return "", err
		}
		n.Own, n.Hour, n.Minute = true, hour, minute
		return fmt.Sprintf("Direct messages come at %02d:%02d your time.", hour, minute), nil
	})
}

// nudgeQuiet answers /nudges quiet.
func nudgeQuiet(t *turn) (chat.Reply, error) {
	return t.changeTimes(func(n *store.NudgeTimes) (string, error) {
		quiet, err := weekdays(t.options["days"])
		if err != nil {
			return "", err
		}
		n.Quiet = quiet
		names := quietNames(*n)
		if len(names) == 0 {
			return "No quiet days.", nil
		}
		return "No direct messages on " + render.List(names) + ". What cannot wait comes all the same.", nil
	})
}

// nudgeSnooze answers /nudges snooze.
func nudgeSnooze(t *turn) (chat.Reply, error) {
	return t.changeTimes(func(n *store.NudgeTimes) (string, error) {
		text := strings.TrimSpace(t.options["days"])
		days, err := strconv.Atoi(text)
		if err != nil || days < 0 || days > longestPause {
			return "", planner.Errorf(planner.Invalid, "For example /nudges snooze 7.", "The option days is %q: it must be a number of days from 0 to %d", text, longestPause)
		}
		if days == 0 {
			n.Paused = time.Time{}
			return "The pause is over.", nil
		}
		until := t.dayOf(t.about, t.now).AddDays(days)
		n.Paused = until.Midnight(zoneOf(t.about, t.club))
		return "Nothing personal that can wait before " + until.Short() + ". Your taper, openers and entries are told all the same.", nil
	})
}

// changeTimes changes when a lifter is told things, and says how.
func (t *turn) changeTimes(change func(*store.NudgeTimes) (string, error)) (chat.Reply, error) {
	n, err := t.tx.NudgeTimes(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	text, err := change(&n)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.SaveNudgeTimes(t.about.ID, n); err != nil {
		return chat.Reply{}, err
	}
	return t.nudgesChanged(text, map[string]any{"quiet": quietNames(n), "paused": !n.Paused.IsZero()})
}

// weekdays reads days of the week by their first three letters or more.
func weekdays(text string) (quiet [7]bool, err error) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,;+/", r) })
	if len(words) == 1 && words[0] == "none" {
		return quiet, nil
	}
	for _, w := range words {
		day, ok := weekday(w)
		if !ok {
			return quiet, planner.Errorf(planner.Invalid, `For example /nudges quiet days:"sat sun", or none.`, "%q in the option days is not a day of the week", w)
		}
		quiet[day] = true
	}
	if quiet == [7]bool{true, true, true, true, true, true, true} {
		return quiet, planner.Errorf(planner.Invalid, "/nudges where ask keeps everything until you ask.", "Seven quiet days leave none to tell you anything on")
	}
	return quiet, nil
}

func weekday(word string) (time.Weekday, bool) {
	for day := time.Sunday; day <= time.Saturday; day++ {
		if name := strings.ToLower(day.String()); len(word) >= 2 && (strings.HasPrefix(name, word) || word == name+"s") {
			return day, true
		}
	}
	return 0, false
}

// quietNames names the quiet days, from Monday on.
func quietNames(n store.NudgeTimes) []string {
	names := []string{}
	for i := range 7 {
		if day := time.Weekday((i + 1) % 7); n.Quiet[day] {
			names = append(names, day.String())
		}
	}
	return names
}
