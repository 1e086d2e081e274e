package discordtest

import (
	"bytes"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strconv"
	"strings"
)

// Sizes of requests. Source: the API reference, section "Uploading Files", and
// the change log of 2025-01-16 (10 MiB a file).
const (
	maxRequest = 25 << 20
	maxFile    = 10 << 20
	maxFiles   = 10
)

// Upload is one file as it came in.
type Upload struct {
	Name        string
	ContentType string
	Bytes       []byte
	index       int // n of files[n]
}

// read takes the body of a request apart: JSON, or a form with payload_json and
// files[n].
func (c *call) read(r *http.Request) *apiError {
	raw, err := io.ReadAll(io.LimitReader(r.Body, maxRequest+1))
	if err != nil {
		return invalidBody("the body ended early: " + err.Error())
	}
	if len(raw) > maxRequest {
		return errTooLarge
	}
	kind, params, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if kind != "multipart/form-data" {
		c.body = raw
		if len(raw) > 0 && kind != "application/json" {
			return invalidBody(fmt.Sprintf("Content-Type %q is neither application/json nor multipart/form-data", kind))
		}
		return nil
	}
	return c.readForm(multipart.NewReader(bytes.NewReader(raw), params["boundary"]))
}

func (c *call) readForm(form *multipart.Reader) *apiError {
	for {
		part, err := form.NextPart()
		if err == io.EOF {
			return c.checkFiles()
		}
		if err != nil {
			return invalidBody("multipart: " + err.Error())
		}
		data, err := io.ReadAll(part)
		if err != nil {
			return invalidBody("multipart: " + err.Error())
		}
		name := part.FormName()
		if name == "payload_json" {
			c.body = data
			continue
		}
		n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(name, "files["), "]"))
		if err != nil || name != fmt.Sprintf("files[%d]", n) {
			return invalidBody(fmt.Sprintf("part %q is neither payload_json nor files[n]", name))
		}
		c.files = append(c.files, Upload{part.FileName(), part.Header.Get("Content-Type"), data, n})
	}
}

func (c *call) checkFiles() *apiError {
	if len(c.files) > maxFiles {
		return invalidBody(fmt.Sprintf("%d files, at most %d are allowed", len(c.files), maxFiles))
	}
	seen := map[int]bool{}
	for _, f := range c.files {
		switch {
		case len(f.Bytes) > maxFile:
			return errTooLarge
		case f.Name == "":
			return invalidBody(fmt.Sprintf("files[%d] has no file name", f.index))
		case seen[f.index]:
			return invalidBody(fmt.Sprintf("files[%d] comes twice", f.index))
		}
		seen[f.index] = true
	}
	return nil
}

// fileRoute is what the host of uploaded files is called in faults.
var fileRoute = &route{method: "GET", path: "/attachments"}

// serveFile hands out what was uploaded, as the platform's file host does.
func (s *Server) serveFile(w http.ResponseWriter, r *http.Request, path string) {
	if fault := s.trip(fileRoute); fault != nil && !fault.before(s, w, r, s.Now()) {
		return
	}
	s.mu.Lock()
	f, ok := s.files[path]
	s.mu.Unlock()
	if !ok {
		write(w, answer{status: 404, body: "This content is no longer available."})
		return
	}
	if f.ContentType != "" {
		w.Header().Set("Content-Type", f.ContentType)
	}
	_, _ = w.Write(f.Bytes)
}
