package parse

import "blockbell/planner"

// names is one row of the table of lifts: what the lift is called inside, and the
// words lifters use. Words are lower case; a blank also stands for a hyphen or
// for nothing where the table lists both. Another language is another table.
type names struct {
	lift    planner.Lift
	variant planner.Variant
	words   []string
	// weak words mean the lift only where weight and repetitions follow at once,
	// since they mean other things in talk.
	weak []string
	// own: the lifter's bodyweight is the load, so sets need no weight.
	own bool
}

// Variants of the competition lifts, as stored.
const (
	Paused       planner.Variant = "paused"       // squat and deadlift; the paused bench is the competition bench
	LongPause    planner.Variant = "long pause"   // two counts and more
	TouchAndGo   planner.Variant = "touch and go" // for who trains the bench paused
	CloseGrip    planner.Variant = "close grip"
	WideGrip     planner.Variant = "wide grip"
	Tempo        planner.Variant = "tempo"
	Pin          planner.Variant = "pin"
	Board        planner.Variant = "board"
	Floor        planner.Variant = "floor"
	Incline      planner.Variant = "incline"
	FeetUp       planner.Variant = "feet up"
	Front        planner.Variant = "front"
	HighBar      planner.Variant = "high bar"
	Box          planner.Variant = "box"
	SafetyBar    planner.Variant = "safety bar"
	Deficit      planner.Variant = "deficit"
	Block        planner.Variant = "block"
	StiffLeg     planner.Variant = "stiff leg"
	Zercher      planner.Variant = "zercher"
	OffChest     planner.Variant = "off the chest" // the bar waits above the chest and does not touch it
	Bands        planner.Variant = "bands"         // the load changes on the way, so it is no competition lift
	Chains       planner.Variant = "chains"
	SnatchGrip   planner.Variant = "snatch grip"
	TrapBar      planner.Variant = "trap bar"
	Sumo         planner.Variant = "sumo"         // for who pulls conventionally
	Conventional planner.Variant = "conventional" // for who pulls sumo
)

