package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// How it is said what somebody told of food that may not be safe.

// sayWarm: `Ana said at 16:02: "the rice was out all night". No date allows for that: ...`.
func (t *turn) sayWarm(w warm) string {
	const noDate = "No date allows for that"
	tail := noDate + ": what stood warm too long or smells is binned."
	names := ""
	for _, l := range w.lines[:min(len(w.lines), 1)] {
		names = ": " + l.Name
	}
	if len(w.lines) > 1 {
		var list []string
		for _, l := range w.lines {
			list = append(list, l.Name)
		}
		names = ": " + few(list)
	}
	long := fmt.Sprintf("above %d C for over %d hours", t.limits().cold, t.limits().out)
	if w.why != nil {
		switch w.why.About {
		case language.AboutFridge, language.AboutFridgeAt:
			tail = fmt.Sprintf("%s. If it was in there, and %s, it is binned%s.", noDate, long, names)
			if again, at := t.coldAgain(w.why.Place, w.said); again != nil {
				tail += fmt.Sprintf(" It was told to be %s at %s; that clears none of it.", at, again.At.In(t.m.At.Location()).Format("15:04"))
			}
		case language.AboutUndercooked:
			tail = fmt.Sprintf("Not served until it is cooked on and probed: %s.", t.limits().proof)
		case language.AboutDripped:
			tail = "What raw meat or its juice got on is binned where it is eaten as it is; only what is cooked through afterwards may be kept for that."
		case language.AboutPower:
			tail = fmt.Sprintf("%s. What was %s is binned, and what was frozen and got soft is used within a day%s.", noDate, long, names)
		case language.AboutFreezer, language.AboutFreezerAt:
			tail = fmt.Sprintf("%s. What is still hard frozen may stay; what got soft is used within a day or binned%s.", noDate, names)
		case language.AboutCameWarm:
			if tail = fmt.Sprintf("%s: what must be chilled and comes above %d C is sent back or binned.", noDate, t.limits().cold); w.why.State == "soft" || w.why.State == "frozen" {
				tail = noDate + ": frozen food that comes warmer than " + fmt.Sprint(mostFreezing) + " C or soft is sent back or binned; what was taken in is used within a day, and not frozen again."
			}
		case aboutMishandled:
			tail = mishandlingOf(w.why.State).holds
		case aboutReading:
			tail = t.sayReading(w)
		}
	}
	says := fmt.Sprintf("%s said %s: %q. %s", title(t.k.CookName(w.said.Cook)), t.sayAtWhat(w.said.At), w.said.Text, tail)
	if w.by != nil && w.by != w.said && !w.isOfItself() {
		says = "Of what is in it: " + says
	}
	return says
}

// sayReading tells what a probe's reading comes to.
func (t *turn) sayReading(w warm) string {
	cold, hot := t.limits().cold, t.limits().hot
	switch {
	case w.cools != "":
		return w.cools
	case w.why.N >= hot:
		return fmt.Sprintf("That is no proof that it is cooked or reheated through: %s. Nobody told better since.", t.limits().proof)
	case w.hot != nil:
		late := fmt.Sprintf("It was told to be hot at %s, %s later: between %d and %d C for over %d hours it is binned, whatever it reads now", w.hot.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(w.hot.At.Sub(w.said.At)/time.Minute)), cold, hot, mostHoursHot)
		if !w.over {
			late += "; only what was being cooked all that time may be kept"
		}
		return late + "."
	case w.cold != nil:
		return fmt.Sprintf("It was told to be cold at %s, %s later: if that took over %d hours, or nobody knows, it is binned.", w.cold.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(w.cold.At.Sub(w.said.At)/time.Minute)), mostHoursHot)
	case w.over:
		return fmt.Sprintf("That is over %d hours between %d and %d C: it is binned.", mostHoursHot, cold, hot)
	}
	return fmt.Sprintf("Nobody told since that it was cold or hot enough: between %d and %d C for over %d hours it is binned.", cold, hot, mostHoursHot)
}

// isOfItself says whether it was told of the dish that a line is of, before that was put by.
func (w warm) isOfItself() bool {
	if w.why == nil || w.why.Food == "" {
		return w.why == nil
	}
	said := strings.ToLower(w.why.Food)
	return slices.ContainsFunc(w.lines, func(l *pantry.Line) bool { return isPotOf(l.Name, said) || fitsName(l.Name, said) })
}

// sayAtWhat: "at 16:02", "on Mon 2 Mar at 16:02".
func (t *turn) sayAtWhat(at time.Time) string {
	at = at.In(t.m.At.Location())
	when := "at " + at.Format("15:04")
	if day := pantry.DateOf(at); day != pantry.DateOf(t.m.At) {
		when = "on " + sayDay(day) + " " + when
	}
	return when
}
