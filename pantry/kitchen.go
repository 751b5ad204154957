package pantry

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Kitchen is one team's pantry as it stands, for reading. Only a Ledger
// changes it.
type Kitchen struct {
	ID        int64
	Name      string
	Lines     []*Line              // in order of first arrival; grown by Add
	Dishes    []string             // as first named
	Cooks     []string             // who has spoken, as entries call them
	People    map[string]Person    // who the cooks of a chat are, by what entries call them
	Questions map[string]*Question // what each cook has been asked, by cook
	Lessons   []Lesson             // what the cooks have taught and not taken back, in order
	Taught    int                  // changes of Lessons since the kitchen was loaded
	Met       int                  // changes of Cooks and People since then
	Needs     []Need               // in force, in the order said; those of a service that is long over may be left out

	byID   map[int64]*Line
	byName map[string]*Line
}

// Add puts a line into the kitchen.
func (k *Kitchen) Add(l *Line) {
	if k.byID == nil {
		k.byID, k.byName = map[int64]*Line{}, map[string]*Line{}
	}
	k.Lines = append(k.Lines, l)
	k.byID[l.ID], k.byName[l.Name] = l, l
}

// Line finds a line by its id; nil where there is none.
func (k *Kitchen) Line(id int64) *Line { return k.byID[id] }

// Named finds a line by its name; nil where there is none.
func (k *Kitchen) Named(name string) *Line { return k.byName[name] }

// CookName gives the name that a cook is shown by.
func (k *Kitchen) CookName(cook string) string {
	if p := k.People[cook]; p.Name != "" {
		return p.Name
	}
	return cook
}

// Person is who a cook is in a chat.
type Person struct {
	ID   string // the platform's
	Name string // to show; "" forgotten
}

// Question is what a cook has been asked and has not answered yet. Body is the
// asker's own.
type Question struct {
	Message string
	At      time.Time
	Body    []byte
}

// Lesson is what a cook has taught the kitchen: one more name for a food it
// knows, or a food that no table has.
type Lesson struct {
	Message int64             // n of the message it belongs to
	Name    string            // the name taught, or the new food's
	Means   string            // of a name: the food or line it stands for; "" for a new food
	Cells   map[string]string // of a new food: what is known of it, by the columns of a food table
}

// Message is what the ledger remembers of one message. Text is kept only for
// messages that were for the bot.
type Message struct {
	N     int64 // position in the order of things
	ID    string
	Cook  string
	At    time.Time
	Text  string
	Rev   int  // revisions of its entries so far; 0 none
	Gone  bool // deleted in the chat
	Reply []byte
	Room  string // where it was said; "" in no chat room
	// Edited is when the latest edit that was heard was made, in µs since 1970; 0 none.
	Edited int64
}

// Why a revision of a message's entries was made.
const (
	Said      = "said"
	Edited    = "edited"
	Deleted   = "deleted"
	Undone    = "undone"
	Corrected = "corrected"
	Answered  = "answered" // an answer to a question has made an entry clear
	Restored  = "restored" // the correction or undo was itself taken back
)

// Logged is one entry with where it stands in the ledger.
type Logged struct {
	Entry
	Item    string // the line's name
	Unit    measure.Kind
	Message string // id of the message it belongs to
	Rev     int
	By      string // id of the message that made this revision
	Why     string
	Part    int
	InForce bool
	Lesson  *Lesson // what was taught, where this is no entry; else nil
}

// Panic is the error of a job that panicked: nothing of it was written.
type Panic struct {
	Value any
	Stack []byte
}

// Error gives one line; Stack has the rest.
func (p *Panic) Error() string {
	return "a fault in the program: " + strings.Join(strings.Fields(fmt.Sprint(p.Value)), " ")
}

// ErrNoMessage is returned where a message id is not known.
var ErrNoMessage = errors.New("no such message")

// Ledger keeps kitchens. Do runs job in the kitchen's next transaction: what
// job writes is durable when Do returns nil, and wholly absent when Do returns
// an error. Jobs of one ledger run one at a time, in the order of the calls to
// Do; a job may be run a second time, from the start, if a commit it shared
// with others failed. The Kitchen that a Book shows is only good within job.
type Ledger interface {
	Do(ctx context.Context, kitchen string, job func(Book) error) error
	// Start is Do without the waiting: wait returns what Do would.
	Start(ctx context.Context, kitchen string, job func(Book) error) (wait func() error)
	Desk
}

