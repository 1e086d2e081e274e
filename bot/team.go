package bot

import (
	"slices"
	"strings"

	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// teamParams name several lifters at once.
func teamParams() []Param {
	return []Param{
		{Name: "lifters", About: "for several at once: names with commas between, or all (captain or their coach)"},
		{Name: "group", About: "for everybody in a group (captain or their coach)"},
	}
}

// team returns the lifters that the options lifters and group name, in the order of
// the club; none where neither is given. Every one of them must be somebody the
// speaker may speak for.
func (t *turn) team() ([]planner.Lifter, error) {
	named, some := t.options["lifters"]
	group, grouped := t.options["group"]
	if !some && !grouped {
		return nil, nil
	}
	if t.options["lifter"] != "" || some && grouped {
		return nil, planner.Errorf(planner.Invalid, "Give one of lifter:, lifters: and group:.", "It is not clear whom this is for")
	}
	all, err := t.tx.Members()
	if err != nil {
		return nil, err
	}
	var team []planner.Lifter
	if grouped {
		if group, err = t.groupNamed(); err != nil {
			return nil, err
		}
		team = slices.DeleteFunc(all, func(l planner.Lifter) bool { return l.Group != group })
	} else if strings.EqualFold(strings.TrimSpace(named), "all") {
		team = all
	} else if team, err = t.lifterList(named); err != nil {
		return nil, err
	}
	return team, t.speaksForAll(team)
}

// lifterList reads names with commas between, or with blanks where they have none.
func (t *turn) lifterList(v string) ([]planner.Lifter, error) {
	parts := strings.Split(v, ",")
	if len(parts) == 1 {
		if _, ok, err := t.lifterCalled(v); err != nil || !ok {
			parts = strings.Fields(v)
		}
	}
	var team []planner.Lifter
	for _, name := range parts {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		l, err := t.lifterNamed(name)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(team, func(x planner.Lifter) bool { return x.ID == l.ID }) {
			team = append(team, l)
		}
	}
	if len(team) == 0 {
		return nil, planner.Errorf(planner.Invalid, `For example lifters:"ana, ben".`, "lifters: %q names nobody", parse.Clean(v))
	}
	return team, nil
}

// speaksForAll refuses where the speaker may not speak for one of the team.
func (t *turn) speaksForAll(team []planner.Lifter) error {
	for _, l := range team {
		if l.ID != t.speaker.ID && !t.coaches(l) {
			return planner.Errorf(planner.Forbidden, "Leave them out, or ask your captain.", "%s is for the captain and that lifter's coach to speak for", render.Called(l))
		}
	}
	return nil
}

// each runs f with the turn about one lifter after the other.
func (t *turn) each(team []planner.Lifter, f func(planner.Lifter) error) error {
	for _, l := range team {
		t.about = l
		if err := f(l); err != nil {
			return err
		}
	}
	t.about = t.speaker
	return nil
}
