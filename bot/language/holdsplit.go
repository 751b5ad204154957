package language

import (
	"regexp"
	"strings"
)

// A label tells what food holds and what it may: "sausages contain sulphites, may contain milk". Each is a
// sentence of its own.
var (
	holdsWord = regexp.MustCompile(`(?i)(?:\s*[,;.:(/-])*(?:\s+(?:and|but|also|they|it))*(?:^|\s+|:\s*)(may also contain|may contain|might contain|may have|may have traces of|may contain traces of|also contains?|contains?)\s+`)
	ofLabel   = regexp.MustCompile(`(?i)^\s*(?:the |my )?(?:label|pack|packet|box|tin)s?(?: says| on the| of the| for the| says the| says that the| on| of| says that)*\s+|^\s*(?:the )?(?:new )(?:brand of |batch of |pack of |recipe )?`)
	labelSays = regexp.MustCompile(`(?i)(?:\s+(?:label|pack|packet)(?: now)?(?: says?)?(?: they| it)?|\s+says?(?: that)?(?: they| it)?)$`)
	newBrand  = regexp.MustCompile(`(?i)(?:,?\s+(?:is|are))?(?:,?\s+now)?(?:,?\s+(?:its|it['’]s|from))?,?\s+(?:a |an |the )?(?:new|different|another|other|cheaper) (?:brand|make|supplier|pack|batch|recipe|tub|lot|one)(?: now| today| this week)?$`)
	saysBare  = regexp.MustCompile(`(?i)\b(label|pack|packet) (?:says|lists|has) ((?:[a-z]+(?:,| and| or)? ?){1,6})$`)
	mayOn     = regexp.MustCompile(`(?i)^\s*may contain (?:traces of )?(.+?) on (?:the |our )?(.+?)(?: label| pack)?\s*[.!]?$`)
)

// Hold is what a label, or a cook, says that food holds, or may.
type Hold struct {
	Food  string
	Needs []TableNeed // what it holds
	May   []TableNeed // what it may hold
}

// Holds reads what a message says that food holds and what it may hold; not ok where it says nothing of
// the second, nor of a label.
func (r *Reader) Holds(text string) (h Hold, ok bool) {
	if m := saysBare.FindStringSubmatch(text); m != nil && !strings.Contains(strings.ToLower(text), "contain") { // "gravy label says celery"
		text = saysBare.ReplaceAllString(text, "$1 contains $2")
	}
	low := strings.ToLower(text)
	if len(text) > mostHeld || strings.Contains(text, "?") || !strings.Contains(low, "contain") && !strings.Contains(low, "may have") {
		return h, false
	}
	if m := mayOn.FindStringSubmatch(text); m != nil {
		text = m[2] + " may contain " + m[1]
	}
	at := holdsWord.FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 {
		return h, false
	}
	about := labelSays.ReplaceAllString(ofLabel.ReplaceAllString(text[:at[0][0]], ""), "")
	about = newBrand.ReplaceAllString(strings.TrimSpace(strings.TrimRight(about, ",:;- ")), "")
	if about == "" {
		return h, false
	}
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		inside := strings.Trim(text[m[1]:end], " ,;.!)")
		q, _ := r.HoldTalk(about + " contains " + inside)
		if q == nil || q.About != AboutSaidIn || h.Food != "" && q.Food != h.Food {
			return Hold{}, false
		}
		h.Food = q.Food
		if strings.HasPrefix(strings.ToLower(text[m[2]:m[3]]), "m") {
			h.May = append(h.May, q.Needs...)
		} else {
			h.Needs = append(h.Needs, q.Needs...)
		}
	}
	return h, true
}
