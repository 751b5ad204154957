package store

import (
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// freeze writes the dump of a new version; a version that is out in the world
// never changes again.
var freeze = flag.Bool("freeze", false, "write the dump of the newest version if it has none yet")

func frozen(version int) string {
	return filepath.Join("..", "..", "testdata", "store", fmt.Sprintf("version-%d.sql", version))
}

// atVersion makes a file by the first so many migrations.
func atVersion(t *testing.T, version int) string {
	t.Helper()
	path := newFile(t)
	db := raw(t, path)
	c := must(db.Conn(t.Context()))(t)
	if err := migrate(t.Context(), c, path, version); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(c.Close(), db.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

// thawed makes a file from a frozen dump.
func thawed(t *testing.T, version int) string {
	t.Helper()
	path := newFile(t)
	if version == 0 {
		return path
	}
	db := raw(t, path)
	exec(t, db, string(readFile(t, frozen(version))))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestFrozenVersions(t *testing.T) {
	for v := 1; v <= Version(); v++ {
		got := dump(t, atVersion(t, v))
		file := frozen(v)
		if _, err := os.Stat(file); *freeze && errors.Is(err, os.ErrNotExist) {
			if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(got), 0o644)); err != nil {
				t.Fatal(err)
			}
		}
		if want := string(readFile(t, file)); got != want {
			t.Errorf("the migrations no longer make version %d:\n%s\nit was\n%s", v, got, want)
		}
	}
}

// dump writes a file's schema as statements that make it.
func dump(t *testing.T, path string) string {
	t.Helper()
	db := raw(t, path)
	defer db.Close()
	var b strings.Builder
	for _, p := range []string{"application_id", "user_version"} {
		var n int
		if err := db.QueryRow("PRAGMA " + p).Scan(&n); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "PRAGMA %s = %d;\n", p, n)
	}
	for _, row := range table(t, db, "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY rowid") {
		fmt.Fprintf(&b, "%s;\n", row)
	}
	return b.String()
}

// TestUpgradeEqualsFresh brings a file of every version there ever was up to
// this one and compares it with a new file, column by column.
func TestUpgradeEqualsFresh(t *testing.T) {
	want := shape(t, atVersion(t, Version()))
	for v := 0; v <= Version(); v++ {
		t.Run(fmt.Sprint("from ", v), func(t *testing.T) {
			path := thawed(t, v)
			opened(t, path)
			if got := shape(t, path); got != want {
				t.Errorf("upgraded\n%s\nfresh\n%s", got, want)
			}
		})
	}
}

// shape lists all that a schema means, whatever statements made it.
func shape(t *testing.T, path string) string {
	t.Helper()
	db := raw(t, path)
	defer db.Close()
	var b strings.Builder
	add := func(query string) {
		for _, row := range table(t, db, query) {
			fmt.Fprintln(&b, row)
		}
	}
	const ours = "FROM sqlite_master AS o "
	add("PRAGMA application_id")
	add("PRAGMA user_version")
	add("SELECT type, name, tbl_name, CASE type WHEN 'trigger' THEN sql END " + ours + "ORDER BY 1, 2")
	add("SELECT name, wr, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table' ORDER BY 1")
	add("SELECT o.name, c.cid, c.name, c.type, c.[notnull], c.dflt_value, c.pk, c.hidden " + ours + "JOIN pragma_table_xinfo(o.name) AS c WHERE o.type = 'table' ORDER BY 1, 2")
	add("SELECT o.name, i.name, i.[unique], i.origin, i.partial, c.seqno, c.name, c.desc, c.coll, c.key " + ours +
		"JOIN pragma_index_list(o.name) AS i JOIN pragma_index_xinfo(i.name) AS c WHERE o.type = 'table' ORDER BY 1, 2, 6")
	add("SELECT o.name, f.* " + ours + "JOIN pragma_foreign_key_list(o.name) AS f WHERE o.type = 'table' ORDER BY 1, 2, 3")
	return b.String()
}

func table(t *testing.T, db *sql.DB, query string) (list []string) {
	t.Helper()
	rows := must(db.Query(query))(t)
	err := eachRow(rows, func(rows *sql.Rows) error {
		names, err := rows.Columns()
		if err != nil {
			return err
		}
		cells, to := make([]sql.NullString, len(names)), make([]any, len(names))
		for i := range cells {
			to[i] = &cells[i]
		}
		if err := rows.Scan(to...); err != nil {
			return err
		}
		var row []string
		for _, c := range cells {
			row = append(row, c.String)
		}
		list = append(list, strings.Join(row, "|"))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestNewerFileIsRefused(t *testing.T) {
	path := filled(t, 20)
	db := raw(t, path)
	exec(t, db, fmt.Sprintf("PRAGMA user_version = %d", Version()+1))
	db.Close()
	before := readFile(t, path)
	_, err := Open(t.Context(), path, Options{})
	wantFault(t, err, fmt.Sprintf("of version %d, newer than this program knows (%d); use the newer scullion", Version()+1, Version()))
	if string(readFile(t, path)) != string(before) {
		t.Error("the refused file was changed")
	}
}

// Another program's database is not ours to write into.
func TestAnotherProgramsFileIsRefused(t *testing.T) {
	for _, spoil := range []string{"CREATE TABLE bookmark (n INTEGER)", "PRAGMA application_id = 7", "CREATE TABLE a (n INTEGER); PRAGMA user_version = 1"} {
		path := newFile(t)
		db := raw(t, path)
		exec(t, db, spoil)
		db.Close()
		before := readFile(t, path)
		_, err := Open(t.Context(), path, Options{})
		wantFault(t, err, "another program's file")
		if string(readFile(t, path)) != string(before) {
			t.Errorf("%s: the file was changed", spoil)
		}
	}
}

// Two programs that start on a new file at once bring it up to date once.
func TestOpenedTwiceAtOnce(t *testing.T) {
	path := newFile(t)
	errs := make(chan error)
	for range 8 {
		go func() {
			s, err := Open(context.Background(), path, Options{})
			if err == nil {
				err = s.Close()
			}
			errs <- err
		}()
	}
	for range 8 {
		if err := <-errs; err != nil {
			t.Error(err)
		}
	}
}

// TestPlacesStay brings a file of version 10 up to this one: what was said of beds and classes stays, of tables not.
func TestPlacesStay(t *testing.T) {
	path := thawed(t, 10)
	db := raw(t, path)
	exec(t, db, `PRAGMA foreign_keys = off; INSERT INTO kitchen (id, name) VALUES (1, 'k')`)
	for i, who := range []string{"bed 3", "table 4", "8c", "bay 3 bed 2", "", "year 2", "school", "dee", "the bar"} {
		exec(t, db, fmt.Sprintf(`INSERT INTO need (message, part, at, who, lasting, kind, what, count, said, gone)
			VALUES (1, %d, 0, '%s', %t, 'allergy', 'fish', 0, 'fish', 0)`, i, who, who == "dee"))
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	db = raw(t, path)
	c := must(db.Conn(t.Context()))(t)
	if err := migrate(t.Context(), c, path, Version()); err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := errors.Join(c.Close(), db.Close()); err != nil {
			t.Error(err)
		}
	}()
	if got := strings.Join(table(t, db, "SELECT who FROM need WHERE stays = 1 ORDER BY part"), " "); got != "bed 3 8c bay 3 bed 2 year 2 school" {
		t.Errorf("stay: %s", got)
	}
}
