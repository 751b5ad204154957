package discord_test

import (
	"encoding/json"

	"scullion/bot/discord/strict"
)

type part struct {
	Label   string `json:"label"`
	ID      string `json:"custom_id"`
	Parts   []part `json:"components"`
	Options []struct {
		Label string `json:"label"`
		Value string `json:"value"`
	} `json:"options"`
}

func parts(raw json.RawMessage) (list []part) {
	var rows []part
	json.Unmarshal(raw, &rows)
	for _, r := range rows {
		list = append(list, r.Parts...)
	}
	return list
}

// findButton gives the id of the button of that label, or of the menu with an
// option of it; "" none.
func findButton(m *strict.Message, label string) string {
	for _, p := range parts(m.Components) {
		if p.Label == label {
			return p.ID
		}
		for _, o := range p.Options {
			if o.Label == label {
				return p.ID
			}
		}
	}
	return ""
}
