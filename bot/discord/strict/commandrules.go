package strict

import (
	"encoding/json"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// commandName is the published pattern; letters with a lower case must be in it
// (Discord API docs, application commands, naming).
var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// localeKeys are the keys of localizations (Discord API docs, reference, locales).
var localeKeys = strings.Fields("id da de en-GB en-US es-ES es-419 fr hr it lt hu nl no pl pt-BR ro fi sv-SE vi tr cs el bg ru uk hi th zh-CN ja zh-TW ko")

const (
	kindChat = 1
	kindMenu = 2 // of users; 3 of messages
)

// readCommand checks one command; what the platform itself adds may be sent back.
func readCommand(f field, scope string) {
	f.object("id", "application_id", "guild_id", "version", "type", "name", "name_localizations", "description", "description_localizations",
		"options", "default_member_permissions", "dm_permission", "default_permission", "integration_types", "contexts", "nsfw", "handler")
	f.at("name").need()
	f.at("nsfw").boolean()
	if p := f.at("default_member_permissions"); p.has() {
		if _, err := strconv.ParseUint(p.text(1, 20), 10, 64); err != nil {
			p.refuse("PERMISSIONS", "is no bit set in a string")
		}
	}
	for _, key := range []string{"contexts", "integration_types", "dm_permission"} {
		if scope != "" {
			f.at(key).none("is for global commands only")
		}
	}
	unlike(f.at("contexts"), 2)
	unlike(f.at("integration_types"), 1)
	kind := int64(kindChat)
	if t := f.at("type"); t.has() {
		kind = t.whole(1, 3)
	}
	if kind >= kindMenu {
		f.at("name").text(1, 32)
		if d := f.at("description"); d.text(0, 0) != "" {
			d.refuse("BASE_TYPE_FORBIDDEN", "is for chat commands")
		}
		f.at("options").none("is for chat commands")
		return
	}
	named(f)
	readOptions(f.at("options"), 0)
	if n := longest(f.value); n > maxCommandSum {
		f.refuse("APPLICATION_COMMAND_TOO_LARGE", "has %d characters, not %d at most", n, maxCommandSum)
	}
}

// unlike is a list of different numbers from 0.
func unlike(f field, most int64) {
	seen := map[int64]bool{}
	for _, v := range f.list(0, int(most)+1) {
		n := v.whole(0, most)
		if seen[n] {
			v.refuse("SET_TYPE", "is there twice")
		}
		seen[n] = true
	}
}

// named checks the name and description of a chat command or an option, and of
// each locale.
func named(f field) {
	f.at("name").need()
	f.at("description").need()
	properName(f.at("name"))
	f.at("description").text(1, maxCommandText)
	locales(f.at("name_localizations"), properName)
	locales(f.at("description_localizations"), func(d field) { d.text(1, maxCommandText) })
}

func properName(f field) {
	name := f.text(1, 32)
	if !f.has() {
		return
	}
	if !commandName.MatchString(name) {
		f.refuse("APPLICATION_COMMAND_INVALID_NAME", "%q does not fit the pattern of names", name)
	}
	if strings.ContainsFunc(name, func(r rune) bool { return unicode.ToLower(r) != r }) {
		f.refuse("APPLICATION_COMMAND_INVALID_NAME", "%q is not lower case", name)
	}
}

func locales(f field, check func(field)) {
	o, isObject := f.value.(Raw)
	if f.has() && !isObject {
		f.refuse("MODEL_TYPE_CONVERT", "is not an object")
	}
	for key := range o {
		if !slices.Contains(localeKeys, key) {
			f.at(key).refuse("BASE_TYPE_CHOICES", "is no locale")
		}
		check(f.at(key))
	}
}

// readOptions checks options; depth 0 is a command's own, 1 a group's or a
// subcommand's, 2 those of a subcommand in a group.
func readOptions(f field, depth int) {
	seen := map[string]bool{}
	optional, subs, plain := false, 0, 0
	for _, o := range f.list(0, maxCommandOptions) {
		readOption(o, depth)
		name := text(o.at("name").value)
		if seen[name] {
			o.at("name").refuse("APPLICATION_COMMAND_OPTIONS_NAME_INVALID", "%q is there twice", name)
		}
		seen[name] = true
		if whole(o.at("type").value) <= optGroup {
			subs++
			continue
		}
		plain++
		required, _ := o.at("required").value.(bool)
		if required && optional {
			o.at("required").refuse("APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID", "comes after an optional one")
		}
		optional = optional || !required
	}
	if subs > 0 && plain > 0 {
		f.refuse("APPLICATION_COMMAND_OPTIONS_TYPE_INVALID", "mixes subcommands with other options")
	}
}

func readOption(f field, depth int) {
	f.object("type", "name", "name_localizations", "description", "description_localizations", "required", "choices", "options",
		"channel_types", "min_value", "max_value", "min_length", "max_length", "autocomplete")
	named(f)
	f.at("type").need()
	kind := int(f.at("type").whole(1, optLast))
	required := f.at("required").boolean()
	inner := f.at("options")
	switch {
	case kind == optGroup && depth == 0:
		inner.need()
		for _, sub := range inner.list(1, maxCommandOptions) {
			if whole(sub.at("type").value) != optSub {
				sub.at("type").refuse("APPLICATION_COMMAND_OPTIONS_TYPE_INVALID", "is %v, and a group holds subcommands", sub.at("type").value)
			}
		}
		readOptions(inner, 1)
	case kind == optSub && depth <= 1:
		for _, o := range inner.list(0, maxCommandOptions) {
			if whole(o.at("type").value) <= optGroup {
				o.at("type").refuse("APPLICATION_COMMAND_OPTIONS_TYPE_INVALID", "is a subcommand in a subcommand")
			}
		}
		readOptions(inner, 2)
	case kind <= optGroup:
		f.at("type").refuse("APPLICATION_COMMAND_OPTIONS_TYPE_INVALID", "is nested too deep")
	default:
		if len(inner.given()) > 0 {
			inner.none("is for subcommands")
		}
		readValueRules(f, kind)
	}
	if kind <= optGroup && required {
		f.at("required").refuse("BASE_TYPE_FORBIDDEN", "goes not with a subcommand")
	}
}

// readValueRules checks choices, autocomplete and bounds against an option's type.
func readValueRules(f field, kind int) {
	numeric := kind == optInteger || kind == optNumber
	choices, auto := f.at("choices"), f.at("autocomplete").boolean()
	if len(choices.given()) > 0 {
		if auto {
			choices.refuse("APPLICATION_COMMAND_OPTIONS_CHOICES", "goes not with autocomplete")
		}
		if !numeric && kind != optString {
			choices.refuse("APPLICATION_COMMAND_OPTIONS_CHOICES", "is for strings and numbers")
		}
	}
	if auto && !numeric && kind != optString {
		f.at("autocomplete").refuse("APPLICATION_COMMAND_OPTIONS_AUTOCOMPLETE", "is for strings and numbers")
	}
	names := map[string]bool{}
	for _, c := range choices.list(0, maxChoices) {
		name := readChoice(c, kind).Name
		if names[name] {
			c.at("name").refuse("APPLICATION_COMMAND_OPTIONS_CHOICE_NAMES_DUPLICATED", "%q is there twice", name)
		}
		names[name] = true
	}
	for _, key := range []string{"min_value", "max_value"} {
		f.at(key).number()
		if !numeric {
			f.at(key).none("is for numbers")
		}
	}
	least, most := f.at("min_length"), f.at("max_length")
	least.whole(0, maxOptionMinLength)
	most.whole(1, maxOptionMinLength)
	if kind != optString {
		least.none("is for strings")
		most.none("is for strings")
	}
}

// longest counts the names, descriptions and values of a command with all its
// options, each in the longest of its locales.
func longest(v any) int {
	o, _ := v.(Raw)
	n := 0
	for _, key := range []string{"name", "description"} {
		most := utf8.RuneCountInString(text(o[key]))
		all, _ := o[key+"_localizations"].(Raw)
		for _, other := range all {
			most = max(most, utf8.RuneCountInString(text(other)))
		}
		n += most
	}
	switch value := o["value"].(type) {
	case string:
		n += utf8.RuneCountInString(value)
	case json.Number:
		n += len(value)
	}
	for _, key := range []string{"options", "choices"} {
		list, _ := o[key].([]any)
		for _, inner := range list {
			n += longest(inner)
		}
	}
	return n
}
