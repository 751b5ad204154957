package tables

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// checker takes rows in order, refuses what no kitchen can hold, and hands on the rest. What it
// asks of entries and revisions is what a kitchen file must keep to; balances it works out.
type checker struct {
	to Taker

	cooks    map[string]bool
	people   map[string]bool
	lines    map[string]*checkedLine
	inOrder  []*checkedLine
	messages map[string]*heard
	heard    []*heard
	revised  map[revision]bool

	seen map[key]bool // keys of the table that is being read
	last key          // the latest of them
	rows int
}

type checkedLine struct {
	pantry.Line
	row row
}

// heard is what later tables ask of a message: its place, and how many revisions it has.
type heard struct {
	n, rev int
	row    row // without values
}

// revision tells what a message's entries were at one time.
type revision struct{ message, rev int }

// key tells a row from the others of its table. Where the table has an order, keys go up.
type key struct {
	revision
	part int
	name string
}

func (k key) compare(o key) int {
	return cmp.Or(cmp.Compare(k.message, o.message), cmp.Compare(k.rev, o.rev), cmp.Compare(k.part, o.part), cmp.Compare(k.name, o.name))
}

func newChecker(to Taker) *checker {
	return &checker{to: to, cooks: map[string]bool{}, people: map[string]bool{}, lines: map[string]*checkedLine{},
		messages: map[string]*heard{}, revised: map[revision]bool{}, seen: map[key]bool{}}
}

// kitchen hands on the kitchen's name.
func (c *checker) kitchen(name string) error {
	if c.to == nil {
		return nil
	}
	return c.to.Kitchen(name)
}

// row checks one row and hands it on.
func (c *checker) row(r row) error {
	for i, col := range r.table.Columns {
		v, err := read(col.Kind, r.values[i])
		switch {
		case err != nil:
		case col.Kind == Message || col.Kind == Line:
			v, err = c.find(col.Kind, v.(string))
		case col.Kind == Perhaps && v != "":
			v, err = c.find(Message, v.(string))
		}
		if err != nil {
			return wrong{r.table, r.place, fmt.Errorf("%s: %w", col.Name, err)}
		}
		r.values[i] = v
	}
	c.rows++
	k := keyOf(r)
	err := c.placed(k, r)
	if check := checks[r.table.Name]; err == nil && check != nil {
		err = check(c, r)
	}
	if err != nil {
		return wrong{r.table, r.place, err}
	}
	c.last = k
	if c.to == nil {
		return nil
	}
	return c.to.Row(r.table, r.values)
}

// find gives what a row points to.
func (c *checker) find(k Kind, name string) (any, error) {
	if m := c.messages[name]; k == Message && m != nil {
		return Ref{name, m.n}, nil
	}
	if l := c.lines[name]; k == Line && l != nil {
		return Ref{name, l.row.n}, nil
	}
	return nil, fmt.Errorf("there is no %s %q", k, name)
}

func keyOf(r row) (k key) {
	for i, col := range r.table.Columns {
		switch v := r.values[i].(type) {
		case Ref:
			if col.Key {
				k.message = v.N
			}
		case int64:
			if col.Key && col.Name == "rev" {
				k.rev = int(v)
			} else if col.Key {
				k.part = int(v)
			}
		case string:
			if col.Key {
				k.name = v
			}
		}
	}
	return k
}

// placed checks that no two rows have the same key, and that rows which belong to messages come
// in their order.
func (c *checker) placed(k key, r row) error {
	if k.message == 0 {
		if c.seen[k] {
			return fmt.Errorf("%q stands twice", k.name)
		}
		c.seen[k] = true
		return nil
	}
	switch k.compare(c.last) {
	case 0:
		return fmt.Errorf("the row of %q stands twice", r.ref("message").Name)
	case -1:
		return fmt.Errorf("the row of %q comes too late: rows have the order of their messages, then of rev, part or event", r.ref("message").Name)
	}
	return nil
}

// checks are what each table asks of its rows besides.
var checks = map[string]func(*checker, row) error{
	"cooks":     (*checker).cook,
	"dishes":    (*checker).dish,
	"lines":     (*checker).line,
	"messages":  (*checker).message,
	"revisions": (*checker).revision,
	"entries":   (*checker).entry,
	"lessons":   (*checker).lesson,
	"needs":     (*checker).need,
}

var errNoName = errors.New("the name is missing")

func (c *checker) cook(r row) error {
	name, person := r.text("name"), r.text("person")
	if name == "" {
		return errNoName
	}
	if person != "" && c.people[person] {
		return fmt.Errorf("person %q is two cooks", person)
	}
	c.cooks[name], c.people[person] = true, true
	return nil
}

func (c *checker) dish(r row) error {
	if r.text("name") == "" {
		return errNoName
	}
	return nil
}

func (c *checker) line(r row) error {
	l := &checkedLine{row: r}
	l.row.n = c.rows
	l.Name, l.Food, l.Shelf = r.text("name"), r.text("food"), food.Shelf(r.text("shelf"))
	l.Unit, _ = measure.ParseKind(r.text("unit")) // read has seen that it is one
	if l.Name == "" {
		return errNoName
	}
	c.lines[l.Name] = l
	c.inOrder = append(c.inOrder, l)
	return agrees(r, "on_hand", l.Unit)
}

