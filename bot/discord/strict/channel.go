package strict

// Channel types (Discord API docs, channel resource).
const (
	kindText   = 0
	kindDM     = 1
	kindThread = 11
)

// Channel is a text channel, a public thread or a direct-message channel.
type Channel struct {
	ID   string
	Name string

	s        *Server
	guild    *Guild   // nil: direct messages
	parent   *Channel // of a thread
	kind     int
	with     *User // of direct messages
	allow    uint64
	deny     uint64
	messages []*stored // in order of creation
	gone     bool
}

// Channel is the guild's text channel of that name; the same one for the same
// name while it stands.
func (g *Guild) Channel(name string) *Channel {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	return g.channel(name, nil)
}

// Thread is the channel's public thread of that name.
func (c *Channel) Thread(name string) *Channel {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	return c.guild.channel(name, c)
}

func (g *Guild) channel(name string, parent *Channel) *Channel {
	for _, c := range g.channels {
		if c.Name == name && c.parent == parent && !c.gone {
			return c
		}
	}
	c := &Channel{ID: g.s.nextID(), Name: name, s: g.s, guild: g, parent: parent, kind: kindText}
	event := "CHANNEL_CREATE"
	if parent != nil {
		c.kind, event = kindThread, "THREAD_CREATE"
	}
	g.channels = append(g.channels, c)
	g.s.channels = append(g.s.channels, c)
	g.s.emitGuild(c, event, c.json())
	return c
}

// DM is the bot's direct-message channel with u; there is one.
func (s *Server) DM(u *User) *Channel {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.dm(u)
}

func (s *Server) dm(u *User) *Channel {
	for _, c := range s.channels {
		if c.with == u {
			return c
		}
	}
	c := &Channel{ID: s.nextID(), s: s, kind: kindDM, with: u}
	s.channels = append(s.channels, c)
	return c
}

// Remove deletes the channel with its threads: CHANNEL_DELETE, or THREAD_DELETE
// for a thread. What was said there is gone with no further event.
func (c *Channel) Remove() {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	if c.kind == kindThread {
		c.s.emitGuild(c, "THREAD_DELETE", Raw{"id": c.ID, "guild_id": c.guild.ID, "parent_id": c.parent.ID, "type": c.kind})
	} else {
		c.s.emitGuild(c, "CHANNEL_DELETE", c.json())
	}
	c.gone = true
	for _, t := range c.s.channels {
		t.gone = t.gone || t.parent == c
	}
}

// json is the channel resource.
func (c *Channel) json() Raw {
	r := Raw{"id": c.ID, "type": c.kind, "last_message_id": nil, "flags": 0}
	if n := len(c.messages); n > 0 {
		r["last_message_id"] = text(c.messages[n-1].raw["id"])
	}
	if c.kind == kindDM {
		r["recipients"] = []any{c.with}
		return r
	}
	r["name"], r["guild_id"], r["parent_id"] = c.Name, c.guild.ID, nil
	if c.kind == kindThread {
		r["parent_id"], r["owner_id"] = c.parent.ID, c.s.owner.ID
		r["thread_metadata"] = Raw{"archived": false, "auto_archive_duration": 1440, "locked": false, "archive_timestamp": stamp(idTime(c.ID))}
		r["message_count"], r["member_count"] = len(c.messages), 1
		return r
	}
	r["position"], r["topic"], r["nsfw"], r["rate_limit_per_user"] = 0, nil, false, 0
	r["permission_overwrites"] = c.overwrites()
	return r
}

// channelFor is the channel that a path names, or why the bot may not use it.
func (s *Server) channelFor(id string, perm uint64) (*Channel, answer) {
	for _, c := range s.channels {
		if c.ID != id || c.gone {
			continue
		}
		if no, may := c.may(perm); !may {
			return nil, no
		}
		return c, answer{}
	}
	return nil, refusal(404, 10003, "Unknown Channel")
}

func getChannel(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	return ok(ch.json())
}

// getArchived lists no threads: none here is ever archived.
func getArchived(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], ReadHistory)
	if ch == nil {
		return no
	}
	return ok(Raw{"threads": []any{}, "members": []any{}, "has_more": false})
}

func postTyping(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	if no, may := ch.may(ch.sends()); !may {
		return no
	}
	return done()
}

func postUserChannel(s *Server, c *call) answer {
	f := newForm(c.body.value, "Discord API docs, user resource")
	f.object("recipient_id")
	f.at("recipient_id").need()
	id := f.at("recipient_id").id()
	if f.form.bad() {
		return f.form.answer()
	}
	u := s.userByID(id)
	switch {
	case u == nil:
		return refusal(404, 10013, "Unknown User")
	case u.Bot:
		return refusal(403, 50007, "Cannot send messages to this user")
	}
	return ok(s.dm(u).json())
}
