package store

import (
	"database/sql"
	"errors"
	"io/fs"
	"syscall"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"blockbell/planner"
)

// code returns SQLite's extended result code behind err, or 0.
func code(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code()
	}
	return 0
}

// primary returns the result code without its extension.
func primary(err error) int { return code(err) & 0xff }

// taken tells whether err says that a row with this key exists already.
func taken(err error) bool {
	c := code(err)
	return c == lib.SQLITE_CONSTRAINT_UNIQUE || c == lib.SQLITE_CONSTRAINT_PRIMARYKEY
}

// dangling tells whether err says that a row refers to one that does not exist.
func dangling(err error) bool { return code(err) == lib.SQLITE_CONSTRAINT_FOREIGNKEY }

// absent tells whether err says that a query found no row.
func absent(err error) bool { return errors.Is(err, sql.ErrNoRows) }

// explain turns an error of the database or the file system into one with words
// where a person can do something about it, and leaves every other as it is. It
// decides by code, never by text.
func explain(path string, err error) error {
	var known *planner.Error
	if err == nil || errors.As(err, &known) {
		return err
	}
	for _, in := range []func(string, error) *planner.Error{explainCode, explainFile} {
		if e := in(path, err); e != nil {
			e.Cause = err
			return e
		}
	}
	return err
}

// explainCode knows SQLite's result codes.
func explainCode(path string, err error) *planner.Error {
	switch primary(err) {
	case lib.SQLITE_FULL:
		return diskFull(path)
	case lib.SQLITE_READONLY:
		return readOnly(path)
	case lib.SQLITE_PERM, lib.SQLITE_AUTH:
		return noAccess(path)
	case lib.SQLITE_CANTOPEN:
		return planner.Errorf(planner.NotFound, "Check the path, and that this user may read and write there.",
			"the database %s cannot be opened", path)
	case lib.SQLITE_NOTADB:
		return notADatabase(path)
	case lib.SQLITE_CORRUPT:
		return damaged(path, nil)
	case lib.SQLITE_IOERR:
		return planner.Errorf(planner.Invalid, "Check the disk and its connection; nothing half-written was kept.",
			"the disk failed while reading or writing the database %s", path)
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		return planner.Errorf(planner.Conflict, "End the other program that has the file open, then try again.",
			"the database %s is busy", path)
	}
	return nil
}

// explainFile knows the errors of the file system.
func explainFile(path string, err error) *planner.Error {
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT), errors.Is(err, syscall.EFBIG):
		return diskFull(path)
	case errors.Is(err, syscall.EROFS):
		return readOnly(path)
	case errors.Is(err, fs.ErrPermission):
		return noAccess(path)
	case errors.Is(err, syscall.ENOTDIR), errors.Is(err, syscall.EISDIR), errors.Is(err, fs.ErrNotExist):
		return planner.Errorf(planner.NotFound, "Name a file in a folder that exists or can be made.",
			"there is no database at %s", path)
	}
	return nil
}

func diskFull(path string) *planner.Error {
	return planner.Errorf(planner.Impossible, "Free some space and try again; everything saved before is safe.",
		"the disk that holds %s is full", path)
}

func readOnly(path string) *planner.Error {
	return planner.Errorf(planner.Forbidden, "Put the database where this program may write, or make it writable.",
		"the database %s can only be read", path)
}

func noAccess(path string) *planner.Error {
	return planner.Errorf(planner.Forbidden, "Give this user the right to read and write the file and its folder.",
		"this user may not use the database %s", path)
}

func notADatabase(path string) *planner.Error {
	return planner.Errorf(planner.Invalid, "Name a database that this program made, or a new file.",
		"%s is not a Blockbell database", path)
}
