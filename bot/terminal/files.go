package terminal

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"blockbell/bot/chat"
)

// save writes files into the screen's folder and returns the names they got.
// A name that is taken gets a number, unless the file there is the same one.
func (s *Screen) save(files []chat.File) ([]string, error) {
	if len(files) == 0 {
		return nil, nil
	}
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return nil, err
	}
	var names []string
	for _, f := range files {
		name, err := saveFile(s.Dir, f)
		if err != nil {
			return names, err
		}
		names = append(names, name)
	}
	return names, nil
}

func saveFile(dir string, f chat.File) (string, error) {
	plain := plainName(f.Name)
	ext := filepath.Ext(plain)
	stem := strings.TrimSuffix(plain, ext)
	for n := 1; ; n++ {
		name := plain
		if n > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, n, ext)
		}
		written, err := writeNew(filepath.Join(dir, name), f.Bytes)
		if err != nil || written {
			return name, err
		}
	}
}

// writeNew writes a file that was not there; a file with the same bytes counts
// as written.
func writeNew(path string, content []byte) (bool, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return sameFile(path, content), nil
	}
	if err != nil {
		return false, err
	}
	_, err = file.Write(content)
	return err == nil, errors.Join(err, file.Close())
}

// sameFile is false for what cannot be read, such as a folder.
func sameFile(path string, content []byte) bool {
	there, err := os.ReadFile(path)
	return err == nil && bytes.Equal(there, content)
}

// plainName keeps a file inside its folder whatever it is called.
func plainName(name string) string {
	name = filepath.Base(strings.ReplaceAll(name, `\`, "/"))
	name = strings.TrimLeft(name, ".")
	if name == "" || name == "/" {
		return "file"
	}
	return name
}