// Book is what one transaction can read and write of one kitchen.
type Book interface {
	// Kitchen is the pantry as it stands, with what this job has written.
	Kitchen() *Kitchen
	// Message finds a message by id; ErrNoMessage where it was never heard.
	Message(id string) (*Message, error)
	// CookOf gives what entries call the cook whom a chat knows by an id, and
	// remembers the name to show; a new cook where the id is new.
	CookOf(person, shown string) (cook string, err error)
	// Hear writes a new message; its reply comes with Answer.
	Hear(m Message) (*Message, error)
	// Answer keeps the message's text and the reply to it.
	Answer(m *Message, text string, reply []byte) error
	// Change finds the reply to an edit or delete already heard; nil where it
	// was not. Event tells changes of one message apart.
	Change(m *Message, event string) ([]byte, error)
	// AnswerChange keeps the reply to an edit or delete, and m's Edited. Text is
	// what the message says now; gone says that it was deleted.
	AnswerChange(m *Message, event, text string, gone bool, reply []byte) error
	// InForce lists the message's entries as they now stand.
	InForce(m *Message) ([]Entry, error)
	// Revise puts entries in force for m in place of those before, at m's own
	// place in the order of things. By is the message that brought it about.
	// The effects are the new entries', in order.
	Revise(m, by *Message, why string, entries []Entry) ([]Effect, error)
	// LineBefore gives a line as it stood before message m, by the entries now
	// in force.
	LineBefore(line int64, m *Message) (Line, error)
	// Since lists a line's entries in force of the messages after m, in order.
	Since(line int64, m *Message) ([]Entry, error)
	// Revised lists what message by has done to other messages' entries: those
	// whose latest revision it made, newest first.
	Revised(by *Message) ([]*Message, error)
	// RevisedFor says why m was revised last: Undone, Answered and so on; "" where it
	// stands as it was first settled.
	RevisedFor(m *Message) (string, error)
	// Before lists m's entries as they stood before its latest revision.
	Before(m *Message) ([]Entry, error)
	// LastLogged lists the messages by which this cook last logged, or taught,
	// or said of needs, something still in force, newest first, at most n, among the ledger's last
	// LookBack messages.
	LastLogged(cook string, n int) ([]*Message, error)
	// Heard gives the message that this cook, or with "" anyone, said last
	// before message m; nil where there is none among the ledger's last LookBack.
	Heard(cook string, m *Message) (*Message, error)
	// CameWith gives the message by which a line came in or was made last; nil where it did not.
	CameWith(line int64) (*Message, error)
	// Latest gives the message that was heard last; nil where none was.
	Latest() (*Message, error)
	// AddLine makes a line; its balances start at none.
	AddLine(name, foodName string, unit measure.Kind, shelf food.Shelf) (*Line, error)
	// AddDish remembers a dish.
	AddDish(name string) error
	// Ask keeps what a cook has been asked; a nil question forgets it.
	Ask(cook string, q *Question) error
	// Teach puts lessons in force for m in place of its lessons and entries
	// before, as Revise does for entries. A message has one or the other.
	Teach(m, by *Message, why string, lessons []Lesson) error
	// Lessons lists m's lessons as they now stand, LessonsBefore as they stood
	// before its latest revision.
	Lessons(m *Message) ([]Lesson, error)
	LessonsBefore(m *Message) ([]Lesson, error)
	// SaveWrapUp notes that a message closes a stretch of the ledger, by a wrap-up that was
	// said then; DropWrapUp takes that back. WrapUps lists them in order.
	SaveWrapUp(m *Message, said time.Time) error
	DropWrapUp(m *Message) error
	WrapUps() ([]WrapUp, error)
	// AllInForce gives every entry in force that moves food, in order, as far as a
	// balance needs it.
	AllInForce() ([]Placed, error)
	// Between hands do every entry in force of messages from one to another, in order.
	Between(from, to int64, do func(Placed) error) error
	// Uses lists who used the line, newest first, at most n.
	Uses(line int64, n int) ([]Logged, error)
	// Story hands do every entry in force of a line, in order. Numbered gives messages by their numbers, those that there are.
	Story(line int64, do func(Placed) error) error
	Numbered(list []int64) ([]*Message, error)
	// Post finds what a room is to be shown for a message; nil nothing.
	Post(message string) (*Post, error)
	// SavePost keeps a post as it is given.
	SavePost(Post) error
	// SaveRoom joins a room to this kitchen, or keeps what has changed of it;
	// DropRoom parts it.
	SaveRoom(Room) error
	DropRoom(id string) error
	// SetTimer starts a timer; StopTimer ends it. Timers lists those that run,
	// the soonest first.
	SetTimer(Timer) error
	StopTimer(Timer) error
	Timers() ([]Timer, error)
	// Choose keeps a choice; Unchoose forgets those of a message. Chosen lists
	// the kitchen's since a time, the oldest first.
	Choose(Choice) error
	Unchoose(message string) error
	Chosen(since time.Time) ([]Choice, error)
	// SaveService keeps a service as it is given; DropService forgets one. Services
	// lists the kitchen's that were begun since a time, the oldest first.
	SaveService(Service) error
	DropService(message string) error
	Services(since time.Time) ([]Service, error)
	// KeepNeeds adds what m says of who cannot eat what; N and At are m's. TakeNeeds takes
	// m's back for message by, and ReturnNeeds puts back what message by has taken, except
	// where it belongs to a message that is gone or to by itself, and lists it.
	KeepNeeds(m *Message, list []Need) error
	TakeNeeds(m, by *Message) error
	ReturnNeeds(by *Message) ([]Need, error)
	// SaveDoubt keeps a doubt about food beside those that its message has. DropDoubt forgets
	// that of a message, and of what was made of such food since. Doubts lists those of messages before one, the
	// newest first.
	SaveDoubt(Doubt) error
	DropDoubt(m *Message) error
	Doubts(before *Message) ([]Doubt, error)
	// IntoDish lists the uses and claims in force for a dish, "" any, of entries made since a time,
	// among the ledger's last LookBack messages. MadeOf lists the lines that were drawn on
	// to make a line, and those that went into the dishes that it is what is left of, told before or after.
	IntoDish(dish string, since time.Time) ([]Entry, error)
	MadeOf(line int64) ([]int64, error)
}

// LeftOver is how long before it is put away what is left of a dish may have been cooked.
const LeftOver = 24 * time.Hour

// LookBack is how many messages LastLogged searches: an undo is
// for what was just said, not for last week.
const LookBack = 2000
