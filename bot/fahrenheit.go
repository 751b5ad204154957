package bot

import (
	"cmp"
	"regexp"
	"strconv"
	"strings"
)

// A kitchen in the US has thermometers and ovens in F: what it is told in C has that before it.

var (
	numbersIn = regexp.MustCompile(`-?\b\d{1,3}`)
	degreesC  = regexp.MustCompile(`(F \()?(-?\b\d{1,3}) C\b`)
	degreesTo = regexp.MustCompile(`\b(\d{1,3}) (and|to) (\d{1,3}) C\b`)
)

// withFahrenheit: "heat it to 74 C" as "heat it to 165 F (74 C)", "between 5 and 57 C" as "between 41 and 135 F (5 and 57 C)".
// What somebody said, in quotation marks, stays as it was said, and degrees that this message tells are those that it has.
func withFahrenheit(text, message string) string {
	said := map[string]string{} // F by C
	for _, f := range numbersIn.FindAllString(message, 20) {
		n, _ := strconv.Atoi(f)
		said[strconv.Itoa(inCelsius(n))] = f
	}
	parts := strings.Split(text, `"`)
	for i := 0; i < len(parts); i += 2 {
		parts[i] = putInF(parts[i], said)
	}
	return strings.Join(parts, `"`)
}

func putInF(text string, said map[string]string) string {
	text = degreesTo.ReplaceAllStringFunc(text, func(s string) string {
		m := degreesTo.FindStringSubmatch(s)
		return inFahrenheit(m[1]) + " " + m[2] + " " + inFahrenheit(m[3]) + " F (" + m[1] + " " + m[2] + " " + m[3] + " °C)"
	})
	text = degreesC.ReplaceAllStringFunc(text, func(s string) string {
		m := degreesC.FindStringSubmatch(s)
		if m[1] != "" {
			return s
		}
		f := cmp.Or(said[m[2]], inFahrenheit(m[2]))
		delete(said, m[2]) // a limit behind it may come to the same whole degree C
		return f + " F (" + m[2] + " C)"
	})
	return strings.ReplaceAll(text, " °C", " C")
}

// ovenDegrees is from how many degrees C on an oven is meant, whose dial goes by steps of 25 F.
const ovenDegrees = 140

// ofCode are figures of the FDA Food Code whose whole degree C is not theirs to the degree: 155 F is 68.3 C, 130 F 54.4 C.
var ofCode = map[string]string{"68": "155", "54": "130"}

// inFahrenheit gives whole degrees F of degrees C; of an oven, the nearest step of its dial.
func inFahrenheit(c string) string {
	if f := ofCode[c]; f != "" {
		return f
	}
	n, _ := strconv.Atoi(c) // the pattern takes three digits at most
	f := (n*18 + 325) / 10
	if n < 0 {
		f = (n*18 + 315) / 10
	}
	if n >= ovenDegrees {
		f = (f + 12) / 25 * 25
	}
	return strconv.Itoa(f)
}
