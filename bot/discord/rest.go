package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"github.com/bwmarrin/discordgo"
)

// rest calls Discord's REST interface through discordgo's limiter. Answers are
// read into structs of our own: the library's message cannot be read where it
// holds a kind of component that the library does not know.
type rest struct {
	s *discordgo.Session
}

// calls at most this long, answer and all.
const callTime = 20 * time.Second

func newRest(o Options) *rest {
	s, err := discordgo.New("Bot " + o.Token)
	if err != nil {
		panic(err) // it only ever fails where there is no memory
	}
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0 // a send that may have worked is only repeated with its nonce
	s.StateEnabled = false
	s.UserAgent = "DiscordBot (https://scullion.invalid, 1)"
	s.Client = &http.Client{Transport: newTransport(o), Timeout: callTime}
	return &rest{s: s}
}

// call makes one call. The bucket is what the library's limiter goes by: it
// locks it for as long as the call takes, so that unlike calls need unlike ones.
func (r *rest) call(ctx context.Context, method, address string, body any, bucket string, answer any) error {
	raw, err := r.request(ctx, method, address, body, bucket)
	if err != nil || answer == nil {
		return err
	}
	return json.Unmarshal(raw, answer)
}

func (r *rest) request(ctx context.Context, method, address string, body any, bucket string) ([]byte, error) {
	p, ok := body.(payload)
	if !ok || p.file == nil {
		return r.s.RequestWithBucketID(method, address, body, bucket, discordgo.WithContext(ctx))
	}
	kind, form, err := discordgo.MultipartBodyWithJSON(p, []*discordgo.File{{Name: p.file.name, ContentType: "image/png", Reader: bytes.NewReader(p.file.png)}})
	if err != nil {
		return nil, err
	}
	return r.s.RequestRaw(method, address, kind, form, bucket, 0, discordgo.WithContext(ctx))
}

// logins gives how many new sessions may be begun, and in how long there will be
// more.
func (r *rest) logins(ctx context.Context) (left int, reset time.Duration, err error) {
	var a struct {
		Limit struct {
			Remaining int     `json:"remaining"`
			Reset     float64 `json:"reset_after"`
		} `json:"session_start_limit"`
	}
	err = r.call(ctx, "GET", discordgo.EndpointGatewayBot, nil, "gateway", &a)
	return a.Limit.Remaining, time.Duration(a.Limit.Reset) * time.Millisecond, err
}

// send makes a message, once: a repeat with the same nonce gives the same one.
// It gives the text that stands there.
func (r *rest) send(ctx context.Context, channel string, p payload) (id, content string, err error) {
	var m struct {
		ID      string `json:"id"`
		Content string `json:"content"`
	}
	err = r.call(ctx, "POST", discordgo.EndpointChannelMessages(channel), p, "send "+channel, &m)
	return m.ID, m.Content, err
}

// edit changes a message of the bot's own.
func (r *rest) edit(ctx context.Context, channel, id string, p payload) error {
	return r.call(ctx, "PATCH", discordgo.EndpointChannelMessage(channel, id), p, "edit "+channel, nil)
}

func (r *rest) remove(ctx context.Context, channel, id string) error {
	return r.call(ctx, "DELETE", discordgo.EndpointChannelMessage(channel, id), nil, "remove "+channel, nil)
}

func (r *rest) react(ctx context.Context, channel, id, emoji string) error {
	return r.call(ctx, "PUT", discordgo.EndpointMessageReaction(channel, id, url.PathEscape(emoji), "@me"), nil, "react "+channel, nil)
}

// pageSize is the most messages that a page of history may hold. Source: Discord
// API docs, resources/message, "Get Channel Messages".
const pageSize = 100

// history gives the messages after an id, the nearest first in time, and the
// newest first in the list.
func (r *rest) history(ctx context.Context, channel, after string) (list []message, err error) {
	address := discordgo.EndpointChannelMessages(channel) + "?limit=" + strconv.Itoa(pageSize) + "&after=" + after
	return list, r.call(ctx, "GET", address, nil, "history "+channel, &list)
}

