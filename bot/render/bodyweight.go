package render

import (
	"fmt"
	"math"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render/chart"
	"blockbell/planner"
	"blockbell/planner/bodyweight"
)

// WeightView is everything told about a bodyweight.
type WeightView struct {
	Lifter    planner.Lifter
	Today     planner.Date
	Weighings []bodyweight.Weighing // of the last half year, oldest first
	Trend     bodyweight.Trend
	Meet      planner.Meet
	HasMeet   bool
	Done      string // what was changed just now
	Who       string // the lifter's name where somebody else asks
}

// slight is the weekly change in kg below which a line is called level; above it the
// picture would show a slope that the words deny.
const slight = 0.1

// foreseeable is how many days ahead a bodyweight can be reckoned.
const foreseeable = 84

// Bodyweight shows the level, where it is going, the room in the class and, where
// that is at issue, what is safe.
func Bodyweight(v WeightView) chat.Message {
	m := chat.Message{Title: "Bodyweight", Data: v.data()}
	if v.Who != "" {
		m.Title += " of " + v.Who
	}
	var lines []string
	if v.Done != "" {
		lines = append(lines, v.Done)
	}
	lines = append(lines, v.level()...)
	lines = append(lines, v.class()...)
	m.Text = strings.Join(lines, "\n")
	if len(v.Weighings) < 2 {
		return m
	}
	m.Files = v.picture()
	return m
}

func (v WeightView) mass(kg float64) string {
	return planner.Kilograms(math.Round(kg*10) / 10).Text(v.Lifter.Unit)
}

// unit is the lifter's, for the head of a picture.
func (v WeightView) unit() string {
	if v.Lifter.Unit == planner.LB {
		return "pounds"
	}
	return "kilograms"
}

// level says where the bodyweight stands and where it goes.
func (v WeightView) level() []string {
	t := v.Trend
	if !t.Known {
		return []string{"No weighing in the last six weeks. It is optional; /bodyweight 62.4 keeps one, for your eyes and your coach's."}
	}
	lines := []string{fmt.Sprintf("About %s now, from the weighings of the last six weeks; the last was %s on %s.", v.mass(t.Kg), t.Last.Mass.Text(v.Lifter.Unit), t.Last.Day.Short())}
	switch {
	case !t.Moves:
		lines = append(lines, "Three weighings over two weeks or more show where it goes.")
	case math.Abs(t.Weekly) < 2*t.WeeklySD && math.Abs(t.Weekly) >= slight:
		lines = append(lines, fmt.Sprintf("No clear change yet: %s a week by the line, give or take %s.", v.signed(t.Weekly), v.mass(t.WeeklySD)))
	case math.Abs(t.Weekly) < 2*t.WeeklySD:
		lines = append(lines, "It stays about where it is.")
	default:
		lines = append(lines, fmt.Sprintf("It changes by about %s a week (%+.1f %%).", v.signed(t.Weekly), 100*t.Weekly/t.Kg))
	}
	if t.Moves && t.Weekly < -bodyweight.Fast*t.Kg && -t.Weekly > 2*t.WeeklySD {
		lines = append(lines, "That is fast: at more than 1 % a week strength suffered in trials (Garthe et al. 2011). Talk to your coach or a doctor.")
	}
	return lines
}

func (v WeightView) signed(kg float64) string {
	if kg < 0 {
		return "-" + v.mass(-kg)
	}
	return "+" + v.mass(kg)
}

// classOf is the class of the next meet, or else the lifter's own.
func (v WeightView) classOf() planner.Class {
	if v.HasMeet && !v.Meet.Class.IsZero() {
		return v.Meet.Class
	}
	return v.Lifter.Class
}

// class says how the bodyweight stands to the class, now and at the meet.
func (v WeightView) class() []string {
	class := v.classOf()
	if class.IsZero() || !v.Trend.Known {
		return nil
	}
	if class.Plus {
		return []string{"Class " + class.String() + ": no upper limit."}
	}
	var lines []string
	now := class.Limit.Kg() - v.Trend.Kg
	if now >= 0 {
		lines = append(lines, fmt.Sprintf("Class %s: %s of room.", class, v.mass(now)))
	} else {
		lines = append(lines, fmt.Sprintf("Class %s: %s above it.", class, v.mass(-now)))
	}
	if !v.HasMeet || v.Today.DaysUntil(v.Meet.Date) > foreseeable {
		return lines
	}
	if kg, sd := v.Trend.On(v.Meet.Date); v.Trend.Moves {
		lines = append(lines, fmt.Sprintf("If it goes on like this: about %s at %s, likely between %s and %s.", v.mass(kg), v.Meet.Name, v.mass(kg-sd), v.mass(kg+sd)))
	}
	return append(lines, v.advice(bodyweight.Compare(v.Trend.Kg, class, v.Meet, v.Lifter, v.Today))...)
}

