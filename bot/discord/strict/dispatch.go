package strict

import "encoding/json"

// Intents (Discord API docs, gateway).
const (
	intentGuilds          = 1 << 0
	intentMembers         = 1 << 1 // privileged
	intentPresences       = 1 << 8 // privileged
	intentGuildMessages   = 1 << 9
	intentGuildReactions  = 1 << 10
	intentDirectMessages  = 1 << 12
	intentDirectReactions = 1 << 13
	intentContent         = 1 << 15 // privileged

	// every bit of the list: 0 to 16, 20, 21, 24, 25
	intentsAll = 1<<17 - 1 | 1<<20 | 1<<21 | 1<<24 | 1<<25
)

// direct is the direct-message intent that goes with a guild one.
func direct(need int) int {
	switch need {
	case intentGuildMessages:
		return intentDirectMessages
	case intentGuildReactions:
		return intentDirectReactions
	}
	return need
}

// dispatch is an event on its way to the sessions whose intents allow it.
type dispatch struct {
	kind  string
	need  int             // 0: no intent needed
	full  json.RawMessage // with message content
	blank json.RawMessage // without; nil: the same
}

func (s *Server) emit(kind string, need int, data any) {
	s.post(dispatch{kind: kind, need: need, full: encode(data)})
}

// emitGuild sends what happens in a guild, unless it is out or the bot is.
func (s *Server) emitGuild(c *Channel, kind string, data any) {
	if !c.guild.out && !c.guild.kicked {
		s.emit(kind, intentGuilds, data)
	}
}

// heard is whether what is said in c reaches the bot.
func (c *Channel) heard() bool {
	return !c.gone && (c.guild == nil || !c.guild.out && !c.guild.kicked && c.perms()&ViewChannel != 0)
}

// post sends an event, or holds it back.
func (s *Server) post(d dispatch) {
	if s.holding {
		s.held = append(s.held, d)
		return
	}
	s.deliver(d)
}

func (s *Server) deliver(d dispatch) {
	for _, one := range s.sessions {
		if !one.dead && (d.need == 0 || one.intents&d.need != 0) {
			one.add(d.kind, d.data(s, one))
		}
	}
}

// data is what a session may see of an event.
func (d dispatch) data(s *Server, to *session) json.RawMessage {
	if d.blank != nil && (s.o.NoContent || to.intents&intentContent == 0) {
		return d.blank
	}
	return d.full
}

// Hold keeps dispatches back until Release.
func (s *Server) Hold() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.holding = true
}

// Release sends what was held: in the order given by index, where one left out is
// never sent and one repeated is sent again; all in order when none is given.
func (s *Server) Release(order ...int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	held := s.held
	s.holding, s.held = false, nil
	if len(order) == 0 {
		for _, d := range held {
			s.deliver(d)
		}
	}
	for _, i := range order {
		if i < 0 || i >= len(held) {
			s.blame("the test releases dispatch %d of %d", i, len(held))
			continue
		}
		s.deliver(held[i])
	}
}
