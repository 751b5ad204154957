package discord

import (
	"context"
	"fmt"
	"runtime/debug"
	"time"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
)

// onInteraction answers an interaction. It has three seconds for the first
// response.
func (c *Client) onInteraction(i *interaction) {
	defer func() {
		if p := recover(); p != nil {
			c.log.Error("a fault in the program", "interaction", i.Data.Name, "fault", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	r := c.room(i.Channel)
	switch {
	case i.Type == isTyping:
		c.words(i, r)
	case i.Type == isCommand && i.Data.Name == "kitchen":
		c.kitchen(i, r)
	case i.Type == isCommand && i.Data.Name == "help":
		c.private(i, help)
	case r == nil && (i.Type == isCommand || i.Type == isPress):
		c.private(i, "This channel is no kitchen. Someone who may manage channels can make it one: /kitchen open")
	case i.Type == isCommand:
		c.command(i, r)
	case i.Type == isPress:
		c.press(i, r)
	}
}

// respond makes the first response, tried again for as long as it may come: the
// platform takes one. A second one that is none of our own tries is what another
// run of the bot has done, and is fine by us.
func (c *Client) respond(i *interaction, kind discordgo.InteractionResponseType, data any) error {
	ctx, cancel := context.WithDeadline(c.alive, i.came.Add(interactionTime))
	defer cancel()
	err := c.rest.respond(ctx, i, kind, data)
	tries := 1
	for ; unsure(err) && ctx.Err() == nil; tries++ {
		pause(ctx, c.o.Pace.Retry/10)
		err = c.rest.respond(ctx, i, kind, data)
	}
	c.o.Metrics.interaction(time.Since(i.came), err)
	if codeOf(err) == codeAcknowledged {
		if tries == 1 {
			c.log.Warn("an interaction was answered by another: is a second scullion running?", "interaction", i.ID)
		}
		return nil
	}
	if err != nil {
		c.log.Warn("an interaction could not be answered", "interaction", i.ID, "error", plainError(err))
	}
	return err
}

// unsure says whether a call may have worked although it failed.
func unsure(err error) bool { return err != nil && (status(err) == 0 || status(err) >= 500) }

// interactionTime is how long the first response may take. Source: Discord API
// docs, interactions/receiving-and-responding.
const interactionTime = 3 * time.Second

// private says something to the person alone.
func (c *Client) private(i *interaction, s string) error {
	return c.respond(i, respSay, forOne(s))
}

// forOne is a message that only the one who asked sees.
func forOne(s string) payload {
	p := text(clip(s, mostText))
	p.Flags |= flagPrivate
	return p
}

// said makes an interaction a message for the bot.
func (c *Client) said(i *interaction, r *room) bot.Message {
	now := r.now()
	m := bot.Message{Kitchen: now.Kitchen, ID: "i" + i.ID, At: said(i.ID).In(c.o.Now().Location())}
	m.Person, m.Cook = i.who()
	return m
}

// handle has the bot settle what an interaction says. Where that takes longer
// than a response may, the response is put off first; it then is one for all or
// for one as public says.
func (c *Client) handle(i *interaction, m bot.Message, put func() error) (r bot.Reply, deferred bool, err error) {
	began := time.Now()
	type result struct {
		r   bot.Reply
		err error
	}
	done := make(chan result, 1)
	go func() {
		r, err := c.o.Bot.Start(c.alive, m)() // a plan is thought about before Start returns
		done <- result{r, err}
	}()
	var res result
	select {
	case res = <-done:
	case <-time.After(c.o.Pace.Respond - time.Since(i.came)):
		if deferred = put() == nil; !deferred {
			c.log.Warn("an interaction could not be put off", "interaction", i.ID)
		}
		res = <-done
	}
	if res.err == nil {
		c.o.Metrics.settled(res.r, i.came, began)
		c.logged(m, res.r)
	} else {
		c.o.Metrics.faults.Inc()
		c.log.Error("an interaction could not be settled", "interaction", i.ID, "error", res.err)
	}
	return res.r, deferred, res.err
}

// later is what a response that is put off says of itself.
func later(private bool) any {
	var d struct {
		Flags int `json:"flags,omitempty"`
	}
	if private {
		d.Flags = flagPrivate
	}
	return d
}

// notDone is what is said where the ledger fails.
const notDone = "That could not be written down. Nothing was counted: try again in a moment."

// command does what a slash command says: it is put into words, and goes the way
// that all words go.
func (c *Client) command(i *interaction, r *room) {
	order, known := orders[i.Data.Name]
	if !known {
		c.private(i, "That command is none of this program's any more. /help shows what there is.")
		return
	}
	m := c.said(i, r)
	m.Text = order.say(i)
	if !order.private {
		m.Room = r.now().ID
	}
	reply, deferred, err := c.handle(i, m, func() error { return c.respond(i, respLater, later(order.private)) })
	if err != nil {
		c.say(i, deferred, forOne(notDone))
		return
	}
	mine, others := partition(reply.Posts, m.ID)
	c.show(others)
	if reply.Timed {
		signal(c.rings)
	}
	if mine == nil {
		s := reply.Text
		if reply.Kind == bot.Silent || s == "" {
			s = "That could not be read. Say it in your own words in the channel, like: used 300g leek in the tart"
		}
		c.sayAlone(i, deferred, escape(s), rowsOf(reply, m.ID))
		c.showAlone(c.alive, i, reply.Look)
		return
	}
	texts, rows := r.rendered(*mine, c.o.Now())
	p := text(texts[0])
	if len(texts) == 1 {
		p.Components = rows
	}
	at, err := c.say(i, deferred, p)
	if err != nil { // the channel is told instead
		r.out.add(*mine)
		return
	}
	if len(texts) > 1 || mine.Look != nil { // the rest, or the picture, comes behind it
		mine.Place = at
		r.out.add(*mine)
		return
	}
	r.out.shown(*mine, at)
}

// rowsOf gives what can be pressed under a private answer: ideas have no posting
// there, but more of them can be asked for.
func rowsOf(r bot.Reply, id string) []actionRow {
	if len(r.Ideas) == 0 || r.Kind != bot.Answer {
		return nil
	}
	return []actionRow{{kindRow, []component{{Type: kindButton, Style: styleGrey, Label: "More ideas", ID: press(idMore, id)}}}}
}

// partition takes a message's own posting out of the others.
func partition(posts []bot.Posting, id string) (mine *bot.Posting, others []bot.Posting) {
	for _, p := range posts {
		if p.ID == id {
			mine = &p
			continue
		}
		others = append(others, p)
	}
	return mine, others
}

// say responds, or completes a response that was put off, and gives the id of
// the message that comes of it; apart where that could not be found out.
func (c *Client) say(i *interaction, deferred bool, p payload) (string, error) {
	if deferred {
		id, err := c.rest.editResponse(c.alive, i, p)
		if err != nil {
			c.log.Warn("an interaction could not be answered", "interaction", i.ID, "error", plainError(err))
		}
		return id, err
	}
	err := c.respond(i, respSay, p)
	if err != nil && !unsure(err) || p.Flags&flagPrivate != 0 {
		return apart, err
	}
	id, lost := c.rest.response(c.alive, i)
	if lost != nil {
		return apart, err
	}
	return id, nil // it stands, whatever became of the call
}

// sayAlone says something to the one who asked alone, in as many parts as it
// takes.
func (c *Client) sayAlone(i *interaction, deferred bool, s string, rows []actionRow) {
	parts := split(s)
	for n, part := range parts {
		p := forOne(part)
		if n == len(parts)-1 && rows != nil {
			p.Components = rows
		}
		var err error
		if n == 0 {
			_, err = c.say(i, deferred, p)
		} else if err = c.rest.followUp(c.alive, i, p); err != nil {
			c.log.Warn("an answer could not be gone on with", "interaction", i.ID, "error", plainError(err))
		}
		if err != nil {
			return
		}
	}
}
