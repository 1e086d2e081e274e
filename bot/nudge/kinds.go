package nudge

// Kind names a sort of nudge. Lifters switch kinds off by these names and the
// ledger keys carry them, so they must not change.
type Kind string

// The kinds of nudge.
const (
	BlockEnd    Kind = "block-end"
	BlockBegin  Kind = "block-begin"
	BlockWaits  Kind = "block-waits"
	BlockLate   Kind = "block-late"
	TaperStart  Kind = "taper"
	PeakingLong Kind = "peaking-long"
	MeetNear    Kind = "meet"
	EntryCloses Kind = "entry"
	Openers     Kind = "openers"
	WeighIn     Kind = "weigh-in"
	Checklist   Kind = "checklist"
	AfterMeet   Kind = "after-meet"
	Silence     Kind = "silence"
	DoneForYou  Kind = "done-for-you"
	Approval    Kind = "approval"
	DeloadWeek  Kind = "deload"
	LastHeavy   Kind = "last-heavy"
	Plateau     Kind = "plateau"
	WorkFit     Kind = "work-fit"
	VeryTired   Kind = "very-tired"
	Stale       Kind = "stale"
	LicenceEnds Kind = "licence"
)

// Audience says for whose ears a kind is.
type Audience string

// News stands by name in the club's post; the personal never does.
const (
	News     Audience = "news"
	Personal Audience = "personal"
)

// Offer is a button that can stand under a nudge.
type Offer struct {
	Label  string
	Action string // what the conversation does when it is pressed
}

// The buttons that settle a nudge with one tap.
var (
	beginIt = Offer{"Begin it", "block.begin"}
	extend  = Offer{"Not yet, one more week", "block.extend"}
	snooze  = Offer{"Remind me tomorrow", "nudge.snooze"}
	fewer   = Offer{"Fewer of these", "nudge.off"}
	keep    = Offer{"Keep them", "nudge.keep"}
	rebuild = Offer{"Build my plan", "season.build"}
	entered = Offer{"I have entered", "meet.entered"}
	mine    = Offer{"Mine", "mine.show"}
	trained = Offer{"Trained, did not log", "silence.trained"}
	wasAway = Offer{"I was away", "silence.away"}
	notNow  = Offer{"Do not ask again this block", "silence.quiet"}
	look    = Offer{"Look", "note.show"}
	waiting = Offer{"Look at what waits", "plan.approvals"}

	showLift  = Offer{"Show the lift", "stall.lift"}
	tellCoach = Offer{"Tell my coach", "stall.coach"}
	fine      = Offer{"All right", "nudge.fine"}
	ownWeeks  = Offer{"I train by my own plan", "fit.own"}
	easier    = Offer{"Take it easier", "tired.easier"}
	sooner    = Offer{"Change sooner", "stale.sooner"}
	lookBack  = Offer{"Look back", "review.form"}
)

// Spec is one line of the table of kinds.
type Spec struct {
	Kind     Kind
	Says     string // what it tells
	When     string // when it falls due
	Audience Audience
	Minors   bool // may name members under 18
	// Keeps is how many whole days after its own day it is still worth saying;
	// 0 means on its own day only.
	Keeps    int
	Offers   []Offer // buttons under it, in this order, where they make sense
	Optional bool    // can be switched off
	// Urgent kinds are told even to who has been told enough this week.
	Urgent bool
	// Spare kinds are told only while one more message is left of the week's budget
	// afterwards: they must not keep something away that wants a decision.
	Spare bool
	// Answer marks kinds that want an answer. Where the last ones got none, the
	// next one asks whether fewer of them are wanted, and then they stop.
	Answer bool
	// Body kinds rest on a bodyweight or a check-in, so only who may see those may see
	// that such a nudge came or comes.
	Body bool
	// Away says what becomes of it while the lifter is away.
	Away Absence

	find func(*search)
}

