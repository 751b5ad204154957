package strict

import (
	"maps"
	"slices"
	"strings"
	"time"
)

// Stats counts what clients did.
type Stats struct {
	Connections int // to the gateway
	ResumeURL   int // of these, on the path that READY names
	Identifies  int
	Resumes     int // asked for
	Resumed     int // granted
	Heartbeats  int
	CloseCodes  []int // received from clients

	Requests      map[string]int // "POST /channels/{id}/messages": how often
	Status        map[int]int    // answers by status, faults too
	PeakSecond    int            // most requests within a second
	Creates       int            // messages made for the bot
	Repeats       int            // sends answered with the message of the same nonce
	Reactions     int            // put by the bot
	CommandWrites int            // PUT and POST of commands
}

// Stats are the counts so far.
func (s *Server) Stats() Stats {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := s.stats
	out.CloseCodes = slices.Clone(out.CloseCodes)
	out.Requests, out.Status = maps.Clone(out.Requests), maps.Clone(out.Status)
	return out
}

// counted notes a request.
func (s *Server) counted(c *call) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.heeds(c)
	s.stats.Requests[c.name()]++
	for len(s.recent) > 0 && c.arrived.Sub(s.recent[0]) > time.Second {
		s.recent = s.recent[1:]
	}
	s.recent = append(s.recent, c.arrived)
	s.stats.PeakSecond = max(s.stats.PeakSecond, len(s.recent))
}

// Violations are all that was wrong so far, expected or not.
func (s *Server) Violations() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.violations)
}

// Allow says that this test expects violations that contain the substring.
func (s *Server) Allow(substring string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.allowed = append(s.allowed, substring)
}

// report makes each violation that nobody expected an error of the test, the same
// one once.
func (s *Server) report() {
	s.t.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	count := map[string]int{}
	for _, v := range s.violations {
		expected := slices.ContainsFunc(s.allowed, func(part string) bool { return strings.Contains(v, part) })
		if !expected {
			count[v]++
		}
	}
	for _, v := range slices.Sorted(maps.Keys(count)) {
		s.t.Errorf("violation, %d times: %s", count[v], v)
	}
}
