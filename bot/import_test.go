package bot

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// sends answers /log import with a file.
func (k *talk) sends(who, file, more string) chat.Reply {
	k.t.Helper()
	e := k.event(who)
	e.Text = strings.TrimSpace("/log import file:log.csv " + more)
	e.Files = []chat.File{{Name: "log.csv", Bytes: []byte(file)}}
	return k.handle(e)
}

// logged counts a person's sets in the database.
func (k *talk) logged(who string) (n int) {
	k.t.Helper()
	k.read(func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(who)
		if err != nil {
			return err
		}
		sets, err := tx.Sets(l.ID, 1, planner.DateOf(k.now).AddDays(1))
		for _, s := range sets {
			n += s.Sets
		}
		return err
	})
	return n
}

const smallFile = "Date,Exercise,Weight,Reps,Sets,Notes\n2026-12-01,Squat,140,5,3,felt my knee\n2026-12-01,Bench,90,5,1,\n2026-12-02,Juggling,5,10,1,\n2026-12-03,Squat,heavy,5,1,\n"

func TestImportWritesNothingBeforeTheYes(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.ok(k.sends("ana", smallFile, ""))
	for _, want := range []string{"4 rows", "date from Date", "Notes", "New: 2 sets", "squat 3 sets of 5 at 140 kg", "names no unit", "juggling (1 row)", `Row 5, Weight: "heavy" is not a weight`} {
		if !strings.Contains(r.Message.Text, want) {
			t.Errorf("the preview does not say %q:\n%s", want, r.Message.Text)
		}
	}
	if n := k.logged("ana"); n != 0 {
		t.Fatalf("%d sets were written", n)
	}
	if mine := k.ok(k.say("ana", "/mydata")); !strings.Contains(string(mine.Message.Files[0].Bytes), `"state": "waiting"`) {
		t.Error("what waits is not in the lifter's own data")
	}
	r = k.ok(k.press("ana", "Import 2 sets"))
	if n := k.logged("ana"); n != 4 || r.Kind != chat.Update {
		t.Errorf("%d sets, %s", n, r.Kind)
	}
	var all bytes.Buffer
	if err := k.store.Export(t.Context(), &all); err != nil || strings.Contains(all.String(), "knee") {
		t.Errorf("words beside the sets are kept, %v", err)
	}
	if r := k.press("ana", "Import 2 sets"); !strings.Contains(r.Message.Text, "Already done") {
		t.Errorf("a second press: %s", r.Message.Text)
	}
	// The same file again is harmless, also after a correction.
	k.ok(k.say("ana", "/log fix 1 weight:95"))
	r = k.ok(k.sends("ana", smallFile, ""))
	if !strings.Contains(r.Message.Text, "New: 0 sets") || !strings.Contains(r.Message.Text, "had them from a file: 4 sets") {
		t.Errorf("the file again: %s", r.Message.Text)
	}
	k.ok(k.press("ana", "Undo this import"))
	if n := k.logged("ana"); n != 0 {
		t.Errorf("%d sets are left", n)
	}
	if r := k.ok(k.sends("ana", smallFile, "")); !strings.Contains(r.Message.Text, "New: 2 sets") {
		t.Errorf("after the undo: %s", r.Message.Text)
	}
}

func TestImportTakesUnitAndUnknownLiftsOnATap(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.sends("ana", smallFile, ""))
	k.ok(k.press("ana", "Take the other lifts too"))
	r := k.ok(k.press("ana", "The weights are in lb"))
	if r.Kind != chat.Update || !strings.Contains(r.Message.Text, "63.5 kg") {
		t.Errorf("%s %s", r.Kind, r.Message.Text)
	}
	k.ok(k.press("ana", "Import 3 sets"))
	got := data[logAnswer](t, k.ok(k.say("ana", "/log")))
	if len(got.Sets) != 3 || got.Sets[0].Lift != "juggling" {
		t.Errorf("%+v", got.Sets)
	}
	// What it is called is known from now on.
	if r := k.ok(k.sends("ana", smallFile+"2026-12-04,Juggling,5,10,1,\n", "unit:lb")); !strings.Contains(r.Message.Text, "New: 1 set.") {
		t.Errorf("%s", r.Message.Text)
	}
}

func TestImportPointsAtLoadsFarAboveTheBest(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/me set squat:140"))
	r := k.ok(k.sends("ana", "date,lift,weight,reps\n2026-12-01,squat,275,5\n2026-12-01,squat,120,5\n2026-12-01,bench,300,5\n", ""))
	if !strings.Contains(r.Message.Text, "Far above your best so far: 1 set, such as squat 275 kg x 5. Is the unit right?") {
		t.Errorf("%s", r.Message.Text)
	}
}

