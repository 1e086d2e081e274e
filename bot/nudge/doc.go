// Package nudge decides what the bot says unasked, and says each thing once.
//
// What is due is a pure question: Due takes the facts of a club and a span of
// time and answers with nudges, each with the instant it falls due, the place it
// belongs to and the last instant at which it is still worth saying. The Runner
// asks that question every minute, writes the answer to the ledger together with
// the post that will carry it, and then posts what the outbox holds. A nudge is
// named by a ledger key, lifter/kind/object/fact, that never changes; the ledger
// takes each key once, so running twice, crashing or setting the clock back
// repeats nothing.
//
// # Who hears what, where
//
// News (a block begins, the taper starts, a meet draws near) stands by name in
// one club post a day, at the club's hour in the club's zone. Everything else is
// personal, that a block ends in three days too: it goes directly where that was
// chosen; for the others the club post counts it in one line without names, and a
// button shows each lifter their own. Direct messages are gathered too: one per
// lifter and day, at the club's wall time on the lifter's own clock.
//
// Members under 18 are named in public only for the countdown to a meet. Who
// opted out of being named is told directly, or counted. Who wants to hear things
// only when asking is told nothing personal, and the ledger says so; news of the
// club still names them, because that is a choice of its own. An unknown birth
// date counts as grown up: joining asks 'or 18 and over'.
//
// # Late
//
// What comes up after the day's post was made, such as a meet entered on the day
// before it, and would be told too late by the next one, is told at once to those
// who chose to be told directly; for the others the ledger says so.
//
// A post waits for daytime: what could not be said at its hour is said within
// twelve hours of it, or at the next day's hour, as long as it is still worth
// saying (Spec.Keeps). A post that could not be delivered on its own day is given
// up, because its words speak of that day; whatever in it is still worth saying
// goes into the next one. Nothing older than a fortnight is looked at.
package nudge
