package load_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

func set(day planner.Date, seq int, lift planner.Lift, w float64, reps, n int, reserve *float64) planner.Set {
	return planner.Set{Day: day, Seq: seq, Lift: lift, Weight: kg(w), Reps: reps, Sets: n, Reserve: reserve}
}

func TestHardSetsLeaveOutWarmUpsMissesAndEasyOnes(t *testing.T) {
	missed := set(monday, 6, planner.Squat, 160, 0, 1, nil)
	missed.Missed = true
	pending := set(monday, 7, planner.Squat, 260, 5, 1, nil)
	pending.Pending = true
	sets := []planner.Set{
		set(monday, 1, planner.Squat, 60, 5, 1, nil),
		set(monday, 2, planner.Squat, 110, 3, 1, nil), // under 85 % of 140 and before it
		set(monday, 3, planner.Squat, 125, 1, 1, nil), // 89 %: work
		set(monday, 4, planner.Squat, 140, 5, 1, nil),
		set(monday, 5, planner.Squat, 110, 5, 3, nil), // after the top set: back-offs
		missed, pending,
		set(monday, 8, planner.Bench, 60, 5, 2, left(7)), // rated easy
		set(monday, 9, planner.Bench, 60, 5, 2, left(3)),
	}
	n := 0
	for _, s := range load.HardSets(sets) {
		n += s.Sets
	}
	if n != 1+1+3+2 {
		t.Errorf("%d hard sets: %v", n, load.HardSets(sets))
	}
}

func TestVolumeByWeekAndMuscle(t *testing.T) {
	next := monday.AddDays(7)
	close := set(monday.AddDays(2), 1, planner.Bench, 80, 8, 3, nil)
	close.Variant = "close grip"
	weeks := load.Volume([]planner.Set{
		set(next, 1, planner.Deadlift, 180, 5, 2, nil),
		set(monday, 1, planner.Squat, 140, 5, 4, nil), close,
		set(monday.AddDays(6), 1, "row", 70, 10, 4, nil),
	}, time.Monday)
	if len(weeks) != 2 || weeks[0].Start != monday || weeks[1].Start != next {
		t.Fatalf("%+v", weeks)
	}
	w := weeks[0]
	// Indirect sets count half (Pelland et al. 2025).
	want := map[load.Muscle]float64{load.Quads: 4, load.Hips: 2, load.Chest: 3, load.Triceps: 3, load.Shoulders: 1.5, load.Back: 4, load.Biceps: 2}
	for m, n := range want {
		if w.Muscles[m] != n {
			t.Errorf("%s: %g sets, want %g", m, w.Muscles[m], n)
		}
	}
	if w.Lifts[planner.Bench] != 3 || w.Tonnage[planner.Squat] != 4*5*140 || w.Top[planner.Bench].Weight != 0 || w.Top[planner.Squat].Weight != kg(140) {
		t.Errorf("%+v", w)
	}
}

func TestFitCallsOutMixing(t *testing.T) {
	of := func(reps ...int) (sets []planner.Set) {
		for i, r := range reps {
			sets = append(sets, set(monday.AddDays(i), 1, planner.Squat, 100, r, 1, left(2)))
		}
		return sets
	}
	for _, tt := range []struct {
		kind   planner.BlockKind
		sets   []planner.Set
		share  float64
		mixing bool
	}{
		{planner.Hypertrophy, of(8, 8, 10, 10, 6, 5), 1, false},
		{planner.Hypertrophy, of(8, 8, 10, 1, 2, 3), 0.5, true},
		{planner.Strength, of(5, 5, 4, 4, 3, 8), 5.0 / 6, false},
		{planner.Peaking, of(1, 2, 3, 4, 10, 10), 4.0 / 6, true},
		{planner.Peaking, of(1, 12), 0.5, false}, // too few to tell
	} {
		f := load.Fit(tt.sets, tt.kind)
		if math.Abs(f.Share-tt.share) > 1e-9 || f.Mixing != tt.mixing {
			t.Errorf("%s: %+v, want %.2f, mixing %t", tt.kind, f, tt.share, tt.mixing)
		}
	}
	if f := load.Fit(nil, planner.Strength); f.Hard != 0 || f.Share != 0 || f.Text != "" {
		t.Errorf("nothing logged: %+v", f)
	}
}

// What the bot prescribes must fit its own block.
func TestPlannedWeeksFitTheirBlock(t *testing.T) {
	for _, d := range seasons() {
		r, meet := d.season(t)
		for r.Today = monday; r.Today < meet; r.Today = r.Today.AddDays(7) {
			p := mustWeek(t, r)
			if f := load.Fit(performed(p), p.Block); f.Hard > 0 && (f.Share < 1 || f.Mixing) && d.meet.Event == planner.Full {
				t.Errorf("%s, %s week %d: %+v", d.lifter.Name, p.Block, p.Week, f)
			}
		}
	}
}