// englishLifts is the table of lifts.
var englishLifts = []names{
	{lift: planner.Squat, words: []string{"squat", "squats", "sq", "squatted", "back squat", "back squats", "low bar", "low bar squat", "low bar squats"}, weak: []string{"s"}},
	{lift: planner.Squat, variant: Front, words: []string{"front squat", "front squats", "fsq"}},
	{lift: planner.Squat, variant: HighBar, words: []string{"high bar", "high bar squat", "high bar squats"}},
	{lift: planner.Squat, variant: Box, words: []string{"box squat", "box squats"}},
	{lift: planner.Squat, variant: Pin, words: []string{"pin squat", "pin squats"}},
	{lift: planner.Squat, variant: SafetyBar, words: []string{"safety bar", "safety bar squat", "safety bar squats", "ssb", "ssb squat", "ssb squats"}},

	{lift: planner.Squat, variant: Zercher, words: []string{"zercher", "zerchers", "zercher squat", "zercher squats"}},

	{lift: planner.Bench, words: []string{"bench", "benched", "benches", "bench press", "benchpress", "bench presses"}, weak: []string{"bp", "b"}},
	{lift: planner.Bench, variant: CloseGrip, words: []string{"cgbp", "cg bench", "cgb"}},
	{lift: planner.Bench, variant: Pin, words: []string{"pin press", "pin presses"}},
	{lift: planner.Bench, variant: Floor, words: []string{"floor press", "floor presses"}},
	{lift: planner.Bench, variant: Board, words: []string{"board press", "board presses"}},
	{lift: planner.Bench, variant: FeetUp, words: []string{"larsen", "larsens", "larsen press", "larsen bench", "larsen bench press"}},
	{lift: planner.Bench, variant: OffChest, words: []string{"spoto", "spotos", "spoto press", "spoto bench", "spoto bench press"}},
	{lift: planner.Bench, variant: Incline, words: []string{"incline press", "incline", "incline bench", "incline bench press"}},

	{lift: planner.Deadlift, words: []string{"deadlift", "deadlifts", "dead lift", "dead lifts", "dl", "dls", "deads", "deadlifted"}, weak: []string{"dead", "pull", "pulls", "pulled", "d"}},
	{lift: planner.Deadlift, variant: Sumo, words: []string{"sumo deadlift", "sumo deadlifts", "sumo dl", "sumo pulls"}, weak: []string{"sumo"}},
	{lift: planner.Deadlift, variant: Block, words: []string{"block pull", "block pulls", "rack pull", "rack pulls"}},
	{lift: planner.Deadlift, variant: StiffLeg, words: []string{"sldl", "stiff leg", "stiff legs", "stiff leg deadlift", "stiff leg deadlifts", "stiff legged deadlift", "stiff legged deadlifts"}},
	{lift: planner.Deadlift, variant: Deficit, words: []string{"deficits", "deficit pulls", "deficit pull", "deficit deadlift", "deficit deadlifts", "deficit dl", "deficit dls", "deficit deads"}, weak: []string{"deficit"}},

	{lift: planner.Deadlift, variant: TrapBar, words: []string{"trap bar", "trap bar deadlift", "trap bar deadlifts", "trap bar dl", "trap bar dls", "trap bar deads", "hex bar", "hex bar deadlift", "hex bar deadlifts", "hex bar dl", "hex bar deads"}},

	{lift: "overhead press", words: []string{"ohp", "overhead press", "overhead", "military press", "strict press", "shoulder press"}, weak: []string{"press"}},
	{lift: "push press", words: []string{"push press"}},
	{lift: "romanian deadlift", words: []string{"rdl", "rdls", "romanian deadlift", "romanian deadlifts", "romanians"}},
	{lift: "good morning", words: []string{"good mornings", "goodmornings"}, weak: []string{"good morning", "gm"}},
	{lift: "row", words: []string{"rows", "barbell row", "barbell rows", "bb row", "bb rows", "bent over row", "bent over rows", "cable row", "cable rows", "seated row", "seated rows", "db row", "db rows", "dumbbell row", "dumbbell rows", "chest supported row", "chest supported rows"}, weak: []string{"row"}},
	{lift: "pull-up", own: true, words: []string{"pull up", "pull ups", "pullup", "pullups"}},
	{lift: "chin-up", own: true, words: []string{"chin up", "chin ups", "chinup", "chinups", "chins"}},
	{lift: "dip", own: true, words: []string{"dips"}, weak: []string{"dip"}},
	{lift: "push-up", own: true, words: []string{"push up", "push ups", "pushup", "pushups"}},
	{lift: "sit-up", own: true, words: []string{"sit up", "sit ups", "situp", "situps", "leg raise", "leg raises"}},
	{lift: "back extension", own: true, words: []string{"back extension", "back extensions", "back raise", "back raises", "hyperextension", "hyperextensions"}},
	{lift: "glute ham raise", own: true, words: []string{"glute ham raise", "glute ham raises", "ghr", "ghrs"}},
	{lift: "lat pulldown", words: []string{"lat pulldown", "lat pulldowns", "lat pull down", "pulldown", "pulldowns", "pull down", "pull downs"}},
	{lift: "leg press", words: []string{"leg press", "legpress", "leg presses"}},
	{lift: "leg curl", words: []string{"leg curl", "leg curls", "hamstring curl", "hamstring curls"}},
	{lift: "leg extension", words: []string{"leg extension", "leg extensions"}},
	{lift: "hack squat", words: []string{"hack squat", "hack squats"}},
	{lift: "goblet squat", words: []string{"goblet squat", "goblet squats"}},
	{lift: "split squat", words: []string{"split squat", "split squats", "bulgarian split squat", "bulgarian split squats", "bulgarians", "bss"}},
	{lift: "belt squat", words: []string{"belt squat", "belt squats"}},
	{lift: "lunge", words: []string{"lunges", "walking lunge", "walking lunges"}, weak: []string{"lunge"}},
	{lift: "hip thrust", words: []string{"hip thrust", "hip thrusts", "glute bridge", "glute bridges"}},
	{lift: "calf raise", words: []string{"calf raise", "calf raises", "calves"}},
	{lift: "dumbbell bench", words: []string{"dumbbell bench", "dumbbell bench press", "db bench", "db bench press", "dumbbell press", "db press"}},
	{lift: "curl", words: []string{"curls", "biceps curl", "biceps curls", "bicep curl", "bicep curls", "hammer curl", "hammer curls"}, weak: []string{"curl"}},
	{lift: "triceps extension", words: []string{"triceps extension", "triceps extensions", "tricep extension", "tricep extensions", "pushdown", "pushdowns", "skull crusher", "skull crushers", "skullcrushers"}},
	{lift: "lateral raise", words: []string{"lateral raise", "lateral raises", "side raise", "side raises", "laterals"}},
	{lift: "face pull", words: []string{"face pull", "face pulls", "facepulls"}},
	{lift: "fly", words: []string{"flyes", "flys", "chest fly", "chest flies", "chest flyes"}, weak: []string{"fly"}},
	{lift: "shrug", words: []string{"shrugs"}, weak: []string{"shrug"}},
}

