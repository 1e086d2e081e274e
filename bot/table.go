package bot

import "blockbell/planner"

// What the words of an option may be, where only some are allowed.
var (
	levelWords     = words(planner.Levels())
	categoryWords  = words([]planner.Category{planner.Women, planner.Men})
	unitWords      = words([]planner.Unit{planner.KG, planner.LB})
	whereWords     = words([]planner.Where{planner.Direct, planner.Channel, planner.Ask})
	meetWords      = words([]planner.MeetKind{planner.Main, planner.TuneUp, planner.Test})
	eventWords     = words([]planner.EventKind{planner.Full, planner.BenchOnly, planner.PushPull, planner.DeadliftOnly})
	equipmentWords = words([]planner.Equipment{planner.Raw, planner.Wraps, planner.SinglePly, planner.MultiPly})
	benchWords     = words([]planner.BenchStyle{planner.PausedBench, planner.TouchAndGo})
	deadliftWords  = words([]planner.DeadliftStyle{planner.Conventional, planner.Sumo})
	yesNo          = []string{"yes", "no"}
)

func words[T ~string](all []T) []string {
	out := make([]string, len(all))
	for i, w := range all {
		out[i] = string(w)
	}
	return out
}

// profileParams are what /me set takes; /season build takes the same, to try
// something without keeping it.
func profileParams() []Param {
	return []Param{
		{Name: "category", About: "the category you compete in", Choices: categoryWords},
		{Name: "born", About: "date of birth, for example 1996-05-14"},
		{Name: "bodyweight", About: "in your unit, for example 62.5"},
		{Name: "class", About: "the class you enter, for example 63 or 84+"},
		{Name: "level", About: "how far you have come", Choices: levelWords},
		{Name: "zone", About: "your time zone, for example Europe/Lisbon"},
		{Name: "unit", About: "the unit you write in", Choices: unitWords},
		{Name: "days", About: "training days a week, 1 to 6"},
		{Name: "squat", About: "your best single"},
		{Name: "bench", About: "your best single"},
		{Name: "deadlift", About: "your best single"},
		{Name: "bench_style", About: "your bench in training: paused or touch and go; the other is a variant", Choices: benchWords},
		{Name: "deadlift_style", About: "your stance; the other is a variant", Choices: deadliftWords},
		{Name: "nudges", About: "where I may tell you things: directly, in the channel without your name, or only if you ask", Choices: whereWords},
		{Name: "name", About: "what I call you"},
		{Name: "competed", About: "have you done a meet before", Choices: yesNo},
		{Name: "long_blocks", About: "do you like long blocks", Choices: yesNo},
		{Name: "public", About: "may I name you in the club's post", Choices: yesNo},
	}
}

// meetParams are what a meet can be told with.
func meetParams() []Param {
	return []Param{
		{Name: "name", About: "the meet's name", Required: true},
		{Name: "date", About: "the day, for example 2027-06-12", Required: true},
		{Name: "kind", About: "main: you peak for it; tune-up: practice; test: a test day in the gym", Choices: meetWords},
		{Name: "event", About: "which lifts count", Choices: eventWords},
		{Name: "equipment", About: "supportive gear", Choices: equipmentWords},
		{Name: "class", About: "the class entered"},
		{Name: "weigh_in", About: "hours before lifting: 2 or 24", Choices: []string{"2", "24"}},
		{Name: "qualifying", About: "the total you want to qualify with"},
		{Name: "closes", About: "the day the entry closes"},
		{Name: "entered", About: "is your entry in", Choices: yesNo},
		{Name: "place", About: "where it is"},
		{Name: "zone", About: "the time zone there"},
		{Name: "rules", About: "the rule book in force there"},
		{Name: "handler", About: "who helps you there"},
	}
}

