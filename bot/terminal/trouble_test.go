package terminal

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

// fullDisk is an error with words for a person.
type fullDisk struct{}

func (fullDisk) Error() string { return "write: no space left on device" }
func (fullDisk) Words() string { return "The disk is full. Make room and try again." }

// The words of an error stand on the screen wherever they are in its chain, and
// the cause still stands in the log.
func TestFailingStoreSaysWhyOnTheScreen(t *testing.T) {
	const nothing = "The disk is full. Make room and try again. Nothing was kept."
	s := newStage(t, newNotebook(), &scripted{answer: proposing})
	s.script(t, "clock 2027-01-04T08:00:00Z", "@cap /poll")
	s.memory.fault = fmt.Errorf("keep: %w", fullDisk{})
	for _, line := range []string{"@ana hello", `press @ana "I come"`, "edit @ana hello"} {
		if o := only(t, s.script(t, line)); o.Kind != "error" || o.Text != nothing {
			t.Errorf("%q gave %+v", line, o)
		}
	}
	if log := s.log.String(); !strings.Contains(log, "no space left") || !strings.Contains(log, "T1") {
		t.Errorf("the log does not tell: %s", log)
	}
}

// What was kept before something failed is not said to be lost.
func TestFailureAfterTheAnswerDoesNotSayThatNothingWasKept(t *testing.T) {
	for _, line := range []string{"@ana /hello", "clock +1d"} {
		s := newStage(t, newNotebook(), &scripted{answer: says("hello")}, moment(t, "2027-01-04T09:00:00Z"))
		s.script(t, "clock 2027-01-04T08:00:00Z", "@ana hello")
		s.due.fault = fullDisk{}
		all := objects(t, s.script(t, line))
		if o := all[len(all)-1]; o.Kind != "error" || o.Text != (fullDisk{}).Words() {
			t.Errorf("%q gave %+v", line, o)
		}
	}
}

func TestClockKeepsToYearsThatMeanSomething(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	for _, at := range []string{"0001-01-01T00:00:00Z", "1999-12-31T23:59:59Z", "2201-01-01T00:00:00Z", "9999-12-31T00:00:00Z"} {
		if o := only(t, s.script(t, "clock "+at)); o.Kind != "error" || !strings.Contains(o.Text, "2000") || !strings.Contains(o.Text, "2200") {
			t.Errorf("%s gave %+v", at, o)
		}
	}
	if s.memory.set {
		t.Errorf("the clock was set to %s", s.memory.clock)
	}
	s.script(t, "clock 2200-12-31T00:00:00Z")
	if o := only(t, s.script(t, "clock +1d")); o.Kind != "error" || !strings.Contains(o.Text, "2200") || s.memory.clock.Year() != 2200 {
		t.Errorf("walking over the end gave %+v, the clock stands at %s", o, s.memory.clock)
	}
}

// Every object for programs names somebody and carries its data.
func TestObjectsAlwaysCarryToPrivateAndData(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: proposing}, moment(t, "2027-01-05T08:00:00Z"))
	got := s.script(t, "clock 2027-01-04T08:00:00Z", "@cap /poll", `press @ana "I come"`, `press @ana "I come"`, "@ana /build", "clock +2d", "nonsense", `press @ana "x"`)
	if lines := strings.Count(got, "\n"); lines != 7 {
		t.Fatalf("%d objects, want 7:\n%s", lines, got)
	}
	for line := range strings.Lines(got) {
		if strings.Contains(line, `"to":""`) || !strings.Contains(line, `"private":`) || !strings.Contains(line, `"data":{`) {
			t.Errorf("printed %s", line)
		}
	}
	if !strings.Contains(got, `"text":"already done","fields":[],"files":[],"buttons":[],"data":{}`) {
		t.Errorf("no data with 'already done':\n%s", got)
	}
}

// A post that was delayed fell due before what was printed meanwhile.
func TestTimeOnTheScreenDoesNotRunBack(t *testing.T) {
	at := moment(t, "2027-01-04T08:00:00Z")
	for _, inJSON := range []bool{true, false} {
		var out bytes.Buffer
		s := &Screen{Writer: &out, JSON: inJSON}
		for _, shown := range []time.Time{at, at.Add(-time.Hour), at.Add(time.Minute), at} {
			s.show(output{record: Record{At: shown, Kind: kindPost, To: "#announcements"}, message: chat.Message{Text: "due"}})
		}
		first, second := `"at":"2027-01-04T08:00:00Z"`, `"at":"2027-01-04T08:01:00Z"`
		times := 2
		if !inJSON {
			first, second, times = "Mon 4 Jan 2027, 08:00 UTC", "Mon 4 Jan 2027, 08:01 UTC", 1
		}
		if got := out.String(); strings.Count(got, first) != times || strings.Count(got, second) != times || strings.Contains(got, "07:00") {
			t.Errorf("printed\n%s", got)
		}
	}
}
