package nudge_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// Running each minute and jumping from due to due must post the same: the same
// keys in the same order, due at the same moments, with the same words and
// buttons, and leave the same ledger.
func TestJumpingPostsWhatRunningEachMinutePosts(t *testing.T) {
	// Stretches of thirty hours around the club's hour on days on which clocks go back,
	// the year turns, February has a 29th and clocks go forward; the meet of the club is
	// laid so that something is due there.
	days := []planner.Date{
		planner.NewDate(2027, time.November, 6), planner.NewDate(2027, time.December, 31),
		planner.NewDate(2028, time.February, 28), planner.NewDate(2028, time.March, 25),
	}
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 2))
	hours := 30
	if brief() { // one of the days, and less of the night
		hours = 10
		r.Shuffle(len(days), func(i, j int) { days[i], days[j] = days[j], days[i] })
		days = days[:1]
	}
	posts := 0
	for _, d := range days {
		f := randomClub(t, r)
		for i := range f.Members {
			m := &f.Members[i]
			m.Meets = append(m.Meets, planner.Meet{ID: planner.MeetID(90 + i), Name: "Harbour Cup", Date: d.AddDays(8), Kind: planner.Main})
			m.Season.Meets = append(m.Season.Meets, planner.SeasonMeet{ID: planner.MeetID(90 + i), Name: "Harbour Cup", Date: d.AddDays(8), Kind: planner.Main})
		}
		from := d.AddDays(1).At(f.Zone, f.Hour, f.Minute).Add(-time.Duration(hours/2) * time.Hour)
		posts += compareWalks(t, f, r.Uint64(), from, from.Add(time.Duration(hours)*time.Hour), time.Minute)
	}
	if posts == 0 && !brief() {
		t.Error("nothing was posted at all, so nothing was compared")
	}
}

// Over months the same holds for a run each quarter of an hour. A club whose
// members are all told nothing is drawn now and then; another one is drawn then.
func TestJumpingPostsWhatRunningEachQuarterPosts(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	from := time.Date(2027, 9, 28, 0, 0, 0, 0, time.UTC)
	to := from.AddDate(0, 1, 15)
	if brief() {
		to = from.AddDate(0, 0, 5)
	}
	for range 8 {
		f := randomClub(t, r)
		f.Hour = min(f.Hour, 22) // so that the second try of a quarter later is still on the post's day
		if compareWalks(t, f, r.Uint64(), from, to, 15*time.Minute) > 0 || brief() {
			return
		}
	}
	t.Error("nothing was posted at all, so nothing was compared")
}

// brief tells whether the walks should be short: with -short, and under the race
// detector, which slows them down by a factor of six. A short one may hold no post.
func brief() bool { return testing.Short() || raced }

// compareWalks runs one club from from to to in steps and another from due to due,
// and returns how many posts it compared.
func compareWalks(t *testing.T, f nudge.Facts, seed uint64, from, to time.Time, step time.Duration) (posts int) {
	t.Helper()
	steps, jumps := moody(t, f, seed), moody(t, f, seed)
	// What is overdue at the start may have hours or minutes left to be told in.
	steps.run(from)
	jumps.run(from)
	for at := from.Add(step); !at.After(to); at = at.Add(step) {
		steps.run(at)
	}
	runs := jumps.walk(from, to)
	a, b := steps.board.posts, jumps.board.posts
	if len(a) != len(b) {
		t.Fatalf("seed %d: %d posts by steps, %d by jumps:\n%q\n%q", seed, len(a), len(b), steps.board.keys(), jumps.board.keys())
	}
	for i := range a {
		// What came up late appears when it is queued, which a run in steps does at
		// its next step.
		if late := a[i].At.Sub(b[i].At); late < 0 || late >= step {
			t.Fatalf("seed %d: post %s appears at %s by steps, at %s by jumps", seed, a[i].Key, a[i].At, b[i].At)
		}
		a[i].At, b[i].At = time.Time{}, time.Time{}
		if text(t, a[i]) != text(t, b[i]) {
			t.Fatalf("seed %d: post %d by steps\n%s\nby jumps\n%s", seed, i, text(t, a[i]), text(t, b[i]))
		}
	}
	if x, y := ledger(steps, f), ledger(jumps, f); x != y {
		t.Fatalf("seed %d: ledger by steps\n%s\nby jumps\n%s", seed, x, y)
	}
	t.Logf("%d posts alike by steps and by %d jumps", len(a), runs)
	return len(a)
}

