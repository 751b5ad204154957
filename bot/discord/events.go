package discord

import (
	"encoding/json"
	"fmt"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
)

// message is what is read of a message; a field that is not there is nil or
// empty. Source: Discord API docs, resources/message.
type message struct {
	ID        string            `json:"id"`
	Channel   string            `json:"channel_id"`
	Guild     string            `json:"guild_id"`
	Type      int               `json:"type"`
	Flags     int               `json:"flags"`
	Author    *user             `json:"author"`
	Member    *member           `json:"member"`
	Webhook   string            `json:"webhook_id"`
	Content   *string           `json:"content"`
	Edited    *time.Time        `json:"edited_timestamp"`
	Mentions  []user            `json:"mentions"`
	Reference *reference        `json:"message_reference"`
	Attached  []json.RawMessage `json:"attachments"`
	Stickers  []json.RawMessage `json:"sticker_items"`
	Embeds    []json.RawMessage `json:"embeds"`
	Parts     []json.RawMessage `json:"components"`
	Forwards  []json.RawMessage `json:"message_snapshots"`
	Poll      json.RawMessage   `json:"poll"`
	Command   *struct {
		ID string `json:"id"`
	} `json:"interaction_metadata"` // what the message is the response to
}

type user struct {
	ID     string `json:"id"`
	Name   string `json:"username"`
	Global string `json:"global_name"`
	Bot    bool   `json:"bot"`
}

type member struct {
	Nick        string `json:"nick"`
	User        *user  `json:"user"`
	Permissions string `json:"permissions"`
}

type reference struct {
	Type    int    `json:"type"` // 1: forwarded
	Message string `json:"message_id"`
}

// Types of messages that people write. Source: Discord API docs,
// resources/message, "Message Types".
const (
	typePlain = 0
	typeReply = 19
)

