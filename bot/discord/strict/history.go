package strict

import (
	"cmp"
	"slices"
	"strconv"
)

// getMessages is a page of a channel's history, newest first: the newest messages,
// those just before an id, just after one, or around it. Without permission to read
// history the page is empty (Discord API docs, message resource).
func getMessages(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], 0)
	if ch == nil {
		return no
	}
	f := newForm(Raw{}, pageMessage)
	key, cursor, size := pageOf(f, c)
	if f.form.bad() {
		return f.form.answer()
	}
	if _, may := ch.may(ReadHistory); !may {
		return ok([]any{})
	}
	page := []any{}
	for _, m := range slices.Backward(cutPage(ch.history(), key, cursor, size)) {
		page = append(page, s.json(m, !s.o.NoContent))
	}
	return ok(page)
}

// pageOf reads the query.
func pageOf(f field, c *call) (key string, cursor uint64, size int) {
	size = defaultPage
	if given, ok := c.query["limit"]; ok {
		n, err := strconv.Atoi(given[0])
		if err != nil || n < 1 || n > maxPage {
			f.at("limit").refuse("NUMBER_TYPE_BOUNDS", "is %q, not 1 to %d", given[0], maxPage)
		}
		size = n
	}
	for _, k := range []string{"before", "after", "around"} {
		given, has := c.query[k]
		if !has {
			continue
		}
		if key != "" {
			f.at(k).refuse("BASE_TYPE_FORBIDDEN", "goes not with %s", key)
		}
		n, good := number(given[0])
		if !good {
			f.at(k).refuse("NUMBER_TYPE_COERCE", "is not a snowflake")
		}
		key, cursor = k, n
	}
	return key, cursor, size
}

// history is what stands in the channel, by id.
func (c *Channel) history() []*stored {
	var list []*stored
	for _, m := range c.messages {
		if !m.deleted && !m.ephemeral() {
			list = append(list, m)
		}
	}
	slices.SortStableFunc(list, func(a, b *stored) int { return cmp.Compare(a.number(), b.number()) })
	return list
}

func (m *stored) number() uint64 {
	n, _ := number(m.id())
	return n
}

// cutPage takes at most size messages from list, which is in order of id.
func cutPage(list []*stored, key string, cursor uint64, size int) []*stored {
	from := 0
	at, found := slices.BinarySearchFunc(list, cursor, func(m *stored, n uint64) int { return cmp.Compare(m.number(), n) })
	switch key {
	case "after":
		if found {
			at++
		}
		return list[at:min(len(list), at+size)]
	case "before":
		list = list[:at]
		from = len(list) - size
	case "around":
		from = at - size/2
		list = list[:min(len(list), max(0, from)+size)]
	default:
		from = len(list) - size
	}
	return list[max(0, from):]
}

func getMessage(s *Server, c *call) answer {
	ch, no := s.channelFor(c.ids[0], ReadHistory)
	if ch == nil {
		return no
	}
	m := s.messageByID(c.ids[1])
	if m == nil || m.channel != ch || m.ephemeral() {
		return refusal(404, 10008, "Unknown Message")
	}
	return ok(s.json(m, !s.o.NoContent))
}
