package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

var (
	soak     = flag.Duration("soak", 0, "how long to chat in many kitchens at once, and measure")
	kitchens = flag.Int("kitchens", 200, "in how many kitchens")
	rate     = flag.Int("rate", 100, "with how many messages a second in all")
)

// TestSoak has many kitchens chat for a while and says how long answers took, as
// the program itself counts, and what memory it used. It is a benchmark: what it
// checks is that everything was answered once, and that memory does not grow.
//
//	go test ./cmd/scullion -run TestSoak -v -soak 10m -timeout 20m
func TestSoak(t *testing.T) {
	if *soak == 0 {
		t.Skip("a benchmark; see -soak")
	}
	c := newChat(t)
	rooms := []*strict.Channel{c.ch}
	for i := 1; i < *kitchens; i++ {
		g := c.srv.Guild(fmt.Sprint("house ", i))
		g.Manager(c.cook[0])
		ch := g.Channel(fmt.Sprint("room ", i))
		if r := c.srv.Slash(c.cook[0], ch, "kitchen", strict.Raw{"name": "open", "type": 1}).Wait(20 * time.Second); !strings.Contains(r.Content, "now the kitchen") {
			t.Fatalf("%+v", r)
		}
		rooms = append(rooms, ch)
	}
	for _, ch := range rooms {
		ch.Say(c.cook[0], "got 500kg leeks, 500kg carrots, 500 litres cream")
	}
	time.Sleep(5 * time.Second)
	before := c.metrics(t)
	r := rand.New(rand.NewPCG(1, 1))
	tick := time.NewTicker(time.Second / time.Duration(*rate))
	defer tick.Stop()
	said, memory := 0, []int{c.memory()}
	for begun, minute := time.Now(), 1; time.Since(begun) < *soak; said++ {
		<-tick.C
		rooms[r.IntN(len(rooms))].Say(c.cook[r.IntN(3)], []string{"used 30g leek in the tart", "used 10g carrots in the soup", "the radio is too loud",
			"need 50ml cream for the soup", "how much cream?", "undo", "used 20ml cream in the pie", "see you at six"}[r.IntN(8)])
		if time.Since(begun) > time.Duration(minute)*(*soak/10) {
			minute++
			memory = append(memory, c.memory())
		}
	}
	for i := 0; c.metrics(t)["scullion_send_queue"]+c.metrics(t)["scullion_waiting_messages"] > 0; i++ {
		if i > 300 {
			t.Fatalf("not all was answered: %v and %v wait\n%s", c.metrics(t)["scullion_send_queue"], c.metrics(t)["scullion_waiting_messages"], tail(c.err.String(), 3000))
		}
		time.Sleep(100 * time.Millisecond)
	}
	after := c.metrics(t)
	t.Logf("%d messages in %v", said, *soak)
	for _, h := range []string{"scullion_settle_seconds", "scullion_answer_seconds", "scullion_overhead_seconds"} {
		n := after[h+"_count"] - before[h+"_count"]
		s := fmt.Sprintf("%s: %.0f, mean %.2f ms", h, n, (after[h+"_sum"]-before[h+"_sum"])/n*1000)
		for _, le := range []string{"0.001", "0.0025", "0.005", "0.01", "0.025", "0.05", "0.1"} {
			key := h + `_bucket{le="` + le + `"}`
			s += fmt.Sprintf(", %.2f%% under %s s", (after[key]-before[key])/n*100, le)
		}
		t.Log(s)
	}
	t.Logf("memory in MiB, ten times: %v", memory)
	if third := len(memory) / 3; memory[len(memory)-1] > memory[third]*5/4 {
		t.Errorf("memory grows: %v", memory)
	}
}

func tail(s string, n int) string { return s[max(0, len(s)-n):] }

// metrics reads what the program counts.
func (c *chat) metrics(t *testing.T) map[string]float64 {
	_, body := get(t, "http://"+c.http+"/metrics")
	m := map[string]float64{}
	for line := range strings.Lines(body) {
		if at := strings.LastIndexByte(strings.TrimSpace(line), ' '); at > 0 && line[0] != '#' {
			m[line[:at]], _ = strconv.ParseFloat(strings.TrimSpace(line[at:]), 64)
		}
	}
	return m
}

// memory is the resident memory of the program, in MiB; 0 where the system does
// not tell.
func (c *chat) memory() int {
	raw, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", c.live.Process.Pid))
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(raw), "VmRSS:")
	kb, _ := strconv.Atoi(strings.Fields(rest + " 0")[0])
	return kb / 1024
}
