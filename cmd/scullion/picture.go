package main

import (
	"time"

	"scullion/bot"
	"scullion/bot/picture"
)

// soon is in how many days food must go to be marked.
const soon = 1

// stockOf is what is left of the crate as what is drawn of it.
func stockOf(lines []bot.StockLine, at time.Time) picture.Stock {
	s := picture.Stock{Title: "What is left", At: at}
	for _, l := range lines {
		s.Lines = append(s.Lines, picture.StockLine{Name: l.Item, Left: l.Left, Free: l.Free, Claimed: l.Holders, Date: l.When, Share: l.Share, ClaimedShare: l.Share * l.Held, Urgent: l.Days <= soon})
	}
	return s
}
