package strict

import (
	"regexp"
	"slices"
	"strings"
)

var (
	userMention = regexp.MustCompile(`<@!?(\d+)>`)
	roleMention = regexp.MustCompile(`<@&(\d+)>`)
)

// mentions is allowed_mentions.
type mentions struct {
	given   bool
	parse   []string
	users   []string
	roles   []string
	replied *bool
	hook    bool
}

// readMentions checks allowed_mentions; that it is there is the house's rule.
func readMentions(f field, how shape) mentions {
	m := mentions{given: f.has(), hook: how.hook}
	if !f.has() {
		f.of(houseRule).refuse("MENTIONS", "is required on every send and edit")
		return m
	}
	f = f.of(pageMessage)
	f.object("parse", "users", "roles", "replied_user")
	for _, p := range f.at("parse").list(0, 3) {
		kind := p.text(1, 10)
		if !slices.Contains([]string{"users", "roles", "everyone"}, kind) {
			p.refuse("BASE_TYPE_CHOICES", "is %q, not users, roles or everyone", kind)
		}
		m.parse = append(m.parse, kind)
	}
	for key, ids := range map[string]*[]string{"users": &m.users, "roles": &m.roles} {
		for _, id := range f.at(key).list(0, maxAllowedIDs) {
			*ids = append(*ids, id.id())
		}
		if len(*ids) > 0 && slices.Contains(m.parse, key) {
			f.at(key).refuse("MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE", "excludes %q in parse", key)
		}
	}
	if !f.at("parse").has() && len(m.users)+len(m.roles) == 0 {
		f.at("parse").of(houseRule).refuse("MENTIONS", "is required where no ids are listed")
	}
	if r := f.at("replied_user"); r.has() {
		v := r.boolean()
		m.replied = &v
	}
	return m
}

// pings are whom a text and an answer to someone would reach: ids of users, role
// ids with "&", "@everyone".
func (m mentions) pings(text string, answered *User) []string {
	var out []string
	for _, id := range mentioned(text) {
		if m.allows("users", id, m.users) {
			out = append(out, id)
		}
	}
	for _, found := range roleMention.FindAllStringSubmatch(text, -1) {
		if m.allows("roles", found[1], m.roles) {
			out = append(out, "&"+found[1])
		}
	}
	if (strings.Contains(text, "@everyone") || strings.Contains(text, "@here")) && m.allows("everyone", "", nil) {
		out = append(out, "@everyone")
	}
	if answered != nil && (m.replied != nil && *m.replied || !m.given) && !slices.Contains(out, answered.ID) {
		out = append(out, answered.ID)
	}
	return out
}

// allows goes by parse and the lists; without allowed_mentions everyone is pinged
// by a message, and users are by an interaction's.
func (m mentions) allows(kind, id string, listed []string) bool {
	if !m.given {
		return kind == "users" || !m.hook
	}
	return slices.Contains(m.parse, kind) || slices.Contains(listed, id)
}

// mentioned are the ids of the users that a text names, once each.
func mentioned(text string) []string {
	var ids []string
	for _, found := range userMention.FindAllStringSubmatch(text, -1) {
		if !slices.Contains(ids, found[1]) {
			ids = append(ids, found[1])
		}
	}
	return ids
}
