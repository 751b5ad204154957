package strict

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWrongPages(t *testing.T) {
	for query, says := range map[string]string{
		"limit=0": "limit", "limit=101": "limit", "limit=x": "limit", "before=x": "not a snowflake",
		"before=1&after=1": "goes not with", "after=1&around=1": "goes not with",
	} {
		s := watched(t, Options{})
		c := galley(s)
		ask(t, s, "GET", "/channels/"+c.ID+"/messages?"+query, nil).want(t, 400, 50035)
		if said := strings.Join(s.Violations(), "\n"); !strings.Contains(said, says) {
			t.Errorf("%s: violations %q", query, said)
		}
	}
}

// Pages must be what the docs say of each key, whatever the ids.
func TestPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.SliceOfNDistinct(rapid.Uint64Range(1, 300), 0, 150, rapid.ID).Draw(t, "ids")
		cursor := rapid.Uint64Range(0, 301).Draw(t, "cursor")
		size := rapid.IntRange(1, 100).Draw(t, "size")
		key := rapid.SampledFrom([]string{"", "before", "after", "around"}).Draw(t, "key")
		c := &Channel{}
		for _, id := range ids {
			c.messages = append(c.messages, &stored{raw: Raw{"id": strconv.FormatUint(id, 10)}})
		}
		var got []uint64
		for _, m := range cutPage(c.history(), key, cursor, size) {
			got = append(got, m.number())
		}
		sorted := slices.Sorted(slices.Values(ids))
		below := slices.DeleteFunc(slices.Clone(sorted), func(id uint64) bool { return id >= cursor })
		above := slices.DeleteFunc(slices.Clone(sorted), func(id uint64) bool { return id <= cursor })
		last := func(list []uint64) []uint64 { return list[max(0, len(list)-size):] }
		switch key {
		case "":
			if !slices.Equal(got, last(sorted)) {
				t.Fatalf("the newest: %v", got)
			}
		case "before":
			if !slices.Equal(got, last(below)) {
				t.Fatalf("before: %v", got)
			}
		case "after":
			if !slices.Equal(got, above[:min(size, len(above))]) {
				t.Fatalf("after: %v", got)
			}
		case "around":
			if !slices.IsSorted(got) || len(got) > size || slices.Contains(sorted, cursor) && !slices.Contains(got, cursor) {
				t.Fatalf("around: %v", got)
			}
		}
	})
}

func TestHistory(t *testing.T) {
	s := New(t, Options{})
	c := galley(s)
	stove := s.User("stove")
	var all []*Message
	for i := range 120 {
		all = append(all, c.Say(stove, fmt.Sprint("leek ", i)))
	}
	s.Delete(all[110])
	page := func(query string) []string {
		var texts []string
		for _, v := range ask(t, s, "GET", "/channels/"+c.ID+"/messages"+query, nil).want(t, 200, 0).list(t) {
			texts = append(texts, text(v.(Raw)["content"]))
		}
		return texts
	}
	if p := page(""); len(p) != defaultPage || p[0] != "leek 119" || slices.Contains(p, "leek 110") {
		t.Errorf("the newest are %q", p)
	}
	if p := page("?limit=3&after=" + all[9].ID); strings.Join(p, ",") != "leek 12,leek 11,leek 10" {
		t.Errorf("after: %q", p)
	}
	if p := page("?limit=2&before=" + all[2].ID); strings.Join(p, ",") != "leek 1,leek 0" {
		t.Errorf("before: %q", p)
	}
	ask(t, s, "GET", "/channels/"+c.ID+"/messages/"+all[0].ID, nil).want(t, 200, 0)
	ask(t, s, "GET", "/channels/"+c.ID+"/messages/"+all[110].ID, nil).want(t, 404, 10008)
	sharing := 0
	for i, m := range all[1:] {
		a, _ := number(all[i].ID)
		b, _ := number(m.ID)
		if b <= a {
			t.Fatalf("id %d after %d", b, a)
		}
		if b>>22 == a>>22 {
			sharing++
		}
	}
	if sharing == 0 {
		t.Error("no two messages share a millisecond")
	}
}

func TestBlankContent(t *testing.T) {
	s := New(t, Options{NoContent: true})
	c := galley(s)
	stove := s.User("stove")
	c.Say(stove, "used 2 leeks")
	c.Say(stove, "<@"+s.Self().ID+"> used 2 leeks")
	ask(t, s, "POST", "/channels/"+c.ID+"/messages", note(nil)).want(t, 200, 0)
	c.Reply(stove, c.Messages()[2], "no, 3")
	s.DM(stove).Say(stove, "used 2 leeks")
	var texts []string
	for _, v := range ask(t, s, "GET", "/channels/"+c.ID+"/messages", nil).list(t) {
		texts = append(texts, text(v.(Raw)["content"]))
	}
	if want := []string{"no, 3", "Leek 300 g into the tart.", "<@" + s.Self().ID + "> used 2 leeks", ""}; !slices.Equal(texts, want) {
		t.Errorf("got %q", texts)
	}
	if l := ask(t, s, "GET", "/channels/"+s.DM(stove).ID+"/messages", nil).list(t); text(l[0].(Raw)["content"]) != "used 2 leeks" {
		t.Errorf("direct messages are blank: %v", l)
	}
}
