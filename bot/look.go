package bot

import (
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// Look is what a picture beside a reply shows: a plan, or what is left. It has the values alone, as
// they were At; the reply's text stands without it.
type Look struct {
	At    time.Time
	Plan  *PlanNow    `json:",omitempty"`
	Crate []StockLine `json:",omitempty"`
}

// fewLines is up to how many lines of stock are read faster than a picture of them.
const fewLines = 5

// pictures is the setting of whether pictures come with answers.
const pictures = "pictures"

// look is what a reply's picture shows, where this kitchen is shown any: in a chat's room, and
// nobody has switched them off.
func (t *turn) look(l *Look) *Look {
	if t.m.Room == "" && t.m.Person == "" || t.k.Setting(pictures) == "off" {
		return nil
	}
	l.At = t.m.At
	return l
}

// lookLeft is what is left as a picture shows it; nil where the text is read faster.
func (t *turn) lookLeft() *Look {
	crate, _ := Stock(t.k, pantry.DateOf(t.m.At))
	if len(crate) <= fewLines {
		return nil
	}
	return t.look(&Look{Crate: crate})
}

// lookRunning is the plan that is on as a picture shows it.
func (t *turn) lookRunning(on running) *Look {
	return t.look(&Look{Plan: on.now(t.k)})
}

// pictureTalk switches pictures on or off. Done is false where nobody asks for that.
func (t *turn) pictureTalk(why string) (r Reply, done bool, err error) {
	q := t.reader().PictureTalk(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	to, text := "on", `Plans, and what is left where that is much, come with a picture again. "no pictures" switches them off.`
	if q.About == language.AboutNoPictures {
		to, text = "off", `No more pictures here: answers are text alone. "pictures on" brings them back.`
	}
	if was := t.k.Setting(pictures); was == to || was == "" && to == "on" {
		return Reply{Kind: Answer, Text: "Pictures are " + to + " already."}, true, nil
	}
	if err := t.learned(t.said, why, pantry.SettingLesson(pictures, to)); err != nil {
		return r, true, err
	}
	return Reply{Kind: Log, Text: text}, true, nil
}