// advice says what is safe. Which class to enter comes before any word of making
// weight, and no way of losing it is ever told.
func (v WeightView) advice(r bodyweight.Room) []string {
	switch r.Advice {
	case bodyweight.AsWeighs:
		return []string{"First meets and lifters under 18: lift in the class you weigh."}
	case bodyweight.MoveUp:
		return []string{"Enter, or move to, the next class: what is missing is more than can come off safely in the time left.", shouldNotCut}
	case bodyweight.Slowly:
		text := "Entering the next class is always an option."
		if r.Weekly > 0 {
			text = fmt.Sprintf("It would take %.1f %% a week until the meet; up to 0.7 %% a week kept strength best in trials (Garthe et al. 2011). The next class is always an option.", 100*r.Weekly)
		}
		return []string{text, shouldNotCut}
	}
	return nil
}

// shouldNotCut lists who should not make weight at all; it is shown, never asked.
const shouldNotCut = "Nobody should make weight who is under 18 or pregnant, at a first meet, after an eating disorder, or with diabetes, kidney or heart disease. Ask a doctor when in doubt; the rule book in force decides on classes."

func (v WeightView) data() map[string]any {
	d := map[string]any{"bodyweight_kg": nil, "sd_kg": nil, "weekly_kg": nil, "room_kg": nil, "at_meet_kg": nil, "class": orNull(v.classOf().String()), "last_kg": nil, "last_date": nil}
	if !v.Trend.Known {
		return d
	}
	d["bodyweight_kg"], d["sd_kg"] = v.Trend.Kg, v.Trend.SD
	d["last_kg"], d["last_date"] = v.Trend.Last.Mass.Kg(), v.Trend.Last.Day
	if v.Trend.Moves {
		d["weekly_kg"] = v.Trend.Weekly
	}
	if class := v.classOf(); !class.IsZero() && !class.Plus {
		d["room_kg"] = class.Limit.Kg() - v.Trend.Kg
	}
	if v.HasMeet && v.Trend.Moves && v.Today.DaysUntil(v.Meet.Date) <= foreseeable {
		d["at_meet_kg"], _ = v.Trend.On(v.Meet.Date)
	}
	return d
}

// picture draws the weighings against the class.
func (v WeightView) picture() []chat.File {
	view := v.drawn()
	return []chat.File{{Name: "bodyweight.png", Draw: func() ([]byte, error) { return chart.Weight(view) }, Alt: clip(view.Title+". "+strings.Join(v.level(), " "), 1000)}}
}

// drawn is what the picture shows: the weighings of half a year, the trend of the weeks
// that count and, where a meet is near, where it goes until then.
func (v WeightView) drawn() chart.WeightView {
	scale := func(kg float64) float64 {
		if v.Lifter.Unit == planner.LB {
			return planner.Kilograms(kg).Lb()
		}
		return kg
	}
	view := chart.WeightView{Title: "Bodyweight", Under: "in " + v.unit(), From: v.Weighings[0].Day, To: v.Today}
	if v.Trend.Known {
		view.Title = "Bodyweight: " + v.mass(v.Trend.Kg)
	}
	for _, w := range v.Weighings {
		view.Points = append(view.Points, chart.Point{Day: w.Day, Mass: scale(w.Mass.Kg())})
	}
	levels := func(from, to planner.Date) (all []chart.Level) {
		for day := from; day <= to; day++ {
			kg, sd := v.Trend.At(day)
			all = append(all, chart.Level{Day: day, Mass: scale(kg), Low: scale(kg - sd), High: scale(kg + sd)})
		}
		return all
	}
	if v.Trend.Moves {
		view.Trend = levels(v.Trend.First, v.Today)
	}
	if class := v.classOf(); !class.IsZero() && !class.Plus {
		view.Limit, view.LimitName = scale(class.Limit.Kg()), "class "+class.String()
		if v.Lifter.Unit == planner.LB {
			view.LimitName += " kg" // the scale is another
		}
	}
	if v.HasMeet && v.Today.DaysUntil(v.Meet.Date) <= foreseeable {
		view.Meets, view.To = []chart.Mark{{Day: v.Meet.Date, Name: v.Meet.Name}}, v.Meet.Date.AddDays(2)
		if v.Trend.Moves {
			view.Ahead = levels(v.Today, v.Meet.Date)
		}
	}
	return view
}