// commands is the table of everything that can be asked. Its order is the order
// of help.
func commands() table {
	return table{
		{Name: "block", Reads: true, About: "which block you are in, the days left, and what comes next", Other: true,
			Params: []Param{{Name: "aloud", About: "let everybody see the answer", Choices: yesNo}}, run: showBlock},

		{Name: "today", About: "today's work, and nothing else", Other: true, run: showToday},
		{Name: "week", Sub: "show", Default: true, About: "your week: sessions and loads; days:, version: and weeks: change how it is made", Other: true,
			Params: weekParams(), Example: "/week next", run: showWeek},
		{Name: "week", Sub: "override", About: "change what stands in the weeks, for good; alone it lists the changes", Other: true,
			Params: overrideParams(), Example: "/week override lifter:ana lift:bench load:-5", run: overrideWeek},

		{Name: "season", Sub: "show", Default: true, Reads: true, About: "your whole plan", Other: true, run: showSeason},
		{Name: "season", Sub: "build", About: "lay out blocks to your next meets; with options of /me set it only tries them out", Other: true,
			Params: profileParams(), Example: "/season build", run: buildSeason},
		{Name: "season", Sub: "accept", About: "agree to the plan that was proposed last", Other: true, run: acceptSeason},

		{Name: "season", Sub: "away", About: "tell me when you are away from training; I never ask why", Other: true,
			Params: awayParams(), Example: "/season away from:2027-02-01 to:2027-02-14", run: goAway},
		{Name: "season", Sub: "back", About: "you are back; training goes on from today", Other: true, run: comeBack},
		{Name: "season", Sub: "rest", About: "take a lift off the plan until a day, or put it back; I never ask why", Other: true,
			Params: []Param{{Name: "lift", About: "which lift", Required: true, Positional: true, Choices: words(planner.CompetitionLifts())},
				{Name: "until", About: "the day it is back; now: put it back"}},
			Example: "/season rest lift:squat until:2027-03-15", run: restLift},
		{Name: "season", Sub: "pin", About: "fix a block, its start or its length; alone it lists what is fixed", Other: true,
			Params: pinParams(), Example: "/season pin kind:peaking weeks:4", run: pinBlock},
		{Name: "season", Sub: "unpin", About: "let go of what is fixed", Other: true,
			Params:  []Param{{Name: "number", About: "its number in /season pin, or all", Required: true, Positional: true}},
			Example: "/season unpin 1", run: unpinBlock},
		{Name: "season", Sub: "cap", About: "the longest a kind of block may be; 0 for none of it; alone it lists them", Other: true,
			Params: capParams(), Example: "/season cap kind:hypertrophy weeks:6", run: capKind},
		{Name: "season", Sub: "compare", About: "your best plan beside others, and beside splits of your own", Other: true,
			Params:  []Param{{Name: "blocks", About: "your split: H muscle, S strength, P peaking with weeks; several with ; between"}},
			Example: `/season compare blocks:"H6 S8 P4"`, run: comparePlans},
		{Name: "season", Sub: "why", About: "why your plan is as it is, and what moving a boundary costs", Other: true, run: explainPlan},
		{Name: "season", Sub: "history", Reads: true, About: "every version of your plan: when, by whom, what changed", Other: true, run: showVersions},

		{Name: "meet", Sub: "list", Default: true, Reads: true, About: "your meets", Other: true, run: listMeets},
		{Name: "meet", Sub: "add", About: "put a meet on your calendar", Other: true, Params: append(meetParams(), teamParams()...),
			Example: `/meet add name:"River Open" date:2027-06-12 kind:main`, run: addMeet},
		{Name: "meet", Sub: "move", About: "change a meet's date", Other: true,
			Params:  []Param{{Name: "name", About: "which meet", Required: true}, {Name: "date", About: "the new day", Required: true}, teamParams()[0], teamParams()[1]},
			Example: `/meet move name:"River Open" date:2027-06-19`, run: moveMeet},
		{Name: "meet", Sub: "drop", About: "take a meet off your calendar", Other: true,
			Params:  append([]Param{{Name: "name", About: "which meet", Required: true, Positional: true}}, teamParams()...),
			Example: `/meet drop name:"River Open"`, run: dropMeet},
		{Name: "meet", Sub: "result", About: "enter what you totalled", Other: true,
			Params: []Param{{Name: "name", About: "which meet", Required: true}, {Name: "total", About: "your total; 0 for no total (bomb-out)", Required: true},
				{Name: "date", About: "its day, where it is not on your calendar yet"}},
			Example: `/meet result name:"River Open" total:412.5`, run: enterResult},
		{Name: "meet", Sub: "papers", About: "what a meet still asks for: entry, licence, total asked for, class, helper, session; tell it here", Other: true,
			Params: paperParams(), Example: `/meet papers name:"River Open" closes:2027-05-20 qualifying:400`, run: showPapers},
		{Name: "meet", Sub: "review", About: "look back on a meet: lifts, misses by reason, what went well, what to do otherwise", Other: true,
			Params: reviewParams(), Example: `/meet review name:"River Open" squat:142.5 bench:82.5 deadlift:170 misses:"0 1 0"`, run: reviewMeet},

		{Name: "me", Sub: "show", Default: true, About: "what I know about you", Other: true, run: showProfile},
		{Name: "me", Sub: "set", About: "tell me about yourself; name only what changes", Other: true, Params: profileParams(),
			Example: "/me set level:novice category:women bodyweight:62.5 unit:kg", run: setProfile},
		{Name: "me", Sub: "claim", About: "you are a lifter whom the captain added before you joined",
			Params:  []Param{{Name: "name", About: "under which name you were added", Positional: true}},
			Example: `/me claim name:"Ana K"`, run: claimSeat},
		{Name: "me", Sub: "licence", About: "until when your licence is valid; its number is optional and for your eyes only", Other: true,
			Params: licenceParams(), Example: "/me licence until:2027-12-31", run: setLicence},

		{Name: "log", Sub: "recent", Default: true, About: "your last sets", Other: true, run: recentSets},
		{Name: "log", Sub: "week", Reads: true, About: "what a week held: sets by lift and muscle, how they match your block, what got heavier", Other: true,
			Params: logWeekParams(), Example: "/log week last", run: logWeek},
		{Name: "log", Sub: "set", About: "log a set; writing it as a message is the usual way", Other: true, Params: setParams(),
			Example: "/log set lift:squat weight:140 reps:5 effort:8", run: logSet},
		{Name: "log", Sub: "fix", About: "correct a set by its number in /log recent", Other: true,
			Params:  append([]Param{{Name: "number", About: "its number in /log recent", Required: true, Positional: true}}, fixParams()...),
			Example: "/log fix number:1 weight:150", run: fixSet},
		{Name: "log", Sub: "drop", About: "remove a set by its number in /log recent", Other: true,
			Params:  []Param{{Name: "number", About: "its number in /log recent", Required: true, Positional: true}},
			Example: "/log drop 1", run: dropSet},
		{Name: "log", Sub: "import", About: "bring in sets from a table (CSV); you see first what I make of it", Other: true, Params: importParams(),
			Example: "/log import file:log.csv", run: importFile},
		{Name: "log", Sub: "export", Reads: true, About: "your log as a table (CSV) that /log import reads back", Other: true, run: exportLog},

		{Name: "lift", Reads: true, About: "one lift: estimated max, whether it moves, records, last sets, and a picture", Other: true,
			Params: liftParams(), Example: "/lift squat", run: showLift},

		{Name: "bodyweight", About: "log your bodyweight, see where it goes and the room in your class; optional", Other: true,
			Params: weightParams(), Example: "/bodyweight 62.4", run: showBodyweight},
		{Name: "checkin", About: "how rested and how keen you are: two taps, once a week; optional", Other: true,
			Params: checkInParams(), Example: "/checkin", run: checkIn},

		{Name: "nudges", Sub: "show", Default: true, Reads: true, About: "what I tell you unasked, and where", Other: true, run: showNudges},
		{Name: "nudges", Sub: "where", About: "where I may tell you things", Other: true,
			Params:  []Param{{Name: "place", About: "direct, channel or ask", Required: true, Positional: true, Choices: whereWords}},
			Example: "/nudges where direct", run: setWhere},
		{Name: "nudges", Sub: "off", About: "stop one kind of nudge", Other: true,
			Params: []Param{{Name: "kind", About: "which kind", Required: true, Positional: true, Choices: nudgeWords()}}, Example: "/nudges off block-end", run: nudgeOff},
		{Name: "nudges", Sub: "on", About: "let one kind of nudge come again", Other: true,
			Params: []Param{{Name: "kind", About: "which kind", Required: true, Positional: true, Choices: nudgeWords()}}, Example: "/nudges on block-end", run: nudgeOn},

		{Name: "nudges", Sub: "hour", About: "your own time of day for direct messages", Other: true,
			Params:  []Param{{Name: "time", About: "for example 07:30; club: at the club's hour", Required: true, Positional: true}},
			Example: "/nudges hour 07:30", run: nudgeHour},
		{Name: "nudges", Sub: "quiet", About: "weekdays without direct messages", Other: true,
			Params:  []Param{{Name: "days", About: "for example sat sun; none: no quiet days", Required: true, Positional: true}},
			Example: `/nudges quiet days:"sat sun"`, run: nudgeQuiet},
		{Name: "nudges", Sub: "snooze", About: "a pause from everything personal that can wait", Other: true,
			Params:  []Param{{Name: "days", About: "how many days, 1 to 60; 0 ends the pause", Required: true, Positional: true}},
			Example: "/nudges snooze 7", run: nudgeSnooze},

		{Name: "club", Sub: "board", Default: true, About: "everybody's block, days left, meet and what needs a look; with a picture", Who: CaptainOnly,
			Params: boardParams(), Example: "/club board sort:meet", run: showBoard},
		{Name: "club", Sub: "history", Reads: true, About: "who changed what for others or for the club", Who: CaptainOnly,
			Params:  []Param{{Name: "about", About: "one lifter only"}, {Name: "page", About: "which page, from 1"}},
			Example: "/club history about:ana", run: showHistory},
		{Name: "club", Sub: "captain", About: "make a member a captain, or no longer; to hand the club over, appoint the other and dismiss yourself", Who: CaptainOnly,
			Params:  []Param{{Name: "member", About: "who", Required: true, Positional: true}, {Name: "appoint", About: "yes: a captain from now on; no: no longer", Choices: yesNo}},
			Example: "/club captain member:ana appoint:yes", run: appointCaptain},
		{Name: "club", Sub: "digest", About: "what to look at this week: new blocks, blocks that are over, who is away or silent, entries", Who: CaptainOnly, run: showDigest},
		{Name: "club", Sub: "desk", About: "a channel for captains, the weekly digest, announcements without asking", Who: CaptainOnly,
			Params: deskParams(), Example: "/club desk channel:#captains digest:monday", run: deskSettings},
		{Name: "club", Sub: "announce", About: "tell the club something, or what changes this week; you see it first", Who: CaptainOnly,
			Params: announceParams(), Example: `/club announce text:"Gym is closed on Friday" at:"2027-03-01 18:00"`, run: announce},
		{Name: "club", Sub: "announced", About: "announcements that wait for their time; take one back", Who: CaptainOnly, run: showAnnounced},
		{Name: "club", Sub: "today", About: "who trains today and what is on the bar, as a sheet for the hall", Who: CaptainOnly,
			Params: []Param{{Name: "group", About: "one group only", Positional: true}}, Example: "/club today group:monday", run: showRack},
		{Name: "club", Sub: "groups", Reads: true, About: "the groups, who is in them and who decides there", Who: CaptainOnly, run: showGroups},
		{Name: "club", Sub: "roster", About: "who starts at a meet: class, coach, helper, weigh-in, session, what is still to do; as a table too", Who: CaptainOnly,
			Params: rosterParams(), Example: `/club roster "River Open"`, run: showRoster},
		{Name: "club", Sub: "settings", About: "show or change the club's settings", Who: CaptainOnly, Params: clubParams(),
			Example: "/club settings zone:Europe/Lisbon hour:08:00", run: clubSettings},

		{Name: "club", Sub: "classes", About: "the bodyweight classes that class: is compared with", Who: CaptainOnly, Params: classParams(),
			Example: `/club classes table:"women 63 69 76 84 84+; men 74 83 93 105 120 120+" since:2027-01-01`, run: clubClasses},
		{Name: "club", Sub: "import", About: "add lifters who have not joined yet, from a table; you see first what I make of it", Who: CaptainOnly,
			Params: peopleParams(), Example: `/club import table:"Ana K, River Open, 120, 70, 145; Ben L, River Open, 180, 120, 210"`, run: putPeople},
		{Name: "club", Sub: "placeholders", About: "who was added and has not joined; who says to be one of them; erase one", Who: CaptainOnly,
			Params: seatParams(), Example: `/club placeholders name:"Ana K" is:ana`, run: showSeats},
		{Name: "club", Sub: "left", About: "a member has left: nothing is told to or about them; data goes after 30 days", Who: CaptainOnly, Other: true,
			Params: []Param{{Name: "back", About: "yes: they are back", Choices: yesNo}}, Example: "/club left lifter:ana", run: leftClub},
		{Name: "club", Sub: "assign", About: "say who coaches a lifter, and the lifter's group", Who: CaptainOnly, Other: true,
			Params:  []Param{{Name: "coach", About: "who coaches the lifter; none: the captain"}, {Name: "group", About: "a word of your own; none: no group"}},
			Example: "/club assign lifter:ana coach:ben group:monday", run: assignLifter},

		{Name: "club", Sub: "move", About: "another block begins for a lifter now; they are told, and decide where plans are theirs to decide", Who: CaptainOnly, Other: true,
			Params: moveParams(), Example: "/club move lifter:ana block:strength reason:\"the meet is nearer than it looks\"", run: moveLifter},
		{Name: "club", Sub: "approve", About: "plans that wait for their coach: approve or decline them", run: showApprovals},
		{Name: "club", Sub: "decide", About: "who has the last word on plans: coach, lifter or both", Who: CaptainOnly,
			Params:  []Param{{Name: "who", About: "usual: as where nothing is set", Choices: deciderWords}, {Name: "group", About: "for one group only"}},
			Example: "/club decide who:coach group:monday", run: setDecider},
		{Name: "club", Sub: "away", About: "the gym is closed, or a group is away; for all without group: and lifters:", Who: CaptainOnly,
			Params: append(awayParams(), teamParams()...), Example: "/club away from:2027-08-01 to:2027-08-14", run: clubAway},
		{Name: "club", Sub: "cap", About: "the longest a kind of block may be for everybody; alone it lists them", Who: CaptainOnly,
			Params: capParams(), Example: "/club cap kind:peaking weeks:6", run: capClub},

		{Name: "club", Sub: "week", About: "the club's own week for a kind of block: show it, give it, or drop it", Who: CaptainOnly,
			Params: clubWeekParams(), Example: `/club week kind:strength table:"block strength; day 1; squat: 4 x 5, 3 left"`, run: clubWeek},
		{Name: "club", Sub: "gym", About: "bar, collars, discs, and what the gym lacks", Who: CaptainOnly,
			Params: gymParams(), Example: "/club gym bar:20 collars:5 smallest:1.25", run: clubGym},
		{Name: "club", Sub: "supervised", About: "vouch for a lifter under 18: technique proven, supervised (captain or coach)", Other: true,
			Params: []Param{{Name: "back", About: "take it back", Choices: yesNo}}, Example: "/club supervised lifter:ana", run: superviseLifter},

		{Name: "mydata", Sub: "export", Default: true, About: "everything I keep about you, as a file", Other: true, run: exportData},
		{Name: "mydata", Sub: "erase", About: "erase everything I keep about you; I ask once more", run: eraseData},

		{Name: "help", Reads: true, About: "what I can do; /help words, lines (how I read your log) and privacy explain more",
			Params: []Param{{Name: "topic", About: "a command, words, lines or privacy", Positional: true}}, Example: "/help season", run: showHelp},
	}
}
