package strict

import (
	"crypto/rand"
	"encoding/json"
	"slices"
	"time"
)

// Interaction types (Discord API docs, receiving and responding).
const (
	askCommand   = 2
	askComponent = 3
	askComplete  = 4
)

// Interaction is one press, command or completion, and what came of it.
type Interaction struct {
	ID    string
	Token string

	s        *Server
	kind     int
	channel  *Channel
	focused  int     // the type of the option that is typed in
	source   *stored // the message whose component was pressed
	at       time.Time
	doubtful bool // its answer's sender may not know that it counted

	response Response
	original *stored // what @original names
	own      []*stored
}

// Response is what the bot has answered so far.
type Response struct {
	Type       int    // of the first response; 0: none
	Content    string // as it stands after edits
	Ephemeral  bool
	Components json.RawMessage
	Choices    []Choice
	Message    *Message   // what @original names, as it stands
	Edited     []string   // its content after each edit, a deferred answer's first one too
	Followups  []*Message // as they stand
}

// Choice is what autocomplete offers: a string, or a number as json.Number.
type Choice struct {
	Name  string
	Value any
}

// ask sends an interaction; interactions need no intent.
func (s *Server) ask(i *Interaction, u *User, data Raw) *Interaction {
	i.s, i.ID, i.Token, i.at = s, s.nextID(), "aW50ZXJhY3Rpb246"+rand.Text(), time.Now()
	s.interactions = append(s.interactions, i)
	s.post(dispatch{kind: "INTERACTION_CREATE", full: encode(i.json(u, data))})
	return i
}

func (i *Interaction) json(u *User, data Raw) Raw {
	c := i.channel
	r := Raw{"id": i.ID, "application_id": i.s.app, "type": i.kind, "token": i.Token, "version": 1, "channel_id": c.ID,
		"channel": c.json(), "locale": "en-GB", "app_permissions": bits(c.perms()), "entitlements": []any{},
		"attachment_size_limit": maxFile, "authorizing_integration_owners": Raw{}, "context": 1, "data": data}
	key, who := c.invoker(u)
	r[key] = who
	if c.guild != nil {
		r["guild_id"], r["guild_locale"], r["context"] = c.guild.ID, "en-GB", 0
		r["guild"] = Raw{"id": c.guild.ID, "locale": "en-GB", "features": []any{}}
		r["authorizing_integration_owners"] = Raw{"0": c.guild.ID}
	} else {
		r["app_permissions"] = bits(everyone)
	}
	if i.source != nil {
		r["message"] = i.s.json(i.source, true)
	}
	return r
}

// Answered is whether the first response has come.
func (i *Interaction) Answered() bool {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.response.Type != 0
}

// Wait gives what the bot answered, as soon as there is something to see: a
// deferred answer is waited for. After d it gives what there is; Type 0 is nothing.
func (i *Interaction) Wait(d time.Duration) Response {
	i.s.wait(d, func() bool {
		return i.response.Type != 0 && (i.original == nil || i.original.flags()&flagLoading == 0)
	})
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	return i.seen()
}

// seen is the response with its messages as they stand.
func (i *Interaction) seen() Response {
	r := i.response
	r.Choices, r.Edited, r.Followups = slices.Clone(r.Choices), slices.Clone(r.Edited), nil
	if i.original != nil && !i.original.deleted {
		r.Message = i.original.snapshot()
		r.Content, r.Components = r.Message.Content, r.Message.Components
	}
	for _, m := range i.own {
		if m != i.original && !m.deleted {
			r.Followups = append(r.Followups, m.snapshot())
		}
	}
	return r
}

// Expire makes the interaction as old as its token lives: 15 minutes.
func (i *Interaction) Expire() {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	i.at = i.at.Add(-tokenLife * time.Minute)
}

// late is whether no first response is taken any more.
func (i *Interaction) late() bool {
	return i.response.Type == 0 && time.Since(i.at) > firstResponse*time.Second
}

func (i *Interaction) over() bool { return time.Since(i.at) > tokenLife*time.Minute }
