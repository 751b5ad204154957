package technique

import (
	"encoding/csv"
	"os"
	"testing"
)

// referenceRows reads a reference table, its header first; it skips where the table
// is not there.
func referenceRows(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open(file)
	if os.IsNotExist(err) {
		t.Skip("the reference table is not here: ", file)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}
