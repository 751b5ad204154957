package strict

import (
	"encoding/json"
	"maps"
	"slices"
	"time"
)

// Message is a message as it stood when it was asked for.
type Message struct {
	ID         string
	Channel    string
	Author     *User
	Content    string
	Ref        string // the id it replies to
	Nonce      string
	Flags      int
	Components json.RawMessage // as sent; nil: none
	Edits      int
	Reactions  map[string][]string // emoji -> user ids
	Files      []File
	Pinged     []string // user ids, "@everyone", role ids with "&"
}

// File is an upload.
type File struct {
	Name        string
	Data        []byte
	Description string
}

// Message flags (Discord API docs, message resource).
const (
	flagSuppressEmbeds = 1 << 2
	flagEphemeral      = 1 << 6
	flagLoading        = 1 << 7
	flagSilent         = 1 << 12
	flagComponentsV2   = 1 << 15
)

// stored is a message with what the resource does not show.
type stored struct {
	raw       Raw // the resource, decoded; its keys are replaced, never what they hold
	channel   *Channel
	author    *User
	edits     int
	edited    time.Time
	files     []File
	pinged    []string
	reactions []reaction // in order of first use
	deleted   bool
}

type reaction struct {
	emoji string
	users []string
}

func (m *stored) id() string      { return text(m.raw["id"]) }
func (m *stored) flags() int      { return whole(m.raw["flags"]) }
func (m *stored) ephemeral() bool { return m.flags()&flagEphemeral != 0 }

// ref is the id that m replies to.
func (m *stored) ref() string {
	r, _ := m.raw["message_reference"].(Raw)
	return text(r["message_id"])
}

func (m *stored) snapshot() *Message {
	out := &Message{ID: m.id(), Channel: m.channel.ID, Author: m.author, Content: text(m.raw["content"]),
		Ref: m.ref(), Nonce: nonceText(m.raw["nonce"]), Flags: m.flags(), Edits: m.edits,
		Reactions: map[string][]string{}, Files: slices.Clone(m.files), Pinged: slices.Clone(m.pinged)}
	if list, _ := m.raw["components"].([]any); len(list) > 0 {
		out.Components = encode(list)
	}
	for _, r := range m.reactions {
		out.Reactions[r.emoji] = slices.Clone(r.users)
	}
	return out
}

// nonceText is a nonce, which may be a string or a whole number.
func nonceText(v any) string {
	if n, ok := v.(json.Number); ok {
		return n.String()
	}
	return text(v)
}

// Messages are the channel's standing messages in order of creation, without
// ephemeral ones.
func (c *Channel) Messages() []*Message {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	var list []*Message
	for _, m := range c.messages {
		if !m.deleted && !m.ephemeral() {
			list = append(list, m.snapshot())
		}
	}
	return list
}

// messageByID finds a standing message; ephemeral ones too.
func (s *Server) messageByID(id string) *stored {
	if m := s.kept[id]; m != nil && !m.deleted && !m.channel.gone {
		return m
	}
	return nil
}

// keep adds a message to its channel.
func (s *Server) keep(m *stored) {
	m.channel.messages = append(m.channel.messages, m)
	s.kept[m.id()] = m
}

// json is the message resource. Without the grant the content fields are blank
// but where the docs make an exception (gateway, message content intent).
func (s *Server) json(m *stored, granted bool) Raw {
	r := maps.Clone(m.raw)
	delete(r, "nonce")
	var list []any
	for _, one := range m.reactions {
		list = append(list, Raw{"emoji": emojiJSON(one.emoji), "count": len(one.users), "me": slices.Contains(one.users, s.self.ID),
			"count_details": Raw{"normal": len(one.users), "burst": 0}, "me_burst": false, "burst_colors": []any{}})
	}
	if list != nil {
		r["reactions"] = list
	}
	if ref := m.ref(); ref != "" && whole(m.raw["type"]) == typeReply {
		r["referenced_message"] = nil
		if to := s.messageByID(ref); to != nil {
			inner := maps.Clone(to.raw)
			delete(inner, "message_reference")
			r["referenced_message"] = s.json(&stored{raw: inner, channel: to.channel, author: to.author}, granted)
		}
	}
	if !granted && !s.exempt(m) {
		r["content"] = ""
		r["embeds"], r["attachments"], r["components"] = []any{}, []any{}, []any{}
		delete(r, "poll")
	}
	return r
}

// exempt tells the messages whose content the bot is shown in any case.
func (s *Server) exempt(m *stored) bool {
	mentions, _ := m.raw["mentions"].([]any)
	return m.author == s.self || m.channel.kind == kindDM || slices.ContainsFunc(mentions, func(v any) bool {
		u, _ := v.(Raw)
		return text(u["id"]) == s.self.ID
	})
}

// event is m as MESSAGE_CREATE and MESSAGE_UPDATE carry it.
func (s *Server) event(m *stored, granted bool) Raw {
	r := s.json(m, granted)
	if m.channel.guild != nil && !m.ephemeral() {
		r["guild_id"] = m.channel.guild.ID
		if _, hook := m.raw["webhook_id"]; !hook {
			r["member"] = m.channel.guild.member(m.author)
		}
	}
	r["channel_type"] = m.channel.kind
	return r
}

// emitMessage sends m; changes are keys laid over it.
func (s *Server) emitMessage(kind string, m *stored, changes Raw) {
	need := intentGuildMessages
	if m.channel.kind == kindDM || m.ephemeral() {
		need = intentDirectMessages
	}
	full, blank := s.event(m, true), s.event(m, false)
	for _, r := range []Raw{full, blank} {
		maps.Copy(r, changes)
	}
	if m.channel.heard() {
		s.post(dispatch{kind: kind, need: need, full: encode(full), blank: encode(blank)})
	}
}
