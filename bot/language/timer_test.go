package language

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// briefTimer puts a wish about timers in a few words: seconds, or a clock time,
// and what it is for.
func briefTimer(t Timer) string {
	parts := []string{string(t.Wish)}
	if t.Seconds > 0 {
		parts = append(parts, fmt.Sprint(t.Seconds))
	}
	if t.At != "" {
		parts = append(parts, t.At)
	}
	if t.Either {
		parts = append(parts, "either")
	}
	if t.All {
		parts = append(parts, "all")
	}
	if t.Loose {
		parts = append(parts, "loose")
	}
	if t.For != "" {
		parts = append(parts, "["+t.For+"]")
	}
	for _, a := range t.Also {
		parts = append(parts, "+ "+briefTimer(a))
	}
	return strings.Join(parts, " ")
}

// timerReader knows the cooks of a kitchen, whose names may stand before "set".
func timerReader() *Reader {
	r := reader()
	r.Cooks = []string{"larder", "stove", "pastry"}
	return r
}

// checkAll holds messages, one a line with what is read behind the bar, against
// their readings.
func checkAll(t *testing.T, list string, least int) {
	t.Helper()
	r, n := timerReader(), 0
	for line := range strings.Lines(list) {
		text, want, ok := strings.Cut(strings.TrimSpace(line), " | ")
		if !ok {
			continue
		}
		n++
		text = strings.ReplaceAll(strings.TrimSpace(text), `\n`, "\n")
		if got := brief(r.Read(text)); got != want {
			t.Errorf("%q: read %s, want %s", text, got, want)
		}
	}
	if n < least {
		t.Fatalf("only %d messages", n)
	}
}

func TestTimerSet(t *testing.T) {
	checkAll(t, `
		timer 12 min tart                                       | set 720 [tart]
		timer 12 tart                                           | set 720 [tart]
		TIMER 12MIN TART                                        | set 720 [tart]
		12 min timer for the tart                               | set 720 [tart]
		12-minute tart timer                                    | set 720 [tart]
		tart timer 12 min                                       | set 720 [tart]
		timer tart 12                                           | set 720 [tart]
		timer: 12 min, tart                                     | set 720 [tart]
		timer - tart - 12 min                                   | set 720 [tart]
		timer 12 min (tart)                                     | set 720 [tart]
		timr 12 mins tart                                       | set 720 [tart]
		set a tmier for 12 minuets                              | set 720
		timer twelve minutes tart                               | set 720 [tart]
		um set a timer for uh twelve minutes for the tart       | set 720 [tart]
		set a timer for twelve no fifteen minutes               | set 900
		set a timer for 12 minutes for the tart                 | set 720 [tart]
		right, timer for the tart please chef, 12 minutes       | set 720 [tart]
		chef timer 12                                           | set 720
		can you set a timer for 12 mins pls                     | set 720
		could someone set a timer for 12 min?                   | set 720
		can I have a 12 min timer on the tart                   | set 720 [tart]
		could we have a timer on the tart for 12 min            | set 720 [tart]
		stick 10 mins on the timer for the bread                | set 600 [bread]
		stick us a timer on for the bread, 20 mins              | set 1200 [bread]
		put a timer on the tart, 12 min                         | set 720 [tart]
		put the timer on for 12 min                             | set 720
		start the bread timer 20 min                            | set 1200 [bread]
		bread timer 20                                          | set 1200 [bread]
		i need a timer on the stock for 2 hours                 | set 7200 [stock]
		timer 1h 20 for the stock                               | set 4800 [stock]
		timer 1h stock                                          | set 3600 [stock]
		timer 1h20m30s                                          | set 4830
		timer one hour and twenty minutes stock                 | set 4800 [stock]
		timer an hour and a half                                | set 5400
		timer 1½ hours stock                                    | set 5400 [stock]
		timer 1.5h stock                                        | set 5400 [stock]
		half hour timer                                         | set 1800
		quarter of an hour timer                                | set 900
		timer three quarters of an hour for the potatoes        | set 2700 [potatoes]
		timer 90s eggs                                          | set 90 [eggs]
		3 and a half minute timer for the eggs                  | set 210 [eggs]
		timer 1:30 eggs                                         | set 90 [eggs]
		timer 1:30:00 stock                                     | set 5400 [stock]
		timer 10-12 min tart                                    | set 600 [tart]
		timer ten to twelve minutes for the tart                | set 600 [tart]
		timer about 12 min from now                             | set 720
		timer 24h brine                                         | set 86400 [brine]
		timer 10 min leek & potato soup                         | set 600 [leek & potato soup]
		timer 12 min tart and bread                             | set 720 [tart and bread]
		timer 10 min for the tart in the bottom oven            | set 600 [tart in the bottom oven]
		timer 10 min oven 2                                     | set 600 [oven 2]
		timer 10 turn the tart                                  | set 600 [turn the tart]
		timer 10 take the bread out                             | set 600 [take the bread out]
		timer 12 min to turn the leeks                          | set 720 [turn the leeks]
		timer 10 min for me                                     | set 600
		tart's in the oven, timer 12                            | set 720
		tart's in the oven timer 12 min                         | set 720
		before I forget, timer 12 min tart                      | set 720 [tart]
		alarm in 10 min                                         | set 600
		set a reminder for 10 min                               | set 600
	`, 60)
}

