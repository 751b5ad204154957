package discord

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"scullion/bot"
)

// order is a slash command: its words are the entries' and questions' own, and it
// is read as the sentence that it stands for.
type order struct {
	about   string
	options []string // names of options; see choices
	private bool     // only the one who asks sees the answer
	form    string   // the sentence: {food} is an option, [...] is left out where its option is not given
	none    string   // the sentence where the amount is not given; "" form will do
}

// orders are the commands, by name.
var orders = map[string]order{
	"use":     {about: "Food that went into a dish", options: []string{"food", "amount", "dish"}, form: "used {amount} {food}[ in the {dish}]", none: "used the {food}[ in the {dish}]"},
	"claim":   {about: "Keep food for a dish", options: []string{"food", "amount", "dish"}, form: "need {amount} {food}[ for the {dish}]", none: "need all the {food}[ for the {dish}]"},
	"release": {about: "Give back what you had kept", options: []string{"food", "amount"}, form: "don't need {amount} {food}", none: "don't need the {food}"},
	"receive": {about: "Food that came in", options: []string{"food new", "amount!", "by"}, form: "got {amount} {food}[ use by {by}]"},
	"bin":     {about: "Food that was thrown away", options: []string{"food", "amount"}, form: "binned {amount} {food}", none: "binned the {food}"},
	"count":   {about: "What the scales say is left", options: []string{"food", "amount!"}, form: "there's {amount} {food} left"},
	"return":  {about: "Food that was put back", options: []string{"food", "amount"}, form: "put back {amount} {food}", none: "put back the {food}"},
	"make":    {about: "Food made out of other food", options: []string{"food new", "amount!", "from"}, form: "made {amount} {food}[ from {from}]"},
	"undo":    {about: "Take back what you logged last", form: "undo"},
	"left":    {about: "What is left, and what must go first", options: []string{"food?"}, private: true, form: "how much {food} is left?", none: "what's left?"},
	"who":     {about: "Who keeps a food", options: []string{"food"}, private: true, form: "who has the {food}?"},
	"ideas":   {about: "What to make of what is free", options: []string{"food?", "minutes?", "portions?", "within?"}, private: true, form: "ideas[ for the {food}][ for {portions} people][ in {minutes} minutes][, {within}]"},
	"plan":    {about: "Dishes for the crate and their timetable", options: []string{"dishes!", "portions?", "minutes?", "within?"}, form: "plan {dishes} dishes[ for {portions}][ in {minutes} minutes][, {within}]"},
	"timer":   {about: "Be called in so many minutes", options: []string{"minutes!", "for"}, form: "timer {minutes} min[ {for}]"},
	"timers":  {about: "Which timers are running", private: true, form: "timers?"},
}

// Types of options, and what each option is. Source: Discord API docs,
// interactions/application-commands.
const (
	optSub     = 1
	optString  = 3
	optInteger = 4
	optBool    = 5
)

var choices = map[string]parameter{
	"food":     {Type: optString, About: "Which food", Completes: true, Most: 100},
	"amount":   {Type: optString, About: "How much, like 300g, 2 or half; left out: it asks, or takes all", Most: 60},
	"dish":     {Type: optString, About: "Which dish", Completes: true, Most: 80},
	"by":       {Type: optString, About: "Its use-by date, like fri or 4 March", Most: 40},
	"from":     {Type: optString, About: "Out of what, like 2 onions and 1 lemon", Most: 200},
	"minutes":  {Type: optInteger, About: "How many minutes", Min: 1, Max: 24 * 60},
	"for":      {Type: optString, About: "What it is for", Most: 80},
	"dishes":   {Type: optInteger, About: "How many dishes", Min: 1, Max: 8},
	"portions": {Type: optInteger, About: "For how many", Min: 1, Max: 500},
	"within":   {Type: optString, About: "What it is held to, like no oven, cold, vegan, no nuts", Most: 100},
}

// command is a slash command as it is registered.
type command struct {
	Name     string      `json:"name"`
	Type     int         `json:"type"`
	About    string      `json:"description"`
	Options  []parameter `json:"options,omitempty"`
	May      *string     `json:"default_member_permissions"`
	Contexts []int       `json:"contexts"`
	Installs []int       `json:"integration_types"`
}

type parameter struct {
	Type      int         `json:"type"`
	Name      string      `json:"name"`
	About     string      `json:"description"`
	Required  bool        `json:"required,omitempty"`
	Completes bool        `json:"autocomplete,omitempty"`
	Min       int         `json:"min_value,omitempty"`
	Max       int         `json:"max_value,omitempty"`
	Most      int         `json:"max_length,omitempty"`
	Options   []parameter `json:"options,omitempty"`
}

// parameters gives an order's options: "food" is required where it stands first,
// "amount!" wherever it stands, "food?" never.
func (o order) parameters() (list []parameter) {
	for i, name := range o.options {
		name, _, _ = strings.Cut(name, " ")
		plain := strings.TrimRight(name, "!?")
		p := choices[plain]
		p.Name, p.Required = plain, strings.HasSuffix(name, "!") || i == 0 && plain == name
		list = append(list, p)
	}
	return list
}

