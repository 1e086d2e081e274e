package nudge

import (
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
)

// line is what the club's post says of a nudge, without the name; equal lines of
// several lifters become one. today is the day of the post.
func (n *Nudge) line(today planner.Date) string {
	switch n.Kind {
	case MeetNear:
		return n.meetName() + " " + n.away(today)
	case TaperStart:
		return "Taper (easing off) " + onDay("starts", "started", n.Day, today) + n.forMeet()
	case BlockBegin:
		return upper(render.BlockName(n.block().Kind)) + " " + onDay("begins", "began", n.Day, today)
	}
	return ""
}

// tail is what the club's post says behind the names.
func (n *Nudge) tail() string {
	if n.Kind == MeetNear {
		return " (" + n.Meet.Date.Short() + ")"
	}
	return ""
}

// told is what a lifter reads directly: what, why, what to do, in at most three
// lines, but for peaking that runs long, where a decision hangs on the numbers.
func (f *Facts) told(n *Nudge, today planner.Date) string {
	var lines []string
	switch n.Kind {
	case MeetNear:
		lines = n.toldMeet(today)
	case TaperStart:
		lines = []string{
			"Your taper (easing off) " + onDay("starts", "started", n.Day, today) + n.forMeet() + ".",
			"Less work now lets your strength show on the day.",
			"Do fewer sets; keep the weights until your last heavy day.",
		}
	case BlockBegin:
		lines = []string{
			"Your " + render.BlockName(n.block().Kind) + " " + onDay("begins", "began", n.Day, today) + " and runs to " + n.block().End.Short() + ".",
			"That is the date in the plan you agreed to. Your first session: /today.",
		}
	case BlockEnd:
		lines = f.toldEnd(n, today)
	case BlockWaits:
		lines = n.toldWaiting()
	case BlockLate:
		lines = n.toldLate(today)
	case PeakingLong:
		lines = f.toldLong(n)
	case EntryCloses, LicenceEnds, Openers, WeighIn, Checklist, AfterMeet:
		lines = n.toldPaper(today)
	case DeloadWeek:
		lines = n.toldDeload(today)
	case LastHeavy:
		lines = n.toldHeavy()
	case Silence:
		lines = n.toldSilence()
	case DoneForYou:
		lines = n.toldDone()
	case Approval:
		lines = toldAsked([]string{called(n.Asked.Lifter)})
	case Plateau:
		lines = f.toldPlateau(n)
	case WorkFit:
		lines = n.toldFit()
	case VeryTired:
		lines = n.toldTired()
	case Stale:
		lines = n.toldStale()
	}
	if n.Asks {
		lines = append(lines, "The last of these went unanswered. Fewer of them? Without an answer they stop.")
	}
	return strings.Join(lines, "\n")
}

// toldMeet counts down to a meet, and says what the count is good for.
func (n *Nudge) toldMeet(today planner.Date) []string {
	what := n.meetName() + " " + n.away(today) + ": " + n.Meet.Date.Short() + "."
	switch {
	case today.DaysUntil(n.Meet.Date) <= 1 && n.Member.longGone(today):
		return []string{what, "No training today. You were away for a while: if you lift, open with what you could do three times on any day."}
	case today.DaysUntil(n.Meet.Date) <= 1:
		return []string{what, "The work is done, and rest shows it best: no training today."}
	case n.Member.gone(today):
		return []string{what, "Your plan waits until you are back: /season back."}
	case n.Member.Plan == 0:
		return []string{what, "The weeks that are left decide what fits in. /season build lays them out."}
	}
	return []string{what, "Your plan counts back from that day; a change of the day changes it: /meet move. Where you are: /block."}
}

func (f *Facts) toldEnd(n *Nudge, today planner.Date) []string {
	what := "Your " + render.BlockName(n.block().Kind) + " " + onDay("ends", "ended", n.block().End, today) + n.after() + "."
	if n.Member.meetMoved(n.Index) {
		return []string{what, "A peak does not keep for ever. /season build fits a plan to your meets."}
	}
	why := "That is the date in the plan you agreed to."
	switch {
	case n.beforeMeet():
		return []string{what, why, "Nothing to add now: what is left is in /week."}
	case n.last():
		return []string{what, why, "When you want the next plan: /season build."}
	case f.Ask && n.block().Kind != planner.Peaking:
		return []string{what, why, "Nothing to do yet: you are asked before the next block begins."}
	}
	return []string{what, why, "If that suits you, there is nothing to do."}
}

func (n *Nudge) toldWaiting() []string {
	next := n.Member.Season.Blocks[n.Next]
	return []string{
		"Your " + render.BlockName(n.block().Kind) + " ended on " + n.block().End.Short() + ".",
		"By plan the next is " + render.BlockName(next.Kind) + ", from " + next.Start.Short() + "; it waits for you.",
		"Begin it, or take one more week.",
	}
}

// meetName names the meet and, where it is not a main one, what it is.
func (n *Nudge) meetName() string {
	switch n.Meet.Kind {
	case planner.TuneUp:
		return "Practice meet " + called(n.Meet.Name)
	case planner.Test:
		return "Test day " + called(n.Meet.Name)
	}
	return called(n.Meet.Name)
}

// away says how far off the meet is: full weeks as weeks.
func (n *Nudge) away(today planner.Date) string {
	left := today.DaysUntil(n.Meet.Date)
	switch {
	case left == 1:
		return "is tomorrow"
	case left > 0 && left%7 == 0:
		return "in " + render.Count(left/7, "week")
	}
	return render.InDays(left)
}

// forMeet names the meet that the nudge's block leads to.
func (n *Nudge) forMeet() string {
	m, ok := n.Member.Season.MeetOf(n.block())
	if !ok {
		return ""
	}
	return " for " + called(m.Name) + ", " + m.Date.Short()
}

// after says what follows the nudge's block: its meet, the next block, or nothing.
func (n *Nudge) after() string {
	b := n.block()
	if m, ok := n.Member.Season.MeetOf(b); ok && n.beforeMeet() {
		if n.Member.meetMoved(n.Index) {
			return "; " + called(m.Name) + " is no longer on " + m.Date.Short() + ", so it goes on until there is a new plan"
		}
		return ", the day before " + called(m.Name)
	}
	if n.last() {
		return ", and with it the plan"
	}
	return ", then " + render.BlockName(n.Member.Season.Blocks[n.Index+1].Kind)
}

// beforeMeet tells whether the nudge's block was laid out to end before a meet.
func (n *Nudge) beforeMeet() bool {
	_, ok := n.Member.Season.MeetOf(n.block())
	return ok && n.block().Kind == planner.Peaking
}

// last tells whether no block of the plan follows the nudge's.
func (n *Nudge) last() bool { return n.Index+1 >= len(n.Member.Season.Blocks) }

// onDay joins a verb to a day: "begins today", "began Mon 22 February", "ends Sun
// 21 February".
func onDay(verb, past string, day, today planner.Date) string {
	switch {
	case day == today:
		return verb + " today"
	case day < today:
		return past + " " + day.Short()
	}
	return verb + " " + day.Short()
}

// upper begins with a capital letter.
func upper(s string) string { return strings.TrimSuffix(render.Sentence(s), ".") }