// performed is a log of doing exactly what was planned.
func performed(p load.Plan) (sets []planner.Set) {
	for _, d := range p.Days {
		for i, w := range d.Work {
			reserve := min(w.Reserve, 5)
			sets = append(sets, planner.Set{Day: d.Date, Seq: i, Lift: w.Lift, Variant: w.Variant, Weight: max(w.Weight, 1), Reps: w.Reps, Sets: w.Sets, Reserve: &reserve})
		}
	}
	return sets
}

func TestAdherence(t *testing.T) {
	p := mustWeek(t, strengthRequest())
	end := p.End
	if a := load.Adherence(p.Days, performed(p), end); a.Share != 1 || a.Sessions != 3 || a.SessionsDone != 3 {
		t.Errorf("everything done: %+v", a)
	}
	done := performed(p)
	first := []planner.Set{}
	for _, s := range done {
		if s.Day == p.Days[0].Date {
			first = append(first, s)
		}
	}
	if a := load.Adherence(p.Days, first, p.Days[0].Date); a.Share != 1 || a.Sessions != 1 {
		t.Errorf("the first day done, on that day: %+v", a)
	}
	if a := load.Adherence(p.Days, first, end); a.SessionsDone != 1 || a.Share <= 0.2 || a.Share >= 0.6 {
		t.Errorf("the first day of three done: %+v", a)
	}
	if a := load.Adherence(p.Days, nil, end); a.Share != 0 || a.SetsDone != 0 {
		t.Errorf("nothing done: %+v", a)
	}
}

// A third of the hypertrophy sets keeps muscle, from 60 years a half (Bickel et
// al. 2011).
func TestUpkeepNeedsAThirdOrAHalf(t *testing.T) {
	week := map[load.Muscle]float64{load.Quads: 5, load.Chest: 4}
	before := map[load.Muscle]float64{load.Quads: 12, load.Chest: 12}
	for _, k := range load.Upkeep(week, before, 30) {
		if k.Short() {
			t.Errorf("at 30: %+v", k)
		}
	}
	short := 0
	for _, k := range load.Upkeep(week, before, 61) {
		if k.Short() {
			short++
		}
	}
	if short != 2 {
		t.Errorf("at 61: %d groups short, want 2", short)
	}
}

func TestOverloadComparesEqualRepetitionsAndReserve(t *testing.T) {
	got := load.Overload([]planner.Set{
		set(monday, 1, planner.Squat, 140, 5, 1, left(2)), set(monday, 2, planner.Squat, 130, 5, 3, left(2)),
		set(monday.AddDays(14), 1, planner.Squat, 145, 5, 1, left(2)), set(monday.AddDays(28), 1, planner.Squat, 150, 5, 1, left(2)),
		set(monday, 3, planner.Bench, 100, 5, 1, left(2)), set(monday.AddDays(7), 3, planner.Bench, 105, 5, 1, left(1)), // not equal
		set(monday, 4, planner.Deadlift, 180, 3, 1, nil), set(monday.AddDays(7), 4, planner.Deadlift, 190, 3, 1, nil), // not rated
	})
	if len(got) != 1 || got[0].Before != kg(140) || got[0].After != kg(150) || math.Abs(got[0].PercentPerWeek-100*math.Log(150.0/140)/4) > 1e-9 {
		t.Errorf("%+v", got)
	}
}

// The rows in the contiguous form printed by Hristov 2005.
func TestPrilepinsRows(t *testing.T) {
	for percent, want := range map[float64]load.Counts{
		55: {3, 6, 18, 24, 30}, 69.9: {3, 6, 18, 24, 30}, 70: {3, 6, 12, 18, 24}, 80: {2, 4, 10, 15, 20}, 89.9: {2, 4, 10, 15, 20}, 90: {1, 2, 4, 7, 10}, 95: {1, 2, 4, 7, 10},
	} {
		if got := load.Prilepin(percent); got != want {
			t.Errorf("%g %%: %v", percent, got)
		}
	}
}

func TestWhatIsLeftOfAWeek(t *testing.T) {
	r := strengthRequest()
	p := mustWeek(t, r) // Monday squat, Wednesday bench, Friday deadlift
	mon, wed, fri := p.Days[0].Date, p.Days[1].Date, p.Days[2].Date
	days, said := p.Left(nil, mon)
	if len(days) != 3 || len(said) != 0 {
		t.Errorf("on Monday: %d days, %v", len(days), said)
	}
	days, said = p.Left(nil, wed)
	if len(days) != 2 || days[0].Date != wed || days[0].Work[0].Lift != planner.Squat || days[1].Date != fri || len(said) == 0 {
		t.Errorf("Monday missed: %v, %v", days, said)
	}
	days, said = p.Left([]planner.Date{mon}, wed)
	if len(days) != 2 || days[0].Date != wed || len(said) != 0 {
		t.Errorf("Monday done: %v", said)
	}
	days, said = p.Left([]planner.Date{mon, wed}, fri.AddDays(1))
	if len(days) != 0 || !strings.Contains(strings.Join(said, " "), "left out") {
		t.Errorf("Friday missed: %v, %v", days, said)
	}
	r.Training = []planner.Weekday{time.Monday, time.Wednesday, time.Thursday, time.Saturday}
	p = mustWeek(t, r)
	for mask := range 1 << len(p.Days) {
		var done []planner.Date
		for i, d := range p.Days {
			if mask&(1<<i) != 0 {
				done = append(done, d.Date)
			}
		}
		for d := p.Start; d <= p.End; d = d.AddDays(1) {
			days, _ := p.Left(done, d)
			for i := range days {
				if days[i].Date < d || i > 0 && days[i].Date <= days[i-1].Date {
					t.Errorf("done %v, on %s: %v", done, d, days)
				}
			}
		}
	}
}

