package nudge

// Kind names a sort of nudge. Lifters switch kinds off by these names and the
// ledger keys carry them, so they must not change.
type Kind string

// The kinds of nudge.
const (
	BlockEnd    Kind = "block-end"
	BlockBegin  Kind = "block-begin"
	BlockWaits  Kind = "block-waits"
	TaperStart  Kind = "taper"
	PeakingLong Kind = "peaking-long"
	MeetNear    Kind = "meet"
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
	mine    = Offer{"Mine", "mine.show"}
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

	find func(*search)
}

// Kinds lists every kind of nudge in the order in which one post tells them. All
// can be switched off: stopping takes one tap on any nudge.
func Kinds() []Spec {
	return []Spec{
		{Kind: MeetNear, Says: "a meet, a practice meet or a test day draws near",
			When: "8, 4, 2 and 1 weeks before, and the day before", Audience: News, Minors: true,
			Keeps: 0, Offers: []Offer{fewer}, Optional: true, find: findMeets},
		{Kind: TaperStart, Says: "your taper (easing off) starts",
			When: "on its first day", Audience: News,
			Keeps: 3, Offers: []Offer{fewer}, Optional: true, find: findTapers},
		{Kind: BlockBegin, Says: "your next block begins",
			When: "on its first day, where blocks begin on their date", Audience: News,
			Keeps: 1, Offers: []Offer{extend, snooze, fewer}, Optional: true, find: findBegins},
		{Kind: BlockEnd, Says: "your block ends soon",
			When: "3 days before its last day", Audience: Personal,
			Keeps: 3, Offers: []Offer{extend, snooze, fewer}, Optional: true, find: findEnds},
		{Kind: BlockWaits, Says: "your block has ended and the next one waits for you",
			When: "where the club wants to be asked: on the day the next block should begin, and 2 and 5 days later", Audience: Personal,
			Keeps: 1, Offers: []Offer{beginIt, extend, fewer}, Optional: true, find: findWaiting},
		{Kind: PeakingLong, Says: "your peaking runs longer than usual",
			When: "on the first day past your limit, then at most once a week", Audience: Personal,
			Keeps: 6, Offers: []Offer{snooze, fewer}, Optional: true, find: findLongPeaking},
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
