// Package blocks lays out the blocks of a season: how many weeks of muscle
// (hypertrophy), strength, peaking and recovery lie before each meet.
//
// It is an exact optimiser over whole training weeks. Build turns a Request into
// a Plan; Model is published with every plan, so that anybody can add the
// objective up again and look for something better.
//
// # Time
//
// A training week begins on the club's weekday. The weeks of a stretch are those
// that begin in it: from the day of the plan, or the day after a main meet, to
// the day before the next main meet. Odd days in front belong to the first (or
// running) block and are not counted; the week of the meet is the last, short
// one; a week that would begin on the day of a main meet does not exist. A stretch
// without a week start counts one week if it has at least four days, else none (and
// none where peaking runs already, which takes those days with it).
// The day of a meet belongs to no block. A running block is listed with its true
// first day and its whole length; if it ends on the day of the plan it is not
// listed.
//
// # Objective
//
// With the state (m, c, s, e) of Model.Week:
//
//	  1.0 (s + e)  for each main meet
//	+ 0.1 (s + e)  for each tune-up
//	+ 0.5 s        for each test day, also the one that closes a cycle without a meet
//	+ lambda m     at the end of the plan
//	- kappa sum over hypertrophy, strength and peaking blocks of ((L - L0)/L0)^2
//	- 0.004        once, where the run-up to the first main meet has 11 training
//	               weeks or more and no hypertrophy in it
//	- 0.001        for each tune-up on a day of a hypertrophy block
//
// each after the training weeks that begin before its day. L is the whole length
// of a block; a running one counts the weeks done, even if it ends at once, and one of
// no training weeks pays nothing. Two
// entries on one day are one mark, of the heavier kind. The plan with the highest
// objective among the legal ones is chosen; within 1e-9 the one with fewer
// blocks, then more hypertrophy, then more strength, then the longer earlier
// blocks.
//
// # Meets
//
// At most 12 days with meets within 156 weeks are planned; what lies beyond is
// left out with a note. A tune-up that no main meet follows is peaked for as a
// main meet. A test day after the last main meet is left out with a note. A
// tune-up less than 21 days before a main meet ends no block; the plan says to
// lift it lightly.
//
// Without a main meet the plan runs to the last test day on the calendar, if that
// lies 6 training weeks or more ahead. Else it is one rolling cycle of 14 training
// weeks (15, 16, 13 or 12 where only that fits the pins) that a virtual test day
// closes. The notes say which.
//
// The gain of a plan is told at its last main meet, from s + e. At a test day, and
// so for a plan without a main meet, it is that of strength alone: e is taken as
// on the day of the plan, and sharpening is 0.
//
// A tune-up lies in strength or peaking, or in hypertrophy from its fourth week on
// (in its first three only where a pin speaks of the block). The 0.001 is the 0.1 %
// below which two plans are the same to nature: for that, and what the tune-up itself
// is worth, a long muscle block is not turned over at the cost of the main meet. Days
// between a tune-up or test day that was peaked for and the next training week
// belong to the week of that day.
//
// A deload counts as a whole week. Counted half, it changed two plans in three by a
// week, and the plans of the model as it is were 0.01 to 0.07 % worse on average
// than those (a novice's at worst 0.34 %): mostly because blocks then end just before
// a second deload would fall due, which is no reason to end a block.
//
// # Times away
//
// Told times away that overlap or follow each other count as one; one of under 7
// days changes nothing. A training week with 4 or more days away is a week away: it
// runs the layoff of Model.Week in place of its block, and does not count as a week of
// it. Model.Away lists the weeks away ahead, each with the weeks of the same time away
// before it. Away under 28 days interrupts a block: its dates span the weeks away,
// Weeks does not count them, and its weeks go on counting behind them; weeks away
// between two blocks lie in the first. From 28 days on, or where nobody trains on
// the day of the plan and no block runs, the time away ends what was before it: the
// last block ends on the eve of the first day away, hypertrophy or strength as short
// as it must be, and a new block begins on the first day back, with no training week
// before the next week start. What was trained since the last time away of 28 days
// and more is a run-up of its own: Model.RunUp is its first day, LeftOutFrom and the
// order prescribed for the weeks left look at it alone. Weeks left, and the days of a
// gap between two meets, are counted without the weeks away.
//
// From 14 days away on no peaking lies in training weeks that begin less than 2 weeks
// after the first day back, from 56 on less than 4, unless the next main meet is less
// than 35 days after the first day back. An order that would be all peaking has
// strength in front then, and peaking may be as short as the weeks left. After 56 days
// and more a run-up of 10 training weeks or more, and a cycle whose share of
// hypertrophy has room for it, begins with hypertrophy: many lighter sets come first.
// Where nothing else fits, these rules give way and the plan says so. A meet inside a
// time away is planned for up to its eve.
//
// Times away in the past join the history: its blocks, which have no dates, are taken
// to lie one behind another before the running one, with the weeks away between. A
// running block that 28 days away have cut is over; what was trained since is a
// block of the same kind that began on the first day back. A cycle without a meet
// has its weeks after the last time away that ends blocks.
//
// What a time away in the past took of strength and sharpness is Start.Lost; the muscle
// it took stays in reach, as part of the skill that strength closes on, because what
// was once built comes back far sooner than it was built. Plan.RegainedPercent tells
// how much of the gain only makes up for it.
//
// # Bounds
//
// A bound caps the weeks of every block of a kind, or forbids the kind; it never gives
// way, and what cannot keep it with the pins and meets is an error that names them
// all. What has run already stands: a running block over its cap ends. A bound on
// peaking is a peaking limit; where fewer weeks are left than would be all peaking,
// strength as short as it must be comes first. With 3 weeks to the meet or less
// running peaking goes on. A forbidden kind is left out of the order prescribed; where
// that is hypertrophy, strength may fill the weeks that the longest peaking leaves.
//
// Peaking passes the lifter's limit for the calendar's sake alone, or where a pin asks
// for peaking by name and fixes its length. Pins and bounds that ask for it without a
// word are an error that names the fewest of them.
//
// # The agreed plan
//
// Where Request.Agreed is still legal and the best plan gains less than 0.0025 over it,
// it stays (Plan.Kept). A meet that was moved later, or dropped, changes no running
// block: it lasts as agreed at least. The weeks that are new go to it, up to its
// longest, and only then is anything inserted; that plan in turn gives way only to one
// that gains 0.0025. A cycle without a meet keeps its agreed end.
// Where it is a pin or a bound that the agreed plan breaks, the running block lasts as
// agreed only while that costs less than 0.0025. Compare shows such a plan as Held,
// beside the best one.
//
// # Pins
//
// A pin with neither number nor day that names a kind means the running block, where it
// is of that kind and has not run for longer yet, else the next of the kind; one that
// names no kind means the first block of its length. Where there are more of the kind,
// the notes say which.
//
// # Gaps between main meets
//
// The row of the gap table is chosen by the days from meet to meet, and its
// lengths hold together with the peaking limit. Where they do not add up to the
// training weeks of the gap, the first of these that does is taken: recovery and
// strength as long as anywhere, peaking down to 3 weeks, and from 13 training weeks
// on a whole cycle; strength where the row has none; peaking past the limit, by as
// few weeks as will do. Up to the last that is a note, passing the limit a relaxed
// rule. From 60 years on two weeks of recovery come before one in each of them, but
// for gaps under 35 days. Recovery of 4 to 7 days in a gap of 18 to 34 days is the
// odd days in front if there are 4 or more: a block of no training weeks.
//
// # What is left out
//
// Plan.LeftOut has the kinds among hypertrophy, strength and peaking that are
// nowhere in the plan, nor run, nor were finished before the running block in the
// same run-up; without a main meet peaking does not count. Where a plan has more
// than one run-up, the notes say by the name of its meet what one of them lacks.
//
// # Legal plans
//
// Order: hypertrophy, strength, peaking; peaking ends only on the day before a
// meet or test day; after a main meet comes recovery. rows.go holds lengths and
// what is prescribed for the weeks left and for gaps between meets; legal.go
// what one block may be; relax.go what gives way, and in which order, where
// nothing fits. All of it is common practice unless a source stands beside it.
//
// # Comparing and explaining
//
// Compare holds plans for the same weeks against each other: the best, other shapes,
// the agreed one and splits that a coach typed (ParseSplit). A split that breaks a
// rule is scored all the same and says which. Explain says of each block and boundary
// why it lies where it does. Both tell costs as shares of the lifter's total; give
// them the present estimates as the lifter's maxima.
//
// The numbers of the model are ranges (Ranges), all of them judgement. Every plan is
// scored under the same 400 draws from them, and is not laid out anew: between the ends
// of an interval lie 8 of 10 draws. Which plan is better in a draw is decided by the
// objective, preferences included; they and all weights are decisions and are not drawn.
package blocks
