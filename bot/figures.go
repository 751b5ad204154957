package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// figuresTalk names what a line of figures and known food says that was not read, so that it is not passed over in
// silence: where its dish is told, or the cook was just cooking one, it is asked whether that went in.
func (t *turn) figuresTalk(why string) (r Reply, done bool, err error) {
	if t.m.Edit {
		return r, false, nil
	}
	s, elsewhere := t.reader().Figures(t.m.Text)
	if s == nil || t.onlyCounted(s) {
		return r, false, nil
	}
	if s.Dish == "" && !elsewhere && t.holdsAll(s) {
		if s.Dish, err = t.cooking(); err != nil {
			return r, true, err
		}
	}
	if text, in := strings.CutSuffix(strings.TrimRight(t.m.Text, ".! "), " in"); in && s.Dish == "" { // "cod 4.5kg in"
		return t.readAs("got "+text, why)
	}
	priced := strings.ContainsAny(t.m.Text, "£$€")
	if s.Dish != "" && !priced {
		list, err := t.drafts(language.Reading{Statements: []language.Statement{*s}})
		if err != nil {
			return r, true, err
		}
		if r, err = t.write(list, why); err != nil || r.Kind != Silent {
			return r, true, err
		}
	}
	last, err := t.lastCame(t.cook)
	t.passed = !priced
	return Reply{Kind: Answer, Text: notRead(s, priced, last.Line != 0)}, true, err
}

// cooking is the dish that the cook's last message used food for, in fair time; "" none.
func (t *turn) cooking() (string, error) {
	_, entries, err := t.justWritten()
	if last := lastOf(entries); err == nil && last.Act == pantry.Use {
		if _, away := pantry.Away(last.Dish); !away {
			return last.Dish, nil
		}
	}
	return "", err
}

// notRead says what of a line was not read, and how to say it: with prices, or behind a delivery, it may have come in.
func notRead(s *language.Statement, priced, came bool) string {
	var list []string
	for _, it := range s.Items {
		list = append(list, strings.TrimSpace(it.Amount.Said+" "+strings.ToLower(it.Food)))
	}
	text := "Not written: " + both(list, "and") + ". "
	switch {
	case priced:
		return text + `Come in? Then say "got them".`
	case came:
		return text + `Come in as well? Then say "got them". Or used? Then in what: "in the soup".`
	}
	return text + `Used, or come in? Say "got them", or "in the soup" with its dish.`
}

// passedOver says whether a message was a line of figures that was not read.
func (t *turn) passedOver(m *pantry.Message) bool {
	r, err := stored(m.ID, m.Reply)
	return err == nil && r.Kind == Answer && strings.HasPrefix(r.Text, "Not written: ")
}

// onlyCounted says whether all is counted and none of it is held here: "2 coffees".
func (t *turn) onlyCounted(s *language.Statement) bool {
	return !slices.ContainsFunc(s.Items, func(it language.Item) bool {
		return it.Amount.How == language.Measured || len(t.ear.find(it.Food).lines) > 0
	})
}

// holdsAll says whether all of the foods are held here.
func (t *turn) holdsAll(s *language.Statement) bool {
	return !slices.ContainsFunc(s.Items, func(it language.Item) bool { return len(t.ear.find(it.Food).lines) == 0 })
}
