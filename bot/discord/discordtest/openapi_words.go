package discordtest

import (
	"fmt"
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
)

// leaves are the innermost reasons why a value does not fit, at most six of them.
func leaves(bad *jsonschema.ValidationError) []string {
	var found []string
	for _, e := range innermost(bad) {
		found = append(found, fmt.Sprintf("/%s: %s", strings.Join(e.InstanceLocation, "/"), e.DetailedOutput().Error))
	}
	if len(found) > 6 {
		found = append(found[:6], fmt.Sprintf("and %d more", len(found)-6))
	}
	return found
}

// innermost are the errors without causes of their own. Of a union only those
// branches count that are meant by the value's type, if there are any: the
// document has no discriminators, so every branch complains.
func innermost(e *jsonschema.ValidationError) []*jsonschema.ValidationError {
	if len(e.Causes) == 0 {
		return []*jsonschema.ValidationError{e}
	}
	var all, meant []*jsonschema.ValidationError
	for _, cause := range e.Causes {
		inner := innermost(cause)
		all = append(all, inner...)
		if !slices.ContainsFunc(inner, func(i *jsonschema.ValidationError) bool { return wrongBranch(e, i) }) {
			meant = append(meant, inner...)
		}
	}
	if isUnion(e) && len(meant) > 0 {
		return meant
	}
	return all
}

func isUnion(e *jsonschema.ValidationError) bool {
	switch e.ErrorKind.(type) {
	case *kind.AnyOf, *kind.OneOf:
		return true
	}
	return false
}

// wrongBranch tells whether an error inside a union says that the value's own
// type is another one, or that the value is not null where null is one branch.
func wrongBranch(union, inner *jsonschema.ValidationError) bool {
	at := inner.InstanceLocation
	if slices.Equal(at, union.InstanceLocation) {
		t, ok := inner.ErrorKind.(*kind.Type)
		return ok && slices.Equal(t.Want, []string{"null"})
	}
	return slices.Equal(at, append(slices.Clone(union.InstanceLocation), "type"))
}
