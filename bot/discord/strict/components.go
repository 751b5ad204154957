package strict

import (
	"encoding/json"
	"slices"
	"strings"
)

// Component types (Discord API docs, component reference).
const (
	compRow       = 1
	compButton    = 2
	compSelect    = 3
	compUsers     = 5
	compRoles     = 6
	compAnyone    = 7
	compChannels  = 8
	compSection   = 9
	compText      = 10
	compThumbnail = 11
	compGallery   = 12
	compFile      = 13
	compSeparator = 14
	compContainer = 17
)

// tally is what must be unique or few over all components of a message.
type tally struct {
	v2      bool
	count   int
	customs map[string]bool
	ids     map[string]bool
	names   []string        // that attachment:// may have
	shown   map[string]bool // that it had
	texts   []string
}

// readComponents checks components, and what the V2 flag forbids beside them.
func (d *draft) readComponents(f field, names []string, before *stored) {
	list := f.at("components").of(pageComponents)
	d.components = list.given()
	flags := 0
	if before != nil {
		flags = before.flags()
	}
	if d.flags != nil {
		flags = *d.flags
	}
	t := &tally{v2: flags&flagComponentsV2 != 0, customs: map[string]bool{}, ids: map[string]bool{}, names: names, shown: map[string]bool{}}
	most := maxRows
	if t.v2 {
		most = maxComponents
	}
	for _, c := range list.list(0, most) {
		t.top(c)
	}
	d.shown = t.texts
	if !t.v2 {
		return
	}
	if t.count > maxComponents {
		list.refuse("COMPONENTS", "are %d in all, not %d at most", t.count, maxComponents)
	}
	const legacy = "MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2"
	if d.content != nil && *d.content != "" {
		f.at("content").of(pageComponents).refuse(legacy, "goes not with components V2")
	}
	if len(d.embeds) > 0 {
		f.at("embeds").of(pageComponents).refuse(legacy, "goes not with components V2")
	}
	for _, u := range d.files {
		if !t.shown[u.name] {
			list.refuse("COMPONENTS", "do not show the upload %q", u.name)
		}
	}
}

// top checks a component of the message itself.
func (t *tally) top(c field) {
	switch kind := t.enter(c); {
	case kind == compRow:
		t.row(c)
	case t.v2:
		t.layout(c, kind, true)
	default:
		c.at("type").refuse("COMPONENT_TYPE", "is %d, and without the components V2 flag only action rows stand here", kind)
	}
}

// enter counts a component and checks its type and id.
func (t *tally) enter(c field) int {
	t.count++
	c.at("type").need()
	if id := c.at("id"); id.has() {
		n := id.whole(0, 1<<31-1)
		key, _ := id.value.(json.Number)
		if n != 0 && t.ids[key.String()] {
			id.refuse("COMPONENT_ID", "is there twice")
		}
		t.ids[key.String()] = true
	}
	return int(c.at("type").whole(1, 100))
}

// row holds up to five buttons, or one select.
func (t *tally) row(c field) {
	c.object("type", "id", "components")
	c.at("components").need()
	items := c.at("components").list(1, maxButtons)
	for _, item := range items {
		switch kind := t.enter(item); {
		case kind == compButton:
			t.button(item)
		case kind == compSelect || kind >= compUsers && kind <= compChannels:
			if len(items) > 1 {
				item.refuse("COMPONENT_LAYOUT_WIDTH_EXCEEDED", "is a select, which has a row to itself")
			}
			t.menu(item, kind)
		default:
			item.at("type").refuse("COMPONENT_TYPE", "is %d, and a row holds buttons or a select", kind)
		}
	}
}

// styles of a button that send an interaction, and the two that do not.
const (
	styleLink    = 5
	stylePremium = 6
)

func (t *tally) button(c field) {
	c.object("type", "id", "style", "label", "emoji", "custom_id", "sku_id", "url", "disabled")
	c.at("disabled").boolean()
	c.at("style").need()
	label, emoji := c.at("label"), c.at("emoji")
	label.text(0, maxLabel)
	partialEmoji(emoji)
	switch style := c.at("style").whole(1, stylePremium); style {
	case styleLink:
		c.at("url").need()
		c.at("url").text(1, maxButtonURL)
		address(c.at("url"), nil)
		c.at("custom_id").none("goes not with a link")
		c.at("sku_id").none("goes not with a link")
	case stylePremium:
		c.at("sku_id").need()
		c.at("sku_id").id()
		for _, key := range []string{"custom_id", "label", "url", "emoji"} {
			c.at(key).none("goes not with a premium button")
		}
		return
	default:
		t.custom(c)
		c.at("url").none("is for links")
		c.at("sku_id").none("is for premium buttons")
	}
	if (!label.has() || label.value == "") && !emoji.has() {
		c.refuse("BUTTON_COMPONENT_LABEL_OR_EMOJI", "has neither label nor emoji")
	}
}

// custom wants a custom_id that no other component has.
func (t *tally) custom(c field) {
	f := c.at("custom_id")
	f.need()
	id := f.text(1, maxCustomID)
	if id != "" && t.customs[id] {
		f.refuse("COMPONENT_CUSTOM_ID_DUPLICATED", "%q is there twice", id)
	}
	t.customs[id] = true
}

// menu is one of the selects.
func (t *tally) menu(c field, kind int) {
	c.object("type", "id", "custom_id", "options", "placeholder", "min_values", "max_values", "disabled", "required", "default_values", "channel_types")
	t.custom(c)
	c.at("placeholder").text(0, maxPlaceholder)
	c.at("disabled").boolean()
	least, most := int64(1), int64(1)
	if f := c.at("min_values"); f.has() {
		least = f.whole(0, maxSelectOptions)
	}
	if f := c.at("max_values"); f.has() {
		most = f.whole(1, maxSelectOptions)
	}
	if least > most {
		c.at("min_values").refuse("NUMBER_TYPE_BOUNDS", "is above max_values")
	}
	if kind != compSelect {
		c.at("options").none("is for string selects")
		return
	}
	c.at("options").need()
	values := []string{}
	for _, o := range c.at("options").list(1, maxSelectOptions) {
		o.object("label", "value", "description", "emoji", "default")
		o.at("label").need()
		o.at("value").need()
		o.at("label").text(1, maxSelectText)
		o.at("description").text(0, maxSelectText)
		o.at("default").boolean()
		partialEmoji(o.at("emoji"))
		value := o.at("value").text(1, maxSelectText)
		if slices.Contains(values, value) {
			o.at("value").refuse("SELECT_COMPONENT_OPTION_VALUE_DUPLICATED", "%q is there twice", value)
		}
		values = append(values, value)
	}
	if n := int64(len(values)); n < most {
		c.at("max_values").refuse("NUMBER_TYPE_BOUNDS", "is %d of %d options", most, n)
	}
}

// partialEmoji is a Unicode emoji by name, or a guild's by id.
func partialEmoji(f field) {
	if !f.object("id", "name", "animated") {
		return
	}
	f.at("id").id()
	f.at("animated").boolean()
	name := f.at("name").text(0, 64)
	if id := f.at("id"); (!id.has() || id.value == "") && !isEmoji(name) {
		f.at("name").refuse("BUTTON_COMPONENT_INVALID_EMOJI", "%q is no emoji", strings.ToValidUTF8(name, "?"))
	}
}
