package discordtest

import (
	"fmt"
	"net/url"
)

// file uploads what a person gives as an option, as a client does before it sends
// the command: the command then carries an id and says where the file lies.
func (f *filling) file(v any) (any, error) {
	up, ok := v.(Upload)
	if !ok || up.Name == "" {
		return nil, fmt.Errorf("%v is no Upload with a name", v)
	}
	if len(up.Bytes) > maxFile {
		return nil, fmt.Errorf("the file %s is too large to send", up.Name)
	}
	s := f.u.srv
	id := s.newID()
	path := "/ephemeral-attachments/" + s.app + "/" + id + "/" + url.PathEscape(up.Name)
	s.files[path] = up
	f.resolve("attachments", id, object{
		"id": id, "filename": up.Name, "size": len(up.Bytes), "url": s.URL() + path, "proxy_url": s.URL() + path,
		"content_type": up.ContentType, "ephemeral": true,
	})
	return id, nil
}
