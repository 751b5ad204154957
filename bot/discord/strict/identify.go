package strict

import (
	"encoding/json"
	"strings"
	"time"
)

// identify answers IDENTIFY: by the script, with a close code, with op9, or with
// READY.
func (c *conn) identify(f field) {
	s := c.s
	s.stats.Identifies++
	if c.session != nil {
		c.wrong(closeTwice, "IDENTIFY twice on one connection")
		return
	}
	if c.scripted() {
		return
	}
	f.object("token", "properties", "compress", "large_threshold", "shard", "presence", "intents")
	if !rightToken(f.at("token").text(1, 200)) {
		c.wrong(closeToken, "IDENTIFY with another token")
		return
	}
	properties(f.at("properties"))
	f.at("compress").boolean()
	f.at("large_threshold").whole(minLargeGuild, maxLargeGuild)
	shard := f.at("shard")
	for _, n := range shard.list(2, 2) {
		n.whole(0, 1<<20)
	}
	intents := int(f.at("intents").whole(0, 1<<30))
	if f.form.bad() {
		for _, text := range f.form.answer().blame {
			s.blame("gateway: IDENTIFY: %s", text)
		}
		c.leave(closeDecode)
		return
	}
	if c.allowed(intents, f.at("intents").has(), shard.value) && s.inTime(c) {
		s.newSession(c, intents).start(shard.value)
	}
}

// properties wants the three names, with the old dollar sign or without.
func properties(f field) {
	if !f.need() {
		return
	}
	o, _ := f.value.(Raw)
	for _, key := range []string{"os", "browser", "device"} {
		if o[key] == nil && o["$"+key] == nil {
			f.at(key).need()
		}
	}
}

func rightToken(t string) bool { return t == Token || t == "Bot "+Token }

// allowed checks intents and shard, and closes when they may not be.
func (c *conn) allowed(intents int, given bool, shard any) bool {
	s := c.s
	if list, _ := shard.([]any); shard != nil && (whole(list[0]) != 0 || whole(list[1]) != 1) {
		c.wrong(closeShard, "IDENTIFY for shard %v of a bot with one", shard)
		return false
	}
	privileged := intentMembers | intentPresences
	if s.o.NoContent {
		privileged |= intentContent
	}
	switch {
	case !given || intents&^intentsAll != 0:
		c.wrong(closeIntents, "IDENTIFY with intents %d", intents)
		return false
	case intents&privileged != 0:
		c.wrong(closeDisallowed, "IDENTIFY with intents %d, where %d are not granted", intents, intents&privileged)
		return false
	}
	if s.o.Intents != 0 && intents != s.o.Intents {
		s.blame("gateway: IDENTIFY with intents %d, not %d (%s)", intents, s.o.Intents, houseRule)
	}
	return true
}

// inTime answers an IDENTIFY that comes too soon after the last with op9, and
// counts those of a day.
func (s *Server) inTime(c *conn) bool {
	soon := time.Since(s.identified) < s.o.IdentifySpacing
	s.identified = time.Now()
	s.identifies++
	if s.identifies > maxIdentifies {
		c.wrong(closeToken, "more than %d IDENTIFYs", maxIdentifies)
		return false
	}
	if soon {
		c.send(opInvalid, false)
	}
	return !soon
}

// tryResume answers RESUME: by the script, with a close code, with op9, or with
// what was missed.
func (c *conn) tryResume(f field) {
	s := c.s
	s.stats.Resumes++
	if c.session != nil {
		c.wrong(closeTwice, "RESUME on a connection that is identified")
		return
	}
	if c.scripted() {
		return
	}
	f.object("token", "session_id", "seq")
	token, id, seq := f.at("token").text(1, 200), f.at("session_id").text(1, 200), int(f.at("seq").whole(0, 1<<40))
	c.claimed = seq
	one := s.sessionByID(id)
	switch {
	case !rightToken(token):
		c.wrong(closeToken, "RESUME with another token")
	case f.form.bad():
		c.wrong(closeDecode, "RESUME: %s", strings.Join(f.form.answer().blame, "; "))
	case one == nil:
		c.send(opInvalid, false)
	case seq > one.seq:
		one.dead = true
		c.wrong(closeSeq, "RESUME from s %d, where %d was the last", seq, one.seq)
	default:
		one.resume(c, seq)
	}
}

// scripted plays the part of the script that comes in place of READY or RESUMED.
func (c *conn) scripted() bool {
	code, isClose := strings.CutPrefix(c.script, "close:")
	switch {
	case isClose:
		c.leave(whole(json.Number(code)))
	case c.script == "op7-instead-of-ready":
		c.send(opReconnect, nil)
	case c.script == "op11-instead-of-ready":
		c.send(opAck, nil)
	case c.script == "op9":
		c.send(opInvalid, false)
	}
	return c.script != ""
}
