package discord

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"
)

// interaction is a command, a press or a word that is being typed. Source:
// Discord API docs, interactions/receiving-and-responding.
type interaction struct {
	ID      string  `json:"id"`
	App     string  `json:"application_id"`
	Type    int     `json:"type"`
	Token   string  `json:"token"`
	Guild   string  `json:"guild_id"`
	Channel string  `json:"channel_id"`
	Member  *member `json:"member"`
	User    *user   `json:"user"`
	Place   struct {
		Name string `json:"name"`
		Type int    `json:"type"`
	} `json:"channel"`
	Allowed string `json:"app_permissions"`
	Data    struct {
		Name     string   `json:"name"`
		Options  []option `json:"options"`
		CustomID string   `json:"custom_id"`
		Values   []string `json:"values"`
	} `json:"data"`
	Message *message `json:"message"`

	came time.Time
}

type option struct {
	Name    string   `json:"name"`
	Type    int      `json:"type"`
	Value   any      `json:"value"`
	Options []option `json:"options"`
	Focused bool     `json:"focused"`
}

// Types of interactions, and of responses to them.
const (
	isCommand  = 2
	isPress    = 3
	isTyping   = 4
	respSay    = discordgo.InteractionResponseChannelMessageWithSource
	respLater  = discordgo.InteractionResponseDeferredChannelMessageWithSource
	respKeep   = discordgo.InteractionResponseDeferredMessageUpdate
	respChange = discordgo.InteractionResponseUpdateMessage
	respWords  = discordgo.InteractionApplicationCommandAutocompleteResult
)

// buckets is how many interactions' calls may be on their way at once. Each has a
// token of its own; a bucket for each would never be given back.
const buckets = 64

func (i *interaction) bucket() string {
	h := fnv.New32a()
	h.Write([]byte(i.Token))
	return "interaction " + strconv.Itoa(int(h.Sum32()%buckets))
}

// who gives the person's id and name.
func (i *interaction) who() (id, name string) {
	u := i.User
	if i.Member != nil && i.Member.User != nil {
		u = i.Member.User
		if i.Member.Nick != "" {
			return u.ID, i.Member.Nick
		}
	}
	if u == nil {
		return "", ""
	}
	return u.ID, u.name()
}

// may says whether the person may manage the channel.
func (i *interaction) may() bool {
	if i.Member == nil {
		return false
	}
	p, err := strconv.ParseInt(i.Member.Permissions, 10, 64)
	return err == nil && p&(discordgo.PermissionManageChannels|discordgo.PermissionAdministrator) != 0
}

// opt gives an option's value in words; "" where it is not given.
func (i *interaction) opt(name string) string {
	for _, o := range i.options() {
		if o.Name == name && o.Value != nil {
			if f, ok := o.Value.(float64); ok {
				return strconv.FormatFloat(f, 'f', -1, 64)
			}
			return strings.TrimSpace(fmt.Sprint(o.Value))
		}
	}
	return ""
}

// options are the command's own, or its subcommand's.
func (i *interaction) options() []option {
	if i.sub() != "" {
		return i.Data.Options[0].Options
	}
	return i.Data.Options
}

// sub is the subcommand; "" none.
func (i *interaction) sub() string {
	const subcommand = 1
	if len(i.Data.Options) == 1 && i.Data.Options[0].Type == subcommand {
		return i.Data.Options[0].Name
	}
	return ""
}

// lacksFiles says whether the bot is known to have no right to show pictures in the channel.
func (i *interaction) lacksFiles() bool {
	has, err := strconv.ParseInt(i.Allowed, 10, 64)
	const all = 8
	return err == nil && has&all == 0 && has&attachFiles == 0
}

// lacking lists the rights that the bot has not got in the channel.
func (i *interaction) lacking() string {
	has, err := strconv.ParseInt(i.Allowed, 10, 64)
	if err != nil {
		return ""
	}
	const all, sendInThreads = 8, 1 << 38
	if has&all != 0 {
		return ""
	}
	var list []string
	for _, n := range needed {
		bit := n.bit
		if n.name == "Send Messages" && i.Place.Type >= 10 && i.Place.Type <= 12 { // a thread
			bit = sendInThreads
		}
		if has&bit == 0 {
			list = append(list, n.name)
		}
	}
	return strings.Join(list, ", ")
}
