package strict

import "strconv"

// Permission bits (Discord API docs, permissions).
const (
	ManageChannels    uint64 = 1 << 4
	AddReactions      uint64 = 1 << 6
	ViewChannel       uint64 = 1 << 10
	SendMessages      uint64 = 1 << 11
	ManageMessages    uint64 = 1 << 13
	EmbedLinks        uint64 = 1 << 14
	AttachFiles       uint64 = 1 << 15
	ReadHistory       uint64 = 1 << 16
	UseExternalEmojis uint64 = 1 << 18
	UseCommands       uint64 = 1 << 31
	SendInThreads     uint64 = 1 << 38
)

// everyone is what the @everyone role has, and so the bot by default: all that
// a bot that reads, answers, reacts and shows pictures may ask for.
const everyone = AddReactions | ViewChannel | SendMessages | EmbedLinks | AttachFiles |
	ReadHistory | UseExternalEmojis | UseCommands | SendInThreads

// Deny takes permissions from the bot in a channel and its threads; a thread has
// its channel's. Clients hear of it as CHANNEL_UPDATE.
func (c *Channel) Deny(perm uint64) { c.overwrite(0, perm) }

// Allow gives the bot permissions in a channel and its threads.
func (c *Channel) Allow(perm uint64) { c.overwrite(perm, 0) }

func (c *Channel) overwrite(allow, deny uint64) {
	s := c.s
	s.mu.Lock()
	defer s.mu.Unlock()
	if c.parent != nil {
		c = c.parent
	}
	c.allow = c.allow&^deny | allow
	c.deny = c.deny&^allow | deny
	s.emitGuild(c, "CHANNEL_UPDATE", c.json())
}

// perms is what the bot may do in c (Discord API docs, permissions).
func (c *Channel) perms() uint64 {
	from := c
	if c.parent != nil {
		from = c.parent
	}
	p := everyone&^from.deny | from.allow
	switch {
	case p&ViewChannel == 0:
		return 0
	case p&SendMessages == 0:
		p &^= EmbedLinks | AttachFiles
	}
	return p
}

// sends is the permission to write in c.
func (c *Channel) sends() uint64 {
	if c.kind == kindThread {
		return SendInThreads
	}
	return SendMessages
}

// overwrites are c's own rules as a channel resource lists them.
func (c *Channel) overwrites() []any {
	if c.allow == 0 && c.deny == 0 {
		return []any{}
	}
	return []any{Raw{"id": c.s.self.ID, "type": 1, "allow": bits(c.allow), "deny": bits(c.deny)}}
}

func bits(p uint64) string { return strconv.FormatUint(p, 10) }

// may refuses what the bot lacks the permissions for; the zero answer lets it pass.
func (c *Channel) may(perm uint64) (answer, bool) {
	if c.kind == kindDM {
		return answer{}, true
	}
	p := c.perms()
	switch {
	case c.guild.kicked || p&ViewChannel == 0:
		return refusal(403, 50001, "Missing Access"), false
	case p&perm != perm:
		return refusal(403, 50013, "Missing Permissions"), false
	}
	return answer{}, true
}