// moody makes a house in which some lifters switched a kind off or put something
// off, some take no direct messages, and the platform asks for a wait now and then.
func moody(t *testing.T, f nudge.Facts, seed uint64) house {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 4))
	h := newHouse(t, f)
	unreachable := map[string]bool{}
	h.update(func(tx *store.Tx) error {
		for _, m := range f.Members {
			unreachable[m.Lifter.Handle] = r.IntN(4) == 0
			for _, k := range nudge.Kinds() {
				if err := tx.SetNudge(m.Lifter.ID, string(k.Kind), r.IntN(6) > 0); err != nil {
					return err
				}
			}
		}
		loaded, err := nudge.Load(tx)
		if err != nil {
			return err
		}
		for _, n := range nudge.Due(loaded, yearFrom, yearTo.AddDate(1, 0, 0)) {
			if r.IntN(4) == 0 {
				if err := tx.Snooze(n.Member.Lifter.ID, n.Key, n.Due.Add(20*time.Hour)); err != nil {
					return err
				}
			}
		}
		return nil
	})
	tries := map[string]bool{}
	h.board.before = func(p chat.Post) error {
		if unreachable[p.To.Person] {
			return &chat.UnreachableError{To: p.To, Cause: errDown}
		}
		if busy := !tries[p.Key] && len(p.Key)%3 == 0; busy {
			tries[p.Key] = true
			return &chat.RetryError{After: 10 * time.Second, Cause: errDown}
		}
		return nil
	}
	return h
}

func text(t *testing.T, p chat.Post) string {
	t.Helper()
	raw, err := json.MarshalIndent(p, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// ledger writes down what the ledger keeps of every lifter.
func ledger(h house, f nudge.Facts) string {
	h.t.Helper()
	var all string
	h.update(func(tx *store.Tx) error {
		for _, m := range f.Members {
			facts, err := tx.Facts(m.Lifter.ID, 1000)
			if err != nil {
				return err
			}
			raw, err := json.MarshalIndent(facts, "", " ")
			if err != nil {
				return err
			}
			all += string(raw)
		}
		return nil
	})
	return all
}

// A walk must end, and each instant that Next names must be one at which Run does
// something, or finds that something has to wait and looks further ahead.
func TestEveryInstantOfNextChangesSomething(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	f := randomClub(t, r)
	h := moody(t, f, seed)
	from := time.Date(2027, 9, 10, 0, 0, 0, 0, time.UTC)
	to := from.AddDate(1, 0, 0)
	if brief() {
		to = from.AddDate(0, 5, 0)
	}
	before := state(h, f)
	for {
		at, ok, err := h.Next(t.Context(), from, to)
		if err != nil {
			t.Fatal(err)
		}
		if !ok {
			break
		}
		h.run(at)
		now := state(h, f)
		if now == before {
			t.Fatalf("the run at %s changed nothing", at)
		}
		before, from = now, at
	}
	if again := h.walk(from, to); again != 0 {
		t.Errorf("%d more runs after the walk had ended", again)
	}
}

// state is the ledger with the outbox's attempts and the looks ahead.
func state(h house, f nudge.Facts) string {
	h.t.Helper()
	var posts string
	h.update(func(tx *store.Tx) error {
		next, waits, err := tx.NextPost()
		if waits {
			posts = next.String()
		}
		if err != nil {
			return err
		}
		look, _, err := tx.NextLook()
		if err != nil {
			return err
		}
		changed, err := tx.Unwatched(yearTo.AddDate(9, 0, 0), 1000)
		posts += fmt.Sprint(look, changed)
		return err
	})
	return ledger(h, f) + posts
}
