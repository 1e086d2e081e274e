package render

import (
	"fmt"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// LearnFirst tells a new lifter that blocks come later, and when to look again.
func LearnFirst(today, again planner.Date, next *planner.Meet) chat.Message {
	text := "Your first months need no blocks: learn the lifts for 8 to 12 weeks, two or three times a week, with sets of 5 to 8 that leave about 3 more in you. (Common practice.)"
	if again > today {
		text += fmt.Sprintf("\nLet us look again on %s, %s: then /me set level:novice and /season build.", again.Long(), InDays(today.DaysUntil(again)))
	} else {
		text += "\nYou have had the time for it: when squat, bench and deadlift feel steady, /me set level:novice and then /season build."
	}
	if next != nil && next.Date > today {
		text += fmt.Sprintf("\n%s is %s. Go and lift light, what you have done in training before: the first meet is for learning too. Your coach helps you to choose the weights.", next.Name, InDays(today.DaysUntil(next.Date)))
	}
	return chat.Message{Title: "Learn the lifts first", Text: text, Data: map[string]any{"blocks": []planner.Block{}, "meets": []planner.SeasonMeet{}, "look_again": again}}
}
