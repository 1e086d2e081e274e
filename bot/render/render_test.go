package render

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// fits fails the test where a message is longer than a chat takes.
func fits(t *testing.T, name string, m chat.Message) {
	t.Helper()
	count := func(s string) int { return len([]rune(s)) }
	if count(m.Title) > chat.MaxTitle || count(m.Text) > chat.MaxText || len(m.Fields) > chat.MaxFields {
		t.Errorf("%s: title %d, text %d characters, %d fields", name, count(m.Title), count(m.Text), len(m.Fields))
	}
	for _, f := range m.Fields {
		if f.Name == "" || f.Value == "" || count(f.Name) > chat.MaxFieldName || count(f.Value) > chat.MaxFieldValue {
			t.Errorf("%s: field %q of %d and %d characters", name, f.Name, count(f.Name), count(f.Value))
		}
	}
	if _, err := json.Marshal(m.Data); err != nil {
		t.Errorf("%s: data: %v", name, err)
	}
}

// manyBlocks is a season far longer than anybody plans.
func manyBlocks(n int) []planner.Block {
	day := planner.NewDate(2027, 1, 4)
	kinds := []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery}
	var out []planner.Block
	for i := range n {
		out = append(out, planner.Block{Kind: kinds[i%4], Start: day, End: day.AddDays(27), Weeks: 4, Reason: strings.Repeat("because ", 200)})
		day = day.AddDays(28)
	}
	return out
}

func TestEveryAnswerFitsIntoOneMessage(t *testing.T) {
	today := planner.NewDate(2027, 2, 1)
	long := strings.Repeat("Ł", 60)
	var meets []planner.Meet
	var season []planner.SeasonMeet
	var rows []BoardRow
	var notes []string
	for i := range 80 {
		meets = append(meets, planner.Meet{Name: long, Date: today.AddDays(i - 40), ResultEntered: i < 40, EntryCloses: today.AddDays(i)})
		season = append(season, planner.SeasonMeet{Name: long, Date: today.AddDays(i)})
		rows = append(rows, BoardRow{Name: long, Flags: []string{strings.Repeat("flag ", 300)}})
		notes = append(notes, strings.Repeat("note ", 20))
	}
	sets := make([]planner.Set, 300)
	for i := range sets {
		sets[i] = planner.Set{Day: today, Lift: planner.Squat, Weight: 140000, Reps: 5, Sets: 1}
	}
	gain := 1.0
	plan := blocks.Plan{Notes: notes, GainPercent: &gain, SharpeningPercent: &gain, StrengthPercent: &gain, GainLow: &gain, GainHigh: &gain}
	lifter := planner.Lifter{Name: long, Squat: 100000, Bench: 60000, Deadlift: 120000, Unit: planner.LB}
	for name, m := range map[string]chat.Message{
		"meets": Meets(meets, today, planner.LB), "no meets": Meets(nil, today, planner.KG),
		"season": Season(SeasonView{Title: "Plan", Plan: plan, Blocks: manyBlocks(60), Meets: season, Today: today, Lifter: lifter, Old: manyBlocks(50)}),
		"board":  Board(BoardView{Rows: rows, Today: today}), "empty board": Board(BoardView{Today: today}), "profile": Profile(lifter, true),
		"recent": RecentSets(sets, 0, sets[0].Day, planner.KG, long, map[string]any{}), "log": Logged(LogView{Sets: sets, News: notes, Problems: notes}),
		"words": Words(), "privacy": Privacy(), "agreed": Agreed(planner.Season{Blocks: manyBlocks(2)}, today, long),
		"extended": Extended(planner.Season{Blocks: manyBlocks(30)}, 0, today, planner.Lifter{Level: planner.Intermediate}),
		"block":    Block(BlockView{Lifter: lifter, Today: today, HasPlan: true, Season: planner.Season{Blocks: manyBlocks(3)}, At: planner.Standing{Index: 1, Block: manyBlocks(3)[1], Waiting: -1, Next: 2}}),
		"nudges":   Nudges(NudgeView{Lifter: lifter, Kinds: []NudgeRow{{Kind: "taper", Says: "x", When: "y", Off: true}}, Coming: manyComing(90, long)}),
	} {
		fits(t, name, m)
	}
}

func TestGainIsToldInStepsOfAMeet(t *testing.T) {
	for _, tt := range []struct {
		unit      planner.Unit
		low, high float64
		want      string
	}{
		// 500 kg: 1.1 % is 5.5 kg, 2.4 % is 12 kg; meets load in steps of 2.5 kg.
		{planner.KG, 1.1, 2.4, "+5 kg to +12.5 kg on your total"},
		{planner.KG, 1.1, 1.2, "about +5 kg on your total"},
		{planner.LB, 1.1, 2.4, "+10 lb to +25 lb on your total"},
	} {
		if got := gainRange(500*planner.Kilogram, tt.low, tt.high, tt.unit); got != tt.want {
			t.Errorf("%g to %g %%: %q, want %q", tt.low, tt.high, got, tt.want)
		}
	}
}

func TestCountsAndDistancesInWords(t *testing.T) {
	for n, want := range map[int]string{0: "today", 1: "tomorrow", -1: "yesterday", 12: "in 12 days", -3: "3 days ago"} {
		if got := InDays(n); got != want {
			t.Errorf("%d: %q", n, got)
		}
	}
	if got := List([]string{"a", "b", "c"}); got != "a, b and c" {
		t.Errorf("list %q", got)
	}
	if got := fmt.Sprint(Sentence("öl"), Sentence("why?"), Sentence("")); got != "Öl.Why?" {
		t.Errorf("sentences %q", got)
	}
	for s, want := range map[string]planner.Set{
		"squat 140 kg x 5, 2 left":              {Lift: planner.Squat, Weight: 140000, Reps: 5, Sets: 1, Reserve: ptr(2)},
		"close-grip bench 3 sets of 8 at 95 kg": {Lift: planner.Bench, Variant: "close-grip", Weight: 95000, Reps: 8, Sets: 3},
		"deadlift 200 kg x 1, nothing left":     {Lift: planner.Deadlift, Weight: 200000, Reps: 1, Sets: 1, Reserve: ptr(0)},
		"squat 160 kg, missed":                  {Lift: planner.Squat, Weight: 160000, Sets: 1, Missed: true},
	} {
		if got := Set(want, planner.KG); got != s {
			t.Errorf("%q, want %q", got, s)
		}
	}
}

func ptr(f float64) *float64 { return &f }

// manyComing is more to come than any message holds.
func manyComing(n int, what string) (rows []ComingRow) {
	for i := range n {
		rows = append(rows, ComingRow{Kind: "meet", Day: planner.NewDate(2027, 1, 1).AddDays(i), What: what, Public: true})
	}
	return rows
}
