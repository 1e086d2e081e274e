package bot

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// life is one lifter's half year as chance would have it: training with good and bad
// days, logs that are forgotten, a cold, a holiday, a meet that moves.
type life struct {
	k   *talk
	who string
	rng *rand.Rand
	ill int // days without training still to come, not told
}

// day lives one day and returns how many proposals it led to.
func (l *life) day(n int) int {
	before := l.proposals()
	switch {
	case l.ill > 0:
		l.ill--
	case l.rng.IntN(60) == 0:
		l.ill = 3 + l.rng.IntN(10)
	case l.rng.Float64() < 0.5:
		weight := 140 * (1 + 0.06*l.rng.NormFloat64())
		l.k.ok(l.k.say(l.who, fmt.Sprintf("squat %.1fx%d @%d", weight, 3+l.rng.IntN(4), 7+l.rng.IntN(3))))
	}
	if l.rng.IntN(10) == 0 {
		l.k.ok(l.k.say(l.who, fmt.Sprintf("bw %.1f", 90+1.5*l.rng.NormFloat64())))
	}
	l.chance(n)
	l.k.now = l.k.now.Add(time.Minute)
	l.answer()
	return l.proposals() - before
}

// chance is what happens a few times in half a year.
func (l *life) chance(n int) {
	at := func(day int) planner.Date { return planner.DateOf(l.k.now).AddDays(day) }
	switch {
	case n == 40 || n == 110: // a long weekend
		l.k.ok(l.k.say(l.who, fmt.Sprintf("/season away from:%s to:%s", at(0), at(3+l.rng.IntN(3)))))
	case n == 75 && l.rng.IntN(2) == 0: // a holiday
		l.k.ok(l.k.say(l.who, fmt.Sprintf("/season away from:%s to:%s", at(0), at(9+l.rng.IntN(8)))))
	case n == 60 && l.rng.IntN(2) == 0: // the meet moves
		l.k.ok(l.k.say(l.who, fmt.Sprintf(`/meet move name:"River Open" date:%s`, planner.NewDate(2027, 7, 10).AddDays([]int{-14, -7, 7, 14}[l.rng.IntN(4)]))))
	case n == 90 && l.rng.IntN(2) == 0: // a practice meet
		l.k.say(l.who, fmt.Sprintf(`/meet add name:"Gym Cup" date:%s kind:tune-up`, at(20+l.rng.IntN(20))))
	case n == 130 && l.rng.IntN(2) == 0: // another class
		l.k.ok(l.k.say(l.who, "/me set class:93"))
	}
}

// answer presses what waits: silence mostly means forgotten logs; a proposal is
// accepted or not.
func (l *life) answer() {
	for _, b := range l.k.last[l.who] {
		switch {
		case b.Label == "Trained, did not log" && l.rng.IntN(3) > 0, b.Label == "Accept plan" && l.rng.IntN(2) == 0, b.Label == "Keep my plan":
			l.k.pressToken(l.who, b.Token)
		}
	}
	l.k.last[l.who] = nil
}

// proposals counts the plans that somebody was asked to decide on.
func (l *life) proposals() int {
	n := 0
	err := l.k.store.View(context.Background(), func(tx *store.Tx) error {
		me, _, err := tx.LifterByHandle(l.who)
		if err != nil {
			return err
		}
		all, err := tx.Plans(me.ID)
		for _, p := range all {
			if !p.Built.Equal(p.Agreed) { // a version agreed as it was made asked nobody
				n++
			}
		}
		return err
	})
	if err != nil {
		l.k.t.Fatal(err)
	}
	return n
}

// Half a year of noisy logs of eight lifters. What is logged never shuffles a plan;
// only what somebody tells does, and most of that does not either.
func TestPlansAreNotShuffled(t *testing.T) {
	if testing.Short() {
		t.Skip("long: left to the run without -short")
	}
	t.Parallel()
	const seed, days = 20270104, 182
	t.Logf("seed %d", seed)
	total, most := 0, 0
	told := map[int]bool{40: true, 110: true, 75: true, 60: true, 90: true, 130: true}
	for i, level := range []string{"intermediate", "advanced", "intermediate", "elite", "novice", "advanced", "intermediate", "novice"} {
		k := newTalk(t, "2027-01-04T19:00:00Z")
		l := &life{k: k, who: fmt.Sprint("lifter", i), rng: rand.New(rand.NewPCG(seed, uint64(i)))}
		k.ok(k.say(l.who, "/me set level:"+level+" category:men bodyweight:90 class:105 squat:180 bench:120 deadlift:220 competed:yes nudges:direct"))
		k.ok(k.say(l.who, `/meet add name:"River Open" date:2027-07-10`))
		k.ok(k.say(l.who, "/season build"))
		k.now = k.now.Add(time.Minute)
		k.ok(k.press(l.who, "Accept plan"))
		k.last = map[string][]chat.Button{}
		sum := 0
		for n := range days {
			k.sleep(1)
			got := l.day(n)
			if got > 1 || got > 0 && !told[n] {
				t.Errorf("%s (%s): %d proposals on day %d", l.who, level, got, n)
			}
			sum += got
		}
		t.Logf("%s: %d proposals in six months", level, sum)
		total, most = total+sum, max(most, sum)
	}
	month := float64(total) / 8 / 6
	t.Logf("%.2f proposals a lifter and month, at most %d in six months", month, most)
	if month > 0.5 || most > 5 {
		t.Errorf("%.2f proposals a lifter and month, at most %d: too many to be listened to", month, most)
	}
}
