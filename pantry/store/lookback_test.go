package store

import (
	"strings"
	"testing"
)

// What is looked up among the latest messages reads no more of a kitchen than those: SQLite says of each how it
// goes about it.
func TestLooksBackByNumber(t *testing.T) {
	s := opened(t, newFile(t))
	for name, query := range map[string]string{"heard": heard, "latest": latest, "lastLogged": lastLogged, "intoDish": intoDish, "doubts": doubts, "madeOf": madeOf} {
		rows, err := s.db.QueryContext(t.Context(), "EXPLAIN QUERY PLAN "+query, 1, 2, 3, 4)
		if err != nil {
			t.Fatal(name, err)
		}
		steps := 0
		for rows.Next() {
			var id, parent, unused int
			var step string
			if err := rows.Scan(&id, &parent, &unused, &step); err != nil {
				t.Fatal(err)
			}
			if steps++; strings.Contains(step, "sqlite_autoindex_message_1") || strings.HasPrefix(step, "SCAN entry") {
				t.Errorf("%s: %s", name, step)
			}
		}
		if err := rows.Err(); err != nil || steps == 0 {
			t.Errorf("%s: %d steps, %v", name, steps, err)
		}
		rows.Close()
	}
}