func TestTimerCall(t *testing.T) {
	checkAll(t, `
		remind me in 10 min to turn the tart                    | set 600 [turn the tart]
		remind me to turn the tart in 10 min                    | set 600 [turn the tart]
		remind me to check the bread in 20                      | set 1200 [check the bread]
		remind me to put the oven up to 200 in 10 min           | set 600 [put the oven up to 200]
		remind me in 5 that the bread's out                     | set 300 [bread's out]
		remind me in an hour about the dough                    | set 3600 [dough]
		remidn me in 10 min: turn the tart                      | set 600 [turn the tart]
		in 10 min remind me to turn the tart                    | set 600 [turn the tart]
		can you remind me in 10 min to turn the tart?           | set 600 [turn the tart]
		call me in 5 minutes                                    | set 300
		shout in 20 min for the bread                           | set 1200 [bread]
		leeks in the oven, shout in 12                          | set 720
		give us a shout in half an hour                         | set 1800
		could you ping me in 5?                                 | set 300
		let me know in 10 mins                                  | set 600
		call me at 18:30 for the tart                           | set 18:30 [tart]
		remind me at 6.30pm to light the oven                   | set 18:30 [light the oven]
		remind me to put the oven on at 18:30                   | set 18:30 [put the oven on]
		remind us at 06:45 to start the bread                   | set 06:45 [start the bread]
		remind me at ten to six                                 | set 05:50 either
		remind me at quarter past 6 to light the oven           | set 06:15 either [light the oven]
		remind me at 6 to plate up                              | set 06:00 either [plate up]
		call me at six thirty                                   | set 06:30 either
		ping us at half six for the bread                       | set 06:30 either [bread]
		timer till half six                                     | set 06:30 either
		timer until 18:30                                       | set 18:30
		timer till 1845 for the stock                           | set 18:45 [stock]
		timer for quarter to seven                              | set 06:45 either
		timer until noon                                        | set 12:00
		timer till half twelve                                  | set 00:30 either
		timer till 12am                                         | set 00:00
		set an alarm for 18:30                                  | set 18:30
		set an alarm for 6am                                    | set 06:00
	`, 30)
}

func TestTimerStopAndList(t *testing.T) {
	checkAll(t, `
		cancel the tart timer                                   | stop [tart]
		stop timer                                              | stop
		kill the bread timer                                    | stop [bread]
		forget the timer                                        | stop
		stop all timers                                         | stop all
		kill the timers                                         | stop all
		stop every timer please                                 | stop all
		turn the tart timer off                                 | stop [tart]
		tart timer off                                          | stop [tart]
		cancel timer tart                                       | stop [tart]
		stop the timer for the bread, it's done                 | stop [bread]
		stop the timer it's driving me mad                      | stop
		can someone stop that timer?                            | stop
		canel the 12 min timer                                  | stop 720
		don't need the tart timer any more                      | stop [tart]
		bread's out, cancel the timer                           | stop
		cancel my reminder                                      | stop
		cancel the tart timer and set one for 10 min            | stop [tart] + set 600
		timers?                                                 | list
		timers                                                  | list
		what timers are running?                                | list
		any timers on                                           | list
		show me the timers                                      | list
		how long on the timer?                                  | list
		tart timer?                                             | list [tart]
		is the tart timer still on?                             | list [tart]
		is there a timer on the tart?                           | list [tart]
		how long left on the tart?                              | list loose [tart]
		how long has the tart got?                              | list loose [tart]
		how long have the potatoes got left chef                | list loose [potatoes]
		how long left on the bread timer                        | list [bread]
		how many minutes left on the leek tart?                 | list loose [leek tart]
	`, 30)
}

