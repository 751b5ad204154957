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
	texts, rows := x.rendered(p, now)
	return s.stand(ctx, p, texts, rows)
}

// heardSign stands on a message in a quiet room: what it says is counted.
const heardSign = "✅"

// stand makes the parts of an answer stand, those at places where they are and the
// others behind them, in reply to the first: by that they are known again. The
// buttons are under the last.
func (s *sender) stand(ctx context.Context, p bot.Posting, texts []string, rows []actionRow) (string, error) {
	rest, channel := s.x.c.rest, s.x.now().ID
	for i, t := range texts {
		m := text(t)
		if i == len(texts)-1 {
			m.Components = rows
		}
		if i < len(s.at) {
			if err := rest.edit(ctx, channel, s.at[i], m); err != nil {
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
		id, as, err := rest.send(ctx, channel, m)
		if err == nil && as != strings.TrimSpace(t) { // an earlier try has been there, with another text
			edited := m
			edited.Nonce, edited.Enforce, edited.Reference = "", false, nil
			err = rest.edit(ctx, channel, id, edited)
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
