package render

import "blockbell/bot/chat"

// Setting is one line of the club's settings.
type Setting struct {
	Name  string
	Value string
}

// ClubSettings shows the club's settings under the names they are typed with.
func ClubSettings(title string, rows []Setting) chat.Message {
	data := map[string]string{}
	m := chat.Message{Title: title}
	for _, r := range rows {
		data[r.Name] = r.Value
		m.Fields = append(m.Fields, chat.Field{Name: r.Name, Value: orElse(r.Value, "not set")})
	}
	m.Data = map[string]any{"settings": data}
	return m
}
