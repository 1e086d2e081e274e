package terminal

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// rich has something in every place.
func rich(e chat.Event) (chat.Reply, error) {
	return chat.Reply{Kind: chat.Answer, Message: chat.Message{
		Private: true, Title: "Season", Text: "Three blocks & a meet.\nRead on.",
		Fields:  []chat.Field{{Name: "Block", Value: "muscle <hypertrophy>"}, {Name: "Łódź 力", Value: "one\ntwo"}},
		Files:   []chat.File{{Name: "season.png", Bytes: []byte("x"), Alt: "a calendar of three blocks"}},
		Buttons: []chat.Button{{Label: "Accept plan", Token: "y"}, {Label: "Decline", Token: "n"}},
		Data:    map[string]any{"gain_percent": 2.5},
	}}, nil
}

func TestObjectIsTheStableForm(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: rich})
	got := s.script(t, "clock 2027-01-04T08:00:00Z", "@ana /season build")
	want := `{"at":"2027-01-04T08:00:00Z","kind":"reply","to":"@ana","private":true,"title":"Season",` +
		`"text":"Three blocks & a meet.\nRead on.","fields":[{"name":"Block","value":"muscle <hypertrophy>"},{"name":"Łódź 力","value":"one\ntwo"}],` +
		`"files":["season.png"],"buttons":["Accept plan","Decline"],"data":{"gain_percent":2.5}}` + "\n"
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	got = s.script(t, "nonsense")
	if !strings.HasPrefix(got, `{"at":"2027-01-04T08:00:00Z","kind":"error","to":"script","private":false,"title":"","text":"`) || !strings.HasSuffix(got, `"data":{},"line":1}`+"\n") {
		t.Errorf("an error line is %s", got)
	}
}

func TestTranscriptIsCalm(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: rich}, moment(t, "2027-01-05T08:00:00Z"))
	s.Screen.JSON, s.Screen.Echo = false, true
	got := s.script(t, "clock 2027-01-04T08:00:00Z", "@Ana /season build", "#lifting @bea squat\\", "140x5", "clock +1d", "clock +1d", "sho")
	block := `    (only @ana sees this) Season
    Three blocks & a meet.
    Read on.
    Block    muscle <hypertrophy>
    Łódź 力  one
             two
    file season.png (a calendar of three blocks)
    [Accept plan] [Decline]
`
	want := `
Mon 4 Jan 2027, 08:00 UTC
@Ana: /season build
` + block + `#lifting @bea: squat
    140x5
` + strings.Replace(block, "@ana", "@bea", 1) + `
Tue 5 Jan 2027, 08:00 UTC
blockbell to #announcements:
    due

Wed 6 Jan 2027, 08:00 UTC
    (error, line 7) "sho" is not understood: begin with @name, #channel @name, clock, press, edit, delete, or "# " for a comment
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestTranscriptOfPressEditAndDelete(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: proposing})
	s.Screen.JSON, s.Screen.Echo = false, true
	got := s.script(t, "clock 2027-01-04T08:00:00Z", "@ana build", `press @ana "accept plan"`, "edit @ana built", "delete @ana")
	for _, want := range []string{"\n@ana presses [accept plan]\n    (changed) (only @ana sees this) done yes-", "\n@ana edits: built\n", "\n@ana deletes the message\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

func TestDataThatIsNoJSONLeavesTheWords(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: func(chat.Event) (chat.Reply, error) {
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: "words", Data: map[string]any{"x": math.NaN()}}}, nil
	}})
	if o := only(t, s.script(t, "@ana /lift")); !strings.HasPrefix(o.Text, "words\n(") || len(o.Data.(map[string]any)) != 0 {
		t.Errorf("got %+v", o)
	}
}

func TestEachLineIsWrittenAtOnce(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: rich})
	var writes []string
	s.Screen.Writer = writeFunc(func(p []byte) (int, error) { writes = append(writes, string(p)); return len(p), nil })
	s.script(t, "@ana one", "@ana two")
	if len(writes) != 2 || !strings.HasSuffix(writes[0], "}\n") || !strings.HasSuffix(writes[1], "}\n") {
		t.Errorf("writes: %q", writes)
	}
}

func TestBrokenOutputEndsThePlay(t *testing.T) {
	bot := &scripted{answer: rich}
	s := newStage(t, newNotebook(), bot)
	broken := errors.New("broken pipe")
	s.Screen.Writer = writeFunc(func([]byte) (int, error) { return 0, broken })
	err := s.Play(t.Context(), ReadLines(bytes.NewBufferString("@ana one\n@ana two\n")))
	if !errors.Is(err, broken) || len(bot.events) != 1 {
		t.Errorf("Play = %v after %d events", err, len(bot.events))
	}
}
