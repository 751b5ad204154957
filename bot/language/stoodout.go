package language

import "regexp"

// stoodOut is food that stood warm, told by the way: "800g stew left, its been out since lunch".
var stoodOut = regexp.MustCompile(`(?i)\b(been out|left out|stood out|sat out|was out|out since|out all|out overnight|out for \d|out \d+ ?h|on the (side|pass|counter|bench) (since|all|overnight|for \d|\d+ ?h)|(thaw|defrost)\w* (out )?on the (side|counter|bench|worktop))`)

// SaysStoodOut says whether a text tells by the way that food stood warm.
func SaysStoodOut(text string) bool { return stoodOut.MatchString(text) }
