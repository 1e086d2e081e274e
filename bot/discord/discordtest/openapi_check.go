package discordtest

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// callbackSchemas are the branches of an interaction's answer. The document
// lists them without a discriminator, so errors would name every branch.
var callbackSchemas = map[int]string{
	1: "PongInteractionCallbackRequest",
	4: "CreateMessageInteractionCallbackRequest",
	5: "CreateMessageInteractionCallbackRequest",
	6: "UpdateMessageInteractionCallbackRequest",
	7: "UpdateMessageInteractionCallbackRequest",
	8: "ApplicationCommandAutocompleteCallbackRequest",
	9: "ModalInteractionCallbackRequest",
}

// checkRequest holds a body against the document.
func (s *schema) checkRequest(c *call) []string {
	if s == nil {
		return nil
	}
	method := strings.ToLower(c.route.method)
	body, wanted := s.at("paths", c.documented(), method, "requestBody")
	switch {
	case !wanted:
		return nil // the platform ignores a body here
	case len(c.body) == 0:
		if o, _ := body.(map[string]any); o["required"] == true && len(c.files) == 0 {
			return []string{"a body is required"}
		}
		return nil
	}
	if keys := s.bodySchema(c.route.method, c.documented(), c.body); keys != nil {
		return s.against(c.body, keys...)
	}
	return nil
}

// bodySchema is the place of the schema of a body, nil when there is none. The
// answer to an interaction is picked by its type.
func (s *schema) bodySchema(method, path string, body []byte) []string {
	if strings.HasSuffix(path, "/callback") {
		var kind struct {
			Type int `json:"type"`
		}
		_ = json.Unmarshal(body, &kind) // what is no JSON fails later
		if name := callbackSchemas[kind.Type]; name != "" {
			return []string{"components", "schemas", name}
		}
	}
	keys := []string{"paths", path, strings.ToLower(method), "requestBody", "content", "application/json", "schema"}
	if _, ok := s.at(keys...); !ok {
		return nil
	}
	return keys
}

// documented is the path under which the document has the operation.
func (c *call) documented() string {
	if c.params["message_id"] == "@original" {
		return strings.Replace(c.route.path, "{message_id}", "@original", 1)
	}
	return c.route.path
}

// checkAnswer holds the emulator's own good answers against the document.
func (s *schema) checkAnswer(c *call, a answer) []string {
	if s == nil || a.status < 200 || a.status > 299 {
		return nil
	}
	keys := []string{"paths", c.documented(), strings.ToLower(c.route.method), "responses", strconv.Itoa(a.status)}
	if _, ok := s.at(keys...); !ok {
		return []string{fmt.Sprintf("status %d is not in the document", a.status)}
	}
	if a.body == nil {
		return nil
	}
	return s.against(encode(a.body), append(keys, "content", "application/json", "schema")...)
}

// numeric are the keys whose values the document calls integers in requests
// although clients send strings, as the reference says.
var numeric = map[string]bool{"default_member_permissions": true}

// loosen turns such strings into numbers, and the ids of attachments, which the
// reference writes as numbers, into strings.
func loosen(v any) any {
	switch v := v.(type) {
	case []any:
		for i := range v {
			v[i] = loosen(v[i])
		}
	case map[string]any:
		for key, item := range v {
			if text, ok := item.(string); ok && numeric[key] && isID(text) {
				v[key] = json.Number(text)
				continue
			}
			v[key] = loosen(item)
			if list, ok := item.([]any); ok && key == "attachments" {
				nameFiles(list)
			}
		}
	}
	return v
}

func nameFiles(attachments []any) {
	for _, a := range attachments {
		if o, ok := a.(map[string]any); ok {
			if n, ok := o["id"].(json.Number); ok {
				o["id"] = n.String()
			}
		}
	}
}
