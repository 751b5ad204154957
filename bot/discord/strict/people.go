package strict

import (
	"encoding/json"
	"strings"
)

// User is a person or a bot. Its fields never change.
type User struct {
	ID   string
	Name string
	Bot  bool
}

// MarshalJSON writes the user resource. A person has a display name and a
// lower-case user name; a bot has a user name and a discriminator.
func (u *User) MarshalJSON() ([]byte, error) {
	r := Raw{"id": u.ID, "username": u.Name, "global_name": nil, "discriminator": "4821", "avatar": nil, "bot": true, "public_flags": 0}
	if !u.Bot {
		r["username"] = strings.ReplaceAll(strings.ToLower(u.Name), " ", "_")
		r["global_name"], r["discriminator"] = u.Name, "0"
		delete(r, "bot")
	}
	return json.Marshal(r)
}

// User is the person of that name; the same one for the same name.
func (s *Server) User(name string) *User { return s.somebody(name, false) }

// BotUser is another bot of that name; the same one for the same name.
func (s *Server) BotUser(name string) *User { return s.somebody(name, true) }

func (s *Server) somebody(name string, bot bool) *User {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.person(name, bot)
}

func (s *Server) person(name string, bot bool) *User {
	for _, u := range s.users {
		if u.Name == name && u.Bot == bot {
			return u
		}
	}
	u := &User{ID: s.nextID(), Name: name, Bot: bot}
	s.users = append(s.users, u)
	return u
}

// Self is the bot's own user.
func (s *Server) Self() *User { return s.self }

// App is the bot's application id.
func (s *Server) App() string { return s.app }

func (s *Server) userByID(id string) *User {
	for _, u := range s.users {
		if u.ID == id {
			return u
		}
	}
	return nil
}

// author finds or makes the user of a message's author object.
func (s *Server) author(r Raw) *User {
	id := text(r["id"])
	if u := s.userByID(id); u != nil {
		return u
	}
	bot, _ := r["bot"].(bool)
	return &User{ID: id, Name: text(r["username"]), Bot: bot}
}

// member is u in g without the user, as messages carry it.
func (g *Guild) member(u *User) Raw {
	m := Raw{"roles": []any{}, "joined_at": stamp(idTime(g.ID)), "deaf": false, "mute": false, "flags": 0}
	if nick := g.nicks[u.ID]; nick != "" {
		m["nick"] = nick
	}
	return m
}

// Nick gives u a name of its own in the guild; "" takes it away.
func (g *Guild) Nick(u *User, nick string) {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	g.nicks[u.ID] = nick
}

// Manager makes u one who may manage channels: interactions of u say so.
func (g *Guild) Manager(u *User) {
	g.s.mu.Lock()
	defer g.s.mu.Unlock()
	g.managers[u.ID] = true
}

// invoker is the member or user part of an interaction.
func (c *Channel) invoker(u *User) (key string, value any) {
	if c.kind == kindDM {
		return "user", u
	}
	m := c.guild.member(u)
	p := everyone
	if c.guild.managers[u.ID] {
		p |= ManageChannels
	}
	m["user"], m["permissions"] = u, bits(p)
	return "member", m
}
