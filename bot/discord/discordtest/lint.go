package discordtest

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// Unknown lists the fields of all request bodies so far that the platform's
// document does not know, each as "METHOD route: /path/of/field", once. The
// platform ignores such fields, so they are no violations; but they are mostly
// misspellings or the leftovers of a library. It is empty without the document.
func (s *Server) Unknown() []string {
	if s.schema == nil {
		return nil
	}
	var all []string
	for _, r := range s.Requests() {
		keys := s.schema.bodySchema(r.Method, r.documented, r.Body)
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(r.Body))
		if err != nil || keys == nil {
			continue
		}
		for _, field := range s.schema.unknown(v, "", keys) {
			if line := fmt.Sprintf("%s %s: %s", r.Method, r.Route, field); !slices.Contains(all, line) {
				all = append(all, line)
			}
		}
	}
	slices.Sort(all)
	return all
}

// unknown finds the fields of a value that none of the schemas at the given
// places of the document names. Numbers of lists are written as "n".
func (s *schema) unknown(v any, at string, places ...[]string) []string {
	var nodes [][]string
	for _, p := range places {
		nodes = append(nodes, s.applying(v, p)...)
	}
	var found []string
	switch v := v.(type) {
	case []any:
		for _, item := range v {
			found = append(found, s.unknown(item, at+"/n", s.below(nodes, "items")...)...)
		}
	case map[string]any:
		if s.open(nodes) {
			return nil
		}
		for key, item := range v {
			in := s.below(nodes, "properties", key)
			if len(in) == 0 {
				found = append(found, at+"/"+key)
				continue
			}
			found = append(found, s.unknown(item, at+"/"+key, in...)...)
		}
	}
	return found
}

// applying resolves references and unions: the places whose own words apply to
// the value.
func (s *schema) applying(v any, place []string) [][]string {
	node, _ := s.at(place...)
	o, _ := node.(map[string]any)
	if ref, ok := o["$ref"].(string); ok {
		return s.applying(v, strings.Split(strings.TrimPrefix(ref, "#/"), "/"))
	}
	all := [][]string{place}
	for _, union := range []string{"allOf", "anyOf", "oneOf"} {
		list, _ := o[union].([]any)
		for i := range list {
			branch := append(slices.Clone(place), union, fmt.Sprint(i))
			if union == "allOf" || s.fits(v, branch) {
				all = append(all, s.applying(v, branch)...)
			}
		}
	}
	return all
}

func (s *schema) fits(v any, place []string) bool {
	part, err := s.compile(place...)
	return err == nil && part != nil && part.Validate(v) == nil
}

// below are the places one step further down, as far as they exist.
func (s *schema) below(nodes [][]string, step ...string) [][]string {
	var found [][]string
	for _, n := range nodes {
		place := append(slices.Clone(n), step...)
		if _, ok := s.at(place...); ok {
			found = append(found, place)
		}
	}
	return found
}

// open tells whether any field may stand here: a map, or a schema that says
// nothing of fields.
func (s *schema) open(nodes [][]string) bool {
	return len(s.below(nodes, "additionalProperties")) > 0 || len(s.below(nodes, "properties")) == 0
}
