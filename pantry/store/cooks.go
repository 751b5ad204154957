package store

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
)

// meet remembers a cook who speaks for the first time.
func (b *book) meet(cook string) error {
	at, known := slices.BinarySearch(b.k.Cooks, cook)
	if known || cook == "" {
		return nil
	}
	if err := b.w.exec("INSERT INTO cook (kitchen, name) VALUES (?, ?) ON CONFLICT DO NOTHING", b.k.ID, cook); err != nil {
		return err
	}
	b.k.Cooks = slices.Insert(b.k.Cooks, at, cook) // by name, as loadCooks reads them
	b.k.Met++
	return nil
}

// CookOf calls a cook of a chat "cook 1" in entries, so that the ledger can
// stay as it is when the person is to be forgotten.
func (b *book) CookOf(person, shown string) (string, error) {
	for cook, p := range b.k.People {
		if p.ID == person {
			return cook, b.introduce(cook, pantry.Person{ID: person, Name: shown})
		}
	}
	n := len(b.k.Cooks) + 1
	cook := fmt.Sprintf("cook %d", n)
	for _, taken := slices.BinarySearch(b.k.Cooks, cook); taken; _, taken = slices.BinarySearch(b.k.Cooks, cook) {
		n++
		cook = fmt.Sprintf("cook %d", n)
	}
	if err := b.meet(cook); err != nil {
		return "", err
	}
	return cook, b.introduce(cook, pantry.Person{ID: person, Name: shown})
}

// introduce keeps who a cook is. A name that another cook has gets a number.
func (b *book) introduce(cook string, p pantry.Person) error {
	p.Name = strings.Join(strings.Fields(p.Name), " ")
	was := b.k.People[cook]
	if was == p || was.ID == p.ID && strings.HasPrefix(was.Name, p.Name+" (") {
		return nil
	}
	name := p.Name
	for n := 2; p.Name != "" && b.named(p.Name, cook); n++ {
		p.Name = fmt.Sprintf("%s (%d)", name, n)
	}
	if err := b.w.exec("UPDATE cook SET person = ?, shown = ? WHERE kitchen = ? AND name = ?", p.ID, p.Name, b.k.ID, cook); err != nil {
		return err
	}
	if b.k.People == nil {
		b.k.People = map[string]pantry.Person{}
	}
	b.k.People[cook] = p
	b.k.Met++
	return nil
}

// named says whether a cook other than this one is shown by the name.
func (b *book) named(name, but string) bool {
	return slices.ContainsFunc(b.k.Cooks, func(c string) bool { return c != but && strings.EqualFold(b.k.CookName(c), name) })
}

// loadCooks reads who has spoken, by name, and who they are.
func loadCooks(ctx context.Context, r reader, k *pantry.Kitchen) error {
	return each(ctx, r, "SELECT name, person, shown FROM cook WHERE kitchen = ? ORDER BY name", func(rows *sql.Rows) error {
		var c string
		var p pantry.Person
		err := rows.Scan(&c, &p.ID, &p.Name)
		k.Cooks = append(k.Cooks, c)
		if p.ID != "" {
			if k.People == nil {
				k.People = map[string]pantry.Person{}
			}
			k.People[c] = p
		}
		return err
	}, k.ID)
}

// Forget forgets who a cook is, found by the name shown or by the platform's
// id: the name, the id, the words of all that this cook said, and the kept
// answers that name the cook. The entries stay, under a name that says nothing.
// It gives what they are called by; "" where the kitchen has no such cook.
func (s *Store) Forget(ctx context.Context, kitchen, who string) (cook string, err error) {
	err = s.Do(ctx, kitchen, func(pb pantry.Book) error {
		b := pb.(*book)
		cook = ""
		for c, p := range b.k.People {
			if p.ID == who || strings.EqualFold(p.Name, who) {
				cook = c
			}
		}
		if cook == "" {
			return nil
		}
		return b.forget(cook, b.k.People[cook].Name)
	})
	return cook, err
}

// noCook is the name of no cook: what forget finds by a cook, it finds nothing of.
const noCook = "\x01"

// ForgetGuest forgets what a person who is no cook cannot eat, and the words and answers that
// name them. Known is false where nothing was said of such a person.
func (s *Store) ForgetGuest(ctx context.Context, kitchen, who string) (known bool, err error) {
	err = s.Do(ctx, kitchen, func(pb pantry.Book) error {
		b := pb.(*book)
		var n int
		err := b.w.row("SELECT count(*) FROM need JOIN message ON n = need.message WHERE kitchen = ? AND lasting AND lower(who) = lower(?)", b.k.ID, who).Scan(&n)
		if known = n > 0; err != nil || !known {
			return err
		}
		return b.forget(noCook, who)
	})
	return known, err
}

// forget empties all that holds a cook's name or words. What is asked of the
// cook goes, and timers that the cook has set.
func (b *book) forget(cook, name string) error {
	spoken := `SELECT n FROM message WHERE kitchen = ?1 AND (cook = ?2 OR instr(lower(reply), lower(?3)) > 0)`
	for _, q := range []string{ // each names all three
		`UPDATE change SET reply = '{"kind":"silent"}' WHERE message IN (` + spoken + `) OR instr(lower(reply), lower(?3)) > 0 AND message IN (SELECT n FROM message WHERE kitchen = ?1)`,
		`UPDATE post SET body = '{"kind":"silent"}', sent = rev WHERE kitchen = ?1 AND (id IN (SELECT id FROM message WHERE kitchen = ?1 AND cook = ?2) OR instr(lower(body), lower(?3)) > 0)`,
		`UPDATE message SET reply = '' WHERE n IN (` + spoken + `)`,
		`UPDATE message SET text = '' WHERE kitchen = ?1 AND (cook = ?2 OR instr(lower(text), lower(?3)) > 0)`,
		`DELETE FROM question WHERE kitchen = ?1 AND (cook = ?2 OR instr(lower(body), lower(?3)) > 0)`,
		`DELETE FROM timer WHERE kitchen = ?1 AND (cook = ?2 OR instr(lower(about), lower(?3)) > 0)`,
		`DELETE FROM choice WHERE kitchen = ?1 AND (cook = ?2 OR instr(lower(title), lower(?3)) > 0)`,
		`DELETE FROM need WHERE message IN (SELECT n FROM message WHERE kitchen = ?1) AND (who = ?2 OR lower(who) = lower(?3) AND who <> '')`,
		`UPDATE cook SET person = '', shown = '' WHERE kitchen = ?1 AND name = ?2 AND ?3 <> ''`,
	} {
		if err := b.w.exec(q, b.k.ID, cook, name); err != nil {
			return err
		}
	}
	b.w.forget() // what is remembered of the kitchen
	return nil
}
