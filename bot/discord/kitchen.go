package discord

import (
	"errors"
	"fmt"
	"time"

	"scullion/bot"
)

// kitchen opens and closes rooms, for those who may manage the channel.
func (c *Client) kitchen(i *interaction, r *room) {
	if !i.may() {
		c.private(i, "Only someone who may manage this channel can do that.")
		return
	}
	switch i.sub() {
	case "open":
		c.private(i, c.openRoom(i, r))
	case "close":
		c.private(i, c.closeRoom(r))
	case "quiet":
		c.private(i, c.setQuiet(r, i.opt("on") == "true"))
	default:
		c.private(i, c.showRoom(r)+noPictures(i))
	}
}

// noPictures tells whoever may manage the channel why plans come without pictures.
func noPictures(i *interaction) string {
	if !i.lacksFiles() {
		return ""
	}
	return "\nPlans come as text alone: for pictures give the bot the right Attach Files."
}

const notOpen = "This channel is no kitchen. /kitchen open makes it one."

func (c *Client) openRoom(i *interaction, r *room) string {
	if r != nil && (i.opt("name") == "" || i.opt("name") == r.now().Kitchen) {
		return c.showRoom(r) + noPictures(i)
	}
	if lack := i.lacking(); lack != "" {
		return "The bot lacks rights in this channel: " + lack + ". Give them to it in the channel's settings, then say /kitchen open again."
	}
	if i.Guild == "" {
		return "A kitchen is kept in a server's channel, not here."
	}
	room := bot.Room{ID: i.Channel, House: i.Guild, Since: i.ID, Settled: i.ID}
	names := []string{oneLine(i.opt("name"))}
	if names[0] == "" { // one of ours, else one called as the channel is
		names = []string{c.o.Kitchen, oneLine(i.Place.Name), oneLine(i.Place.Name) + " " + i.Guild}
	}
	err := errors.New("no name")
	for _, name := range names {
		if name == "" {
			continue
		}
		room.Kitchen = name
		if err = c.o.Bot.Join(c.alive, room); err == nil {
			c.open(room)
			c.log.Info("a room is joined", "room", room.ID, "kitchen", room.Kitchen)
			return fmt.Sprintf("This channel is now the kitchen \"%s\". Say what happens, like: used 300g leek in the tart. What is said here is read by the bot; /help has more.", escape(name)) + noPictures(i)
		}
		if !errors.Is(err, bot.ErrTaken) {
			break
		}
	}
	if errors.Is(err, bot.ErrTaken) {
		return "A kitchen of that name is kept elsewhere. Say another: /kitchen open name:..."
	}
	c.log.Error("a room could not be joined", "room", room.ID, "error", err)
	return notDone
}

func (c *Client) closeRoom(r *room) string {
	if r == nil {
		return notOpen
	}
	if c.leave(r.now()) != nil {
		return notDone
	}
	return "The bot no longer listens here. What was counted is kept, and /kitchen open goes on with it."
}

func (c *Client) setQuiet(r *room, on bool) string {
	if r == nil {
		return notOpen
	}
	now := r.now()
	now.Quiet = on
	if err := c.o.Bot.Keep(c.alive, now); err != nil {
		c.log.Error("a room could not be changed", "room", now.ID, "error", err)
		return notDone
	}
	r.set(now)
	if on {
		return "Quiet: what is plain gets a " + heardSign + " on the message. Questions, and what is odd, are still answered in words."
	}
	return "Every entry is answered in words again."
}

func (c *Client) showRoom(r *room) string {
	if r == nil {
		return notOpen
	}
	now := r.now()
	quiet := "answers in words"
	if now.Quiet {
		quiet = "quiet"
	}
	return fmt.Sprintf("This channel is the kitchen \"%s\", %s, since %s.", escape(now.Kitchen), quiet, said(now.Since).In(c.o.Now().Location()).Format("2 Jan 2006 15:04"))
}

// help is for those who ask, and for direct messages.
const help = "I keep count in a kitchen's channel. Say there what happens, in your own words:\n" +
	"used 300g leek in the tart · need 2 lemons for the soup · got 2kg carrots, 500g butter · binned 80g spinach\n" +
	"there's 450g leek left · make that 200g · undo · timer 12 min tart\n" +
	"what's left? · who has the leek? · ideas? · how much cream?\n" +
	"Editing or deleting a message mends what it said. The commands (/use, /left, /ideas ...) do the same.\n" +
	"Allergens and times are guides: labels and local food-safety rules go first."

// howToEvery is how often someone who writes directly is told where to go.
const howToEvery = time.Hour

// howTo answers a direct message.
func (c *Client) howTo(m *message) {
	c.mu.Lock()
	last, told := c.told[m.Channel]
	now := c.o.Now()
	if told && now.Sub(last) < howToEvery {
		c.mu.Unlock()
		return
	}
	c.told[m.Channel] = now
	if len(c.told) > 10_000 {
		clear(c.told)
	}
	c.mu.Unlock()
	p := text(help+"\nTo begin, someone who may manage a channel says there: /kitchen open").once("how to", m.ID).in(m.ID)
	if _, _, err := c.rest.send(c.alive, m.Channel, p); err != nil {
		c.log.Warn("a direct message could not be answered", "error", plainError(err))
	}
}
