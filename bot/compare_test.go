package bot

import (
	"strings"
	"testing"
)

type optionsAnswer struct {
	Options []struct {
		Name, Split string
	} `json:"options"`
}

// One split that does not fit takes none of the others away; it gets a sentence.
func TestABadSplitDoesNotHideTheGoodOnes(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08") // 18 weeks
	r := k.ok(k.say("ana", `/season compare blocks:"H6 S8 P4; H6 S8; squat; S12 P6"`))
	got := map[string]bool{}
	for _, o := range data[optionsAnswer](t, r).Options {
		got[o.Split] = true
	}
	if !got["H6 S8 P4"] || !got["S12 P6"] || got["H6 S8"] {
		t.Errorf("compared %v", got)
	}
	k.says(r, "Not compared: H6 S8. ", "4 are missing", "Not compared: squat. ", "is not a kind of block")
	// Where no split fits, that is the answer.
	k.refused(k.say("ana", `/season compare blocks:"H6 S8; squat"`), "4 are missing")
}

// What can never be a plan is compared, with the reason why it cannot be proposed in the
// place of a button that could only fail; every button that is there works.
func TestWhatCannotBeAPlanHasNoButton(t *testing.T) {
	for _, split := range []string{"P18", "S18", "H18", "H14 P4", "H9 S9", "P4 S10 P4", "S12 P6", "H6 S8 P4", "H3 S3 H3 S3 P6", "R2 H6 S6 P4", "H10 S4 P4"} {
		k := newTalk(t, "2027-01-04T09:00:00Z")
		k.strong("ana", "2027-05-08")
		r := k.ok(k.say("ana", `/season compare blocks:"`+split+`"`))
		offered := false
		for _, b := range r.Message.Buttons {
			offered = offered || b.Label == "Propose "+split
		}
		best := data[optionsAnswer](t, r).Options[0].Split == split
		closed := strings.Contains(r.Message.Text, split+" can be compared but not proposed. ")
		if offered == closed && !best {
			t.Errorf("%s: offered %v, said to be closed %v: %s", split, offered, closed, r.Message.Text)
		}
		if split == "P18" && offered {
			t.Errorf("eighteen weeks of peaking are offered")
		}
		for _, b := range r.Message.Buttons {
			answer := k.ok(k.pressToken("ana", b.Token))
			got := data[seasonAnswer](t, answer)
			if len(got.Blocks) == 0 || strings.Contains(answer.Message.Text, "could not lay out") {
				t.Errorf("%s: %q leads to %s", split, b.Label, answer.Message.Text)
			}
		}
	}
}