func TestTimerMore(t *testing.T) {
	checkAll(t, `
		add 5 min to the timer                                    | more 300
		add another 5 minutes to the tart timer please            | more 300 [tart]
		put another 5 min on the timer                            | more 300
		put 5 more min on the timer                               | more 300
		5 more min on the tart timer                              | more 300 [tart]
		5 min more on the tart timer                              | more 300 [tart]
		another 5 min on the tart timer                           | more 300 [tart]
		give me 5 more min on the tart timer                      | more 300 [tart]
		give the tart timer another 5 min                         | more 300 [tart]
		the tart timer needs another 5 min                        | more 300 [tart]
		tart timer +5 min                                         | more 300 [tart]
		tart timer another 5 min                                  | more 300 [tart]
		extend the tart timer by 5 min                            | more 300 [tart]
		make that another 5 min on the tart timer                 | more 300 [tart]
		timer 5 more minutes                                      | more 300
		bread timer 10 more min, tart timer 5 more                | more 600 [bread] + more 300 [tart]
		used 300g leek in the tart, 5 more min on the tart timer  | use 300 g [leek] > tart > tart | more 300 [tart]
		let me know when 10 min is up                             | set 600
		tell me when 12 minutes have passed                       | set 720
		add 100g sugar to the jam                                 | use? 100 g [sugar] > jam > jam
		set another timer for 5 min                               | set 300
		set another 5 min timer                                   | set 300
		add a timer for 5 min                                     | set 300
	`, 23)
}

// TestTimerAndStock holds messages that say more than one thing.
func TestTimerAndStock(t *testing.T) {
	checkAll(t, `
		used 300g leek in the tart, timer 12 min                    | use 300 g [leek] > tart > tart | set 720
		used 300g leek in the tart and set a timer for 12 min       | use 300 g [leek] > tart > tart | set 720
		used 300g leek in the tart timer 12 min                     | use 300 g [leek] > tart > tart | set 720
		used 2 eggs in the custard remind me in 8 min to stir it    | use 2 [eggs] > custard > custard | set 480 [stir it]
		timer 12 min tart, used 300g leek in it                     | use 300 g [leek] | set 720 [tart]
		timer 12 min used 300g leek in the tart                     | use 300 g [leek] > tart > tart | set 720
		timer 8 min custard, save me 2 lemons                       | claim 2 [lemons] | set 480 [custard]
		stop the timer and used 300g leek in the tart               | use 300 g [leek] > tart > tart | stop
		timer 8 min custard and how much cream is left?             | ask food [cream] | set 480 [custard]
		timer 5 min, any ideas for the leeks?                       | ask with [leeks] | set 300
		used 2 eggs in the custard. timer 8 min                     | use 2 [eggs] > custard > custard | set 480
		timer 12 min tart, 20 min bread                             | set 720 [tart] + set 1200 [bread]
		timer 12 for the tart and 20 for the bread                  | set 720 [tart] + set 1200 [bread]
		timers: tart 12, bread 20                                   | set 720 [tart] + set 1200 [bread]
		timer 12 tart\ntimer 20 bread                               | set 720 [tart] + set 1200 [bread]
		set timers for 12 and 20 min                                | set 720 + set 1200
		timer 12 min tart, 300g leek in the pie                     | use 300 g [leek] > pie > pie | set 720 [tart]
	`, 15)
}

// notTimers are messages with a time or a word of timers in them that set, stop
// and ask none.
const notTimers = `
does the tart timer need another 5 min?
add 5 min to the tart
add 5 min at the end
no more min on the timer
the timer went off
who set a timer
who set a timer for 12 min?
timer is broken
timer broke 2 days ago
remind me to buy milk
remind me to order 5kg flour for monday
remind me why we do this
remind me how much leek is left
12 min left on the tart
40 mins left on the timer
the tart needs 12 minutes
tart's in for 12 min
give it 12 min
used 300g leek in the tart, 12 min
how long for leeks?
how long do leeks keep?
how long have the kids got
how long till doors
set a timer
timer for the tart
I set a timer for 12 min
I've set a timer for 12 min
pastry set a timer for 12 min
stove's set a timer for 12 min
new lad set a timer for 12 min
she set a timer for 12 min
the timer is set for 12 min
timer's on for 12 min
timer says 12 min
timer 12 min ago
12 min timer went off
my 12 min timer
timer for the tart went off 12 min ago
don't set a timer for 12 min
should I set a timer for 12 min?
12 min timer for the tart?
when it boils, timer 5 min
if it's pale timer 5 min
we usually set a timer for 12 min
remember to set a timer for 12 min
chef said set a timer for 12 min
step 3: set timer for 12 min
wish I'd set a timer for 12 min
"set a timer for 12 min"
got a 12 min timer on the tart
timer 30 hours brine
timer 0 tart
timer 300g
timer 4 covers
timer 180 degrees
timer 12 20
timer one twenty
set a timer for a few minutes
oven timer's stuck on 12 min
bought a new timer for 12 quid
shout if you need me in 5 min
shout in 5 if you need me
call me in 10 years
call me in 2 shakes
call me back in 5 when you can talk
I'll shout in 5
he said call me in 5
let me know by 18:30
tell me how much leek is left
reminder: staff meal at 4:30
reminder: 20 min till doors
alarm at 5am tomorrow lads
fire alarm in 10 min
turn off the fire alarm
stop reminding me
don't stop the timer
did you stop the timer?
stop the timer when the tart's out
stop the mixer in 5 min
turn the oven off in 10 min
cancel the bread order for 6pm
who's got the timer
has the timer gone off?
is the timer broken?
how do I set a timer?
`

