package strict

import (
	"fmt"
	"maps"
	"mime"
	"slices"
	"strconv"
	"time"
)

// remembered is a message that a nonce has made.
type remembered struct {
	message *stored
	at      time.Time
}

func postMessage(s *Server, c *call) answer {
	d := readDraft(newForm(c.body.value, pageMessage), c.body.files, shapeSend, nil)
	if d.form.form.bad() {
		return d.form.form.answer()
	}
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	if no, may := ch.may(ch.sends() | d.wants()); !may {
		return no
	}
	if d.empty() {
		return refusal(400, 50006, "Cannot send an empty message").because(pageMessage, "nothing in it")
	}
	if old, ok := s.repeat(d); ok {
		return s.repeated(old, ch, d)
	}
	to, no := s.replyTo(ch, d)
	if no.status != 0 {
		return no
	}
	m := s.create(ch, d, to, Raw{"nonce": d.nonce})
	s.nonces[nonceText(d.nonce)] = remembered{m, time.Now()}
	return ok(s.withNonce(m))
}

// wants are permissions beyond that to write.
func (d *draft) wants() uint64 {
	if len(d.files) > 0 {
		return AttachFiles
	}
	return 0
}

// repeat finds the message that an enforced nonce has already made.
func (s *Server) repeat(d *draft) (*stored, bool) {
	r, known := s.nonces[nonceText(d.nonce)]
	return r.message, d.enforce && known && time.Since(r.at) < s.o.NonceWindow
}

// repeated answers with the earlier message, and makes none.
func (s *Server) repeated(m *stored, ch *Channel, d *draft) answer {
	s.stats.Repeats++
	a := ok(s.withNonce(m))
	if m.channel != ch {
		return a.because(houseRule, "nonce %s was used in another channel", nonceText(d.nonce))
	}
	return a
}

func (s *Server) withNonce(m *stored) Raw {
	r := s.json(m, true)
	maps.Copy(r, nonceOf(m))
	return r
}

// replyTo checks message_reference: nil for a message that answers nothing.
func (s *Server) replyTo(ch *Channel, d *draft) (*stored, answer) {
	f := d.form.at("message_reference")
	if !f.has() {
		return nil, answer{}
	}
	f.object("type", "message_id", "channel_id", "guild_id", "fail_if_not_exists")
	f.at("message_id").need()
	id := f.at("message_id").id()
	f.at("type").of(houseRule).whole(0, 0) // forwards are not served here
	if c := f.at("channel_id"); c.has() && c.id() != ch.ID {
		c.refuse("REPLIES_CANNOT_REFERENCE_OTHER_CHANNEL", "is another channel")
	}
	if g := f.at("guild_id"); g.has() && (ch.guild == nil || g.id() != ch.guild.ID) {
		g.refuse("REPLIES_GUILD", "is another guild")
	}
	strict := f.at("fail_if_not_exists")
	strict.boolean()
	if _, may := ch.may(ReadHistory); !may {
		return nil, refusal(403, 160002, "Cannot reply without permission to read message history")
	}
	to, known := s.find(ch, id)
	switch {
	case to != nil && system(to):
		f.refuse("REPLIES_CANNOT_REPLY_TO_SYSTEM_MESSAGE", "is a system message")
	case to == nil && !known:
		f.refuse("REPLIES_UNKNOWN_MESSAGE", "names a message that never was in this channel")
	}
	if f.form.bad() {
		return nil, f.form.answer()
	}
	if to == nil && strict.value != false {
		f.refuse("REPLIES_UNKNOWN_MESSAGE", "Unknown message")
		a := f.form.answer()
		a.blame = nil // it was deleted meanwhile
		return nil, a
	}
	return to, answer{}
}

// find gives a standing message of the channel; known is whether there ever was one.
func (s *Server) find(ch *Channel, id string) (m *stored, known bool) {
	m = s.kept[id]
	if m == nil || m.channel != ch {
		return nil, false
	}
	if m.deleted || m.ephemeral() {
		return nil, true
	}
	return m, true
}

// system is whether m is none that people or applications write.
func system(m *stored) bool {
	return !slices.Contains([]int{typeDefault, typeReply, typeCommand, 23}, whole(m.raw["type"]))
}

// create makes the bot's message and sends its event.
func (s *Server) create(ch *Channel, d *draft, to *stored, extra Raw) *stored {
	raw := s.blank(ch)
	raw["author"] = plain(s.self)
	maps.Copy(raw, extra)
	m := &stored{raw: raw, channel: ch, author: s.self}
	if to != nil {
		raw["type"] = typeReply
		raw["message_reference"] = Raw{"type": 0, "message_id": to.id(), "channel_id": ch.ID}
		if ch.guild != nil {
			raw["message_reference"].(Raw)["guild_id"] = ch.guild.ID
		}
	}
	s.lay(m, d)
	s.keep(m)
	s.stats.Creates++
	s.emitMessage("MESSAGE_CREATE", m, nonceOf(m))
	return m
}

// lay puts what a draft gives on a message.
func (s *Server) lay(m *stored, d *draft) {
	if d.content != nil {
		m.raw["content"] = *d.content
	}
	if d.embeds != nil {
		m.raw["embeds"] = d.embeds
	}
	if d.components != nil {
		m.raw["components"] = d.components
	}
	if d.flags != nil {
		m.raw["flags"] = m.flags()&(flagEphemeral|flagLoading) | *d.flags
	}
	s.layFiles(m, d)
	var answered *User
	if to := s.messageByID(m.ref()); to != nil {
		answered = to.author
	}
	pings := d.allowed.pings(d.words(), answered)
	s.mention(m, slices.DeleteFunc(slices.Clone(pings), func(id string) bool { return s.userByID(id) == nil }))
	m.pinged = pings
	m.raw["mention_everyone"] = slices.Contains(pings, "@everyone")
}

// layFiles adds the draft's files, and drops attachments that it does not keep.
func (s *Server) layFiles(m *stored, d *draft) {
	list, _ := m.raw["attachments"].([]any)
	var kept []any
	var files []File
	for i, v := range list {
		a, _ := v.(Raw)
		if d.kept == nil || slices.Contains(d.kept, text(a["id"])) {
			kept = append(kept, v)
			if i < len(m.files) {
				files = append(files, m.files[i])
			}
		}
	}
	for _, u := range d.files {
		id, alt := s.nextID(), d.texts[strconv.Itoa(u.n)]
		where := fmt.Sprintf("%s/attachments/%s/%s/%s?ex=%x", s.URL(), m.channel.ID, id, u.name, time.Now().Add(24*time.Hour).Unix())
		a := Raw{"id": id, "filename": u.name, "size": len(u.data), "url": where, "proxy_url": where,
			"content_type": mime.TypeByExtension("." + extension(u.name))}
		if alt != "" {
			a["description"] = alt
		}
		kept = append(kept, a)
		files = append(files, File{Name: u.name, Data: u.data, Description: alt})
	}
	if kept == nil {
		kept = []any{}
	}
	m.raw["attachments"], m.files = kept, files
}
