package strict

import (
	"net/url"
	"slices"
	"strings"
)

// route is one thing that the bot may ask for.
type route struct {
	method string
	path   string // after /api/v9
	query  string // the keys it may have
	body   bodyKind
	run    func(*Server, *call) answer
}

type bodyKind int

const (
	noBody bodyKind = iota
	jsonBody
	formBody // JSON or multipart
)

// routes are tried in order: fixed segments come before parameters.
var routes = []route{
	{"GET", "/gateway", "", noBody, getGateway},
	{"GET", "/gateway/bot", "", noBody, getGatewayBot},
	{"GET", "/users/@me", "", noBody, getSelf},
	{"POST", "/users/@me/channels", "", jsonBody, postUserChannel},
	{"GET", "/guilds/{id}", "with_counts", noBody, getGuild},
	{"GET", "/guilds/{id}/channels", "", noBody, getGuildChannels},
	{"GET", "/guilds/{id}/threads/active", "", noBody, getActiveThreads},
	{"GET", "/channels/{id}", "", noBody, getChannel},
	{"GET", "/channels/{id}/threads/archived/public", "before limit", noBody, getArchived},
	{"POST", "/channels/{id}/typing", "", noBody, postTyping},
	{"GET", "/channels/{id}/messages", "limit before after around", noBody, getMessages},
	{"POST", "/channels/{id}/messages", "", formBody, postMessage},
	{"GET", "/channels/{id}/messages/{id}", "", noBody, getMessage},
	{"PATCH", "/channels/{id}/messages/{id}", "", formBody, patchMessage},
	{"DELETE", "/channels/{id}/messages/{id}", "", noBody, deleteMessage},
	{"PUT", "/channels/{id}/messages/{id}/reactions/{emoji}/@me", "", noBody, putReaction},
	{"DELETE", "/channels/{id}/messages/{id}/reactions/{emoji}/@me", "", noBody, deleteReaction},
	{"POST", "/interactions/{id}/{token}/callback", "with_response", formBody, postCallback},
	{"POST", "/webhooks/{id}/{token}", "wait with_components", formBody, postFollowup},
	{"GET", "/webhooks/{id}/{token}/messages/@original", "", noBody, getAnswer},
	{"PATCH", "/webhooks/{id}/{token}/messages/@original", "with_components", formBody, patchAnswer},
	{"DELETE", "/webhooks/{id}/{token}/messages/@original", "", noBody, deleteAnswer},
	{"GET", "/webhooks/{id}/{token}/messages/{id}", "", noBody, getAnswer},
	{"PATCH", "/webhooks/{id}/{token}/messages/{id}", "with_components", formBody, patchAnswer},
	{"DELETE", "/webhooks/{id}/{token}/messages/{id}", "", noBody, deleteAnswer},
	{"GET", "/applications/{id}/commands", "with_localizations", noBody, getCommands},
	{"PUT", "/applications/{id}/commands", "", jsonBody, putCommands},
	{"POST", "/applications/{id}/commands", "", jsonBody, postCommand},
	{"GET", "/applications/{id}/guilds/{id}/commands", "with_localizations", noBody, getCommands},
	{"PUT", "/applications/{id}/guilds/{id}/commands", "", jsonBody, putCommands},
	{"POST", "/applications/{id}/guilds/{id}/commands", "", jsonBody, postCommand},
}

// name is how Stats and Limit call a route.
func (r *route) name() string { return r.method + " " + r.path }

// find gives the route of a request and the parameters of its path, in order and
// unescaped once.
func find(method, escaped string) (*route, []string) {
	rest, ok := strings.CutPrefix(escaped, "/api/v9")
	if !ok {
		return nil, nil
	}
	parts := strings.Split(rest, "/")
	for i := range routes {
		r := &routes[i]
		if r.method != method {
			continue
		}
		if found, ok := match(strings.Split(r.path, "/"), parts); ok {
			return r, found
		}
	}
	return nil, nil
}

func match(pattern, parts []string) ([]string, bool) {
	if len(pattern) != len(parts) {
		return nil, false
	}
	var found []string
	for i, p := range pattern {
		part, err := url.PathUnescape(parts[i])
		switch {
		case err != nil:
			return nil, false
		case strings.HasPrefix(p, "{"):
			found = append(found, part)
		case p != part:
			return nil, false
		}
	}
	return found, true
}

// ids are the {id} parameters that are no snowflakes.
func (r *route) badIDs(found []string) []string {
	var bad []string
	n := 0
	for p := range strings.SplitSeq(r.path, "/") {
		if !strings.HasPrefix(p, "{") {
			continue
		}
		if _, good := number(found[n]); p == "{id}" && !good {
			bad = append(bad, found[n])
		}
		n++
	}
	return bad
}

// strange are query keys that the route does not have.
func (r *route) strange(q url.Values) []string {
	var bad []string
	for key := range q {
		if !slices.Contains(strings.Fields(r.query), key) {
			bad = append(bad, key)
		}
	}
	return bad
}
