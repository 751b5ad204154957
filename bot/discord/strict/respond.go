package strict

import "encoding/json"

// Response types (Discord API docs, receiving and responding).
const (
	sayMessage  = 4
	sayLater    = 5
	updateLater = 6
	update      = 7
	offer       = 8
)

// answers are the response types that an interaction may have. Modals are not
// served here.
var answers = map[int][]int{
	askCommand:   {sayMessage, sayLater},
	askComponent: {sayMessage, sayLater, updateLater, update},
	askComplete:  {offer},
}

// postCallback takes the first response: once, and within three seconds.
func postCallback(s *Server, c *call) answer {
	i := s.interactionByToken(c.ids[1])
	switch {
	case i == nil || i.ID != c.ids[0]:
		return refusal(404, 10062, "Unknown interaction").because(pageInteractions, "no interaction has this id and token")
	case i.response.Type != 0:
		a := refusal(400, 40060, "Interaction has already been acknowledged.")
		if i.doubtful {
			return a // a second try, since the answer to the first was lost
		}
		return a.because(pageInteractions, "a second first response (40060)")
	case i.late() || i.over():
		return refusal(404, 10062, "Unknown interaction")
	}
	f := newForm(c.body.value, pageInteractions)
	f.object("type", "data")
	f.at("type").need()
	kind := int(f.at("type").whole(1, 12))
	if !allows(answers[i.kind], kind) {
		f.at("type").refuse("BASE_TYPE_CHOICES", "is %d, where one of %v answers", kind, answers[i.kind])
	}
	if f.form.bad() {
		return f.form.answer()
	}
	if a := i.take(c, kind, f.at("data")); a.status != 0 {
		return a
	}
	i.doubtful = i.doubtful || c.faulty
	if c.query.Get("with_response") != "true" {
		return done()
	}
	r := Raw{"interaction": Raw{"id": i.ID, "type": i.kind, "response_message_id": nil}, "resource": Raw{"type": kind}}
	if i.original != nil {
		r["interaction"].(Raw)["response_message_id"] = i.original.id()
		r["resource"].(Raw)["message"] = s.json(i.original, true)
	}
	return ok(r)
}

func allows(list []int, n int) bool {
	for _, v := range list {
		if v == n {
			return true
		}
	}
	return false
}

// take makes what the response says; a status is a refusal.
func (i *Interaction) take(c *call, kind int, data field) answer {
	switch kind {
	case sayMessage:
		return i.say(c, data)
	case sayLater:
		data.object("flags")
		if n := data.at("flags").whole(0, 1<<30); n&^flagEphemeral != 0 {
			data.at("flags").refuse("FLAGS", "sets bits %d, where only EPHEMERAL may be set", n)
		}
	case updateLater:
		data.none("goes not with a deferred update")
	case update:
		if data.has() {
			c.body.value = data.value
			if a := i.s.update(c, i.source); a.status != 200 {
				return a
			}
		}
	case offer:
		i.response.Choices = readChoices(data, i.focused)
	}
	if data.form.bad() {
		i.response.Choices = nil
		return data.form.answer()
	}
	i.response.Type = kind
	switch kind {
	case sayLater:
		flags := int(data.at("flags").whole(0, 1<<30)) | flagLoading
		i.keep(i.s.create(i.channel, &draft{flags: &flags, allowed: mentions{given: true}}, nil, i.marks()))
	case updateLater, update:
		i.original = i.source
	}
	return answer{}
}

// say is response type 4: a new message.
func (i *Interaction) say(c *call, data field) answer {
	data.need()
	d := readDraft(data, c.body.files, shapeAnswer, nil)
	if data.form.bad() {
		return data.form.answer()
	}
	if d.empty() {
		return refusal(400, 50006, "Cannot send an empty message").because(pageInteractions, "nothing in it")
	}
	i.response.Type = sayMessage
	i.keep(i.s.create(i.channel, d, nil, i.marks()))
	return answer{}
}

// update lays a response on the message whose component was pressed.
func (s *Server) update(c *call, m *stored) answer {
	if m.deleted {
		return refusal(404, 10008, "Unknown Message")
	}
	return s.amend(c, m, shapeUpdate)
}

// keep notes a message of the bot's as what @original names.
func (i *Interaction) keep(m *stored) {
	i.original = m
	i.own = append(i.own, m)
	i.response.Ephemeral = m.ephemeral()
}

// marks are what tells an interaction's message from others. What type an answer
// to a component has is not in the docs; it is taken for a plain one.
func (i *Interaction) marks() Raw {
	r := Raw{"webhook_id": i.s.app, "application_id": i.s.app,
		"interaction_metadata": Raw{"id": i.ID, "type": i.kind, "authorizing_integration_owners": Raw{}}}
	if i.kind == askCommand {
		r["type"] = typeCommand
	}
	return r
}

// readChoices checks what autocomplete offers; values have the option's type.
func readChoices(data field, kind int) []Choice {
	data.object("choices")
	data.at("choices").need()
	var out []Choice
	for _, c := range data.at("choices").list(0, maxChoices) {
		out = append(out, readChoice(c, kind))
	}
	return out
}

func readChoice(c field, kind int) Choice {
	c.object("name", "name_localizations", "value")
	c.at("name").need()
	c.at("value").need()
	name, v := c.at("name").text(1, maxChoiceName), c.at("value")
	locales(c.at("name_localizations"), func(f field) { f.text(1, maxChoiceName) })
	switch kind {
	case optString:
		v.text(1, maxChoiceString)
	case optInteger:
		v.whole(-maxWhole, maxWhole)
	default:
		v.number()
		if n, ok := v.value.(json.Number); ok {
			return Choice{name, n}
		}
	}
	return Choice{name, v.value}
}

func (s *Server) interactionByToken(token string) *Interaction {
	for _, i := range s.interactions {
		if i.Token == token {
			return i
		}
	}
	return nil
}
