package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// A probe that was told to read wrong: what it shows after that clears nothing that is not further from the line than that.

var (
	probeOutSaid = regexp.MustCompile(`(?i)^\s*(?:fyi |note:? |btw |careful |heads up |chef )*(?:the |our |my |that |this )?(?:[a-z]+ )?(?:probe|thermometer|temp gun)s?(?: (?:is|was|are|has|been|reading|reads|running|gone|seems?|looks?)|'s|s)* (?:out|off|over|under|high|low|wrong|inaccurate|broken|bust|busted|dead|knackered|on the blink|not right|playing up|too high|too low)(?: by)?(?: about| around)?(?: (\d{1,2})(?:\.\d)? ?(c|f|degrees?(?: c| f)?|deg|°c|°f|°)?)?(?: (?:too )?(?:high|low))?[\s.!]*$`)
	probeMended  = regexp.MustCompile(`(?i)^\s*(?:(?:got |using |its )?(?:a |the )?new (?:probe|thermometer)|(?:the |our )?(?:probe|thermometer)s? (?:is |was |has been |are |been |now )*(?:ok|fine|fixed|calibrated|recalibrated|working|good|spot on|replaced|reset|sorted|right)(?: again| now)*)[\s.!]*$`)
	probeHint    = regexp.MustCompile(`(?i)\b(?:probe|thermometer|temp gun)s?\b`)
)

// probeOutAt gives by how many degrees C a probe was told to be out at a time, at least 1, and by which message; nil it was not.
func (t *turn) probeOutAt(at time.Time) (by int, m *pantry.Message) {
	told, err := t.doubts()
	if err != nil {
		return 0, nil
	}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.Gone || d.Told.At.After(at) || !probeHint.MatchString(d.Told.Text) {
			continue
		}
		if at.Sub(d.Told.At) > mostKept || probeMended.MatchString(d.Told.Text) {
			return 0, nil
		}
		if s := probeOutSaid.FindStringSubmatch(d.Told.Text); s != nil {
			return t.probeBy(s), d.Told
		}
	}
	return 0, nil
}

func (t *turn) probeBy(s []string) int {
	n, _ := strconv.Atoi(s[1])
	if strings.Contains(strings.ToLower(s[2]), "f") || t.country() == "US" && !strings.Contains(strings.ToLower(s[2]), "c") {
		n = (n*5 + 8) / 9
	}
	return max(n, 1)
}

// byProbe is a reading's degrees as bad as a probe that was told to be out allows.
func (t *turn) byProbe(r reading) reading {
	by, m := t.probeOutAt(r.said.At)
	if m == nil {
		return r
	}
	q := *r.why
	switch {
	case q.N >= t.limits().hot:
		q.N -= by
	case q.N <= t.limits().cold:
		q.N += by
	}
	r.why = &q
	return r
}

// probeTalk answers that a probe is out, or right again.
func (t *turn) probeTalk() (r Reply, done bool, err error) {
	switch s := probeOutSaid.FindStringSubmatch(t.m.Text); {
	case s != nil:
		by := "It clears nothing"
		if s[1] != "" {
			by = fmt.Sprintf("By it food is cooked or hot enough at %d C more, and cold enough at %[1]d C less", t.probeBy(s))
		}
		return Reply{Kind: Answer, Text: by + ", until it is told to be right: check it in melting ice (0 C) and boiling water (100 C), within 1 C (common practice), or take another." + ownRules}, true, nil
	case probeMended.MatchString(t.m.Text):
		if _, m := t.probeOutAt(t.m.At); m != nil {
			return Reply{Kind: Answer, Text: fmt.Sprintf("Probe right again. What was probed since %q at %s is probed anew.", m.Text, m.At.In(t.m.At.Location()).Format("15:04"))}, true, nil
		}
	}
	return r, false, nil
}

// mindProbe adds to the answer to a reading that the probe was told to be out; what clears food by less than that does not.
func (t *turn) mindProbe(r Reply) Reply {
	if r.Kind != Silent && r.Kind != Answer || t.m.Delete || t.m.Press != nil || !strings.ContainsAny(t.m.Text, digits) {
		return r
	}
	by, m := t.probeOutAt(t.m.At)
	if m == nil {
		return r
	}
	q, _ := t.hazardIn(t.m.Text)
	if q == nil || q.About != aboutReading && q.About != language.AboutHeldAt && q.About != language.AboutCameWarm {
		return r
	}
	said := fmt.Sprintf("The probe was told to be out (%q at %s): ", m.Text, m.At.In(t.m.At.Location()).Format("15:04"))
	switch least := t.limits().through; {
	case q.N >= least && q.N-by < least:
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C by a probe that is out: no clearance. %scook on to %d C by it, or probe with another.%s", title(strings.ToLower(q.Food)), q.N, said, least+by, ownRules)}
	case r.Kind == Silent:
		return r
	}
	r.Text = strings.TrimSuffix(r.Text, ownRules) + "\n" + said + "check it, or probe with another." + ownRules
	return r
}