// onEvent takes one event off the gateway. It runs on the connection's reading,
// so it only hands things over.
func (c *Client) onEvent(e *discordgo.Event) {
	defer func() {
		if p := recover(); p != nil { // the library would end the program
			c.log.Error("a fault in the program", "event", e.Type, "fault", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	c.o.Metrics.event(e.Type)
	if err := c.take(e); err != nil {
		c.log.Warn("an event cannot be read", "event", e.Type, "error", err)
	}
}

func (c *Client) take(e *discordgo.Event) error {
	switch e.Type {
	case "READY":
		return c.onReady(e.RawData)
	case "RESUMED":
		c.catchUp(false)
	case "MESSAGE_CREATE", "MESSAGE_UPDATE":
		var m message
		if err := json.Unmarshal(e.RawData, &m); err != nil {
			return err
		}
		c.onMessage(&m, e.Type == "MESSAGE_UPDATE")
	case "MESSAGE_DELETE", "MESSAGE_DELETE_BULK":
		var d struct {
			ID      string   `json:"id"`
			IDs     []string `json:"ids"`
			Channel string   `json:"channel_id"`
		}
		if err := json.Unmarshal(e.RawData, &d); err != nil {
			return err
		}
		if r := c.room(d.Channel); r != nil {
			for _, id := range append(d.IDs, d.ID) {
				if id != "" {
					r.add(task{gone: id})
				}
			}
		}
	case "INTERACTION_CREATE":
		i := &interaction{}
		if err := json.Unmarshal(e.RawData, i); err != nil {
			return err
		}
		i.came = time.Now()
		c.work.Go(func() { c.onInteraction(i) })
	case "CHANNEL_DELETE", "THREAD_DELETE", "GUILD_DELETE", "GUILD_CREATE":
		return c.onPlace(e)
	case "CHANNEL_UPDATE", "THREAD_UPDATE", "GUILD_ROLE_UPDATE":
		return c.onRights(e.RawData)
	}
	return nil
}

func (c *Client) onReady(raw json.RawMessage) error {
	var d struct {
		User user `json:"user"`
		App  struct {
			ID string `json:"id"`
		} `json:"application"`
	}
	if err := json.Unmarshal(raw, &d); err != nil {
		return err
	}
	c.mu.Lock()
	first := c.app == ""
	c.self, c.app = d.User.ID, d.App.ID
	c.mu.Unlock()
	if first {
		c.work.Go(c.register)
	}
	c.catchUp(true)
	return nil
}

// catchUp has every room read its history: after a new session what has been
// edited and deleted in between as well, for that nobody tells.
func (c *Client) catchUp(whole bool) {
	for _, r := range c.all() {
		r.add(task{read: true, whole: whole})
	}
}

// onPlace hears of channels and servers that come and go.
func (c *Client) onPlace(e *discordgo.Event) error {
	var d struct {
		ID          string `json:"id"`
		Unavailable bool   `json:"unavailable"`
	}
	if err := json.Unmarshal(e.RawData, &d); err != nil {
		return err
	}
	for _, r := range c.all() {
		now := r.now()
		switch {
		case e.Type == "GUILD_CREATE" && now.House == d.ID:
			r.add(task{read: true})
		case e.Type == "GUILD_DELETE" && now.House == d.ID && !d.Unavailable, e.Type != "GUILD_CREATE" && e.Type != "GUILD_DELETE" && now.ID == d.ID:
			c.work.Go(func() { c.gone(now) })
		}
	}
	return nil
}

// onRights hears of what may have changed the bot's rights in a server. Rooms where
// it lacked some try again.
func (c *Client) onRights(raw json.RawMessage) error {
	var d struct {
		Guild string `json:"guild_id"`
	}
	if err := json.Unmarshal(raw, &d); err != nil {
		return err
	}
	for _, r := range c.all() {
		if r.now().House != d.Guild {
			continue
		}
		r.out.mayAttach()
		if r.out.isShut() {
			r.add(task{read: true})
		}
	}
	return nil
}

// gone parts a room from its kitchen, since it is there no more for the bot.
func (c *Client) gone(r bot.Room) {
	c.log.Info("a room is gone", "room", r.ID, "kitchen", r.Kitchen)
	c.leave(r)
}

// leave parts a room from its kitchen.
func (c *Client) leave(r bot.Room) error {
	c.close(r.ID)
	err := c.o.Bot.Leave(c.alive, r)
	if err != nil {
		c.log.Error("a room could not be parted from its kitchen", "room", r.ID, "error", err)
	}
	return err
}

// onMessage hands a message over to its room. Others are nobody's business, but
// direct ones are told where the bot is to be found.
func (c *Client) onMessage(m *message, edited bool) {
	if r := c.room(m.Channel); r != nil {
		r.add(task{said: m, edited: edited, came: time.Now()})
		return
	}
	const ephemeral = 64
	if m.Guild == "" && !edited && m.Author != nil && !m.Author.Bot && m.Webhook == "" && m.Flags&ephemeral == 0 && m.Type == typePlain {
		c.work.Go(func() { c.howTo(m) })
	}
}

// isTalk says whether a message is what a cook has typed: no system's message, no
// bot's that is not listened to, and no copy of what was said elsewhere.
func (c *Client) isTalk(m *message) bool {
	const crosspost = 2
	switch {
	case m.Type != typePlain && m.Type != typeReply, m.Flags&crosspost != 0, m.Reference != nil && m.Reference.Type == 1, len(m.Forwards) > 0:
		return false
	case m.Author == nil:
		return false
	case m.Webhook != "":
		return c.o.heard(m.Webhook) || c.o.heard(m.Author.ID)
	case m.Author.Bot:
		self, _ := c.ids()
		return m.Author.ID != self && c.o.heard(m.Author.ID)
	}
	return true
}

// bare says whether a message has nothing in it: that is so where the bot may not
// read what messages say, for nobody can post one.
func (m *message) bare() bool {
	return m.Content != nil && *m.Content == "" && len(m.Attached)+len(m.Stickers)+len(m.Embeds)+len(m.Parts)+len(m.Forwards) == 0 && len(m.Poll) == 0
}

// name is how a cook is shown: as in this server, as everywhere, or the account.
func (m *message) name() string {
	if m.Member != nil && m.Member.Nick != "" {
		return m.Member.Nick
	}
	return m.Author.name()
}

func (u user) name() string {
	if u.Global != "" {
		return u.Global
	}
	return u.Name
}

// marks are Discord's own signs in a text: people, roles, channels, emoji, times.
// Source: Discord API docs, reference, "Message Formatting".
var marks = regexp.MustCompile(`<(?:@!?(\d+)|@&\d+|#\d+|a?:\w+:\d+|t:[^>]*|/[^>]*:\d+|id:\w+)>`)

// text is what a message says in words: people by name, the bot left out.
func (m *message) text(self string) string {
	if m.Content == nil {
		return ""
	}
	s := marks.ReplaceAllStringFunc(*m.Content, func(mark string) string {
		id := marks.FindStringSubmatch(mark)[1]
		if i := slices.IndexFunc(m.Mentions, func(u user) bool { return u.ID == id && id != self }); i >= 0 {
			return m.Mentions[i].name()
		}
		return ""
	})
	return strings.TrimSpace(s)
}

// editedAt is when the text got to be what it is, in µs since 1970; 0 as first
// said. Updates that only unfurl a link repeat it cut to the millisecond: they
// come out as older than the edit, and change nothing.
func (m *message) editedAt() int64 {
	if m.Edited == nil {
		return 0
	}
	return m.Edited.UnixMicro()
}