// takesNew says whether the order may name food that the kitchen has not had.
func (o order) takesNew() bool { return len(o.options) > 0 && strings.HasSuffix(o.options[0], " new") }

// say puts a command into words.
func (o order) say(i *interaction) string {
	form := o.form
	first := "amount"
	if len(o.options) > 0 && !strings.Contains(o.form, "{amount}") {
		first, _, _ = strings.Cut(strings.TrimRight(o.options[0], "!?"), " ")
	}
	if o.none != "" && i.opt(first) == "" {
		form = o.none
	}
	for {
		from := strings.IndexByte(form, '[')
		if from < 0 {
			break
		}
		to := from + strings.IndexByte(form[from:], ']')
		part := form[from+1 : to]
		name := part[strings.IndexByte(part, '{')+1 : strings.IndexByte(part, '}')]
		if i.opt(name) == "" {
			part = ""
		}
		form = form[:from] + part + form[to+1:]
	}
	var pairs []string
	for name := range choices {
		pairs = append(pairs, "{"+name+"}", oneLine(i.opt(name)))
	}
	return strings.Join(strings.Fields(strings.NewReplacer(pairs...).Replace(form)), " ")
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// commands lists what is registered: for servers only, and installed there.
func commands() (list []command) {
	add := func(name, about string, may *string, options []parameter) {
		list = append(list, command{Name: name, Type: 1, About: about, Options: options, May: may, Contexts: []int{0}, Installs: []int{0}})
	}
	for name, o := range orders {
		add(name, o.about, nil, o.parameters())
	}
	manage := "16" // MANAGE_CHANNELS
	add("kitchen", "Make this channel a kitchen, or see how it stands", &manage, []parameter{
		{Type: optSub, Name: "open", About: "Keep count in this channel", Options: []parameter{
			{Type: optString, Name: "name", About: "Which kitchen; one that is kept in another channel is joined", Most: 40}}},
		{Type: optSub, Name: "close", About: "Stop listening in this channel; what was counted is kept"},
		{Type: optSub, Name: "quiet", About: "Answer plain entries with a sign instead of a text", Options: []parameter{
			{Type: optBool, Name: "on", About: "Quiet or not", Required: true}}},
		{Type: optSub, Name: "show", About: "Which kitchen this channel is"},
	})
	add("help", "What can be said", nil, nil)
	return sorted(list)
}

// register makes the platform's commands what they should be, where they differ.
func (c *Client) register() {
	_, app := c.ids()
	for wait := c.o.Pace.Retry; c.alive.Err() == nil; wait = min(2*wait, c.o.Pace.MostRetry/10) {
		err := c.registerOnce(c.alive, app)
		if err == nil {
			return
		}
		c.log.Warn("the commands could not be registered", "error", plainError(err))
		if s := status(err); s >= 400 && s < 500 && s != 429 {
			return
		}
		pause(c.alive, wait)
	}
}

func (c *Client) registerOnce(ctx context.Context, app string) error {
	want := commands()
	raw, err := c.rest.commands(ctx, app)
	if err != nil {
		return err
	}
	var have []command
	for _, r := range raw {
		var x command
		if err := json.Unmarshal(r, &x); err != nil {
			return err
		}
		have = append(have, x)
	}
	if plainest(sorted(have)) == plainest(want) {
		return nil
	}
	c.log.Info("registering commands", "commands", len(want))
	return c.rest.setCommands(ctx, app, want)
}

// plainest is a list as JSON has it, so that no and empty are the same.
func plainest(list []command) (s string) {
	raw, err := json.Marshal(list)
	if err != nil {
		panic(err) // it holds nothing that cannot be marshalled
	}
	return string(raw)
}

// words completes what is being typed.
func (c *Client) words(i *interaction, r *room) {
	type word struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	}
	found := []word{}
	order := orders[i.Data.Name]
	for _, o := range i.options() {
		if !o.Focused || r == nil {
			continue
		}
		typed, _ := o.Value.(string)
		ctx, cancel := context.WithDeadline(c.alive, i.came.Add(interactionTime/2))
		list, err := c.o.Bot.Suggest(ctx, r.now().Kitchen, bot.Suggest{Typed: typed, Dishes: o.Name == "dish", New: order.takesNew(), Most: mostWords, At: c.o.Now()})
		cancel()
		if err != nil {
			c.log.Warn("a word could not be completed", "error", err)
		}
		for _, w := range list {
			found = append(found, word{clip(w, mostChoice), clip(w, mostChoice)})
		}
	}
	c.respond(i, respWords, struct {
		Choices []word `json:"choices"`
	}{found})
}

// mostWords is the most that may be offered. Source: Discord API docs,
// interactions/application-commands.
const mostWords = 25

func sorted(list []command) []command {
	slices.SortFunc(list, func(a, b command) int { return strings.Compare(a.Name, b.Name) })
	return list
}
