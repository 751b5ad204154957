package strict

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
)

// draft is the body of a send or an edit, checked as far as it can be without
// knowing the channel.
type draft struct {
	form       field
	content    *string // nil: not given
	embeds     []any   // nil: not given
	components []any
	flags      *int
	nonce      any
	enforce    bool
	allowed    mentions
	files      []upload
	kept       []string          // attachments of an edited message that stay; nil: all
	texts      map[string]string // descriptions of the files by their number
	shown      []string          // what text components say
}

// shape is what one kind of send or edit may have.
type shape struct {
	keys  string
	flags int
	nonce bool // must have one
	page  string
	edit  bool
	hook  bool // of an interaction: only users are pinged by default
}

// The client library's edit form carries ID and Channel along, which the platform
// does not read.
var (
	shapeSend = shape{keys: "content nonce tts embeds allowed_mentions message_reference components sticker_ids attachments flags enforce_nonce poll",
		flags: flagSuppressEmbeds | flagSilent | flagComponentsV2, nonce: true, page: pageMessage}
	shapeEdit = shape{keys: "content embeds flags allowed_mentions components attachments ID Channel",
		flags: flagSuppressEmbeds | flagComponentsV2, page: pageMessage, edit: true}
	shapeAnswer = shape{keys: "tts content embeds allowed_mentions flags components attachments poll",
		flags: flagSuppressEmbeds | flagSilent | flagComponentsV2 | flagEphemeral, page: pageInteractions, hook: true}
	shapeUpdate = shape{keys: "tts content embeds allowed_mentions flags components attachments",
		flags: flagSuppressEmbeds | flagComponentsV2, page: pageInteractions, edit: true, hook: true}
	shapeFollowup = shape{keys: "tts content embeds allowed_mentions flags components attachments poll",
		flags: flagSuppressEmbeds | flagSilent | flagComponentsV2 | flagEphemeral, page: pageWebhook, hook: true}
	shapeHookEdit = shape{keys: "content embeds flags allowed_mentions components attachments poll",
		flags: flagSuppressEmbeds | flagComponentsV2, page: pageWebhook, edit: true, hook: true}
)

// readDraft checks a body. before is the message that an edit changes, else nil.
func readDraft(f field, files []upload, how shape, before *stored) *draft {
	f = f.of(how.page)
	d := &draft{form: f, files: files, texts: map[string]string{}}
	if !f.has() {
		f.value = Raw{}
	}
	f.object(strings.Fields(how.keys)...)
	f.at("tts").boolean()
	f.at("poll").of(houseRule).none("is not served here")
	f.at("sticker_ids").of(houseRule).none("is not served here")
	if c := f.at("content"); c.has() {
		text := strings.TrimSpace(c.text(0, maxContent))
		d.content = &text
	}
	d.readFlags(f.at("flags"), how, before)
	d.readNonce(f, how)
	d.allowed = readMentions(f.at("allowed_mentions"), how)
	names := d.readAttachments(f.at("attachments"), before)
	d.embeds = readEmbeds(f.at("embeds"), names)
	d.readComponents(f, names, before)
	return d
}

// value is a list as it was sent, never nil when it was given.
func (f field) given() []any {
	list, _ := f.value.([]any)
	if f.has() && list == nil {
		list = []any{}
	}
	return list
}

// readFlags checks that only bits that may be set are, and that an edit repeats
// the ones that cannot be taken back.
func (d *draft) readFlags(f field, how shape, before *stored) {
	if !f.has() {
		return
	}
	flags := int(f.whole(0, 1<<30))
	d.flags = &flags
	settable := how.flags
	if before != nil {
		settable |= before.flags()
	}
	if wrong := flags &^ settable; wrong != 0 {
		f.refuse("FLAGS", "sets bits %d, which may not be set here", wrong)
	}
	if before != nil && before.flags()&flagComponentsV2&^flags != 0 {
		f.refuse("FLAGS", "takes the components V2 flag back")
	}
}

func (d *draft) readNonce(f field, how shape) {
	n := f.at("nonce")
	if !how.nonce {
		return
	}
	if !n.has() {
		n.of(houseRule).refuse("NONCE", "is required on every channel send")
	}
	if _, isNumber := n.value.(json.Number); isNumber {
		n.whole(0, 1<<62) // 19 digits, which is short enough
	} else {
		n.text(1, maxNonce)
	}
	d.nonce, d.enforce = n.value, f.at("enforce_nonce").boolean()
}

// readAttachments checks the list against the files, and gives the names that an
// attachment:// address may have.
func (d *draft) readAttachments(f field, before *stored) []string {
	var names []string
	uploads := map[string]string{}
	for _, u := range d.files {
		uploads[strconv.Itoa(u.n)] = u.name
		names = append(names, u.name)
	}
	old := before.attachments()
	if f.has() {
		d.kept = []string{}
	}
	seen := map[string]bool{}
	for _, item := range f.list(0, maxFiles) {
		item.object("id", "filename", "description", "content_type", "size", "url", "proxy_url", "height", "width", "ephemeral", "title", "flags")
		item.at("id").need()
		id := attachmentID(item.at("id"))
		name, isNew := uploads[id]
		switch {
		case seen[id]:
			item.at("id").refuse("ATTACHMENT", "is there twice")
		case isNew:
			if given := item.at("filename"); given.text(0, 1024) != "" && given.value != name {
				given.refuse("ATTACHMENT", "is %q, the upload's is %q", given.value, name)
			}
			d.texts[id] = item.at("description").text(0, maxFileDescription)
		case old[id] != "":
			d.kept = append(d.kept, id)
		default:
			item.at("id").refuse("ATTACHMENT", "is neither an upload's number nor an attachment of the message")
		}
		seen[id] = true
	}
	for id, name := range old {
		if d.kept == nil || slices.Contains(d.kept, id) {
			names = append(names, name)
		}
	}
	return names
}

// attachmentID is an id as a string: uploads may be named by a bare number.
func attachmentID(f field) string {
	if n, ok := f.value.(json.Number); ok {
		return n.String()
	}
	return f.id()
}

// attachments are the names of a message's attachments by id.
func (m *stored) attachments() map[string]string {
	names := map[string]string{}
	if m == nil {
		return names
	}
	list, _ := m.raw["attachments"].([]any)
	for _, v := range list {
		a, _ := v.(Raw)
		names[text(a["id"])] = text(a["filename"])
	}
	return names
}

// empty is whether a new message would have nothing in it.
func (d *draft) empty() bool {
	return (d.content == nil || *d.content == "") && len(d.embeds) == 0 && len(d.components) == 0 && len(d.files) == 0
}

// words are all that can mention someone.
func (d *draft) words() string {
	words := strings.Join(d.shown, "\n")
	if d.content != nil {
		words += "\n" + *d.content
	}
	return words
}
