package strict

import (
	"fmt"
	"maps"
	"time"
)

// Message types (Discord API docs, message resource).
const (
	typeDefault = 0
	typeReply   = 19
	typeCommand = 20
)

// Say is a person's message: plain text, type 0.
func (c *Channel) Say(u *User, text string) *Message {
	return c.Post(Raw{"author": u, "content": text})
}

// Reply is a person's answer to a message, with a ping for its author.
func (c *Channel) Reply(u *User, to *Message, text string) *Message {
	return c.Post(Raw{"author": u, "content": text, "type": typeReply,
		"message_reference": Raw{"type": 0, "message_id": to.ID, "channel_id": to.Channel}, "mentions": []any{to.Author}})
}

// Post puts up a message whose JSON is m laid over that of an empty message by a
// passer-by: odd types, webhook_id, unknown components, forwards, an id of its own.
// A *User may stand for an author or a mention. Mentions in the content are added.
func (c *Channel) Post(m Raw) *Message {
	s := c.s
	s.mu.Lock()
	defer s.mu.Unlock()
	raw := s.blank(c)
	maps.Copy(raw, plain(m).(Raw))
	if _, ok := raw["author"]; !ok {
		raw["author"] = plain(s.person("passer-by", false))
		if hook := text(raw["webhook_id"]); hook != "" {
			raw["author"] = Raw{"id": hook, "username": "noticeboard", "discriminator": "0000", "avatar": nil, "bot": true}
		}
	}
	author, _ := raw["author"].(Raw)
	msg := &stored{raw: raw, channel: c, author: s.author(author)}
	s.mention(msg, mentioned(text(raw["content"])))
	s.keep(msg)
	s.emitMessage("MESSAGE_CREATE", msg, nonceOf(msg))
	return msg.snapshot()
}

// blank is the resource of a message with nothing in it.
func (s *Server) blank(c *Channel) Raw {
	id := s.nextID()
	return Raw{"id": id, "channel_id": c.ID, "type": typeDefault, "content": "", "timestamp": stamp(idTime(id)),
		"edited_timestamp": nil, "tts": false, "pinned": false, "mention_everyone": false, "flags": 0,
		"mentions": []any{}, "mention_roles": []any{}, "attachments": []any{}, "embeds": []any{}, "components": []any{}}
}

// nonceOf is what only the first event of a message carries.
func nonceOf(m *stored) Raw {
	if n := m.raw["nonce"]; n != nil {
		return Raw{"nonce": n}
	}
	return nil
}

// mention adds users to those whom m mentions and pings.
func (s *Server) mention(m *stored, ids []string) {
	list, _ := m.raw["mentions"].([]any)
	seen := map[string]bool{}
	for _, v := range list {
		u, _ := v.(Raw)
		seen[text(u["id"])] = true
	}
	for _, id := range ids {
		if u := s.userByID(id); u != nil && !seen[id] {
			seen[id] = true
			list = append(list, plain(u))
		}
	}
	m.raw["mentions"] = list
	m.pinged = nil
	for _, v := range list {
		u, _ := v.(Raw)
		m.pinged = append(m.pinged, text(u["id"]))
	}
}

// Edit is its author's edit: a later edited_timestamp, and MESSAGE_UPDATE.
func (s *Server) Edit(m *Message, content string) {
	s.standing(m, func(msg *stored) {
		msg.raw["content"] = content
		s.mention(msg, mentioned(content))
		s.edited(msg)
	})
}

// edited marks an edit and sends it. The time has microseconds, so that cutting
// it to milliseconds makes it earlier.
func (s *Server) edited(m *stored) {
	at := time.Now().UTC().Truncate(time.Microsecond)
	if !at.After(m.edited) {
		at = m.edited.Add(time.Microsecond)
	}
	if at.Nanosecond()/1000%1000 == 0 {
		at = at.Add(time.Microsecond)
	}
	m.edited = at
	m.edits++
	m.raw["edited_timestamp"] = stamp(at)
	s.emitMessage("MESSAGE_UPDATE", m, nil)
}

// Unfurl is the MESSAGE_UPDATE that a link's preview makes: nothing was edited,
// and edited_timestamp is null, or the last edit's cut to milliseconds.
func (s *Server) Unfurl(m *Message, truncated bool) {
	s.standing(m, func(msg *stored) {
		changes := Raw{"edited_timestamp": nil, "embeds": []any{Raw{"type": "link", "url": "https://boathouse.example/notice"}}}
		if truncated && !msg.edited.IsZero() {
			changes["edited_timestamp"] = stamp(msg.edited.Truncate(time.Millisecond))
		}
		s.emitMessage("MESSAGE_UPDATE", msg, changes)
	})
}

// Delete removes a message: MESSAGE_DELETE.
func (s *Server) Delete(m *Message) {
	s.standing(m, s.remove)
}

func (s *Server) remove(m *stored) {
	m.deleted = true
	s.emitMessageIDs("MESSAGE_DELETE", m.channel, intentGuildMessages, Raw{"id": m.id()})
}

// BulkDelete removes 2 to 100 messages of one channel: MESSAGE_DELETE_BULK.
func (s *Server) BulkDelete(ms ...*Message) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(ms) < minBulkDelete || len(ms) > maxBulkDelete {
		s.blame("BulkDelete of %d messages, not %d to %d (%s)", len(ms), minBulkDelete, maxBulkDelete, pageMessage)
		return
	}
	var ids []string
	var c *Channel
	for _, m := range ms {
		if msg := s.messageByID(m.ID); msg != nil {
			msg.deleted, c = true, msg.channel
			ids = append(ids, m.ID)
		}
	}
	if c != nil {
		s.emitMessageIDs("MESSAGE_DELETE_BULK", c, intentGuildMessages, Raw{"ids": ids})
	}
}

// standing calls f for the message if it stands; a test that names another is wrong.
func (s *Server) standing(m *Message, f func(*stored)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	msg := s.messageByID(m.ID)
	if msg == nil {
		s.blame("the test changes message %s, which does not stand", m.ID)
		return
	}
	f(msg)
}

// emitMessageIDs sends an event that has only ids.
func (s *Server) emitMessageIDs(kind string, c *Channel, need int, ids Raw) {
	ids["channel_id"] = c.ID
	if c.guild != nil {
		ids["guild_id"] = c.guild.ID
	} else {
		need = direct(need)
	}
	if c.heard() {
		s.emit(kind, need, ids)
	}
}

// blame notes a violation.
func (s *Server) blame(format string, a ...any) {
	s.violations = append(s.violations, fmt.Sprintf(format, a...))
	s.poke()
}
