package bot

import (
	"strings"
	"testing"
)

// What a captain did for others stays in the history after the captain is erased; it
// says that it was not the bot, and not who.
func TestHistoryOutlivesWhoeverMadeIt(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("pip", "/me"))
	k.ok(k.say("cap", "/club captain member:pip"))
	k.ok(k.say("ana", "/me"))
	k.ok(k.say("cap", "/me set lifter:ana level:novice"))
	k.ok(k.say("cap", "/club settings unit:lb"))
	k.ok(k.say("cap", "/mydata erase"))
	k.ok(k.press("cap", "Erase everything"))
	r := k.ok(k.say("pip", "/club history"))
	k.shows(r, "somebody who has left set profile: level for ana", "somebody who has left changed club settings")
	k.silentOn(r, "cap ", ": I ")
	k.shows(k.ok(k.say("pip", "/club history about:ana")), "somebody who has left")
	got := data[struct{ History []struct{ By string } }](t, r).History
	for _, row := range got {
		if row.By != "somebody who has left" && row.By != "pip" {
			t.Errorf("done by %q", row.By)
		}
	}
}

// Who says to be somebody on the list and has left meanwhile takes nothing over:
// it would be erased with the rest of theirs.
func TestWhoHasLeftTakesNothingOver(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.seated("Zora K")
	k.ok(k.say("zora", `/me claim name:"Zora K"`))
	k.ok(k.say("cap", "/club left lifter:zora"))
	k.shows(k.ok(k.say("cap", "/club placeholders")), "zora says to be them, and has left the club")
	k.refused(k.press("cap", "Yes, zora is Zora K"), "zora has left the club", "erased")
	k.refused(k.say("cap", `/club placeholders name:"Zora K" is:zora`), "has left the club")
	k.ok(k.say("zora", "/me")) // she is back
	k.ok(k.say("cap", "/club placeholders"))
	k.shows(k.ok(k.press("cap", "Yes, zora is Zora K")), "Done")
	k.seated("Ben L")
	k.ok(k.say("ben", `/me claim name:"Ben L"`))
	k.ok(k.say("cap", "/club left lifter:ben"))
	k.ok(k.say("cap", "/club placeholders"))
	k.shows(k.ok(k.press("cap", "No, ben is not Ben L")), "Noted")
}

// Erasing Zora leaves the placeholder Zora K called that, on buttons too.
func TestErasingOneLeavesTheLongerNameOfAnother(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.seated("Zora K")
	k.ok(k.say("zora", "/me"))
	k.ok(k.say("cap", `/club placeholders name:"Zora K" erase:yes`))
	k.ok(k.say("zora", "/mydata erase"))
	k.ok(k.press("zora", "Erase everything"))
	k.ok(k.press("cap", "Erase Zora K"))
	if all := strings.Join(k.placeholders(), " "); strings.Contains(all, "Zora") {
		t.Errorf("the list is %s", all)
	}
}
