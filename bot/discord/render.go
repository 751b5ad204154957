package discord

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"scullion/bot"
)

// rendered gives a posting as messages, with the buttons for the last.
func (x *room) rendered(p bot.Posting, now time.Time) (texts []string, rows []actionRow) {
	said := p.Reply.Text
	if x.late(p, now) {
		said = fmt.Sprintf("Late (said at %s, I was away): %s", p.At.In(now.Location()).Format("15:04"), p.Reply.Brief())
	}
	return split(escape(said)), buttons(p)
}

// lateLead opens the list of late answers.
const lateLead = "I was away and have caught up. Late answers:"

// showLate gathers late answers into one, in reply to the last message that it
// answers: by that it is known again.
func (s *sender) showLate(ctx context.Context, batch []bot.Posting) (string, error) {
	zone := s.x.c.o.Now().Location()
	lines := []string{lateLead}
	var rows []actionRow
	for _, p := range batch {
		who := p.At.In(zone).Format("15:04")
		if p.Cook != "" {
			who += " " + p.Cook
		}
		lines = append(lines, escape(who+": "+strings.ReplaceAll(p.Reply.Brief(), "\n", " ")))
		if p.Reply.Ask != nil && len(rows) < mostRows {
			rows = append(rows, optionRows(p)...)
		}
	}
	last := batch[len(batch)-1]
	last.Place = ""
	last.ID, last.Kitchen = lastID(batch), batch[0].Kitchen+"\x00late"
	at, err := s.stand(ctx, last, split(strings.Join(lines, "\n")), rows[:min(len(rows), mostRows)], nil)
	return apart + at, err
}

// lastID is the greatest id of a message in a batch.
func lastID(batch []bot.Posting) (id string) {
	for _, p := range batch {
		if number(p.ID) > number(id) {
			id = p.ID
		}
	}
	if id == "" {
		return batch[len(batch)-1].ID
	}
	return id
}

// What a button is for, as its id begins.
const (
	idOption = "o"
	idUndo   = "u"
	idMore   = "m"
	idIdea   = "i"
)

func press(of string, parts ...string) string {
	return strings.Join(append([]string{of}, parts...), "|")
}

// buttons gives what can be pressed under a posting.
func buttons(p bot.Posting) []actionRow {
	rows := []actionRow{}
	if p.Spent {
		return rows
	}
	if p.Reply.Ask != nil {
		rows = append(rows, optionRows(p)...)
	}
	var row []component
	if len(p.Reply.Entries) > 0 {
		row = append(row, component{Type: kindButton, Style: styleGrey, Label: "Undo", ID: press(idUndo, p.ID)})
	}
	if len(p.Reply.Ideas) > 0 {
		row = append(row, component{Type: kindButton, Style: styleGrey, Label: "More ideas", ID: press(idMore, p.ID)})
	}
	if p.Reply.Kind == bot.Answer && len(p.Reply.Ideas) > 0 {
		rows = append(rows, ideaMenu(p))
	}
	if len(row) > 0 {
		rows = append(rows, actionRow{kindRow, row})
	}
	return rows
}

// optionRows gives the answers to what is asked as buttons, as many as a row
// holds, and one for none of them.
func optionRows(p bot.Posting) []actionRow {
	labels := p.Reply.Ask.Options
	if p.Asked == "" || len(labels) == 0 {
		return nil
	}
	none := "None of these"
	if len(labels) == 1 {
		none = "No"
	}
	var row []component
	for i, l := range labels[:min(len(labels), mostInRow-1)] {
		row = append(row, component{Type: kindButton, Style: styleBlue, Label: clip(upper(l), mostLabel), ID: press(idOption, strconv.Itoa(i+1), p.Asked, p.ID)})
	}
	row = append(row, component{Type: kindButton, Style: styleGrey, Label: none, ID: press(idOption, "0", p.Asked, p.ID)})
	return []actionRow{{kindRow, row}}
}

// ideaMenu offers to keep what an idea needs.
func ideaMenu(p bot.Posting) actionRow {
	menu := component{Type: kindMenu, ID: press(idIdea, p.ID), Hint: "Begin one: its food is kept, its clock starts"}
	for i, idea := range p.Reply.Ideas {
		menu.Choices = append(menu.Choices, choice{Label: clip(upper(idea.Title), mostChoice), Value: strconv.Itoa(i + 1), About: fmt.Sprintf("%d min, for %d", idea.Minutes, idea.Portions)})
	}
	return actionRow{kindRow, []component{menu}}
}

func upper(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = []rune(strings.ToUpper(string(r[0])))[0]
	}
	return string(r)
}