// forms is a row of the table of variant words; lifts says for which lifts the
// word makes which variant. The empty variant is the competition lift.
type forms struct {
	words []string
	lifts map[planner.Lift]planner.Variant
}

func all(v planner.Variant) map[planner.Lift]planner.Variant {
	return map[planner.Lift]planner.Variant{planner.Squat: v, planner.Bench: v, planner.Deadlift: v}
}

// pauses lists how a wait of so many counts or seconds is written, before or
// behind the word for it.
func pauses(counts ...string) []string {
	var out []string
	for _, n := range counts {
		for _, unit := range []string{"ct", "count", "counts", "s", "sec", "secs", "second", "seconds"} {
			long := n + " " + unit
			for _, pause := range []string{"pause", "paused"} {
				out = append(out, long+" "+pause, pause+" "+long)
			}
			if unit == "ct" || unit == "count" {
				out = append(out, long)
			}
		}
	}
	return out
}

// englishForms follows the usual standard of the trade: a bench that waits for one
// count is the competition bench, longer waits are variants.
var englishForms = []forms{
	{words: []string{"paused", "pause", "pauses"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Paused, planner.Bench: "", planner.Deadlift: Paused}},
	{words: pauses("1", "one"), lifts: map[planner.Lift]planner.Variant{planner.Squat: Paused, planner.Bench: "", planner.Deadlift: Paused}},
	{words: append(pauses("2", "3", "4", "5", "two", "three", "four", "five"), "long pause", "long paused"), lifts: all(LongPause)},
	{words: []string{"no pause", "without pause", "unpaused"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: "", planner.Bench: TouchAndGo, planner.Deadlift: ""}},
	{words: []string{"bands", "banded", "band"}, lifts: all(Bands)},
	{words: []string{"chains", "chain"}, lifts: all(Chains)},
	{words: []string{"off the chest", "off chest"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: OffChest}},
	{words: []string{"zercher"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Zercher}},
	{words: []string{"comp", "competition", "raw", "regular", "normal"}, lifts: all("")},
	{words: []string{"touch and go", "touch n go", "touch & go", "tng", "t&g"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: TouchAndGo, planner.Deadlift: TouchAndGo}},
	{words: []string{"close grip", "closegrip", "cg"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: CloseGrip}},
	{words: []string{"wide grip", "widegrip"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: WideGrip}},
	{words: []string{"tempo"}, lifts: all(Tempo)},
	{words: []string{"pin", "pins", "off pins"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Pin, planner.Bench: Pin}},
	{words: []string{"incline"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: Incline}},
	{words: []string{"feet up", "feetup"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: FeetUp}},
	{words: []string{"board", "1 board", "2 board", "3 board"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: Board}},
	{words: []string{"front"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Front}},
	{words: []string{"high bar"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: HighBar}},
	{words: []string{"low bar"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: ""}},
	{words: []string{"box"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Box}},
	{words: []string{"safety bar", "ssb"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: SafetyBar}},
	{words: []string{"deficit"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: Deficit}},
	{words: []string{"block", "off blocks", "off the blocks", "from blocks", "from the blocks"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: Block}},
	{words: []string{"stiff leg", "stiff legged"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: StiffLeg}},
	{words: []string{"trap bar", "trapbar", "hex bar", "hexbar"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: TrapBar}},
	{words: []string{"snatch grip"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: SnatchGrip}},
	{words: []string{"sumo"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: Sumo}},
	{words: []string{"conventional", "conv"}, lifts: map[planner.Lift]planner.Variant{planner.Deadlift: Conventional}},
}
