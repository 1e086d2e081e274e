package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"time"

	"blockbell/bot/chat"
)

// resolved is what an interaction says about the things its options name.
type resolved struct {
	Files map[string]givenFile `json:"attachments"`
}

// givenFile is a file that a person sent with a command.
type givenFile struct {
	Name string `json:"filename"`
	Size int64  `json:"size"`
	URL  string `json:"url"`
}

// fileHosts are where the platform keeps the files of its people.
var fileHosts = []string{"cdn.discordapp.com", "media.discordapp.net"}

// fetchTime bounds the fetching of one file.
const fetchTime = 20 * time.Second

// filesOf fetches the files that a command came with, in the order of its options.
// wrong says in words why one could not be had.
func (a *Adapter) filesOf(ctx context.Context, in interaction) (files []chat.File, wrong string) {
	given := in.Data.Options
	for len(given) == 1 && (given[0].Type == optionSub || given[0].Type == optionGroup) {
		given = given[0].Options
	}
	for _, o := range given {
		if o.Type != optionFile {
			continue
		}
		g := in.Data.Resolved.Files[o.text()]
		if g.Size > chat.MaxFileBytes {
			return nil, tooLargeFile(g.Name)
		}
		data, err := a.fetch(ctx, g)
		if errors.Is(err, errTooLarge) {
			return nil, tooLargeFile(g.Name)
		}
		if err != nil {
			a.Log.Warn("a file could not be fetched", "event", in.ID, "error", err)
			return nil, "I could not fetch the file from the platform. Please send it again."
		}
		files = append(files, chat.File{Name: g.Name, Bytes: data})
	}
	return files, ""
}

func tooLargeFile(name string) string {
	short, _ := cut(name, maxAbout)
	return fmt.Sprintf("%s is too large: I read files up to %d MB.", short, chat.MaxFileBytes>>20)
}

var errTooLarge = errors.New("the file is too large")

// fetch gets a file from the platform's own hosts, and from nowhere else: the
// address comes with the event. Nothing secret goes along, and no other address is
// followed.
func (a *Adapter) fetch(ctx context.Context, g givenFile) ([]byte, error) {
	if !a.fileAddress(g.URL) {
		return nil, errors.New("the file does not lie on a host of the platform")
	}
	ctx, cancel := context.WithTimeout(ctx, fetchTime)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, g.URL, nil)
	if err != nil {
		return nil, errors.New("the address of the file is none") // it may be signed: it stays out of the log
	}
	req.Header.Set("User-Agent", userAgent)
	resp, err := a.fetcher.Do(req)
	if err != nil {
		return nil, bare(err)
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("the host of the file answered %d", resp.StatusCode)
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, chat.MaxFileBytes+1))
	switch {
	case err != nil:
		return nil, bare(err)
	case len(data) > chat.MaxFileBytes:
		return nil, errTooLarge
	}
	return data, nil
}

// fileAddress tells whether a file may be fetched from an address: one of the
// platform, or of the base that stands in its place.
func (a *Adapter) fileAddress(at string) bool {
	u, err := url.Parse(at)
	if err != nil || u.User != nil {
		return false
	}
	if u.Scheme == "https" && slices.Contains(fileHosts, u.Host) {
		return true
	}
	base, err := url.Parse(a.API)
	return err == nil && a.API != DefaultAPI && u.Scheme == base.Scheme && u.Host == base.Host
}
