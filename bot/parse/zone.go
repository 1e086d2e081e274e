package parse

import (
	_ "embed" // the names of time zones
	"strings"
	"sync"
	"time"

	"blockbell/planner"
)

// zoneList are the names of areas and cities in the time zone database of IANA,
// which is in the public domain.
//
//go:embed zones.txt
var zoneList string

// zoneNames splits the list, once.
var zoneNames = sync.OnceValue(func() []string { return strings.Fields(zoneList) })

// Zone reads the name of a time zone as the IANA database has it, such as
// Europe/Lisbon; case does not matter for a city's, and a blank stands for an
// underscore. Other words are an Unknown error that asks for the closest name.
func Zone(text string) (string, error) {
	name := strings.ReplaceAll(strings.TrimSpace(text), " ", "_")
	for _, known := range zoneNames() {
		if strings.EqualFold(known, name) {
			name = known
			break
		}
	}
	if name != "" && !strings.EqualFold(name, "local") && !tooLong(name, longestWord) {
		if _, err := time.LoadLocation(name); err == nil {
			return name, nil
		}
	}
	hint := "Write it as area and city, for example Europe/Lisbon or America/New_York."
	if near, ok := nearZone(name); ok {
		hint = "Did you mean " + near + "? " + hint
	}
	return "", planner.Errorf(planner.Unknown, hint, "%q is not a time zone I know", Clean(text))
}

// nearZone is the zone most likely meant: by the whole name, or by the city where
// no area was written.
func nearZone(name string) (string, bool) {
	if strings.Contains(name, "/") {
		return closest(strings.ToLower(name), zoneNames())
	}
	names := zoneNames()
	cities := make([]string, len(names))
	for i, n := range names {
		cities[i] = n[strings.LastIndexByte(n, '/')+1:]
	}
	city, ok := Near(name, cities)
	for i, c := range cities {
		if ok && c == city {
			return names[i], true
		}
	}
	return "", false
}