// Who does what is planned at any level of the estimate gets loads in proportion,
// and the loads of a plan land on its percent within half a step of the plates.
func TestFirstSetsLandOnThePlannedPercent(t *testing.T) {
	for squat := 60.0; squat <= 350; squat += 7 {
		r := strengthRequest()
		r.Estimates[planner.Squat] = load.Estimate{Kg: squat, Source: load.Trend}
		w := mustWeek(t, r).Days[0].Work[0]
		if off := math.Abs(w.Weight.Kg() - squat*w.Percent/100); w.Lift != planner.Squat || off > 1.25+1e-9 && w.Weight > kg(25) {
			// the weekly step of 5 % may hold back a light lifter's load
			if w.Weight.Kg() > squat*w.Percent/100 || off > 2.5 {
				t.Errorf("%g kg: %s is %.2f kg off %.1f %%", squat, w.Weight.Text(planner.KG), off, w.Percent)
			}
		}
	}
}

func TestSameRequestSamePlan(t *testing.T) {
	for _, d := range seasons() {
		r, _ := d.season(t)
		first, again := mustWeek(t, r), mustWeek(t, r)
		if first.Text(planner.KG) != again.Text(planner.KG) {
			t.Errorf("%s gets two plans for one request", d.lifter.Name)
		}
	}
}

func TestExchangeOfTwoDays(t *testing.T) {
	p := mustWeek(t, strengthRequest()) // Monday squat, Wednesday bench, Friday deadlift
	mon, wed, fri := p.Days[0].Date, p.Days[1].Date, p.Days[2].Date
	q, warning, err := p.Exchange(mon, wed)
	if err != nil || warning != "" || q.Days[1].Work[0].Lift != planner.Squat || q.Days[0].Work[0].Lift != planner.Bench || p.Days[0].Work[0].Lift != planner.Squat {
		t.Errorf("Monday and Wednesday: %q, %v", warning, err)
	}
	if q, warning, err = p.Exchange(mon, fri.AddDays(-1)); err != nil || warning == "" || len(q.Days) != 3 {
		t.Errorf("heavy squats on the day before heavy deadlifts: %q, %v", warning, err)
	}
	if _, _, err = p.Exchange(mon.AddDays(1), wed); err == nil {
		t.Error("a day without a session was moved")
	}
	if _, _, err = p.Exchange(mon, mon.AddDays(7)); err == nil {
		t.Error("a session left its week")
	}
}

func TestPrescribedSetsCountAsDone(t *testing.T) {
	p := mustWeek(t, strengthRequest())
	var done []planner.Set
	for _, d := range p.Days {
		done = append(done, d.Prescribed()...)
	}
	if a := load.Adherence(p.Days, done, p.End); a.Share != 1 {
		t.Errorf("%+v", a)
	}
	for _, s := range done {
		if s.Reserve != nil || s.Weight == 0 || !s.Lift.Competition() {
			t.Errorf("%+v", s)
		}
	}
}

// Weeks compare by 20 % or 2 sets and 15 % of tonnage (common practice).
func TestJumpsBetweenWeeks(t *testing.T) {
	of := func(sets, reps int, w float64) load.WeekVolume {
		return load.Volume([]planner.Set{set(monday, 1, planner.Squat, w, reps, sets, nil)}, time.Monday)[0]
	}
	for _, tt := range []struct {
		last, now load.WeekVolume
		want      string
	}{
		{of(8, 5, 100), of(10, 4, 100), ""},
		{of(8, 5, 100), of(11, 3, 100), "11 hard sets after 8"},
		{of(15, 5, 100), of(18, 4, 100), ""},
		{of(8, 5, 100), of(8, 6, 100), "20 % more weight"},
		{of(8, 5, 100), of(8, 5, 114), ""},
	} {
		got := load.Jumps(tt.last, tt.now)
		if (len(got) == 0) != (tt.want == "") || len(got) > 0 && !strings.Contains(got[0].Text, tt.want) {
			t.Errorf("%v, want %q", got, tt.want)
		}
	}
}
