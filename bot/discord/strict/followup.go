package strict

// webhookFor is the interaction of a webhook path: acknowledged, and not over.
func (s *Server) webhookFor(c *call) (*Interaction, answer) {
	i := s.interactionByToken(c.ids[1])
	switch {
	case i == nil || c.ids[0] != s.app:
		return nil, refusal(404, 10015, "Unknown Webhook").because(pageWebhook, "no interaction has this token")
	case i.over():
		return nil, refusal(401, 50027, "Invalid Webhook Token")
	case i.response.Type == 0:
		a := refusal(404, 10015, "Unknown Webhook")
		if i.doubtful || i.late() {
			return nil, a
		}
		return nil, a.because(pageInteractions, "there is no first response yet")
	}
	return i, answer{}
}

// postFollowup adds a message to an interaction. The first after a deferred answer
// takes its place.
func postFollowup(s *Server, c *call) answer {
	i, no := s.webhookFor(c)
	if i == nil {
		return no
	}
	d := readDraft(newForm(c.body.value, pageWebhook), c.body.files, shapeFollowup, nil)
	if d.form.form.bad() {
		return d.form.form.answer()
	}
	if d.empty() {
		return refusal(400, 50006, "Cannot send an empty message").because(pageWebhook, "nothing in it")
	}
	if m := i.original; m != nil && m.flags()&flagLoading != 0 && !m.deleted {
		if d.flags != nil {
			*d.flags &^= flagEphemeral // the first response has settled that
		}
		s.lay(m, d)
		s.changedByBot(m)
		return ok(s.json(m, true))
	}
	m := s.create(i.channel, d, nil, i.marks())
	i.own = append(i.own, m)
	return ok(s.json(m, true))
}

// answerFor is the message that a webhook path names.
func (s *Server) answerFor(c *call) (*Interaction, *stored, answer) {
	i, no := s.webhookFor(c)
	if i == nil {
		return nil, nil, no
	}
	if len(c.ids) < 3 {
		if i.original == nil || i.original.deleted {
			return nil, nil, refusal(404, 10008, "Unknown Message")
		}
		return i, i.original, answer{}
	}
	for _, m := range i.own {
		if m.id() == c.ids[2] && !m.deleted {
			return i, m, answer{}
		}
	}
	return nil, nil, refusal(404, 10008, "Unknown Message")
}

func getAnswer(s *Server, c *call) answer {
	_, m, no := s.answerFor(c)
	if m == nil {
		return no
	}
	return ok(s.json(m, true))
}

func patchAnswer(s *Server, c *call) answer {
	i, m, no := s.answerFor(c)
	if m == nil {
		return no
	}
	a := s.amend(c, m, shapeHookEdit)
	if a.status == 200 && m == i.original {
		i.response.Edited = append(i.response.Edited, text(m.raw["content"]))
	}
	return a
}

func deleteAnswer(s *Server, c *call) answer {
	_, m, no := s.answerFor(c)
	if m == nil {
		return no
	}
	m.deleted = true
	if !m.ephemeral() {
		s.remove(m)
	}
	return done()
}
