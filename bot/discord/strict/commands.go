package strict

import (
	"maps"
	"slices"
)

// Commands are the commands of a guild as they were registered, with their ids; ""
// is the global ones.
func (s *Server) Commands(guild string) []Raw {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Raw
	for _, cmd := range s.commands[guild] {
		out = append(out, plain(cmd).(Raw))
	}
	return out
}

// scope is the guild id of a command path, "" for global ones.
func (s *Server) scope(c *call) (string, answer) {
	if c.ids[0] != s.app {
		return "", refusal(403, 20012, "You are not authorized to perform this action on this application").because(pageCommands, "application %s", c.ids[0])
	}
	if len(c.ids) < 2 {
		return "", answer{}
	}
	g, no := s.guildFor(c.ids[1])
	if g == nil {
		return "", no
	}
	return g.ID, answer{}
}

func getCommands(s *Server, c *call) answer {
	scope, no := s.scope(c)
	if no.status != 0 {
		return no
	}
	return ok(slices.Concat([]Raw{}, s.commands[scope]))
}

// putCommands replaces all commands of a scope; one of the same type and name
// keeps its id.
func putCommands(s *Server, c *call) answer {
	scope, no := s.scope(c)
	if no.status != 0 {
		return no
	}
	f := newForm(c.body.value, pageCommands)
	f.need()
	list := f.list(0, maxSlashCommands+2*maxMenuCommands)
	for _, cmd := range list {
		readCommand(cmd, scope)
	}
	fewAndUnlike(f, list)
	if f.form.bad() {
		return f.form.answer()
	}
	s.stats.CommandWrites++
	var next []Raw
	for _, cmd := range list {
		next = append(next, s.register(cmd.value.(Raw), scope))
	}
	if s.creates[scope] > maxDailyCreates {
		return refusal(400, 30034, "Max number of daily application command creates has been reached (200)").because(pageCommands, "%d creates", s.creates[scope])
	}
	s.commands[scope] = next
	return ok(slices.Concat([]Raw{}, next))
}

// postCommand adds a command, or replaces the one of its type and name.
func postCommand(s *Server, c *call) answer {
	scope, no := s.scope(c)
	if no.status != 0 {
		return no
	}
	f := newForm(c.body.value, pageCommands)
	f.need()
	readCommand(f, scope)
	if f.form.bad() {
		return f.form.answer()
	}
	s.stats.CommandWrites++
	before := len(s.commands[scope])
	cmd := s.register(f.value.(Raw), scope)
	next := slices.DeleteFunc(slices.Clone(s.commands[scope]), func(old Raw) bool { return old["id"] == cmd["id"] })
	next = append(next, cmd)
	s.commands[scope] = next
	if len(next) > before {
		return created(cmd)
	}
	return ok(cmd)
}

// register is a command as it is kept, with what the platform adds.
func (s *Server) register(given Raw, scope string) Raw {
	cmd := Raw{}
	for key, v := range given {
		if v != nil {
			cmd[key] = v
		}
	}
	if whole(cmd["type"]) == 0 {
		cmd["type"] = 1
	}
	maps.Copy(cmd, Raw{"application_id": s.app, "version": s.nextID(), "id": nil})
	if scope != "" {
		cmd["guild_id"] = scope
	}
	for _, old := range s.commands[scope] {
		if old["name"] == cmd["name"] && whole(old["type"]) == whole(cmd["type"]) {
			cmd["id"] = old["id"]
		}
	}
	if cmd["id"] == nil {
		cmd["id"] = s.nextID()
		s.creates[scope]++
	}
	return plain(cmd).(Raw)
}

// fewAndUnlike checks the number of commands of each type, and their names.
func fewAndUnlike(f field, list []field) {
	count := map[int]int{}
	seen := map[string]bool{}
	for _, cmd := range list {
		kind := max(1, whole(cmd.at("type").value))
		count[kind]++
		key := string(rune('0'+kind)) + text(cmd.at("name").value)
		if seen[key] {
			cmd.at("name").refuse("APPLICATION_COMMANDS_DUPLICATE_NAME", "is there twice")
		}
		seen[key] = true
	}
	if count[1] > maxSlashCommands || count[2] > maxMenuCommands || count[3] > maxMenuCommands {
		f.refuse("BASE_TYPE_MAX_LENGTH", "has %d chat, %d user and %d message commands", count[1], count[2], count[3])
	}
}
