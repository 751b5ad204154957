package strict

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
)

var (
	customEmoji = regexp.MustCompile(`^\w{2,32}:[0-9]{15,20}$`)
	keycap      = regexp.MustCompile(`^[0-9#*]\x{fe0f}?$`)
)

// isEmoji is whether s may be one Unicode emoji: symbols with their joiners and
// variation selectors, or a keycap. It knows no list, so it lets more pass than
// the platform does.
func isEmoji(s string) bool {
	if key, ok := strings.CutSuffix(s, "\u20e3"); ok {
		return keycap.MatchString(key)
	}
	symbols := 0
	for _, r := range s {
		switch {
		case unicode.Is(unicode.So, r) || unicode.Is(unicode.Sk, r) && r > 0xFF || unicode.Is(unicode.Sm, r) && r > 0xFF ||
			r == 0x203C || r == 0x2139 || r == 0x2049 || r == 0x3030 || r == 0x303D:
			symbols++
		case r == 0x200D || r == 0xFE0F || r >= 0xE0020 && r <= 0xE007F:
		default:
			return false
		}
	}
	return symbols > 0 && symbols <= 10
}

// emojiJSON is the partial emoji of a reaction.
func emojiJSON(emoji string) Raw {
	if name, id, ok := strings.Cut(emoji, ":"); ok {
		return Raw{"id": id, "name": name, "animated": false}
	}
	return Raw{"id": nil, "name": emoji}
}

func putReaction(s *Server, c *call) answer {
	m, no := s.reactTo(c)
	if m == nil {
		return no
	}
	emoji, ch := c.ids[2], m.channel
	i := m.reactionIndex(emoji)
	if i < 0 {
		if no, may := ch.may(AddReactions); !may {
			return no
		}
		if len(m.reactions) >= maxReactionKinds {
			return refusal(400, 30010, "Maximum number of reactions reached (20)").because(pageMessage, "a reaction of a 21st kind")
		}
	}
	s.stats.Reactions++
	s.react(m, s.self, emoji)
	return done()
}

func deleteReaction(s *Server, c *call) answer {
	m, no := s.reactTo(c)
	if m == nil {
		return no
	}
	s.unreact(m, s.self, c.ids[2])
	return done()
}

// reactTo is the message of a reaction's path. The path has to be escaped once, and
// a custom emoji is name:id.
func (s *Server) reactTo(c *call) (*stored, answer) {
	emoji := c.ids[2]
	unescaped := strings.ContainsFunc(c.r.RequestURI, func(r rune) bool { return r > unicode.MaxASCII })
	if unescaped || !isEmoji(emoji) && !customEmoji.MatchString(emoji) {
		return nil, refusal(400, 10014, "Unknown Emoji").because(pageMessage, "the path's emoji is %q", emoji)
	}
	ch, no := s.channelFor(c.ids[0], ReadHistory)
	if ch == nil {
		return nil, no
	}
	m, known := s.find(ch, c.ids[1])
	if m == nil && !known {
		return nil, refusal(404, 10008, "Unknown Message").because(pageMessage, "message %s never was in this channel", c.ids[1])
	}
	if m == nil {
		return nil, refusal(404, 10008, "Unknown Message")
	}
	return m, answer{}
}

func (m *stored) reactionIndex(emoji string) int {
	return slices.IndexFunc(m.reactions, func(r reaction) bool { return r.emoji == emoji })
}

// react adds u's reaction; one that is there already changes nothing.
func (s *Server) react(m *stored, u *User, emoji string) {
	i := m.reactionIndex(emoji)
	if i < 0 {
		i = len(m.reactions)
		m.reactions = append(m.reactions, reaction{emoji: emoji})
	}
	if slices.Contains(m.reactions[i].users, u.ID) {
		return
	}
	m.reactions[i].users = append(m.reactions[i].users, u.ID)
	e := Raw{"user_id": u.ID, "message_id": m.id(), "emoji": emojiJSON(emoji), "burst": false, "type": 0, "message_author_id": m.author.ID}
	if g := m.channel.guild; g != nil {
		member := g.member(u)
		member["user"] = u
		e["member"] = member
	}
	s.emitMessageIDs("MESSAGE_REACTION_ADD", m.channel, intentGuildReactions, e)
}

func (s *Server) unreact(m *stored, u *User, emoji string) {
	i := m.reactionIndex(emoji)
	if i < 0 || !slices.Contains(m.reactions[i].users, u.ID) {
		return
	}
	r := &m.reactions[i]
	r.users = slices.DeleteFunc(r.users, func(id string) bool { return id == u.ID })
	if len(r.users) == 0 {
		m.reactions = slices.Delete(m.reactions, i, i+1)
	}
	s.emitMessageIDs("MESSAGE_REACTION_REMOVE", m.channel, intentGuildReactions,
		Raw{"user_id": u.ID, "message_id": m.id(), "emoji": emojiJSON(emoji), "burst": false, "type": 0})
}

// React is a person's reaction.
func (s *Server) React(u *User, m *Message, emoji string) {
	s.standing(m, func(msg *stored) { s.react(msg, u, emoji) })
}

// Unreact takes it back.
func (s *Server) Unreact(u *User, m *Message, emoji string) {
	s.standing(m, func(msg *stored) { s.unreact(msg, u, emoji) })
}
