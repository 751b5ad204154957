package strict

import "slices"

// Press is a person's press of a button, or choice of values in a select, on a
// message as that person sees it: m may be an older copy.
func (s *Server) Press(u *User, m *Message, customID string, values ...string) *Interaction {
	s.mu.Lock()
	defer s.mu.Unlock()
	source := s.kept[m.ID]
	if source == nil {
		s.blame("the test presses on message %s, which never was", m.ID)
		return &Interaction{s: s}
	}
	var list []any
	if m.Components != nil {
		v, _ := decode(m.Components)
		list, _ = v.([]any)
	}
	pressed := component(list, customID)
	if pressed == nil {
		list, _ = source.raw["components"].([]any)
		pressed = component(list, customID)
	}
	if off, _ := pressed["disabled"].(bool); pressed == nil || off {
		s.blame("the test presses %q, which message %s does not have or has disabled", customID, m.ID)
		return &Interaction{s: s}
	}
	data := Raw{"component_type": pressed["type"], "custom_id": customID}
	if whole(pressed["type"]) != compButton {
		data["values"] = slices.Concat([]string{}, values)
		s.pickable(pressed, values)
	}
	return s.ask(&Interaction{kind: askComponent, channel: source.channel, source: source}, u, data)
}

// component finds the one with a custom_id, however deep.
func component(list []any, customID string) Raw {
	for _, v := range list {
		c, _ := v.(Raw)
		if text(c["custom_id"]) == customID {
			return c
		}
		inner, _ := c["components"].([]any)
		if side, ok := c["accessory"]; ok {
			inner = append(slices.Clone(inner), side)
		}
		if found := component(inner, customID); found != nil {
			return found
		}
	}
	return nil
}

// pickable blames a test that picks what a select does not offer.
func (s *Server) pickable(menu Raw, values []string) {
	least, most := 1, 1
	if v, ok := menu["min_values"]; ok && v != nil {
		least = whole(v)
	}
	if v, ok := menu["max_values"]; ok && v != nil {
		most = whole(v)
	}
	if len(values) < least || len(values) > most {
		s.blame("the test picks %d values, not %d to %d", len(values), least, most)
	}
	if whole(menu["type"]) != compSelect {
		return
	}
	options, _ := menu["options"].([]any)
	for _, v := range values {
		if !slices.ContainsFunc(options, func(o any) bool { r, _ := o.(Raw); return text(r["value"]) == v }) {
			s.blame("the test picks %q, which the select does not offer", v)
		}
	}
}