func TestNotTimers(t *testing.T) {
	r, n := timerReader(), 0
	for text := range strings.Lines(notTimers) {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		n++
		if got := r.Read(text); got.Timer != nil {
			t.Errorf("%q: read %s", text, briefTimer(*got.Timer))
		}
	}
	if n < 80 {
		t.Fatalf("only %d messages", n)
	}
}

// TestTimerLasts says any length in several ways: each is that many seconds.
func TestTimerLasts(t *testing.T) {
	r := reader()
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.IntRange(1, 24*3600-1).Draw(t, "seconds")
		h, m, s := want/3600, want/60%60, want%60
		var said []string
		for _, u := range []struct {
			n    int
			unit string
		}{{h, rapid.SampledFrom([]string{"h", " hr", " hours"}).Draw(t, "hours")}, {m, rapid.SampledFrom([]string{"m", " min", " minutes"}).Draw(t, "minutes")}, {s, rapid.SampledFrom([]string{"s", " sec", " seconds"}).Draw(t, "seconds")}} {
			if u.n > 0 {
				said = append(said, fmt.Sprint(u.n, u.unit))
			}
		}
		words := strings.Join(said, rapid.SampledFrom([]string{" ", " and ", ", "}).Draw(t, "between"))
		for _, text := range []string{"timer " + words + " tart", "set a timer for " + words + " for the tart", "remind me in " + words + " about the tart", fmt.Sprintf("timer %d:%02d:%02d tart", h, m, s)} {
			got := r.Read(text).Timer
			if got == nil || got.Seconds != want || got.For != "tart" || got.Also != nil {
				t.Fatalf("%q: %+v, want %d s", text, got, want)
			}
		}
	})
}

// TestTimerClock says any minute of the day: as 24 hours tell it, and with am or pm.
func TestTimerClock(t *testing.T) {
	r := reader()
	rapid.Check(t, func(t *rapid.T) {
		h, m := rapid.IntRange(0, 23).Draw(t, "h"), rapid.IntRange(0, 59).Draw(t, "m")
		want := fmt.Sprintf("%02d:%02d", h, m)
		half := "am"
		if h >= 12 {
			half = "pm"
		}
		for _, text := range []string{"call me at " + want, fmt.Sprintf("timer till %d:%02d%s", (h+11)%12+1, m, half), fmt.Sprintf("remind me at %d.%02d %s", (h+11)%12+1, m, half)} {
			got := r.Read(text).Timer
			if got == nil || got.At != want && !(got.Either && got.At == fmt.Sprintf("%02d:%02d", h%12, m)) || got.Seconds != 0 {
				t.Fatalf("%q: %+v, want %s", text, got, want)
			}
		}
	})
}

var clockTime = regexp.MustCompile(`^([01]\d|2[0-3]):[0-5]\d$`)

// checkTimer holds a wish to its bounds: a time where it is to be set and only
// there, and words that the text has.
func checkTimer(t *testing.T, text string, w Timer) {
	t.Helper()
	switch set := w.Wish == TimerSet || w.Wish == TimerMore; {
	case set == (w.Seconds == 0 && w.At == "") && w.Wish != TimerStop, w.Seconds > 0 && w.At != "":
		t.Fatalf("%q: a timer without a time, or with two: %+v", text, w)
	case w.Seconds < 0 || w.Seconds > longestTimer, w.At != "" && !clockTime.MatchString(w.At):
		t.Fatalf("%q: no such time: %+v", text, w)
	case w.Either && (w.At >= "12:00" || !set):
		t.Fatalf("%q: neither half of the day: %+v", text, w)
	}
	for _, part := range strings.Fields(w.For) {
		heard(t, strings.ToLower(text), part)
	}
}