// respond is the first response to an interaction.
func (r *rest) respond(ctx context.Context, i *interaction, kind discordgo.InteractionResponseType, data any) error {
	body := struct {
		Type discordgo.InteractionResponseType `json:"type"`
		Data any                               `json:"data,omitempty"`
	}{kind, data}
	return r.call(ctx, "POST", discordgo.EndpointInteractionResponse(i.ID, i.Token), body, i.bucket(), nil)
}

// editResponse completes a response that was deferred.
func (r *rest) editResponse(ctx context.Context, i *interaction, p payload) (id string, err error) {
	var m struct {
		ID string `json:"id"`
	}
	err = r.call(ctx, "PATCH", discordgo.EndpointInteractionResponseActions(i.App, i.Token), p, i.bucket(), &m)
	return m.ID, err
}

// followUp says one thing more.
func (r *rest) followUp(ctx context.Context, i *interaction, p payload) error {
	return r.call(ctx, "POST", discordgo.EndpointWebhookToken(i.App, i.Token), p, i.bucket(), nil)
}

// response gives the id of the message that the response has become.
func (r *rest) response(ctx context.Context, i *interaction) (id string, err error) {
	var m struct {
		ID string `json:"id"`
	}
	err = r.call(ctx, "GET", discordgo.EndpointInteractionResponseActions(i.App, i.Token), nil, i.bucket(), &m)
	return m.ID, err
}

func (r *rest) commands(ctx context.Context, app string) (list []json.RawMessage, err error) {
	return list, r.call(ctx, "GET", discordgo.EndpointApplicationGlobalCommands(app), nil, "commands", &list)
}

func (r *rest) setCommands(ctx context.Context, app string, list []command) error {
	return r.call(ctx, "PUT", discordgo.EndpointApplicationGlobalCommands(app), list, "commands", nil)
}

// status gives the HTTP status of an error; 0 where there was no answer.
func status(err error) int {
	if e := new(discordgo.RESTError); errors.As(err, &e) && e.Response != nil {
		return e.Response.StatusCode
	}
	if e := new(discordgo.RateLimitError); errors.As(err, &e) {
		return http.StatusTooManyRequests
	}
	return 0
}

// codeOf gives the platform's own code of an error; 0 none.
func codeOf(err error) int {
	if e := new(discordgo.RESTError); errors.As(err, &e) && e.Message != nil {
		return e.Message.Code
	}
	return 0
}

// Codes of errors that are worth a branch. Source: Discord API docs,
// topics/opcodes-and-status-codes.
const (
	codeUnknownChannel     = 10003
	codeUnknownMessage     = 10008
	codeUnknownInteraction = 10062
	codeTooManyReactions   = 30010
	codeTooManyEdits       = 30046
	codeAcknowledged       = 40060
	codeNoAccess           = 50001
	codeNotAllowed         = 50013
	codeReactionBlocked    = 90001
	codeNoHistory          = 160002
	codeThreadLocked       = 160005
)

// plainError is an error without what is nobody's business: addresses hold the
// tokens of interactions, and bodies may hold what was said.
func plainError(err error) string {
	if err == nil {
		return ""
	}
	if e := new(discordgo.RESTError); errors.As(err, &e) {
		s := fmt.Sprint("HTTP ", status(e))
		if e.Message != nil {
			s += fmt.Sprintf(", code %d: %s", e.Message.Code, e.Message.Message)
		}
		return s
	}
	if e := new(discordgo.RateLimitError); errors.As(err, &e) {
		return "HTTP 429, again in " + e.RetryAfter.String()
	}
	if e := new(url.Error); errors.As(err, &e) {
		return e.Op + ": " + e.Err.Error()
	}
	return err.Error()
}
