package strict

import (
	"slices"
	"strings"
)

// layout checks a component that needs the V2 flag (Discord API docs, component
// reference). top is whether a container may stand here.
func (t *tally) layout(c field, kind int, top bool) {
	switch kind {
	case compSection:
		t.section(c)
	case compText:
		t.textDisplay(c)
	case compGallery:
		c.object("type", "id", "items")
		c.at("items").need()
		for _, item := range c.at("items").list(1, maxGalleryItems) {
			item.object("media", "description", "spoiler")
			t.media(item, "media", true)
		}
	case compFile:
		c.object("type", "id", "file", "spoiler", "name", "size")
		t.media(c, "file", false)
	case compSeparator:
		c.object("type", "id", "divider", "spacing")
		c.at("divider").boolean()
		c.at("spacing").whole(1, 2)
	case compContainer:
		if !top {
			c.at("type").refuse("COMPONENT_TYPE", "is a container in a container")
			return
		}
		t.container(c)
	default:
		c.at("type").refuse("COMPONENT_TYPE", "is %d, which does not stand here", kind)
	}
}

func (t *tally) container(c field) {
	c.object("type", "id", "components", "accent_color", "spoiler")
	c.at("accent_color").whole(0, 0xFFFFFF)
	c.at("spoiler").boolean()
	c.at("components").need()
	for _, item := range c.at("components").list(1, maxComponents) {
		if kind := t.enter(item); kind == compRow {
			t.row(item)
		} else {
			t.layout(item, kind, false)
		}
	}
}

func (t *tally) section(c field) {
	c.object("type", "id", "components", "accessory")
	c.at("components").need()
	for _, item := range c.at("components").list(1, maxSectionTexts) {
		if kind := t.enter(item); kind != compText {
			item.at("type").refuse("COMPONENT_TYPE", "is %d, and a section holds texts", kind)
			continue
		}
		t.textDisplay(item)
	}
	side := c.at("accessory")
	if !side.need() {
		return
	}
	switch kind := t.enter(side); kind {
	case compButton:
		t.button(side)
	case compThumbnail:
		side.object("type", "id", "media", "description", "spoiler")
		t.media(side, "media", true)
	default:
		side.at("type").refuse("COMPONENT_TYPE", "is %d, and a section's accessory is a button or a thumbnail", kind)
	}
}

func (t *tally) textDisplay(c field) {
	c.object("type", "id", "content")
	c.at("content").need()
	t.texts = append(t.texts, c.at("content").text(1, 1<<20))
}

// media is an address, or an upload; a file component's is always an upload.
func (t *tally) media(c field, key string, outside bool) {
	c.at("description").text(0, maxMediaDescription)
	c.at("spoiler").boolean()
	m := c.at(key)
	m.need()
	m.object("url")
	u := m.at("url")
	u.need()
	name, ours := strings.CutPrefix(u.text(1, 1<<16), "attachment://")
	switch {
	case outside:
		address(u, t.names)
	case !ours || !slices.Contains(t.names, name):
		u.refuse("ATTACHMENT", "names no upload")
	}
	if ours {
		t.shown[name] = true
	}
}