// Kinds lists every kind of nudge in the order in which one post tells them. All
// can be switched off: stopping takes one tap on any nudge.
func Kinds() []Spec {
	return []Spec{
		{Kind: MeetNear, Says: "a meet, a practice meet or a test day draws near",
			When: "8, 4, 2 and 1 weeks before, and the day before", Audience: News, Minors: true,
			Keeps: 0, Offers: []Offer{fewer}, Optional: true, Away: ToldAway, find: findMeets},
		{Kind: TaperStart, Says: "your taper (easing off) starts",
			When: "on its first day", Audience: News,
			Keeps: 3, Offers: []Offer{fewer}, Optional: true, Urgent: true, Away: OpenAway, find: findTapers},
		{Kind: LastHeavy, Says: "when each lift is heavy for the last time before your meet",
			When: "on the first of those days, as your weeks say", Audience: Personal,
			Keeps: 0, Offers: []Offer{fewer}, Optional: true, Away: NotAway, find: findLastHeavy},
		{Kind: DeloadWeek, Says: "an easy week (deload) starts",
			When: "on its first day", Audience: Personal,
			Keeps: 2, Offers: []Offer{fewer}, Optional: true, Spare: true, Away: NotAway, find: findDeloads},
		{Kind: EntryCloses, Says: "the entry for your meet closes",
			When: "21, 7 and 2 days before, until you say that you have entered", Audience: Personal,
			Keeps: 1, Offers: []Offer{entered, fewer}, Optional: true, Urgent: true, Away: ToldAway, find: findEntries},
		{Kind: LicenceEnds, Says: "your licence ends before your meet",
			When: "6, 3 and 1 weeks before the meet, until you say that it is renewed", Audience: Personal,
			Keeps: 3, Offers: []Offer{fewer}, Optional: true, Urgent: true, Away: ToldAway, find: findLicences},
		{Kind: Openers, Says: "it is time to write down or confirm your openers",
			When: "2 weeks and 2 days before a meet", Audience: Personal,
			Keeps: 1, Offers: []Offer{fewer}, Optional: true, Urgent: true, Away: OpenAway, find: findOpeners},
		{Kind: WeighIn, Says: "your bodyweight is above your class, or the weigh-in is near",
			When: "4 and 2 weeks before a meet where you are above your class, and the day before", Audience: Personal,
			Keeps: 0, Offers: []Offer{fewer}, Optional: true, Urgent: true, Body: true, Away: OpenAway, find: findWeighIns},
		{Kind: Checklist, Says: "something is to be done before your meet: kit, practice with commands, packing",
			When: "6, 4 and 1 weeks before, for a first meet 3 weeks too", Audience: Personal,
			Keeps: 3, Offers: []Offer{fewer}, Optional: true, Away: OpenAway, find: findChecklist},
		{Kind: BlockBegin, Says: "your next block begins",
			When: "on its first day, where blocks begin on their date", Audience: News,
			Keeps: 1, Offers: []Offer{extend, snooze, fewer}, Optional: true, Away: NotAway, find: findBegins},
		{Kind: BlockEnd, Says: "your block ends soon",
			When: "3 days before its last day", Audience: Personal,
			Keeps: 3, Offers: []Offer{extend, snooze, fewer}, Optional: true, Away: NotAway, find: findEnds},
		{Kind: BlockWaits, Says: "your block has ended and the next one waits for you",
			When: "where the club wants to be asked: on the day the next block should begin, and 2 and 5 days later", Audience: Personal,
			Keeps: 1, Offers: []Offer{beginIt, extend, fewer}, Optional: true, Urgent: true, Answer: true, Away: NotAway, find: findWaiting},
		{Kind: BlockLate, Says: "a block that waits eats into your peaking, or that of a lifter you coach",
			When: "where the club wants to be asked: when peaking should have begun, a week later where you were just reminded, and when the taper should start", Audience: Personal,
			Keeps: 3, Offers: []Offer{beginIt, rebuild, fewer}, Optional: true, Urgent: true, Away: NotAway, find: findLate},
		{Kind: PeakingLong, Says: "your peaking runs longer than usual",
			When: "on the first day past your limit, then at most once a week", Audience: Personal,
			Keeps: 6, Offers: []Offer{rebuild, snooze, fewer}, Optional: true, Answer: true, Away: NotAway, find: findLongPeaking},
		{Kind: AfterMeet, Says: "your meet is over: its result, and what to learn from it",
			When: "the day after, and a week after", Audience: Personal,
			Keeps: 5, Offers: []Offer{lookBack, snooze, fewer}, Optional: true, Away: OpenAway, find: findAfter},
		{Kind: Approval, Says: "a lifter's plan waits for your yes",
			When: "the next morning and three days later, for coaches", Audience: Personal,
			Keeps: 2, Offers: []Offer{waiting, fewer}, Optional: true, Urgent: true, Away: ToldAway, find: findAsked},
		{Kind: DoneForYou, Says: "somebody did something for you, such as adding a meet or agreeing to a plan",
			When: "the next morning", Audience: Personal,
			Keeps: 6, Offers: []Offer{look, fewer}, Optional: true, Urgent: true, Away: ToldAway, find: findDone},
		{Kind: Silence, Says: "you have logged nothing for a while",
			When: "after 10 days without a set, not near a meet, while away or in an easy week", Audience: Personal,
			Keeps: 6, Offers: []Offer{trained, wasAway, notNow, fewer}, Optional: true, Answer: true, Away: NotAway, find: findSilence},
		{Kind: VeryTired, Says: "you said 'very tired' twice running",
			When: "the day after, unless an easy week is there or near", Audience: Personal,
			Keeps: 3, Offers: []Offer{easier, fine, fewer}, Optional: true, Answer: true, Body: true, Away: NotAway, find: findTired},
		{Kind: Plateau, Says: "a lift of yours stands still",
			When: "the day after your log shows it, once for each lift and block; not in an easy week, the taper, while away or near a meet", Audience: Personal,
			Keeps: 6, Offers: []Offer{showLift, tellCoach, fine, fewer}, Optional: true, Answer: true, Away: NotAway, find: findPlateaus},
		{Kind: Stale, Says: "your muscle block has run for long and you said 'stale' twice running",
			When: "the day after, once for each block", Audience: Personal,
			Keeps: 6, Offers: []Offer{sooner, fine, fewer}, Optional: true, Answer: true, Body: true, Away: NotAway, find: findStale},
		{Kind: WorkFit, Says: "what you do and what your block is for do not match",
			When: "on the first day of the week after two such weeks, once for each block", Audience: Personal,
			Keeps: 4, Offers: []Offer{ownWeeks, fine, fewer}, Optional: true, Spare: true, Answer: true, Away: NotAway, find: findMisfits},
	}
}

// specs is the table by kind, and order the place of a kind in it.
var specs, order = index()

func index() (map[Kind]Spec, map[Kind]int) {
	by, at := map[Kind]Spec{}, map[Kind]int{}
	for i, s := range Kinds() {
		by[s.Kind], at[s.Kind] = s, i
	}
	return by, at
}
