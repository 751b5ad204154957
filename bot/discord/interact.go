package discord

import (
	"context"
	"fmt"
	"hash/fnv"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
)

// interaction is a command, a press or a word that is being typed. Source:
// Discord API docs, interactions/receiving-and-responding.
type interaction struct {
	ID      string  `json:"id"`
	App     string  `json:"application_id"`
	Type    int     `json:"type"`
	Token   string  `json:"token"`
	Guild   string  `json:"guild_id"`
	Channel string  `json:"channel_id"`
	Member  *member `json:"member"`
	User    *user   `json:"user"`
	Place   struct {
		Name string `json:"name"`
		Type int    `json:"type"`
	} `json:"channel"`
	Allowed string `json:"app_permissions"`
	Data    struct {
		Name     string   `json:"name"`
		Options  []option `json:"options"`
		CustomID string   `json:"custom_id"`
		Values   []string `json:"values"`
	} `json:"data"`
	Message *message `json:"message"`

	came time.Time
}

type option struct {
	Name    string   `json:"name"`
	Type    int      `json:"type"`
	Value   any      `json:"value"`
	Options []option `json:"options"`
	Focused bool     `json:"focused"`
}

// Types of interactions, and of responses to them.
const (
	isCommand  = 2
	isPress    = 3
	isTyping   = 4
	respSay    = discordgo.InteractionResponseChannelMessageWithSource
	respLater  = discordgo.InteractionResponseDeferredChannelMessageWithSource
	respKeep   = discordgo.InteractionResponseDeferredMessageUpdate
	respChange = discordgo.InteractionResponseUpdateMessage
	respWords  = discordgo.InteractionApplicationCommandAutocompleteResult
)

// buckets is how many interactions' calls may be on their way at once. Each has a
// token of its own; a bucket for each would never be given back.
const buckets = 64

func (i *interaction) bucket() string {
	h := fnv.New32a()
	h.Write([]byte(i.Token))
	return "interaction " + strconv.Itoa(int(h.Sum32()%buckets))
}

// who gives the person's id and name.
func (i *interaction) who() (id, name string) {
	u := i.User
	if i.Member != nil && i.Member.User != nil {
		u = i.Member.User
		if i.Member.Nick != "" {
			return u.ID, i.Member.Nick
		}
	}
	if u == nil {
		return "", ""
	}
	return u.ID, u.name()
}

// may says whether the person may manage the channel.
func (i *interaction) may() bool {
	if i.Member == nil {
		return false
	}
	p, err := strconv.ParseInt(i.Member.Permissions, 10, 64)
	return err == nil && p&(discordgo.PermissionManageChannels|discordgo.PermissionAdministrator) != 0
}

// opt gives an option's value in words; "" where it is not given.
func (i *interaction) opt(name string) string {
	for _, o := range i.options() {
		if o.Name == name && o.Value != nil {
			if f, ok := o.Value.(float64); ok {
				return strconv.FormatFloat(f, 'f', -1, 64)
			}
			return strings.TrimSpace(fmt.Sprint(o.Value))
		}
	}
	return ""
}

// options are the command's own, or its subcommand's.
func (i *interaction) options() []option {
	if i.sub() != "" {
		return i.Data.Options[0].Options
	}
	return i.Data.Options
}

// sub is the subcommand; "" none.
func (i *interaction) sub() string {
	const subcommand = 1
	if len(i.Data.Options) == 1 && i.Data.Options[0].Type == subcommand {
		return i.Data.Options[0].Name
	}
	return ""
}

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

// respond makes the first response. A second one is what another run of the bot
// has done, and is fine by us.
func (c *Client) respond(i *interaction, kind discordgo.InteractionResponseType, data any) error {
	ctx, cancel := context.WithDeadline(c.alive, i.came.Add(interactionTime))
	defer cancel()
	err := c.rest.respond(ctx, i, kind, data)
	c.o.Metrics.interaction(time.Since(i.came), err)
	if codeOf(err) == codeAcknowledged {
		c.log.Warn("an interaction was answered by another: is a second scullion running?", "interaction", i.ID)
		return nil
	}
	if err != nil {
		c.log.Warn("an interaction could not be answered", "interaction", i.ID, "error", plainError(err))
	}
	return err
}

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
	wait := c.o.Bot.Start(c.alive, m)
	type result struct {
		r   bot.Reply
		err error
	}
	done := make(chan result, 1)
	go func() {
		r, err := wait()
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
	if len(texts) > 1 {
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
// the message that comes of it; "+" where that could not be found out.
func (c *Client) say(i *interaction, deferred bool, p payload) (string, error) {
	if deferred {
		id, err := c.rest.editResponse(c.alive, i, p)
		if err != nil {
			c.log.Warn("an interaction could not be answered", "interaction", i.ID, "error", plainError(err))
		}
		return id, err
	}
	if err := c.respond(i, respSay, p); err != nil || p.Flags&flagPrivate != 0 {
		return apart, err
	}
	id, err := c.rest.response(c.alive, i)
	if err != nil {
		return apart, nil
	}
	return id, nil
}

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
	if mine != nil && (reply.Kind == bot.Log || reply.Kind == bot.Asking) && !deferred && i.Message != nil && mine.Place == i.Message.ID {
		if texts, rows := r.rendered(*mine, c.o.Now()); len(texts) == 1 {
			p := text(texts[0])
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
