package load

import (
	"blockbell/planner"
	"blockbell/planner/strength"
)

// stage is where a week stands in its block.
type stage struct {
	kind    planner.BlockKind // what the week trains
	week    int               // of the block, from 1
	deload  bool
	loading int // loading weeks of the block before this one
	total   int // loading weeks of the whole block
	wave    int // waves before this one
	inWave  int // loading weeks of the wave before this one
	waveLen int
}

// job is a request with everything looked up that the steps share.
type job struct {
	Request
	block         planner.Block
	before, after planner.Block
	level         planner.Level
	age           int
	event         planner.EventKind
	gear          planner.Equipment
	rack          *rack
	meet          planner.Date // the running peaking block ends for it; zero elsewhere
	lastMeet      planner.Date // the main meet behind, zero where none
	stage         stage
	start, end    planner.Date // the days of this week that belong to the block
	layout        [][]slot
	days          []planner.Weekday
	week          int // of the block, weeks away left out; stage.week may be an earlier one, done again
	back          *comeback
	leftOut       []string
	notes         []string
	remembered    map[placed][]Work
}

func newJob(r Request) (*job, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	b, err := r.block()
	if err != nil {
		return nil, err
	}
	r = r.trained()
	week, weeks := planner.WeekIn(b, r.Today, r.WeekStart, r.Aways)
	b.Weeks = weeks
	j := &job{Request: r, block: b, level: r.Lifter.PlannedLevel(), age: planner.Age(r.Lifter.Born, r.Today), rack: newRack(r.Gym), remembered: map[placed][]Work{}}
	j.before, j.after = r.around(b)
	j.findMeets()
	j.days = r.weekdays()
	j.layout = j.arrange()
	j.start = r.Today.OnOrBefore(r.WeekStart)
	j.end = j.start.AddDays(6)
	if r.Today <= b.End {
		j.end = min(j.end, b.End)
	}
	j.start = max(j.start, b.Start)
	j.back = j.comeback()
	j.week, j.stage = week, j.stageAt(j.weekAfter(week))
	return j, nil
}

// findMeets looks up the meet ahead that decides the event, and the one behind.
func (j *job) findMeets() {
	j.event, j.gear = planner.Full, planner.Raw
	var next planner.Meet
	for _, m := range j.Meets {
		peaked := m.Kind == planner.Main || m.Kind == "" || m.Date == j.block.End.AddDays(1)
		if peaked && m.Date > j.Today && (next.Date.IsZero() || m.Date < next.Date) {
			next = m
		}
		if peaked && m.Date <= j.Today {
			j.lastMeet = max(j.lastMeet, m.Date)
		}
	}
	if next.Event != "" {
		j.event = next.Event
	}
	if next.Equipment != "" {
		j.gear = next.Equipment
	}
	if j.block.Kind == planner.Peaking {
		if j.Today <= j.block.End {
			j.meet = j.block.End.AddDays(1)
		}
		if !next.Date.IsZero() {
			j.meet = next.Date
		}
	}
}

// eq is the relation between repetitions and percent in use.
func (j *job) eq() strength.Equation { return j.Equation }

// stageAt returns where the given week of the block stands.
func (j *job) stageAt(week int) stage {
	st := stage{kind: j.block.Kind, week: week}
	if j.back != nil && j.back.kind != "" {
		st.kind = j.back.kind
	}
	marks := j.deloadMarks(week)
	st.deload = marks[week-1] && j.back == nil
	for i, deload := range marks {
		if !deload {
			st.total++
		}
		if i >= week-1 {
			continue
		}
		if deload {
			st.wave, st.inWave = st.wave+1, 0
			continue
		}
		st.loading++
		st.inWave++
	}
	st.waveLen = st.inWave
	for i := week - 1; i < len(marks) && !marks[i]; i++ {
		st.waveLen++
	}
	return st
}

// deloadMarks are the deload weeks of the block, at least up to the given week: a
// block that goes on past its end has one whenever the longest run is over.
func (j *job) deloadMarks(week int) []bool {
	age := planner.Age(j.Lifter.Born, j.block.Start) // so that a birthday moves no deload
	marks := deloads(j.before, j.block, j.after.Kind, j.level, age, j.gapToTaper())
	for len(marks) < week {
		run := 0
		for i := len(marks) - 1; i >= 0 && !marks[i]; i-- {
			run++
		}
		marks = append(marks, j.block.Kind != planner.Peaking && j.block.Kind != planner.Recovery && run >= longestRun(j.level, age))
	}
	return marks
}

// gapToTaper is how many days lie between the end of this block and the taper of
// the peaking block behind it; many where there is none.
func (j *job) gapToTaper() int {
	if j.after.Kind != planner.Peaking {
		return 99
	}
	if !j.after.TaperStart.IsZero() {
		return j.block.End.DaysUntil(j.after.TaperStart)
	}
	return j.block.End.DaysUntil(j.after.End.AddDays(1)) - j.taperDays()
}

// counts tells whether a lift counts in the meet ahead.
func (j *job) counts(l planner.Lift) bool { return EventCounts(j.event, l) }

// EventCounts tells whether a lift counts in an event; without an event all do.
func EventCounts(e planner.EventKind, l planner.Lift) bool {
	switch e {
	case planner.BenchOnly:
		return l == planner.Bench
	case planner.DeadliftOnly:
		return l == planner.Deadlift
	case planner.PushPull:
		return l == planner.Bench || l == planner.Deadlift
	}
	return l.Competition()
}
