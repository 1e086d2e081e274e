package bot

import (
	"bytes"
	"fmt"
	"image/png"
	"slices"
	"strings"
	"testing"
)

// boardNames are the lifters a board shows, in order, and boardData the ones it
// tells programs.
func boardNames(k *talk, text string) (shown []string, pages int) {
	k.t.Helper()
	r := k.ok(k.say("cap", text))
	for _, f := range r.Message.Fields {
		shown = append(shown, f.Name)
	}
	return shown, data[struct{ Pages int }](k.t, r).Pages
}

func TestBoardIsSortedAndPaged(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/block"))
	for i := range 45 {
		who := fmt.Sprintf("lifter%02d", i)
		k.ok(k.say(who, fmt.Sprintf(`/meet add name:"River Open" date:2027-%02d-12`, 12-i%9)))
	}
	k.planned("zoe", "2027-06-12")
	names, pages := boardNames(k, "/club board sort:name")
	if pages != 3 || len(names) != 20 || !slices.IsSorted(names) {
		t.Errorf("%d pages, %q", pages, names)
	}
	last, _ := boardNames(k, "/club board sort:name page:3")
	if last[len(last)-1] != "zoe" || len(last) != 7 {
		t.Errorf("the last page shows %q", last)
	}
	// Only Zoe needs no look, so she comes last in the usual order.
	usual, _ := boardNames(k, "/club board page:3")
	if usual[len(usual)-1] != "zoe" {
		t.Errorf("the usual order ends with %q", usual)
	}
	byDays, _ := boardNames(k, "/club board sort:days")
	if byDays[0] != "zoe" {
		t.Errorf("fewest days left first: %q", byDays)
	}
	byMeet, _ := boardNames(k, "/club board sort:meet")
	if byMeet[0] != "lifter08" {
		t.Errorf("nearest meet first: %q", byMeet)
	}
	k.refused(k.say("cap", "/club board page:0"), "page", "1 to 1000")
	k.refused(k.say("cap", "/club board group:monday"), "monday")
	k.refused(k.say("zoe", "/club board"), "captain")
}

func TestBoardTurnsByButton(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for i := range 25 {
		k.ok(k.say(fmt.Sprintf("lifter%02d", i), "/block"))
	}
	k.ok(k.say("cap", "/club board sort:name"))
	r := k.ok(k.press("cap", "Next page"))
	if r.Kind != "edit" || !strings.Contains(r.Message.Text, "page 2 of 2") || len(r.Message.Fields) != 6 {
		t.Errorf("%s %q with %d rows", r.Kind, r.Message.Text, len(r.Message.Fields))
	}
	r = k.ok(k.press("cap", "Sort by meet"))
	if !strings.Contains(r.Message.Text, "page 1 of 2") {
		t.Errorf("another order begins with %q", r.Message.Text)
	}
}

// The picture has a row for each lifter shown and says in words what it shows.
func TestBoardHasAPictureWithWords(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	files := k.ok(k.say("cap", "/club board")).Message.Files
	if len(files) != 1 || files[0].Name != "board.png" || !strings.Contains(files[0].Alt, "ana: muscle block") {
		t.Fatalf("%d files: %+v", len(files), files)
	}
	if img, err := png.Decode(bytes.NewReader(files[0].Bytes)); err != nil || img.Bounds().Dx() != 1200 {
		t.Errorf("not a picture: %v", err)
	}
}

func TestHistoryTellsWhoChangedWhat(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	if text := k.ok(k.say("cap", "/club history")).Message.Text; !strings.Contains(text, "Nothing yet") {
		t.Errorf("an empty history says %q", text)
	}
	k.ok(k.say("ana", "/block"))
	k.ok(k.say("cap", "/club settings hour:09:00"))
	k.ok(k.say("cap", "/me set lifter:ana level:advanced"))
	text := k.ok(k.say("cap", "/club history")).Message.Text
	if lines := strings.Split(text, "\n"); len(lines) != 2 || !strings.Contains(lines[0], "cap") || !strings.Contains(lines[0], "for ana") || !strings.Contains(lines[1], "changed club settings: hour") {
		t.Errorf("the history says %q", text)
	}
	if text := k.ok(k.say("cap", "/club history about:ana")).Message.Text; strings.Contains(text, "settings") || !strings.Contains(text, "for ana") {
		t.Errorf("about Ana it says %q", text)
	}
	k.refused(k.say("cap", "/club history about:anna"), "ana")
	k.refused(k.say("ana", "/club history"), "captain")
	for i := range 25 {
		k.ok(k.say("cap", fmt.Sprintf("/club settings hour:%02d:00", 8+i%2)))
	}
	first := k.ok(k.say("cap", "/club history")).Message.Text
	if !strings.Contains(first, "/club history page:2") || strings.Count(first, "\n") != 20 {
		t.Errorf("the first of two pages says %q", first)
	}
}

// What was done for many at once is one line of the history, and each of them finds it.
func TestHistoryTellsWhatWasDoneForManyInOneLine(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for i := range 60 {
		k.ok(k.say(fmt.Sprintf("lifter%02d", i), "/me"))
	}
	k.ok(k.say("cap", "/club away from:2027-02-01 to:2027-02-07"))
	r := k.ok(k.say("cap", "/club history"))
	if want := "Mon 4 January: cap told a time away for lifter00, lifter01, lifter02, lifter03 and 56 more"; !strings.Contains(r.Message.Text, want) || strings.Count(r.Message.Text, "\n") > 1 {
		t.Errorf("it says %q", r.Message.Text)
	}
	if rows := data[struct{ History []any }](t, r).History; len(rows) != 60 {
		t.Errorf("%d rows for programs, want one for each", len(rows))
	}
	if text := k.ok(k.say("cap", "/club history about:lifter33")).Message.Text; !strings.Contains(text, "told a time away for lifter33") {
		t.Errorf("about one of them: %q", text)
	}
}
