package bot

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"testing"
	"time"
)

// trains logs a rated squat twice a week, rising by a share each week.
func (k *talk) trains(who string, weeks int, start, weekly float64) {
	k.t.Helper()
	for w := range weeks {
		for _, day := range []int{0, 3} {
			at := k.now.Add(time.Duration(w*7+day) * 24 * time.Hour)
			e := k.event(who)
			e.At, e.Text = at, fmt.Sprintf("squat %.1fx5 @8", start*(1+weekly*float64(w)))
			if r := k.handle(e); r.Kind == "error" {
				k.t.Fatal(r.Message.Text)
			}
		}
	}
	k.now = k.now.Add(time.Duration(weeks) * 7 * 24 * time.Hour)
}

type liftData struct {
	Lift    string
	Variant *string
	Kg      *float64 `json:"e1rm_kg"`
	SD      *float64 `json:"e1rm_sd_kg"`
	Slope   *float64 `json:"slope_percent_per_week"`
	SlopeSD *float64 `json:"slope_sd"`
	Verdict string
	Records []struct {
		Kind     string
		Reps     int
		WeightKg float64 `json:"weight_kg"`
		Date     string
	}
}

func TestLiftTellsLevelRecordsAndPicture(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.planned("ana", "2027-06-12")
	k.trains("ana", 8, 100, 0.01)
	r := k.ok(k.say("ana", "/lift squat"))
	d := data[liftData](t, r)
	// 107 x 5 with 2 left is 7 to failure: 107 * 36 / (37 - 7) = 128.4 by Brzycki 1993.
	if d.Lift != "squat" || d.Variant != nil || d.Kg == nil || *d.Kg < 122 || *d.Kg > 132 || *d.SD <= 0 || *d.Slope <= 0 {
		t.Errorf("for programs: %+v", d)
	}
	if len(d.Records) == 0 || d.Records[0].Reps != 5 || d.Records[0].WeightKg != 107 {
		t.Errorf("records %+v, want 107 for a set of 5", d.Records)
	}
	for _, want := range []string{"Estimated max (what you could lift once)", "likely between"} {
		if !strings.Contains(r.Message.Text, want) {
			t.Errorf("%q is missing in %q", want, r.Message.Text)
		}
	}
	if len(r.Message.Files) != 1 || r.Message.Files[0].Alt == "" {
		t.Fatalf("%d pictures", len(r.Message.Files))
	}
	if img, err := png.Decode(bytes.NewReader(r.Message.Files[0].Bytes)); err != nil || img.Bounds().Dx() != 1200 {
		t.Errorf("not a picture: %v", err)
	}
	if !r.Message.Private {
		t.Error("a lifter's numbers are shown to all")
	}
}

func TestLiftWithoutALogSaysWhatToWrite(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	r := k.ok(k.say("ana", "/lift bench"))
	if d := data[liftData](t, r); d.Kg != nil || d.Verdict != "too little data" || len(r.Message.Files) != 0 {
		t.Errorf("%+v with %d pictures", d, len(r.Message.Files))
	}
	if !strings.Contains(r.Message.Text, "bench 100x5 @8") {
		t.Errorf("said %q", r.Message.Text)
	}
	k.refused(k.say("ana", "/lift pullups"), "pullups")
	k.refused(k.say("ana", "/lift"), "lift")
	k.refused(k.say("ben", "/lift squat lifter:ana"), "lifter")
}

// A variant has its own level and records, and the competition lift has none of them.
func TestLiftOfAVariant(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.ok(k.say("ana", "close-grip bench 80x5 @8"))
	d := data[liftData](t, k.ok(k.say("ana", "/lift lift:\"close-grip bench\"")))
	if d.Kg == nil || d.Variant == nil || *d.Variant != "close grip" || len(d.Records) == 0 {
		t.Errorf("the variant: %+v", d)
	}
	if d := data[liftData](t, k.ok(k.say("ana", "/lift bench"))); d.Kg != nil || len(d.Records) != 0 {
		t.Errorf("the competition lift: %+v", d)
	}
}

// A correction takes a record back.
func TestLiftForgetsWhatWasTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.ok(k.say("ana", "squat 140x3 @8"))
	k.ok(k.say("ana", "undo"))
	if d := data[liftData](t, k.ok(k.say("ana", "/lift squat"))); len(d.Records) != 0 || d.Kg != nil {
		t.Errorf("%+v", d)
	}
}

func TestLiftMisspelt(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.refused(k.say("ana", "/lift sqat"), "Did you mean squat?")
}

// One day with a set is no trend: no number a week is shown before verdicts are.
func TestLiftNamesNoSlopeFromADay(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.ok(k.say("ana", "/me set squat:120"))
	k.ok(k.say("ana", "squat 100x5 @8"))
	if text := strings.Join(fieldTexts(k.ok(k.say("ana", "/lift squat")).Message), " "); strings.Contains(text, "a week") {
		t.Errorf("it says %s", text)
	}
}
