package store

import (
	"testing"

	"blockbell/planner"
	"blockbell/store/internal/column"
)

func TestEraserTakesWholeWordsOnly(t *testing.T) {
	e := newEraser(planner.Lifter{Name: `Ana "A" Žagar`, Handle: "ana"})
	for in, want := range map[string]string{
		"Ana lifts":                      "somebody lifts",
		"for @ana, and ANA!":             "for somebody, and somebody!",
		"Anatol, Mariana and ana_b stay": "Anatol, Mariana and ana_b stay",
		`so does ana "a" žagar's taper`:  "so does somebody's taper",
		"ana ana/block/b1":               "somebody somebody/block/b1",
		"":                               "",
	} {
		if got := e.text(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestEraserKeepsTheRestOfADocument(t *testing.T) {
	e := newEraser(planner.Lifter{Name: "Ana <3", Handle: "100000000000000017"})
	in := column.JSON(`{"n":100000000000000018,"who":["100000000000000017","bo"],"text":"Ana \u003c3 & bo"}`)
	got, changed, err := e.json(in)
	if want := `{"n":100000000000000018,"text":"somebody & bo","who":["somebody","bo"]}`; err != nil || !changed || string(got) != want {
		t.Errorf("%s %v %v, want %s", got, changed, err, want)
	}
	if _, changed, err := e.json(column.JSON(`{"who":"bo"}`)); changed || err != nil {
		t.Errorf("changed %v, %v", changed, err)
	}
}

// Zora and the placeholder Zora K are two: what names the one keeps the other.
func TestEraserKeepsLongerNamesOfOthers(t *testing.T) {
	zora := planner.Lifter{ID: 1, Name: "Zora", Handle: "zora"}
	e := newEraser(zora, zora, planner.Lifter{ID: 2, Name: "Zora K"}, planner.Lifter{ID: 3, Handle: "zora.b"}, planner.Lifter{ID: 4, Name: "Bo"})
	for in, want := range map[string]string{
		"Yes, zora is Zora K":     "Yes, somebody is Zora K",
		"Erase Zora K":            "Erase Zora K",
		"zora.b and @zora, Zora.": "zora.b and somebody, somebody.",
		"Zora Kim":                "somebody Kim",
		"for zora K, Zora":        "for zora K, somebody",
	} {
		if got := e.text(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	long := newEraser(planner.Lifter{ID: 2, Name: "Zora K", Handle: "zk"}, zora)
	for in, want := range map[string]string{"zora is Zora K": "zora is somebody", "ZK, Zora": "somebody, Zora"} {
		if got := long.text(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	both := newEraser(planner.Lifter{ID: 5, Name: "Ana B", Handle: "ana"})
	if got := both.text("Ana Bell and ana b"); got != "somebody Bell and somebody" {
		t.Errorf("got %q", got)
	}
}
