package terminal

import (
	"testing"
	"time"
)

// A newer message whose button is for others does not hide an older one that is
// for the person who presses.
func TestPressReachesTheNewestButtonThatIsForThePerson(t *testing.T) {
	now := time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)
	button := func(token string, people ...string) Body {
		return Body{Buttons: []Button{{Label: "Fewer of these", Token: token, For: people, Expires: now.Add(time.Hour)}}}
	}
	newestFirst := []Record{
		{ID: 2, Kind: kindPost, To: "#announcements", Body: button("new", "ana", "ben")},
		{ID: 1, Kind: kindPost, To: "#announcements", Body: button("old", "cap")},
	}
	for who, want := range map[string]string{"cap": "old", "ana": "new", "dan": ""} {
		if got := findButton(newestFirst, who, "Fewer of these", now); got.token != want {
			t.Errorf("%s presses %q, want %q", who, got.token, want)
		}
	}
}
