package sheet

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"blockbell/planner"
)

// Bounds of a file: years of training of one lifter are well below them.
const (
	MaxBytes   = 5 << 20
	MaxRows    = 100_000
	MaxColumns = 200
	MaxLifts   = 1_000 // different names
)

// decode makes text out of the bytes of a file: UTF-8, UTF-16 where a mark in front
// says so, otherwise the one-byte code of western spreadsheets, in which every byte
// is a character.
func decode(data []byte) string {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		return wide(data[2:], binary.LittleEndian)
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return wide(data[2:], binary.BigEndian)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if utf8.Valid(data) {
		return string(data)
	}
	runes := make([]rune, len(data))
	for i, b := range data {
		runes[i] = rune(b)
	}
	return string(runes)
}

func wide(data []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return string(utf16.Decode(units))
}

// separators are what columns are parted by, the likeliest first.
var separators = []rune{',', ';', '\t', '|'}

// separatorOf returns the separator of a table: what its first line names behind
// "sep=", else the one that parts that line most often, quoted text aside.
func separatorOf(text string) (sep rune, rest string) {
	first, behind, _ := strings.Cut(text, "\n")
	if named, ok := strings.CutPrefix(strings.TrimSpace(first), "sep="); ok && utf8.RuneCountInString(named) == 1 {
		r, _ := utf8.DecodeRuneInString(named)
		return r, behind
	}
	counts := map[rune]int{}
	quoted := false
	for _, r := range first {
		quoted = quoted != (r == '"')
		if !quoted {
			counts[r]++
		}
	}
	sep = ','
	for _, s := range separators {
		if counts[s] > counts[sep] {
			sep = s
		}
	}
	return sep, text
}

// record is one row with the line of the file that it begins in, and what parts its
// cells.
type record struct {
	line  int
	cells []string
	sep   rune
}

// records cuts a file into rows. Rows of blanks are left out.
func records(data []byte) ([]record, error) {
	if len(data) > MaxBytes {
		return nil, planner.Errorf(planner.Invalid, "Split it, for example by year.", "The file has %.1f MB; I read at most %d MB", float64(len(data))/(1<<20), MaxBytes>>20)
	}
	text := strings.ReplaceAll(strings.ReplaceAll(decode(data), "\r\n", "\n"), "\r", "\n")
	if strings.ContainsRune(text, 0) {
		return nil, planner.Errorf(planner.Invalid, "In a spreadsheet, save it as CSV and send that.", "The file is not text")
	}
	sep, rest := separatorOf(strings.TrimLeft(text, "\n"))
	r := csv.NewReader(strings.NewReader(rest))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord, r.TrimLeadingSpace = sep, true, -1, sep != '\t'
	skipped := strings.Count(text, "\n") - strings.Count(rest, "\n")
	var all []record
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, planner.Errorf(planner.Invalid, "Save it once more as CSV and send that.", "The file is no table that I can read: %v", err)
		}
		if blank(cells) {
			continue
		}
		if len(all) == 0 && len(cells) > MaxColumns {
			return nil, planner.Errorf(planner.Invalid, "Keep the columns with date, lift, weight and reps.", "The file has %d columns; I read at most %d", len(cells), MaxColumns)
		}
		line, _ := r.FieldPos(0)
		all = append(all, record{line + skipped, cells, sep})
		if len(all) > MaxRows {
			return nil, planner.Errorf(planner.Invalid, "Split it, for example by year.", "The file has more than %d rows", MaxRows)
		}
	}
}

func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}
