package strict

func patchMessage(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	m, known := s.find(ch, c.ids[1])
	switch {
	case m == nil && !known:
		return refusal(404, 10008, "Unknown Message").because(pageMessage, "message %s never was in this channel", c.ids[1])
	case m == nil:
		return refusal(404, 10008, "Unknown Message")
	case m.author != s.self:
		return refusal(403, 50005, "Cannot edit a message authored by another user").because(pageMessage, "message %s is another's", c.ids[1])
	}
	return s.amend(c, m, shapeEdit)
}

// amend changes a message of the bot's own by a request's body.
func (s *Server) amend(c *call, m *stored, how shape) answer {
	d := readDraft(newForm(c.body.value, how.page), c.body.files, how, m)
	if d.form.form.bad() {
		return d.form.form.answer()
	}
	if no, may := m.channel.may(d.wants()); !may {
		return no
	}
	if d.leavesNothing(m) {
		return refusal(400, 50006, "Cannot send an empty message").because(pageMessage, "the edit leaves nothing")
	}
	s.lay(m, d)
	s.changedByBot(m)
	return ok(s.json(m, true))
}

// leavesNothing is whether m would be empty after d.
func (d *draft) leavesNothing(m *stored) bool {
	after := draft{content: d.content, embeds: d.embeds, components: d.components, files: d.files}
	if after.content == nil {
		t := text(m.raw["content"])
		after.content = &t
	}
	if after.embeds == nil {
		after.embeds, _ = m.raw["embeds"].([]any)
	}
	if after.components == nil {
		after.components, _ = m.raw["components"].([]any)
	}
	files := len(m.attachments())
	if d.kept != nil {
		files = len(d.kept)
	}
	return after.empty() && files == 0
}

// changedByBot sends an edit of the bot's. The first content of a deferred answer
// is none.
func (s *Server) changedByBot(m *stored) {
	if m.flags()&flagLoading != 0 {
		m.raw["flags"] = m.flags() &^ flagLoading
		s.emitMessage("MESSAGE_UPDATE", m, nil)
		return
	}
	s.edited(m)
}

func deleteMessage(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	m, _ := s.find(ch, c.ids[1])
	if m == nil {
		return refusal(404, 10008, "Unknown Message")
	}
	if m.author != s.self {
		if _, may := ch.may(ManageMessages); !may || ch.kind == kindDM {
			return refusal(403, 50013, "Missing Permissions").because(pageMessage, "message %s is another's", c.ids[1])
		}
	}
	s.remove(m)
	return done()
}
