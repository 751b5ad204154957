package bot

import (
	"context"
	"errors"
	"sync"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
)

// Options are a kitchen's habits. The zero value is a British kitchen.
type Options struct {
	Units string              // "uk" (default) or "us": what a pint and a cup are
	Foods *food.Catalogue     // what is known of foods; nil: the embedded catalogue
	Open  string              // a kitchen that any house may join a room to, although it was begun elsewhere; "" none
	Think time.Duration       // how long a plan asked for in a chat is thought about; 0: two seconds
	Fault func(*pantry.Panic) // told of a message that broke the program; may be nil
}

// Bot holds the conversation for every kitchen of one ledger.
type Bot struct {
	ledger pantry.Ledger
	o      Options
	ears   *ears
	plans  sync.Map // kitchens that were shown a plan
	idle   sync.Map // *pantry.Kitchen of the kitchens where no service is on, by their ids
}

// New makes a bot that keeps its kitchens in ledger.
func New(ledger pantry.Ledger, o Options) *Bot {
	if o.Units == "" {
		o.Units = "uk"
	}
	if o.Think == 0 {
		o.Think = 2 * time.Second
	}
	return &Bot{ledger: ledger, o: o, ears: newEars(o.Foods)}
}

// Handle settles one message and gives the reply. The reply is durable
// together with what it reports. An error means that nothing was written; its
// text says what to do.
func (b *Bot) Handle(ctx context.Context, m Message) (r Reply, err error) {
	again := func() error { return b.ledger.Do(ctx, m.Kitchen, b.job(m, &r)) }
	err = b.thinkThrough(ctx, &m, again(), again)
	return b.settled(ctx, m, r, err)
}

// Start is Handle without the waiting, for adapters that have many messages in
// hand: they are settled in the order of the calls. One that wants a plan is settled
// before Start returns.
func (b *Bot) Start(ctx context.Context, m Message) (wait func() (Reply, error)) {
	if b.mayPlan(m) {
		r, err := b.Handle(ctx, m)
		return func() (Reply, error) { return r, err }
	}
	var r Reply
	done := b.ledger.Start(ctx, m.Kitchen, b.job(m, &r))
	return func() (Reply, error) {
		again := func() error { return b.ledger.Do(ctx, m.Kitchen, b.job(m, &r)) }
		return b.settled(ctx, m, r, b.thinkThrough(ctx, &m, done(), again))
	}
}

// settled gives a message that broke the program an answer of its own, so that
// it is done with: an adapter that sends it again gets that answer.
func (b *Bot) settled(ctx context.Context, m Message, r Reply, err error) (Reply, error) {
	var p *pantry.Panic
	if !errors.As(err, &p) {
		return r, err
	}
	if b.o.Fault != nil {
		b.o.Fault(p)
	}
	err = b.ledger.Do(ctx, m.Kitchen, func(book pantry.Book) (err error) {
		t := &turn{b: b, book: book, k: book.Kitchen(), m: m, cook: m.Cook}
		r, err = t.apologise()
		return err
	})
	return r, err
}

func (b *Bot) job(m Message, r *Reply) func(pantry.Book) error {
	return func(book pantry.Book) (err error) {
		*r, err = b.settle(book, m)
		return err
	}
}
