package discordtest

import (
	"bytes"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// schema checks bodies against the platform's own OpenAPI document. The nil
// schema checks nothing.
type schema struct {
	doc      any
	mu       sync.Mutex
	compiler *jsonschema.Compiler
	compiled map[string]*jsonschema.Schema // by JSON pointer; nil where there is nothing
}

// schemas keeps documents that were read, by path: reading one takes a while.
var schemas struct {
	sync.Mutex
	byPath map[string]*schema
}

// findSchema reads the document at path or, when path is empty, the one beside
// the module's root. There being none is no error; an explicit path must exist.
func findSchema(path string) (*schema, error) {
	if path == "" {
		if path = besideModule(); path == "" {
			return nil, nil
		}
	}
	schemas.Lock()
	defer schemas.Unlock()
	if s := schemas.byPath[path]; s != nil {
		return s, nil
	}
	s, err := readSchema(path)
	if err != nil {
		return nil, fmt.Errorf("discordtest: the OpenAPI document: %w", err)
	}
	if schemas.byPath == nil {
		schemas.byPath = map[string]*schema{}
	}
	schemas.byPath[path] = s
	return s, nil
}

// besideModule looks for ../shared/data/discord-openapi.json from the folder
// that holds go.mod.
func besideModule() string {
	dir, err := os.Getwd()
	if err != nil {
		return ""
	}
	for ; filepath.Dir(dir) != dir; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err != nil {
			continue
		}
		path := filepath.Join(dir, "..", "shared", "data", "discord-openapi.json")
		if _, err := os.Stat(path); err == nil {
			return path
		}
		return ""
	}
	return ""
}

func readSchema(path string) (*schema, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("openapi.json", doc); err != nil {
		return nil, err
	}
	return &schema{doc: doc, compiler: c, compiled: map[string]*jsonschema.Schema{}}, nil
}

// at finds a part of the document.
func (s *schema) at(keys ...string) (any, bool) {
	v := s.doc
	for _, k := range keys {
		switch in := v.(type) {
		case map[string]any:
			next, ok := in[k]
			if !ok {
				return nil, false
			}
			v = next
		case []any:
			n, err := strconv.Atoi(k)
			if err != nil || n < 0 || n >= len(in) {
				return nil, false
			}
			v = in[n]
		default:
			return nil, false
		}
	}
	return v, true
}

// compile makes the part of the document at keys ready for checking, once; nil
// when there is no such part.
func (s *schema) compile(keys ...string) (*jsonschema.Schema, error) {
	escape := strings.NewReplacer("~", "~0", "/", "~1")
	pointer := ""
	for _, k := range keys {
		pointer += "/" + url.PathEscape(escape.Replace(k))
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if found, ok := s.compiled[pointer]; ok {
		return found, nil
	}
	if _, ok := s.at(keys...); !ok {
		s.compiled[pointer] = nil
		return nil, nil
	}
	made, err := s.compiler.Compile("openapi.json#" + pointer)
	if err != nil {
		return nil, err
	}
	s.compiled[pointer] = made
	return made, nil
}

// against checks a JSON text against a part of the document and says in words
// what is wrong.
func (s *schema) against(data []byte, keys ...string) []string {
	part, err := s.compile(keys...)
	if err != nil {
		return []string{"the OpenAPI document: " + err.Error()}
	}
	if part == nil {
		return nil
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return []string{"not JSON: " + err.Error()}
	}
	if !slices.Contains(keys, "responses") {
		v = loosen(v)
	}
	err = part.Validate(v)
	var bad *jsonschema.ValidationError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &bad):
		return leaves(bad)
	}
	return []string{err.Error()}
}
