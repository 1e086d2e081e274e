package store

import (
	"errors"
	"os"
	"path/filepath"

	"blockbell/planner"
)

// prepare makes the path absolute and the locks safe.
func prepare(path string) (string, error) {
	if path == "" {
		return "", planner.Errorf(planner.Invalid, "Name a file.", "a database needs a path")
	}
	if err := safeLocks(); err != nil {
		return path, err
	}
	full, err := filepath.Abs(path)
	if err != nil {
		return path, err
	}
	return full, nil
}

// makeFile makes the file where there is none, for its owner only, and returns
// its size. SQLite gives its side files the mode of the file.
func makeFile(path string) (int64, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// hide takes a file that others may read from their eyes.
func hide(path string) error {
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() == 0o600 {
		return err
	}
	return os.Chmod(path, 0o600)
}

// smallestDatabase is the least size of a file with anything in it: one page of
// the smallest kind. SQLite takes a shorter file for an empty one and writes
// over it.
const smallestDatabase = 512

// plausible refuses files too short to be a database.
func plausible(path string, size int64) error {
	if size > 0 && size < smallestDatabase {
		return notADatabase(path)
	}
	return nil
}

// atRest tells whether no process has the database open or left it unfinished.
func atRest(path string) bool {
	for _, side := range []string{"-wal", "-shm"} {
		if _, err := os.Stat(path + side); !errors.Is(err, os.ErrNotExist) {
			return false
		}
	}
	return true
}
