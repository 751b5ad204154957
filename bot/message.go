// Package bot is the conversation: a Message in, a Reply out. It knows the
// pantry and the planner and no platform; adapters (terminal, pipe, chat
// services) turn what their platform says into a Message and a Reply into
// what their platform shows.
//
// One message goes one straight way: heard before? then the stored reply;
// else read (package language), resolved against what the kitchen has,
// written to the ledger and answered, all in one transaction.
//
// Start with New and Bot.Handle. A Bot may be used from any goroutine; the
// messages of one ledger are settled in the order in which Start was called.
package bot

import "time"

// Message is something said in a kitchen's chat.
type Message struct {
	Kitchen string
	ID      string    // of the message, unique in the kitchen; the same id is the same message
	Cook    string    // who said it
	At      time.Time // when; for an edit or delete, when that was done
	Text    string
	Edit    bool   // the message ID was edited and now says Text
	Delete  bool   // the message ID was deleted
	Version string // of an edit: what tells it from other edits of the same message, such as its time; may be empty

	// What a chat knows besides; all may be empty.
	Room   string    // the room it was said in, which is to be shown the reply: see Posting
	Person string    // the platform's id of the cook; Cook is then the name to show
	Heard  time.Time // when it reached the program, where that is long after At
	Edited int64     // when the text got to be what it is, in µs since 1970; 0 as first said. An older edit changes nothing
	Press  *Press    // what was pressed; Text is then empty
	Counts bool      // it was said where timers are seen as they run, though Room is empty and nobody can be called

	// Thinks, where not nil, is called when the message has to be thought about for a while, and
	// what it gives when that is over.
	Thinks func() (done func())

	thoughts []thought // plans that were made for it
	hurry    bool      // no more are made beside the ledger
}

// Kind says what a reply is.
type Kind string

// The kinds of reply.
const (
	Log    Kind = "log"    // entries were written, changed or withdrawn
	Answer Kind = "answer" // a question was answered
	Asking Kind = "ask"    // the bot needs to know more
	Silent Kind = "silent" // not for the bot
	Error  Kind = "error"  // could not be done, nothing was written
)

// Reply is the answer to a message, in the form that scullion pipe prints.
type Reply struct {
	To      string  `json:"to"`
	Kind    Kind    `json:"kind"`
	Text    string  `json:"text"`
	Entries []Entry `json:"entries,omitempty"`
	Ideas   []Idea  `json:"ideas,omitempty"`
	Plan    *Plan   `json:"plan,omitempty"`
	Ask     *Ask    `json:"ask,omitempty"`

	Look  *Look     `json:"-"` // what a picture beside it shows; nil none
	Timed bool      `json:"-"` // a timer was set: Ring has something new to tell
	Posts []Posting `json:"-"` // what rooms are to be shown now; only in the reply that Handle gives
}

// Entry is a ledger entry as it is shown: amounts in grams or millilitres.
type Entry struct {
	Kind   string   `json:"kind"`
	Item   string   `json:"item"`
	Amount float64  `json:"amount"`
	Unit   string   `json:"unit"`
	Pieces *float64 `json:"pieces,omitempty"`
	Piece  string   `json:"piece,omitempty"`
	Dish   string   `json:"dish,omitempty"`
	Approx bool     `json:"approx"`
	Trim   bool     `json:"trim,omitempty"`
	Cook   string   `json:"cook"`
	UseBy  string   `json:"use_by,omitempty"` // the label's date, or of food with a state that of the guidance
	State  string   `json:"state,omitempty"`  // "cooked" or "made up"; of a count that tells no balance, what was "opened", "frozen" or "thawed"
	Cost   *float64 `json:"cost,omitempty"`
	Sign   string   `json:"currency,omitempty"` // of cost, as it was said: "£"
}

// Quantity is an amount of an item as it is shown.
type Quantity struct {
	Item   string  `json:"item"`
	Amount float64 `json:"amount"`
	Unit   string  `json:"unit"`
	Pieces float64 `json:"pieces,omitempty"` // about so many of it
	Cut    string  `json:"cut,omitempty"`    // "slices of 5 mm"
}

// Idea is one thing to do with what is free.
type Idea struct {
	Title     string     `json:"title"`
	Technique string     `json:"technique"`         // of a dish of several parts: its frame
	Palette   string     `json:"palette,omitempty"` // of a dish: its seasoning
	How       string     `json:"how,omitempty"`     // one line
	Uses      []Quantity `json:"uses"`
	Cupboard  []Quantity `json:"cupboard,omitempty"`
	Minutes   int        `json:"minutes"`
	HandsOn   int        `json:"handson"`
	Kit       []string   `json:"kit"`
	Portions  int        `json:"portions"`
	Allergens []string   `json:"allergens,omitempty"` // of the EU/UK 14, by nature; labels decide
	Cautions  []string   `json:"cautions"`
}

// Ask is what the bot needs to know.
type Ask struct {
	About   string   `json:"about"`
	Options []string `json:"options"`
}
