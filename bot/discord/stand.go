package discord

import (
	"cmp"
	"context"
	"net/http"
	"strings"

	"scullion/bot"
)

// show makes a batch stand, and gives where.
func (s *sender) show(batch []bot.Posting) (place string, err error) {
	ctx, x := s.x.c.alive, s.x
	for _, p := range batch {
		s.off(p)
	}
	if len(batch) > 1 {
		return s.showLate(ctx, batch)
	}
	p := batch[0]
	now := x.c.o.Now()
	switch {
	case !p.Due():
		return p.Place, nil
	case x.now().Quiet && p.Plain && p.Place == "" && number(p.ID) > 0 && !x.late(p, now):
		if err := x.c.rest.react(ctx, x.now().ID, p.ID, heardSign); err == nil || status(err) == 0 || status(err) >= 500 || status(err) == http.StatusTooManyRequests {
			return apart + "sign", err
		}
	case p.Place != "" && strings.HasPrefix(p.Place, apart) && (p.Reply.Kind == bot.Silent || p.Spent && p.Plain):
		return p.Place, nil
	}
	pic, later := s.pictured(p, now)
	texts, rows := x.rendered(p, now)
	place, err = s.stand(ctx, p, texts, rows, pic)
	if later != nil && err == nil {
		s.addLater(p, place, later)
	}
	return place, err
}

// heardSign stands on a message in a quiet room: what it says is counted.
const heardSign = "✅"

// stand makes the parts of an answer stand, those at places where they are and the
// others behind them, in reply to the first: by that they are known again. The
// buttons, and the picture where there is one, are with the last.
func (s *sender) stand(ctx context.Context, p bot.Posting, texts []string, rows []actionRow, pic *upload) (string, error) {
	rest, channel := s.x.c.rest, s.x.now().ID
	for i, t := range texts {
		m := text(t)
		var u *upload
		if i == len(texts)-1 {
			m.Components, u = rows, pic
		}
		if i < len(s.at) {
			if err := s.edit(ctx, channel, s.at[i], m, u); err != nil {
				return strings.Join(s.at, " "), err
			}
			continue
		}
		m = m.once(p.Kitchen, p.ID, p.Place, decimal(uint64(i)))
		if i == 0 {
			m = m.in(cmp.Or(p.To, p.ID))
		} else {
			m = m.in(s.at[0])
		}
		if u != nil {
			m = m.with(u)
		}
		var id, as string
		err := s.try(m, func(m payload) (err error) {
			id, as, err = rest.send(ctx, channel, m)
			return err
		})
		if err == nil {
			s.standsWith(id, u)
		}
		if err == nil && as != strings.TrimSpace(t) { // an earlier try has been there, with another text
			edited := text(t)
			edited.Components = m.Components
			s.standsWith(id, nil) // whatever that one had
			err = s.edit(ctx, channel, id, edited, u)
		}
		if err != nil {
			return strings.Join(s.at, " "), err
		}
		s.at = append(s.at, id)
	}
	for len(s.at) > len(texts) {
		last := len(s.at) - 1
		if err := rest.remove(ctx, channel, s.at[last]); err != nil && codeOf(err) != codeUnknownMessage {
			return strings.Join(s.at, " "), err
		}
		s.at = s.at[:last]
	}
	return strings.Join(s.at, " "), nil
}

// edit changes a message of the bot's, and the picture it stands with.
func (s *sender) edit(ctx context.Context, channel, id string, m payload, u *upload) error {
	err := s.try(s.dressed(id, m, u), func(m payload) error { return s.x.c.rest.edit(ctx, channel, id, m) })
	if err == nil {
		s.standsWith(id, u)
	}
	return err
}
