// Package terminal plays the bot without any platform: lines typed or read from
// a script become events, and whatever the bot does is printed as a calm
// transcript or as one JSON object a line.
//
// The grammar of a line:
//
//	# anything                      a comment (a blank follows the #); blank lines are skipped
//	clock 2027-01-04T08:00:00Z      set the clock, later walk it to that moment
//	clock +14d                      walk it on; w, d, h and m, also together: +1d12h
//	@ana squat 140x5 @8             @ana says something in #training-log
//	@ana /season build              a typed command
//	#announcements @cap hello       the same in another channel
//	press @ana "Accept plan"        press a button
//	edit @ana squat 142.5x5         change @ana's newest message (not a command)
//	delete @ana                     remove it; also: delete #other @ana
//
// A command that takes a file reads it from the disk: /log import file:log.csv, or
// file:"my log.csv".
//
// A line that ends in a backslash goes on in the next one, and the message then
// has several lines:
//
//	@ana squat\
//	140x5\
//	150x3
//
// A day of the clock is 24 hours. The clock is kept in Memory: the first line
// that needs it sets it, every later one walks from the stored moment, from one
// due nudge to the next, so that a season played in one run or in fifty gives
// the same nudges.
package terminal
