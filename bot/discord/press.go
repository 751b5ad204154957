package discord

import (
	"strconv"
	"strings"

	"scullion/bot"
)

// press does what a button or a menu says.
func (c *Client) press(i *interaction, r *room) {
	parts := strings.Split(i.Data.CustomID, "|")
	m := c.said(i, r)
	m.Room = r.now().ID
	m.Press = &bot.Press{On: parts[len(parts)-1]}
	switch {
	case parts[0] == idMore:
		c.more(i, r)
		return
	case parts[0] == idUndo && len(parts) == 2:
		m.Press.Kind = bot.PressUndo
	case parts[0] == idOption && len(parts) == 4:
		m.Press.Kind, m.Press.Question = bot.PressOption, parts[2]
		m.Press.N, _ = strconv.Atoi(parts[1])
	case parts[0] == idIdea && len(parts) == 2 && len(i.Data.Values) == 1:
		m.Press.Kind = bot.PressIdea
		m.Press.N, _ = strconv.Atoi(i.Data.Values[0])
	default:
		c.private(i, "That button is none of this program's any more.")
		return
	}
	reply, deferred, err := c.handle(i, m, func() error { return c.respond(i, respKeep, nil) })
	if err != nil {
		c.tell(i, deferred, notDone)
		return
	}
	c.pressed(i, r, m, reply, deferred)
}

// pressed shows what has come of a press: in place of what was pressed, or to
// the one who pressed alone.
func (c *Client) pressed(i *interaction, r *room, m bot.Message, reply bot.Reply, deferred bool) {
	if m.Press.Kind == bot.PressIdea {
		mine, others := partition(reply.Posts, m.ID)
		c.show(others)
		if mine != nil {
			c.respond(i, respKeep, nil)
			r.out.add(*mine)
			return
		}
		c.tell(i, deferred, escape(reply.Text))
		return
	}
	mine, others := partition(reply.Posts, m.Press.On)
	c.show(others)
	if mine != nil && i.Message != nil && (mine.Place == "" || mine.Place == apart) { // where it stands was not known yet
		mine.Place = i.Message.ID
	}
	if mine != nil && (reply.Kind == bot.Log || reply.Kind == bot.Asking) && !deferred && mine.Look == nil && i.Message != nil && mine.Place == i.Message.ID {
		if texts, rows := r.rendered(*mine, c.o.Now()); len(texts) == 1 {
			p := text(texts[0]).bare()
			p.Components = rows
			if c.respond(i, respChange, p) == nil {
				r.out.shown(*mine, mine.Place)
				return
			}
		}
	}
	if mine != nil {
		r.out.add(*mine)
	}
	if reply.Kind == bot.Log || reply.Kind == bot.Asking {
		if !deferred {
			c.respond(i, respKeep, nil)
		}
		return
	}
	c.tell(i, deferred, escape(reply.Text))
}

// tell says something to the one who pressed alone.
func (c *Client) tell(i *interaction, deferred bool, s string) {
	if !deferred {
		c.private(i, s)
		return
	}
	if err := c.rest.followUp(c.alive, i, forOne(s)); err != nil {
		c.log.Warn("an interaction could not be answered", "interaction", i.ID, "error", plainError(err))
	}
}

// more shows more ideas to the one who asks for them.
func (c *Client) more(i *interaction, r *room) {
	var reply bot.Reply
	var deferred bool
	for n, words := range []string{"more", "ideas?"} {
		m := c.said(i, r)
		m.ID, m.Text = m.ID+strings.Repeat("+", n), words
		var err error
		var again bool
		reply, again, err = c.handle(i, m, func() error {
			if deferred {
				return nil
			}
			return c.respond(i, respLater, later(true))
		})
		deferred = deferred || again
		if err != nil {
			reply.Text = notDone
		}
		if err != nil || reply.Kind != bot.Silent && len(reply.Ideas) > 0 {
			break
		}
	}
	c.sayAlone(i, deferred, escape(reply.Text), rowsOf(reply, "i"+i.ID))
}
