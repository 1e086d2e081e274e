package strength_test

import (
	"bufio"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// table is a file of vectors: names of the columns, and rows of numbers.
type table struct {
	names []string
	rows  [][]float64
}

// readTable reads a tab-separated file of vectors; the first line names the
// source, the second the columns.
func readTable(t *testing.T, name string) table {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "vectors", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var tab table
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		line := lines.Text()
		switch {
		case strings.HasPrefix(line, "#"):
		case tab.names == nil:
			tab.names = strings.Split(line, "\t")
		default:
			tab.rows = append(tab.rows, numbers(t, line))
		}
	}
	if err := lines.Err(); err != nil || len(tab.rows) == 0 {
		t.Fatalf("%s: %d rows, %v", name, len(tab.rows), err)
	}
	return tab
}

func numbers(t *testing.T, line string) []float64 {
	t.Helper()
	var row []float64
	for cell := range strings.SplitSeq(line, "\t") {
		v, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			t.Fatal(err)
		}
		row = append(row, v)
	}
	return row
}