// agrees checks what an amount reads as.
func agrees(r row, amount string, unit measure.Kind) error {
	if want, reads := Say(int64(r.int(amount)), unit.String()), r.text("reads"); reads != want {
		return fmt.Errorf("%s is %s, and reads says %q: change both or neither", amount, want, reads)
	}
	return nil
}

func (c *checker) message(r row) error {
	if r.text("id") == "" {
		return errors.New("the id is missing")
	}
	if cook := r.text("cook"); cook != "" && !c.cooks[cook] {
		return fmt.Errorf("there is no cook %q", cook)
	}
	m := &heard{c.rows, r.int("rev"), row{table: r.table, place: r.place}}
	c.messages[r.text("id")] = m
	c.heard = append(c.heard, m)
	return nil
}

// within checks that the message has had the revision that a row belongs to.
func (c *checker) within(r row) (revision, error) {
	m := c.heard[r.ref("message").N-1]
	v := revision{m.n, r.int("rev")}
	if v.rev < 1 || v.rev > m.rev {
		return v, fmt.Errorf("rev %d, and the message says it has %d", v.rev, m.rev)
	}
	return v, nil
}

func (c *checker) revision(r row) error {
	v, err := c.within(r)
	if err == nil && r.text("why") == "" {
		err = errors.New("why is missing")
	}
	c.revised[v] = true
	return err
}

// part checks that a revision was made by something, and that it has lost nothing.
func (c *checker) part(r row) (inForce bool, err error) {
	v, err := c.within(r)
	if err != nil {
		return false, err
	}
	next := 0
	if v == c.last.revision {
		next = c.last.part + 1
	}
	switch {
	case r.int("part") != next:
		return false, fmt.Errorf("part %d stands where part %d belongs", r.int("part"), next)
	case v.rev > 1 && !c.revised[v]:
		return false, fmt.Errorf("rev %d of %q is not among the revisions", v.rev, r.ref("message").Name)
	}
	return v.rev == c.heard[v.message-1].rev, nil
}

func (c *checker) entry(r row) error {
	inForce, err := c.part(r)
	if err != nil {
		return err
	}
	l := c.inOrder[r.ref("line").N-1]
	if err := agrees(r, "amount", l.Unit); err != nil {
		return err
	}
	if state := food.State(r.text("state")); state != "" && !slices.Contains(food.States, state) {
		return fmt.Errorf("state is %q, and there is no such state; those are %v", state, food.States)
	}
	if !inForce {
		return nil
	}
	_, err = l.Apply(pantry.Entry{Act: pantry.Act(r.text("act")), Amount: measure.Amount(r.int("amount")),
		Trim: r.flag("trim"), Dish: r.text("dish"), Cook: r.text("cook"),
		Lot: pantry.LotTerms{Date: pantry.Date(r.text("date")), Label: r.flag("label"), Cost: int64(r.int("cost")),
			PieceMg: measure.Amount(r.int("piece_mg")), Weighed: r.flag("weighed"), State: food.State(r.text("state")), Best: r.flag("best")}})
	return err
}

func (c *checker) lesson(r row) error {
	if _, err := c.part(r); err != nil {
		return err
	}
	cells := r.text("cells")
	switch {
	case r.text("name") == "":
		return errNoName
	case (cells == "") == (r.text("means") == ""):
		return errors.New("a lesson has means or cells, and not both")
	case cells == "":
		return nil
	}
	var known map[string]string
	if json.Unmarshal([]byte(cells), &known) != nil || known == nil {
		return errors.New("cells is not a JSON object of text")
	}
	_, _, err := pantry.Lesson{Name: r.text("name"), Cells: known}.Rule()
	return err
}

func (c *checker) need(r row) error {
	if k := pantry.NeedKind(r.text("kind")); !slices.Contains(pantry.NeedKinds, k) {
		return fmt.Errorf("kind is %q; it is one of %v", k, pantry.NeedKinds)
	}
	return nil
}

// end ends a table.
func (c *checker) end(t *Table) error {
	clear(c.seen)
	c.last, c.rows = key{}, 0
	switch t.Name {
	case "revisions":
		return c.endRevisions()
	case "entries":
		return c.endEntries()
	}
	return nil
}

func (c *checker) endRevisions() error {
	for _, m := range c.heard {
		if m.rev > 1 && !c.revised[revision{m.n, m.rev}] {
			return wrong{m.row.table, m.row.place, fmt.Errorf("it has rev %d, which is not among the revisions", m.rev)}
		}
	}
	return nil
}

func (c *checker) endEntries() error {
	for _, l := range c.inOrder {
		for _, s := range []struct {
			column string
			come   measure.Amount
		}{{"on_hand", l.OnHand()}, {"claimed", l.Claimed()}} {
			if said := l.row.int(s.column); said != int(s.come) {
				return wrong{l.row.table, l.row.place, fmt.Errorf("%s: %s is %d, and the entries come to %d", l.Name, s.column, said, s.come)}
			}
		}
	}
	return nil
}

// finish hands on the balances.
func (c *checker) finish() error {
	if c.to == nil {
		return nil
	}
	lines := make([]*pantry.Line, 0, len(c.inOrder))
	for _, l := range c.inOrder {
		lines = append(lines, &l.Line)
	}
	return c.to.Balances(lines)
}