func TestImportAsksWhichNumberIsTheDay(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.ok(k.sends("ana", "date,lift,kg,reps\n3/4/2026,squat,140,5\n", ""))
	if len(r.Message.Buttons) != 3 {
		t.Fatalf("%+v", r.Message.Buttons)
	}
	k.ok(k.press("ana", "3 April (day first)"))
	k.ok(k.press("ana", "Import 1 set"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || got.Sets[0].Date != "2026-04-03" {
		t.Errorf("%+v", got.Sets)
	}
}

func TestImportIsRefusedWithWords(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.refused(k.say("ana", "/log import file:log.csv"), "no file")
	k.refused(k.sends("ana", "a,b\n1,2\n", ""), "no column for date, lift, weight, reps", "a, b")
	k.refused(k.sends("ana", smallFile, "columns:colour=Notes"), "colour")
	k.refused(k.sends("ana", smallFile, "columns:lift=Name"), `no column "Name"`)
	k.ok(k.sends("ana", smallFile, ""))
	k.ok(k.press("ana", "Cancel"))
	k.refused(k.press("ana", "Import 2 sets"), "no longer waits")
	k.ok(k.sends("ana", smallFile, ""))
	k.clock("2027-01-05T19:00:01Z")
	k.refused(k.press("ana", "Import 2 sets"), "can no longer be pressed")
	if n := k.logged("ana"); n != 0 {
		t.Errorf("%d sets were written", n)
	}
}

func TestManyProblemsComeAsAFile(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	file := "date,lift,kg,reps\n" + strings.Repeat("2026-01-01,squat,heavy,5\n", 30)
	r := k.ok(k.sends("ana", file, ""))
	if len(r.Message.Files) != 1 || bytes.Count(r.Message.Files[0].Bytes, []byte("\n")) != 31 || !strings.Contains(r.Message.Text, "and 20 more") {
		t.Errorf("%+v\n%s", r.Message.Files, r.Message.Text)
	}
}

func TestLogExportReadsBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5x3 @8\ntng bench 405lb x 2\npull-ups bw x 8\ndeadlift 200x1 missed, paused squat 122,5x3")
	r := k.ok(k.say("ana", "/log export"))
	file := string(r.Message.Files[0].Bytes)
	if r := k.ok(k.sends("ana", file, "")); !strings.Contains(r.Message.Text, "New: 0 sets") || strings.Contains(r.Message.Text, "cannot read") {
		t.Errorf("its own file: %s", r.Message.Text)
	}
	k.ok(k.sends("ben", file, ""))
	k.ok(k.press("ben", "Import 5 sets"))
	if again := k.ok(k.say("ben", "/log export")); string(again.Message.Files[0].Bytes) != file {
		t.Errorf("came back as\n%s\nwant\n%s", again.Message.Files[0].Bytes, file)
	}
}

// bigFile has n rows of four lifts, fourteen a day.
func bigFile(n int) string {
	var b strings.Builder
	b.WriteString("Date,Exercise,Weight (kg),Reps\n")
	day := planner.NewDate(2027, time.January, 1)
	for i := range n {
		fmt.Fprintf(&b, "%s,%s,%g,%d\n", day.AddDays(-i/14), []string{"Squat", "Bench Press", "Deadlift", "Row"}[i%4], 60+2.5*float64(i%40), 1+i%8)
	}
	return b.String()
}

func TestLongImportShowsHowFarItHasCome(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.ok(k.sends("ana", bigFile(4000), ""))
	var told []string
	e := k.event("ana")
	e.Kind, e.Button = chat.Pressed, r.Message.Buttons[0].Token
	e.Progress = func(m chat.Message) { told = append(told, m.Text) }
	k.ok(k.handle(e))
	if len(told) != 3 || told[1] != "Importing: 2000 of 4000 sets …" || k.logged("ana") != 4000 {
		t.Errorf("%q, %d sets", told, k.logged("ana"))
	}
}

// BenchmarkImport is a file of fifty thousand rows: from the command to the preview,
// and from the press to the answer with every row on the disk.
func BenchmarkImport(b *testing.B) {
	const rows = 50_000
	file := bigFile(rows)
	for b.Loop() {
		k := newTalk(b, "2027-01-04T19:00:00Z")
		start := time.Now()
		r := k.sends("ana", file, "")
		preview := time.Since(start)
		start = time.Now()
		k.pressToken("ana", r.Message.Buttons[0].Token)
		b.ReportMetric(preview.Seconds(), "s/preview")
		b.ReportMetric(rows/time.Since(start).Seconds(), "rows/s")
	}
}
