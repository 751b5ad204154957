package strict

import "slices"

// Guild is a team's place with its channels.
type Guild struct {
	ID   string
	Name string

	s        *Server
	channels []*Channel // threads too
	nicks    map[string]string
	managers map[string]bool
	out      bool // an outage: its events are not sent
	kicked   bool // the bot was removed
}

// Guild is the guild of that name; the same one for the same name. A connected
// client hears of a new one as GUILD_CREATE.
func (s *Server) Guild(name string) *Guild {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, g := range s.guilds {
		if g.Name == name {
			return g
		}
	}
	g := &Guild{ID: s.nextID(), Name: name, s: s, nicks: map[string]string{}, managers: map[string]bool{}}
	s.guilds = append(s.guilds, g)
	s.emit("GUILD_CREATE", intentGuilds, g.full())
	return g
}

// Outage makes the guild unavailable: GUILD_DELETE says so, and its events are
// not sent until Back. REST still answers.
func (g *Guild) Outage() {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	g.out = true
	g.s.emit("GUILD_DELETE", intentGuilds, Raw{"id": g.ID, "unavailable": true})
}

// Back ends an outage, or lets the bot in again, with GUILD_CREATE.
func (g *Guild) Back() {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	g.out, g.kicked = false, false
	g.s.emit("GUILD_CREATE", intentGuilds, g.full())
}

// Kick removes the bot: GUILD_DELETE without unavailable, no access from then on.
func (g *Guild) Kick() {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	g.kicked = true
	g.s.emit("GUILD_DELETE", intentGuilds, Raw{"id": g.ID})
}

func (s *Server) guildByID(id string) *Guild {
	i := slices.IndexFunc(s.guilds, func(g *Guild) bool { return g.ID == id })
	if i < 0 {
		return nil
	}
	return s.guilds[i]
}

// json is the guild resource.
func (g *Guild) json() Raw {
	return Raw{"id": g.ID, "name": g.Name, "icon": nil, "owner_id": g.s.owner.ID, "preferred_locale": "en-GB",
		"emojis": []any{}, "stickers": []any{}, "features": []any{}, "verification_level": 0, "mfa_level": 0,
		"roles": []any{Raw{"id": g.ID, "name": "@everyone", "permissions": bits(everyone), "position": 0,
			"color": 0, "hoist": false, "managed": false, "mentionable": false, "flags": 0}}}
}

// full is what GUILD_CREATE carries: the resource, its channels and threads, and
// of its members the bot.
func (g *Guild) full() Raw {
	r := g.json()
	self := g.member(g.s.self)
	self["user"] = g.s.self
	r["joined_at"], r["large"], r["unavailable"] = stamp(idTime(g.ID)), false, false
	r["member_count"], r["members"] = len(g.s.users), []any{self}
	r["channels"], r["threads"] = g.list(kindText), g.list(kindThread)
	for _, key := range []string{"voice_states", "presences", "stage_instances", "guild_scheduled_events"} {
		r[key] = []any{}
	}
	return r
}

// list is the guild's standing channels of one kind that the bot may view.
func (g *Guild) list(kind int) []any {
	found := []any{}
	for _, c := range g.channels {
		if c.kind == kind && !c.gone && (kind == kindText || c.perms()&ViewChannel != 0) {
			found = append(found, c.json())
		}
	}
	return found
}

func getGuild(s *Server, c *call) answer {
	g, no := s.guildFor(c.ids[0])
	if g == nil {
		return no
	}
	return ok(g.json())
}

func getGuildChannels(s *Server, c *call) answer {
	g, no := s.guildFor(c.ids[0])
	if g == nil {
		return no
	}
	return ok(g.list(kindText))
}

func getActiveThreads(s *Server, c *call) answer {
	g, no := s.guildFor(c.ids[0])
	if g == nil {
		return no
	}
	return ok(Raw{"threads": g.list(kindThread), "members": []any{}})
}

// guildFor is the guild that a path names, or why the bot may not see it.
func (s *Server) guildFor(id string) (*Guild, answer) {
	g := s.guildByID(id)
	switch {
	case g == nil:
		return nil, refusal(404, 10004, "Unknown Guild")
	case g.kicked:
		return nil, refusal(403, 50001, "Missing Access")
	}
	return g, answer{}
}
