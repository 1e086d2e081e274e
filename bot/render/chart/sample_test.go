package chart

import (
	"math/rand/v2"

	"blockbell/planner"
)

// A season of an invented lifter, the same at every run.
var first = planner.NewDate(2027, 1, 4)

func sampleBlocks() []planner.Block {
	return []planner.Block{
		{Kind: planner.Hypertrophy, Start: first, End: first.AddDays(55), Weeks: 8},
		{Kind: planner.Strength, Start: first.AddDays(56), End: first.AddDays(97), Weeks: 6},
		{Kind: planner.Peaking, Start: first.AddDays(98), End: first.AddDays(124), Weeks: 4, TaperStart: first.AddDays(112)},
		{Kind: planner.Recovery, Start: first.AddDays(126), End: first.AddDays(138), Weeks: 2},
	}
}

func sampleMeets() []Mark { return []Mark{{first.AddDays(125), "River Open 🏋"}} }

func sampleLift() LiftView {
	v := LiftView{
		Title: "Squat: 152.5 kg, rising", Under: "about 0.4 % a week; likely between 149 and 156 kg",
		From: first, To: first.AddDays(140), Blocks: sampleBlocks(), Meets: sampleMeets(), Least: 15,
	}
	random := rand.New(rand.NewPCG(7, 7))
	for i := 0; i < 140; i += 3 {
		trend := 140 + 0.09*float64(i)
		v.Trend = append(v.Trend, Level{first.AddDays(i), trend, trend - 3, trend + 3})
		v.Points = append(v.Points, Point{Day: first.AddDays(i), Mass: trend + 2*random.NormFloat64(), AtLeast: i%4 == 0})
	}
	return v
}

func sampleSeason() SeasonView {
	return SeasonView{
		Title: "Ana: two plans", Under: "to the River Open on 9 May", Today: first.AddDays(70),
		Rows: []Row{{Name: "Your plan", Blocks: sampleBlocks(), Meets: sampleMeets()}, {Name: "Proposed", Blocks: sampleBlocks()[1:], Meets: sampleMeets()}},
	}
}

func sampleBoard() BoardView {
	v := BoardView{Title: "The club on 15 March", Under: "4 lifters", From: first.AddDays(49), To: first.AddDays(160), Today: first.AddDays(70)}
	for _, n := range []string{"Ana Ferreira", "Bela", "Łukasz Zieliński", "Emil Østergård with a name too long for one row"} {
		v.Members = append(v.Members, Member{Name: n, Note: "strength, 12 days left", Blocks: sampleBlocks(), Meets: sampleMeets()})
	}
	v.Members[1].Flag = "peaking past its limit"
	return v
}

func sampleSheet() SheetView {
	return SheetView{
		Title: "Tuesday's racks", Under: "16 March", Head: []string{"Lifter", "Lift", "Top set", "Then", "Each side"},
		Rows: [][]string{{"Ana", "Squat", "142.5 x 3", "3x5 at 120", "25 25 5 2.5 1.25"}, {"Bela", "Bench press", "80 x 4", "4x6 at 70"}},
		Foot: "Loads follow the last sets logged.",
	}
}

func sampleWeight() WeightView {
	return WeightView{
		Title: "Bodyweight: 62.5 kg", Under: "room in the class: 0.5 kg", From: first, To: first.AddDays(100), Limit: 63, LimitName: "class limit 63 kg",
		Points: []Point{{Day: first.AddDays(3), Mass: 62}, {Day: first.AddDays(30), Mass: 62.3}, {Day: first.AddDays(60), Mass: 62.6}},
		Trend:  []Level{{first, 62, 61.8, 62.2}, {first.AddDays(60), 62.5, 62.2, 62.8}}, Ahead: []Level{{first.AddDays(60), 62.5, 62.2, 62.8}, {first.AddDays(90), 62.8, 61.8, 63.8}}, Meets: []Mark{{first.AddDays(90), "River Open"}},
	}
}

// all pictures by name.
func all() map[string]func() ([]byte, error) {
	return map[string]func() ([]byte, error){
		"lift":   func() ([]byte, error) { return Lift(sampleLift()) },
		"season": func() ([]byte, error) { return Season(sampleSeason()) },
		"board":  func() ([]byte, error) { return Board(sampleBoard()) },
		"sheet":  func() ([]byte, error) { return Sheet(sampleSheet()) },
		"weight": func() ([]byte, error) { return Weight(sampleWeight()) },
	}
}
