package discord

import (
	"context"

	"github.com/bwmarrin/discordgo"
)

// typing has the room see that the bot types while a message is thought about, from a moment
// on, for most answers are sooner. It goes on until the function that it gives is called.
func (x *room) typing() (done func()) {
	ctx, cancel := context.WithCancel(x.c.alive)
	x.c.work.Go(func() {
		for wait := x.c.o.Pace.Typing; ; wait = x.c.o.Pace.TypeOn {
			pause(ctx, wait)
			if ctx.Err() != nil {
				return
			}
			if err := x.c.rest.typing(ctx, x.now().ID); err != nil { // it is a courtesy: no other try
				x.c.log.Debug("that the bot types could not be shown", "room", x.now().ID, "error", plainError(err))
				return
			}
		}
	})
	return cancel
}

// typing shows for about 10 s that the bot types. Source: Discord API docs, resources/channel,
// "Trigger Typing Indicator".
func (r *rest) typing(ctx context.Context, channel string) error {
	return r.call(ctx, "POST", discordgo.EndpointChannelTyping(channel), nil, "typing "+channel, nil)
}
